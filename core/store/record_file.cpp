// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/record_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <random>
#include <system_error>

#include "core/record/problem.h"
#include "core/store/migrations/migrations.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const fs::path& file, std::string_view what, std::string_view todo) {
  throw StorageError(fmt::format("{} {}; {}.", quoted(file), what, todo));
}

[[noreturn]] void refuseExisting(const fs::path& file) {
  refuse(file, "is already there", "choose another name, a file is never overwritten");
}

/// The half-made file; gone at the end whatever happened.
class HalfMade {
 public:
  explicit HalfMade(const fs::path& wanted) : path_(wanted) {
    path_ += fmt::format(".{:08x}.new", std::random_device{}());
  }
  HalfMade(const HalfMade&) = delete;
  HalfMade& operator=(const HalfMade&) = delete;
  ~HalfMade() {
    for (const char* const suffix : {"", "-journal", "-wal", "-shm"}) {
      fs::path part = path_;
      part += suffix;
      std::error_code ignored;
      fs::remove(part, ignored);
    }
  }
  const fs::path& path() const { return path_; }

 private:
  fs::path path_;
};

/// The name itself must be on disk too. Not every file system can; then the name is as safe as its folder.
void syncFolder(const fs::path& file) {
  const fs::path folder = fs::absolute(file).parent_path();
  const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (handle >= 0) {
    ::fsync(handle);
    ::close(handle);
  }
}

/// A hard link appears whole or not at all and never replaces; where there are none, a rename after another
/// look.
void giveName(const fs::path& made, const fs::path& wanted) {
  std::error_code error;
  fs::create_hard_link(made, wanted, error);
  if (error == std::errc::file_exists) {
    refuseExisting(wanted);
  }
  if (error) {
    if (fs::exists(wanted)) {
      refuseExisting(wanted);
    }
    fs::rename(made, wanted, error);
    if (error) {
      refuse(wanted, fmt::format("could not be made ({})", error.message()),
             "check the folder and try again");
    }
  }
  syncFolder(wanted);
}

void setUp(Connection& connection) {
  connection.execute("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA cache_size = -16384;");
}

bool hasLog(const fs::path& file) {
  fs::path log = file;
  log += "-wal";
  std::error_code error;
  return fs::exists(log, error) && fs::file_size(log, error) > 0;
}

/// SQLite fills up a page cut short with zeros, which may pass for values. A whole file ends with a whole
/// page, unless a program died while it copied from the log, which is then still there and repairs it.
void refuseCutPage(const fs::path& file, std::string_view head) {
  const auto byte = [&head](std::size_t at) {
    return static_cast<unsigned>(static_cast<unsigned char>(head[at]));
  };
  const unsigned stored = byte(16) << 8U | byte(17);
  const std::uintmax_t pageSize = stored == 1 ? 65536 : stored;  // file format, "The Database Header"
  std::error_code error;
  if (pageSize == 0 || (fs::file_size(file, error) % pageSize != 0 && !error && !hasLog(file))) {
    refuse(file, "is damaged (it ends too early)", "restore it from a backup");
  }
}

/// What can be told without SQLite, in plainer words than it has.
void lookAtFile(const fs::path& file) {
  std::error_code error;
  const fs::file_status status = fs::status(file, error);
  if (status.type() == fs::file_type::not_found) {
    refuse(file, "is not there", "check the name, or make a new record from a site description");
  }
  if (error) {
    refuse(file, fmt::format("cannot be looked at ({})", error.message()),
           "check the folder and your permissions");
  }
  if (fs::is_directory(status)) {
    refuse(file, "is a folder", "name the record's file");
  }
  if (!fs::is_regular_file(status)) {
    refuse(file, "is not a file on a disk", "name the record's file");
  }
  if (::faccessat(AT_FDCWD, file.c_str(), R_OK, AT_EACCESS) != 0) {
    refuse(file, "may not be opened by you", "ask for permission to read it");
  }
}

/// What the first bytes tell, before any statement can act on them.
void lookAtHead(Connection& connection) {
  constexpr std::string_view kHead{"SQLite format 3\0", 16};
  constexpr std::size_t kHeadSize = 100;
  const std::string head = connection.firstBytes(kHeadSize);
  if (head.empty()) {
    connection.refuse("is empty and not a record", "choose another file, or restore it from a backup");
  }
  if (!head.starts_with(kHead)) {
    connection.refuse("is not a record of this program", "choose another file");
  }
  if (head.size() < kHeadSize) {
    connection.refuse("is damaged (it ends too early)", "restore it from a backup");
  }
  refuseCutPage(connection.file(), head);
}

void checkIdentity(Connection& connection) {
  if (connection.integer("PRAGMA application_id") != kApplicationId) {
    connection.refuse("is a database of another program, not a record", "choose another file");
  }
  const std::int64_t version = connection.integer("PRAGMA user_version");
  const int newest = migrations().back().version;
  if (version > newest) {
    connection.refuse(
        fmt::format("was written by a newer version of this program (record version {}, known up to {})",
                    version, newest),
        "update this program");
  }
  if (version < 1) {
    connection.refuse("is damaged (it has no version)", "restore it from a backup");
  }
}

