// SPDX-License-Identifier: GPL-3.0-or-later
//
// A disk that loses power, reports errors and fills up: a layer between SQLite and its own way to the disk
// (a VFS, https://www.sqlite.org/vfs.html). Files are really written below it; beside that it keeps, per
// file, what the disk has promised to hold (as of the last sync) apart from what was written since.
#pragma once

#include <sqlite3.h>

#include <array>
#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace spanwright::test {

/// What SQLite asks of a disk and can be refused.
enum class DiskCall { write, read, sync, truncate, remove };
inline constexpr std::size_t kDiskCalls = 5;
const char* text(DiskCall call);

/// One thing that goes wrong at the `at`-th call of those it counts, from 1.
struct DiskFault {
  enum class Kind {
    none,
    powerCut,    ///< counts what changes the disk; that call is half done and none after it succeeds
    ioError,     ///< counts every call; that one fails and all others succeed
    fullOnce,    ///< counts writes; that one finds no room
    fullForGood  ///< counts writes; from that one on none finds room
  };
  Kind kind = Kind::none;
  std::int64_t at = 0;
};

/// SQLite's default disk while it lives. One at a time; every connection made through it must be closed
/// before it goes. Not for several threads.
class FaultDisk {
 public:
  FaultDisk();
  ~FaultDisk();
  FaultDisk(const FaultDisk&) = delete;
  FaultDisk& operator=(const FaultDisk&) = delete;

  /// Forgets everything about files and arms the next fault.
  void begin(DiskFault fault);
  /// Whether the fault has come, and at which call.
  bool struck() const { return struck_; }
  DiskCall struckAt() const { return struckAt_; }
  std::int64_t calls(DiskCall call) const { return calls_[static_cast<std::size_t>(call)]; }
  /// Says that syncs are done without doing them, as some disks do.
  void lieAboutSyncs(bool lie) { lies_ = lie; }

  /// New connections go past this disk, or through it again.
  void standAside(bool aside);

  /// Writes into the empty `folder` what a power cut at this moment may leave: of what was written after its
  /// file's last sync any part, sector by sector; of files made or deleted after their folder's last sync
  /// either.
  void leaveCrashIn(const std::filesystem::path& folder, std::mt19937_64& random) const;

 private:
  struct Change {
    bool truncation = false;
    std::uint64_t offset = 0;  ///< of a truncation the new size
    std::string bytes;
    bool settled = false;   ///< a later sync succeeded
    bool doubtful = false;  ///< a sync failed after it: no later one is sure to repeat it
  };
  /// One file's content, whatever its names.
  struct Image {
    std::string durable;
    std::vector<Change> changes;
    void settle();
  };
  using ImagePtr = std::shared_ptr<Image>;
  struct Handle;
  struct Methods;

  bool counts(DiskCall call) const;
  /// SQLITE_OK, or how this call fails.
  int meet(DiskCall call);
  void opened(Handle& handle, const char* name, bool wasThere, int flags);
  void settleNames();
  static std::string crashed(const Image& image, std::mt19937_64& random);

  sqlite3_vfs* below_ = nullptr;
  sqlite3_vfs own_{};
  DiskFault fault_;
  std::int64_t counted_ = 0;
  bool struck_ = false;
  DiskCall struckAt_ = DiskCall::write;
  bool powerless_ = false;
  bool lies_ = false;
  std::array<std::int64_t, kDiskCalls> calls_{};
  std::map<std::pair<std::uint64_t, std::uint64_t>, ImagePtr> byInode_;
  /// What each name may stand for after a power cut: the first is on disk, the last is so now; nullptr for no
  /// file.
  std::map<std::string, std::vector<ImagePtr>> names_;
};

}  // namespace spanwright::test
