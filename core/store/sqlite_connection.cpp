// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/sqlite_connection.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <cassert>
#include <cerrno>
#include <limits>
#include <thread>

#include "core/record/problem.h"
#include "core/store/sqlite_sentences.h"

namespace spanwright {
namespace {

/// A file name as SQLite's URI form wants it: everything but plain characters as %XX.
std::string uriPath(const std::filesystem::path& file) {
  std::string uri = "file:";
  for (const char c : std::filesystem::absolute(file).string()) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       c == '/' || c == '-' || c == '_' || c == '.';
    uri += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return uri;
}

}  // namespace

std::string quoted(const std::filesystem::path& file) {
  return '"' + file.string() + '"';
}

std::string insertInto(std::string_view table, std::string_view columns) {
  const auto count = std::count(columns.begin(), columns.end(), ',') + 1;
  std::string values;
  for (int i = 1; i <= count; ++i) {
    values += fmt::format("{}${}", i == 1 ? "" : ", ", i);
  }
  return fmt::format("INSERT INTO {} ({}) VALUES ({})", table, columns, values);
}

Connection::Connection(std::filesystem::path file, Access access, std::chrono::milliseconds busyWait,
                       std::filesystem::path shownAs)
    : file_(std::move(file)), shownAs_(shownAs.empty() ? file_ : std::move(shownAs)), busyWait_(busyWait) {
  int flags = SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE;
  flags |= access == Access::create      ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE
           : access == Access::readWrite ? SQLITE_OPEN_READWRITE
                                         : SQLITE_OPEN_READONLY;
  std::string name = file_.string();
  if (access == Access::frozen) {
    flags |= SQLITE_OPEN_URI;
    name = uriPath(file_) + "?immutable=1";
  } else if (name.empty() || name.front() == ':' || name.starts_with("file:")) {
    name = "./" + name;  // never one of SQLite's own special names
  }
  const int code = sqlite3_open_v2(name.c_str(), &database_, flags, nullptr);
  try {
    check(code);
    check(sqlite3_busy_handler(database_, &Connection::waitOnce, this));
    // SQLite opens a file it may not write silently for reading; say so now, not at the first save.
    if (access == Access::readWrite && sqlite3_db_readonly(database_, "main") == 1) {
      fail(SQLITE_READONLY);
    }
  } catch (...) {
    sqlite3_close_v2(database_);
    throw;
  }
}

Connection::Connection(Temporary) : temporary_(true) {
  const int code = sqlite3_open_v2(
      "", &database_,
      SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE, nullptr);
  try {
    check(code);
  } catch (...) {
    sqlite3_close_v2(database_);
    throw;
  }
}

Connection Connection::temporary() {
  return Connection(Temporary{});
}

Connection::~Connection() {
  for (const auto& [sql, statements] : idle_) {
    for (sqlite3_stmt* statement : statements) {
      sqlite3_finalize(statement);
    }
  }
  sqlite3_close_v2(database_);
}

std::string Connection::firstBytes(std::size_t count) {
  sqlite3_file* handle = nullptr;
  check(sqlite3_file_control(database_, "main", SQLITE_FCNTL_FILE_POINTER, &handle));
  // Asked of the disk: SQLite's own answer takes a file of one byte for an empty one.
  std::error_code unknown;
  const std::uintmax_t size = std::filesystem::file_size(file_, unknown);
  std::string bytes(unknown ? 0 : std::min<std::uintmax_t>(count, size), '\0');
  check(bytes.empty() ? SQLITE_OK
                      : handle->pMethods->xRead(handle, bytes.data(), static_cast<int>(bytes.size()), 0));
  return bytes;
}

void Connection::copyTo(Connection& target, const std::function<bool(double)>& goOn) {
  constexpr int kPagesAtOnce = 2000;
  // The open reading keeps the moment: without it the copy would begin anew at every change by somebody else.
  execute("BEGIN");
  integer("SELECT count(*) FROM sqlite_schema");
  sqlite3_backup* copy = sqlite3_backup_init(target.database_, "main", database_, "main");
  if (copy == nullptr) {
    target.fail(sqlite3_errcode(target.database_));
  }
  int code = SQLITE_OK;
  bool wanted = true;
  while (wanted && code == SQLITE_OK) {
    code = sqlite3_backup_step(copy, kPagesAtOnce);
    const int all = sqlite3_backup_pagecount(copy);
    wanted = goOn(all > 0 ? 1.0 - static_cast<double>(sqlite3_backup_remaining(copy)) / all : 1.0);
  }
  sqlite3_backup_finish(copy);
  rollback();
  if (code != SQLITE_DONE && code != SQLITE_OK) {
    target.fail(code);
  }
  if (!wanted && code != SQLITE_DONE) {
    throw InputError("cancelled", "start again for a whole copy");
  }
}

void Connection::check(int code) const {
  if (code != SQLITE_OK) {
    fail(code);
  }
}

void Connection::fail(int code) const {
  if (code == SQLITE_INTERRUPT) {
    throw InputError("cancelled", "start again for the whole of it");
  }
  const int systemError = database_ != nullptr ? sqlite3_system_errno(database_) : 0;
  const std::string message = database_ != nullptr ? sqlite3_errmsg(database_) : sqlite3_errstr(code);
  const Sentence sentence = explain(code, systemError, message);
  refuse(sentence.what, sentence.todo);
}

void Connection::refuse(std::string_view what, std::string_view todo) const {
  const std::string name = temporary_ ? "the program's temporary working file" : quoted(shownAs_);
  throw StorageError(fmt::format("{} {}; {}.", name, what, todo));
}

sqlite3_stmt* Connection::prepare(std::string_view sql, std::string_view* rest) {
  assert(sql.size() < static_cast<std::size_t>(std::numeric_limits<int>::max()));
  sqlite3_stmt* statement = nullptr;
  const char* tail = nullptr;
  check(sqlite3_prepare_v3(database_, sql.data(), static_cast<int>(sql.size()), SQLITE_PREPARE_PERSISTENT,
                           &statement, &tail));
  for (int i = 1; i <= sqlite3_bind_parameter_count(statement); ++i) {
    assert(fmt::format("${}", i) ==
           sqlite3_bind_parameter_name(statement, i));  // SQLite counts by first appearance
  }
  if (rest != nullptr) {
    *rest = sql.substr(static_cast<std::size_t>(tail - sql.data()));
  }
  return statement;
}

void Connection::execute(std::string_view sql) {
  while (!sql.empty()) {
    sqlite3_stmt* statement = prepare(sql, &sql);
    if (statement == nullptr) {
      continue;  // blanks or a comment
    }
    int code = SQLITE_ROW;
    while (code == SQLITE_ROW) {
      code = step(statement);
    }
    if (code != SQLITE_DONE) {
      const int systemError = sqlite3_system_errno(database_);
      const Sentence sentence = explain(code, systemError, sqlite3_errmsg(database_));
      sqlite3_finalize(statement);
      refuse(sentence.what, sentence.todo);
    }
    sqlite3_finalize(statement);
  }
}

Query Connection::query(std::string_view sql) {
  // Found by its text; the text is kept by SQLite itself, so a statement finds its way back.
  const auto found = idle_.find(std::string(sql));
  if (found != idle_.end() && !found->second.empty()) {
    sqlite3_stmt* statement = found->second.back();
    found->second.pop_back();
    return {*this, statement};
  }
  return {*this, prepare(sql)};
}

void Connection::giveBack(sqlite3_stmt* statement) noexcept {
  sqlite3_reset(statement);  // its code repeats what step() already reported
  sqlite3_clear_bindings(statement);
  try {
    idle_[sqlite3_sql(statement)].push_back(statement);
  } catch (...) {
    sqlite3_finalize(statement);
  }
}

std::int64_t Connection::integer(std::string_view sql) {
  Query row = query(sql);
  return row.bind().step() ? row.integer(0) : 0;
}

std::string Connection::text(std::string_view sql) {
  Query row = query(sql);
  return row.bind().step() ? row.text(0) : std::string();
}

std::string Connection::pageFault() {
  std::string finding = text("PRAGMA quick_check(1)");
  if (finding == "ok") {
    return {};
  }
  // A page that the disk did not give is reported as a finding as well, in these words, and is not lost for
  // that.
  for (const char* const notRead : {"unable to get the page", "failed to get page"}) {
    if (finding.find(notRead) != std::string::npos) {
      const Sentence sentence = explain(SQLITE_IOERR_READ, 0, {});
      refuse(sentence.what, sentence.todo);
    }
  }
  std::replace(finding.begin(), finding.end(), '\n', ' ');
  return finding;
}

/// SQLite asks whether to try again for a lock that another program holds. Its own waits grow to a tenth of a
/// second, so that who waited longest asks least often and may never get a turn among many. Short ones of
/// random length give everybody the same chance.
int Connection::waitOnce(void* connection, int waits) noexcept {
  Connection& c = *static_cast<Connection*>(connection);
  const auto now = std::chrono::steady_clock::now();
  if (waits == 0) {
    c.waitBegan_ = now;
  }
  const auto waited = now - c.waitBegan_;
  if (waited >= c.busyWait_) {
    return 0;
  }
  if (waited >= kQuietWait && !c.toldWaiting_) {
    c.toldWaiting_ = true;
    c.tellWaiting(true);
  }
  constexpr int kLongestMicroseconds = 10000;
  std::this_thread::sleep_for(
      std::chrono::microseconds(std::uniform_int_distribution(500, kLongestMicroseconds)(c.random_)));
  return 1;
}

void Connection::stopUnless(std::function<bool()> goOn) {
  constexpr int kSteps = 20000;  // of SQLite's machine, between two questions
  goOn_ = std::move(goOn);
  sqlite3_progress_handler(database_, kSteps, goOn_ ? &Connection::askWhether : nullptr, this);
}

int Connection::askWhether(void* connection) noexcept {
  return static_cast<Connection*>(connection)->goOn_() ? 0 : 1;
}

void Connection::tellWaiting(bool waiting) noexcept {
  try {
    if (tellWaiting_) {
      tellWaiting_(waiting);
    }
  } catch (...) {  // SQLite is on the stack; and a word that could not be said is no reason to stop saving
    tellWaiting_ = {};
  }
}

int Connection::step(sqlite3_stmt* statement) {
  const int code = sqlite3_step(statement);
  if (toldWaiting_) {
    toldWaiting_ = false;
    tellWaiting(false);
  }
  return code;
}

bool Connection::inTransaction() const {
  return sqlite3_get_autocommit(database_) == 0;
}

void Connection::rollback() noexcept {
  if (inTransaction()) {
    sqlite3_exec(database_, "ROLLBACK", nullptr, nullptr, nullptr);
  }
}

}  // namespace spanwright