void checkWhole(Connection& connection) {
  if (const std::string fault = connection.pageFault(); !fault.empty()) {
    connection.refuse(fmt::format("is damaged ({})", fault), "restore it from a backup");
  }
  Query orphans = connection.query("PRAGMA foreign_key_check");
  if (orphans.bind().step()) {
    connection.refuse(fmt::format("is damaged (a row of {} refers to one of {} that is not there)",
                                  orphans.text(0), orphans.text(2)),
                      "restore it from a backup");
  }
}

/// In a folder that cannot be written SQLite has no room for the files by which readers and writers agree.
/// Without a log beside the file nobody has it open for writing, so it can be read as it stands.
bool mustBeReadAsItStands(const fs::path& file) {
  return ::faccessat(AT_FDCWD, fs::absolute(file).parent_path().c_str(), W_OK, AT_EACCESS) != 0 &&
         !hasLog(file);
}

bool isOlder(Connection& connection) {
  return connection.integer("PRAGMA user_version") < migrations().back().version;
}

void refuseOlder(Connection& connection) {
  if (isOlder(connection)) {
    connection.refuse("was written by an older version of this program",
                      "open it once for writing, which brings it up to date");
  }
}

std::unique_ptr<Connection> openForReading(const fs::path& file) {
  const auto access = mustBeReadAsItStands(file) ? Connection::Access::frozen : Connection::Access::readOnly;
  auto connection = std::make_unique<Connection>(file, access);
  lookAtHead(*connection);
  setUp(*connection);
  connection->execute("PRAGMA query_only = ON");
  return connection;
}

std::unique_ptr<Connection> openForWriting(const fs::path& file) {
  auto connection = std::make_unique<Connection>(file, Connection::Access::readWrite);
  lookAtHead(*connection);
  setUp(*connection);
  checkIdentity(*connection);
  // Readers and one writer at once, and savings that outlive a crash, rest on this mode: no record without
  // it.
  if (connection->text("PRAGMA journal_mode = WAL") != "wal") {
    connection->refuse("lies on a disk that several programs cannot share safely",
                       "move it to a disk of this machine");
  }
  connection->execute("PRAGMA journal_size_limit = 67108864");
  return connection;
}

}  // namespace

void makeFile(const fs::path& file, const std::function<void(const fs::path&)>& make) {
  if (fs::exists(fs::symlink_status(file))) {
    refuseExisting(file);
  }
  const fs::path folder = fs::absolute(file).parent_path();
  if (!fs::is_directory(folder)) {
    refuse(file, "cannot be made because its folder is not there",
           "make the folder first, or choose another");
  }
  if (::faccessat(AT_FDCWD, folder.c_str(), W_OK | X_OK, AT_EACCESS) != 0) {
    refuse(file, "cannot be made because you may not write in its folder", "choose another folder");
  }
  const HalfMade made(file);
  make(made.path());
  giveName(made.path(), file);
}

void createRecordFile(const fs::path& file, const std::function<void(Connection&)>& fill) {
  makeFile(file, [&](const fs::path& made) {
    Connection connection(made, Connection::Access::create, Connection::kBusyWait, file);
    setUp(connection);
    connection.execute(fmt::format("PRAGMA application_id = {}", kApplicationId));
    migrate(connection);
    WriteScope scope(connection);
    fill(connection);
    scope.commit();
    connection.text("PRAGMA journal_mode = WAL");
  });
}

std::unique_ptr<Connection> openRecordFile(const fs::path& file, bool readOnly, bool whole) {
  lookAtFile(file);
  auto connection = readOnly ? openForReading(file) : openForWriting(file);
  checkIdentity(*connection);
  const bool migrated = !readOnly && isOlder(*connection);
  if (whole || migrated) {
    checkWhole(*connection);
  }
  if (readOnly) {
    refuseOlder(*connection);
  } else if (migrated) {
    migrate(*connection);
  }
  return connection;
}

void checkRecordFile(const fs::path& file, std::function<bool()> goOn) {
  lookAtFile(file);
  const auto connection = openForReading(file);
  checkIdentity(*connection);
  connection->stopUnless(std::move(goOn));
  checkWhole(*connection);
}

std::unique_ptr<Connection> openForChecking(const fs::path& file) {
  lookAtFile(file);
  auto connection = openForReading(file);
  checkIdentity(*connection);
  refuseOlder(*connection);
  const std::string fault = connection->pageFault();
  // Whether a value fits its column is told by the digests, with the name of what it belongs to.
  if (!fault.empty() && fault.find("value in") == std::string::npos &&
      fault.find("CHECK") == std::string::npos) {
    connection->refuse(fmt::format("is damaged ({})", fault), "restore it from a backup");
  }
  return connection;
}

}  // namespace spanwright
