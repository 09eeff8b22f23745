// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/store/faults/fault_disk.h"

#include <sys/stat.h>

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <fstream>
#include <iterator>
#include <new>
#include <stdexcept>

namespace spanwright::test {

namespace fs = std::filesystem;

namespace {

constexpr const char* kName = "faults";

std::string contentOf(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

int errorOf(DiskCall call) {
  switch (call) {
    case DiskCall::write:
      return SQLITE_IOERR_WRITE;
    case DiskCall::read:
      return SQLITE_IOERR_READ;
    case DiskCall::sync:
      return SQLITE_IOERR_FSYNC;
    case DiskCall::truncate:
      return SQLITE_IOERR_TRUNCATE;
    case DiskCall::remove:
      return SQLITE_IOERR_DELETE;
  }
  return SQLITE_IOERR;
}

}  // namespace

const char* text(DiskCall call) {
  constexpr std::array<const char*, kDiskCalls> kWords{"write", "read", "sync", "truncate", "delete"};
  return kWords.at(static_cast<std::size_t>(call));
}

/// SQLite gives the room for it; the handle of the disk below lies behind it.
struct FaultDisk::Handle : sqlite3_file {
  FaultDisk* disk;
  ImagePtr image;    ///< none for private temporary files
  bool syncsFolder;  ///< the first sync of a new journal or log makes its name durable
  sqlite3_file* below() { return reinterpret_cast<sqlite3_file*>(reinterpret_cast<char*>(this) + room()); }
  static constexpr std::size_t room() {
    constexpr std::size_t kAlign = alignof(std::max_align_t);
    return (sizeof(Handle) + kAlign - 1) / kAlign * kAlign;
  }
};

/// The functions SQLite calls.
struct FaultDisk::Methods {
  static Handle& own(sqlite3_file* file) { return *static_cast<Handle*>(file); }
  static FaultDisk& disk(sqlite3_vfs* vfs) { return *static_cast<FaultDisk*>(vfs->pAppData); }

  static int open(sqlite3_vfs* vfs, const char* name, sqlite3_file* file, int flags, int* outFlags) {
    FaultDisk& d = disk(vfs);
    file->pMethods = nullptr;
    if (d.powerless_) {
      return SQLITE_CANTOPEN;
    }
    const bool wasThere = name != nullptr && fs::exists(name);
    auto* const handle = new (file) Handle{};
    sqlite3_file* const below = handle->below();
    below->pMethods = nullptr;
    const int code = d.below_->xOpen(d.below_, name, below, flags, outFlags);
    if (below->pMethods == nullptr || code != SQLITE_OK) {
      handle->~Handle();
      file->pMethods = nullptr;
      return code;
    }
    static const sqlite3_io_methods kMethods = table();
    handle->pMethods = &kMethods;
    handle->disk = &d;
    d.opened(*handle, name, wasThere, flags);
    return SQLITE_OK;
  }

  static int close(sqlite3_file* file) {
    Handle& h = own(file);
    const int code = h.below()->pMethods->xClose(h.below());
    h.~Handle();
    return code;
  }

  static int read(sqlite3_file* file, void* to, int amount, sqlite3_int64 offset) {
    Handle& h = own(file);
    const int code = h.disk->meet(DiskCall::read);
    return code != SQLITE_OK ? code : h.below()->pMethods->xRead(h.below(), to, amount, offset);
  }

  static int write(sqlite3_file* file, const void* from, int amount, sqlite3_int64 offset) {
    Handle& h = own(file);
    if (h.disk->powerless_) {
      return SQLITE_IOERR_WRITE;
    }
    const int code = h.disk->meet(DiskCall::write);
    // A write that fails may have been done in part; one that the power cut interrupts may be whole as well.
    const int done = code == SQLITE_OK || h.disk->powerless_ ? amount : amount / 2;
    const int below = done == 0 ? SQLITE_OK : h.below()->pMethods->xWrite(h.below(), from, done, offset);
    if (h.image && done > 0) {
      h.image->changes.push_back({false, static_cast<std::uint64_t>(offset),
                                  std::string(static_cast<const char*>(from), static_cast<std::size_t>(done)),
                                  false, false});
    }
    return code != SQLITE_OK ? code : below;
  }

