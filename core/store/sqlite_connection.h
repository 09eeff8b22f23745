// SPDX-License-Identifier: GPL-3.0-or-later
//
// SQLite's C interface, wrapped once: only the sqlite_*.cpp beside this name it. Every return code is looked
// at in one place and becomes a StorageError of one sentence that names the file and says what to do. SQL
// uses $1, $2 ... in order of first appearance, which SQLite and PostgreSQL both understand.
#pragma once

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <random>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace spanwright {

class Connection;

/// Raw bytes in a column, as opposed to text. Valid as long as what it was made from.
struct Bytes {
  std::string_view view;
};

/// What kind of value stands in a column of a row.
enum class Cell { null, integer, real, text, bytes };

/// One use of a prepared statement; goes back to its connection's pool when destroyed. Must not outlive the
/// connection.
class Query {
 public:
  Query(Query&&) noexcept;
  Query& operator=(Query&&) = delete;
  ~Query();

  /// Starts anew with these values for $1, $2 ...: integers, bool, double, text, Bytes, optional of those,
  /// nullptr for NULL.
  template <class... Values>
  Query& bind(const Values&... values) {
    restart(static_cast<int>(sizeof...(values)));
    [[maybe_unused]] int index = 0;
    (bindAt(++index, values), ...);
    return *this;
  }
  /// For statements without rows: binds and executes.
  template <class... Values>
  void run(const Values&... values) {
    bind(values...);
    while (step()) {
    }
  }
  /// To the next row; false when there is none.
  bool step();

  // Columns of the present row, from 0. A NULL reads as 0, 0.0 and "".
  bool isNull(int column) const;
  std::int64_t integer(int column) const;
  int smallInteger(int column) const;
  bool flag(int column) const { return integer(column) != 0; }
  double real(int column) const;
  std::string text(int column) const;
  /// Valid until the next step.
  std::string_view textView(int column) const;
  std::optional<double> optionalReal(int column) const;
  std::string bytes(int column) const;
  /// Valid until the next step.
  std::string_view bytesView(int column) const;
  Cell cell(int column) const;

  /// A value that this program cannot have written was found: StorageError that the file is damaged.
  [[noreturn]] void damaged(std::string_view what) const;

 private:
  friend class Connection;
  Query(Connection& connection, sqlite3_stmt* statement) : connection_(&connection), statement_(statement) {}
  void restart(int values);
  void check(int code) const;
  void bindAt(int index, std::nullptr_t);
  void bindAt(int index, std::int64_t value);
  void bindAt(int index, int value) { bindAt(index, std::int64_t{value}); }
  void bindAt(int index, bool value) { bindAt(index, std::int64_t{value ? 1 : 0}); }
  void bindAt(int index, double value);
  void bindAt(int index, std::string_view value);
  void bindAt(int index, Bytes value);
  void bindAt(int index, const std::string& value) { bindAt(index, std::string_view(value)); }
  void bindAt(int index, const char* value) { bindAt(index, std::string_view(value)); }
  template <class T>
  void bindAt(int index, const std::optional<T>& value) {
    if (value) {
      bindAt(index, *value);
    } else {
      bindAt(index, nullptr);
    }
  }

  Connection* connection_;
  sqlite3_stmt* statement_;
};

/// One open database. Not for several threads at once.
class Connection {
 public:
  enum class Access {
    create,     ///< read and write, made when not there
    readWrite,  ///< must be there
    readOnly,
    frozen  ///< read-only file that nobody changes: needs no room for SQLite's side files
  };
  /// How long a writer waits for another program before it gives up.
  static constexpr std::chrono::milliseconds kBusyWait{10000};

  /// `shownAs` stands in sentences for a file people know by another name.
  Connection(std::filesystem::path file, Access access, std::chrono::milliseconds busyWait = kBusyWait,
             std::filesystem::path shownAs = {});
  /// A private database in a temporary file that vanishes with the connection.
  static Connection temporary();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  ~Connection();

  const std::filesystem::path& file() const { return file_; }
  /// Waits shorter than this are not worth a word.
  static constexpr std::chrono::milliseconds kQuietWait{500};
  /// `tell` is called with true, once, when waiting for another program takes longer than kQuietWait, and
  /// with false when that wait is over. It must not use this connection; what it throws is dropped.
  void onWaiting(std::function<void(bool waiting)> tell) { tellWaiting_ = std::move(tell); }
  /// While statements run, `goOn` is asked every some milliseconds; at its no they end in InputError
  /// "cancelled". It must not throw nor use this connection.
  void stopUnless(std::function<bool()> goOn);
  /// The file's first bytes, at most `count`, read through SQLite's own handle. Never open and close the file
  /// beside it: closing any handle of a file drops every lock this process has on it (POSIX fcntl), and
  /// another program would then take the log away from under an open connection.
  std::string firstBytes(std::size_t count);
  /// Copies everything, as it is at this moment, over what is in `target`. `goOn` hears the share done and
  /// may stop it (InputError "cancelled").
  void copyTo(Connection& target, const std::function<bool(double)>& goOn);
  /// Executes statements without rows and without values.
  void execute(std::string_view sql);
  /// The statement, prepared once and kept; a second use at the same time gets its own.
  Query query(std::string_view sql);
  /// First column of the first row.
  std::int64_t integer(std::string_view sql);
  std::string text(std::string_view sql);
  /// Looks at every page of the file: the first thing wrong with it, on one line, or nothing. StorageError
  /// when the disk does not give a page.
  std::string pageFault();
  /// False outside transactions, and when a failure ended one on its own (a full disk does).
  bool inTransaction() const;
  /// Rolls back what is open; nothing to report when that fails, the file is then repaired at the next
  /// opening.
  void rollback() noexcept;

  /// StorageError with `what`, a clause about this file ("is damaged"), and `todo`.
  [[noreturn]] void refuse(std::string_view what, std::string_view todo) const;

 private:
  friend class Query;
  struct Temporary {};
  explicit Connection(Temporary);
  void check(int code) const;
  [[noreturn]] void fail(int code) const;
  void giveBack(sqlite3_stmt* statement) noexcept;
  sqlite3_stmt* prepare(std::string_view sql, std::string_view* rest = nullptr);
  static int waitOnce(void* connection, int waits) noexcept;
  static int askWhether(void* connection) noexcept;
  int step(sqlite3_stmt* statement);
  void tellWaiting(bool waiting) noexcept;

  std::filesystem::path file_;
  std::filesystem::path shownAs_;
  bool temporary_ = false;
  std::chrono::milliseconds busyWait_{0};
  std::function<void(bool)> tellWaiting_;
  std::function<bool()> goOn_;
  std::chrono::steady_clock::time_point waitBegan_;
  bool toldWaiting_ = false;
  std::minstd_rand random_{std::random_device{}()};
  sqlite3* database_ = nullptr;
  std::unordered_map<std::string, std::vector<sqlite3_stmt*>> idle_;
};

/// A transaction that writes; undone when left without commit(). Inside an open one it is a part of it that
/// can be undone on its own.
class WriteScope {
 public:
  explicit WriteScope(Connection& connection);
  ~WriteScope();
  WriteScope(const WriteScope&) = delete;
  WriteScope& operator=(const WriteScope&) = delete;
  void commit();

 private:
  Connection& connection_;
  bool nested_;
  bool open_ = true;
};

/// "INSERT INTO table (a, b) VALUES ($1, $2)" from the table's name and "a, b".
std::string insertInto(std::string_view table, std::string_view columns);

/// "\"/path/file\"" for sentences.
std::string quoted(const std::filesystem::path& file);

}  // namespace spanwright