  static int truncate(sqlite3_file* file, sqlite3_int64 size) {
    Handle& h = own(file);
    if (h.disk->powerless_) {
      return SQLITE_IOERR_TRUNCATE;
    }
    const int code = h.disk->meet(DiskCall::truncate);
    if (code == SQLITE_OK || h.disk->powerless_) {
      if (h.image) {
        h.image->changes.push_back({true, static_cast<std::uint64_t>(size), {}, false, false});
      }
    }
    return code != SQLITE_OK ? code : h.below()->pMethods->xTruncate(h.below(), size);
  }

  static int sync(sqlite3_file* file, int) {
    Handle& h = own(file);
    if (h.disk->powerless_) {
      return SQLITE_IOERR_FSYNC;
    }
    const int code = h.disk->meet(DiskCall::sync);
    if (!h.image || h.disk->lies_) {
      return code;
    }
    if (code == SQLITE_OK) {
      h.image->settle();
      if (h.syncsFolder) {
        h.disk->settleNames();
        h.syncsFolder = false;
      }
    } else if (!h.disk->powerless_) {
      // Linux marks pages clean whose writing failed: a later sync succeeds without them.
      for (Change& change : h.image->changes) {
        change.doubtful = change.doubtful || !change.settled;
      }
    }
    return code;
  }

  static int remove(sqlite3_vfs* vfs, const char* name, int syncFolder) {
    FaultDisk& d = disk(vfs);
    if (d.powerless_) {
      return SQLITE_IOERR_DELETE;
    }
    if (!fs::exists(name)) {
      return SQLITE_IOERR_DELETE_NOENT;
    }
    const int code = d.meet(DiskCall::remove);
    if (code == SQLITE_OK || d.powerless_) {
      d.names_[name].push_back(nullptr);
    }
    if (code != SQLITE_OK) {
      return code;
    }
    if (syncFolder != 0 && !d.lies_) {
      d.settleNames();
    }
    return d.below_->xDelete(d.below_, name, 0);
  }

  // What only passes through.
  static int fileSize(sqlite3_file* f, sqlite3_int64* size) {
    return own(f).below()->pMethods->xFileSize(own(f).below(), size);
  }
  static int lock(sqlite3_file* f, int level) {
    return own(f).below()->pMethods->xLock(own(f).below(), level);
  }
  static int unlock(sqlite3_file* f, int level) {
    return own(f).below()->pMethods->xUnlock(own(f).below(), level);
  }
  static int checkReserved(sqlite3_file* f, int* out) {
    return own(f).below()->pMethods->xCheckReservedLock(own(f).below(), out);
  }
  static int control(sqlite3_file* f, int op, void* argument) {
    return own(f).below()->pMethods->xFileControl(own(f).below(), op, argument);
  }
  static int sectorSize(sqlite3_file* f) { return own(f).below()->pMethods->xSectorSize(own(f).below()); }
  static int characteristics(sqlite3_file* f) {
    return own(f).below()->pMethods->xDeviceCharacteristics(own(f).below());
  }
  static int shmMap(sqlite3_file* f, int page, int size, int extend, void volatile** out) {
    return own(f).below()->pMethods->xShmMap(own(f).below(), page, size, extend, out);
  }
  static int shmLock(sqlite3_file* f, int offset, int n, int flags) {
    return own(f).below()->pMethods->xShmLock(own(f).below(), offset, n, flags);
  }
  static void shmBarrier(sqlite3_file* f) { own(f).below()->pMethods->xShmBarrier(own(f).below()); }
  static int shmUnmap(sqlite3_file* f, int alsoDelete) {
    return own(f).below()->pMethods->xShmUnmap(own(f).below(), alsoDelete);
  }

  static sqlite3_io_methods table() {
    sqlite3_io_methods m{};
    m.iVersion = 2;  // without memory-mapped reading, which would go past this disk
    m.xClose = close;
    m.xRead = read;
    m.xWrite = write;
    m.xTruncate = truncate;
    m.xSync = sync;
    m.xFileSize = fileSize;
    m.xLock = lock;
    m.xUnlock = unlock;
    m.xCheckReservedLock = checkReserved;
    m.xFileControl = control;
    m.xSectorSize = sectorSize;
    m.xDeviceCharacteristics = characteristics;
    m.xShmMap = shmMap;
    m.xShmLock = shmLock;
    m.xShmBarrier = shmBarrier;
    m.xShmUnmap = shmUnmap;
    return m;
  }
};

FaultDisk::FaultDisk() : below_(sqlite3_vfs_find("unix")) {
  if (below_ == nullptr) {
    throw std::runtime_error("SQLite has no disk of the name \"unix\"");
  }
  own_ = *below_;  // what is not set here passes through; those functions do not look at the disk they are of
  own_.pNext = nullptr;
  own_.zName = kName;
  own_.pAppData = this;
  own_.szOsFile = static_cast<int>(Handle::room()) + below_->szOsFile;
  own_.xOpen = Methods::open;
  own_.xDelete = Methods::remove;
  standAside(false);
}

FaultDisk::~FaultDisk() {
  sqlite3_vfs_unregister(&own_);
  standAside(true);
}

void FaultDisk::standAside(bool aside) {
  sqlite3_vfs_register(aside ? below_ : &own_, 1);
}

void FaultDisk::begin(DiskFault fault) {
  fault_ = fault;
  counted_ = 0;
  struck_ = powerless_ = false;
  calls_ = {};
  byInode_.clear();
  names_.clear();
}

bool FaultDisk::counts(DiskCall call) const {
  switch (fault_.kind) {
    case DiskFault::Kind::none:
      return false;
    case DiskFault::Kind::powerCut:
      return call != DiskCall::read;
    case DiskFault::Kind::ioError:
      return true;
    case DiskFault::Kind::fullOnce:
    case DiskFault::Kind::fullForGood:
      return call == DiskCall::write;
  }
  return false;
}

int FaultDisk::meet(DiskCall call) {
  if (powerless_) {
    return errorOf(call);
  }
  ++calls_[static_cast<std::size_t>(call)];
  if (!counts(call)) {
    return SQLITE_OK;
  }
  ++counted_;
  if (counted_ == fault_.at) {
    struck_ = true;
    struckAt_ = call;
    powerless_ = fault_.kind == DiskFault::Kind::powerCut;
  } else if (fault_.kind != DiskFault::Kind::fullForGood || !struck_) {
    return SQLITE_OK;
  }
  const bool full = fault_.kind == DiskFault::Kind::fullOnce || fault_.kind == DiskFault::Kind::fullForGood;
  return full ? SQLITE_FULL : errorOf(call);
}

void FaultDisk::opened(Handle& handle, const char* name, bool wasThere, int flags) {
  struct stat about {};
  if (name == nullptr || (flags & SQLITE_OPEN_DELETEONCLOSE) != 0 || ::stat(name, &about) != 0) {
    return;
  }
  ImagePtr& image = byInode_[{about.st_dev, about.st_ino}];
  std::vector<ImagePtr>& name_ = names_[name];
  if (!wasThere) {
    image = std::make_shared<Image>();  // the number may have been that of a file now gone
    if (name_.empty()) {
      name_.push_back(nullptr);
    }
    name_.push_back(image);
    handle.syncsFolder =
        (flags & (SQLITE_OPEN_WAL | SQLITE_OPEN_MAIN_JOURNAL | SQLITE_OPEN_SUPER_JOURNAL)) != 0;
  } else if (image == nullptr) {
    image = std::make_shared<Image>();
    image->durable = contentOf(name);
  }
  if (name_.empty() || name_.back() != image) {
    name_.assign(1, image);  // it got this name from the program itself, which syncs the folder
  }
  handle.image = image;
}

void FaultDisk::settleNames() {
  for (auto& [name, images] : names_) {
    images.erase(images.begin(), std::prev(images.end()));
  }
}

}  // namespace spanwright::test
