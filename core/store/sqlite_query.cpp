// SPDX-License-Identifier: GPL-3.0-or-later
//
// Statements and transactions of a connection.
#include <fmt/format.h>
#include <sqlite3.h>

#include <cassert>
#include <limits>

#include "core/record/problem.h"
#include "core/store/sqlite_connection.h"

namespace spanwright {

Query::Query(Query&& other) noexcept
    : connection_(other.connection_), statement_(std::exchange(other.statement_, nullptr)) {}

Query::~Query() {
  if (statement_ != nullptr) {
    connection_->giveBack(statement_);
  }
}

void Query::check(int code) const {
  connection_->check(code);
}

void Query::restart([[maybe_unused]] int values) {
  assert(values == sqlite3_bind_parameter_count(statement_));
  sqlite3_reset(statement_);
}

bool Query::step() {
  const int code = connection_->step(statement_);
  if (code == SQLITE_ROW) {
    return true;
  }
  if (code != SQLITE_DONE) {
    connection_->fail(code);
  }
  sqlite3_reset(statement_);  // ends the statement's hold on the file at once
  return false;
}

void Query::bindAt(int index, std::nullptr_t) {
  check(sqlite3_bind_null(statement_, index));
}
void Query::bindAt(int index, std::int64_t value) {
  check(sqlite3_bind_int64(statement_, index, value));
}
void Query::bindAt(int index, double value) {
  check(sqlite3_bind_double(statement_, index, value));
}
void Query::bindAt(int index, std::string_view value) {
  // An empty view may have no address, which SQLite would take for NULL.
  check(sqlite3_bind_text64(statement_, index, value.empty() ? "" : value.data(), value.size(),
                            SQLITE_TRANSIENT, SQLITE_UTF8));
}
void Query::bindAt(int index, Bytes value) {
  check(sqlite3_bind_blob64(statement_, index, value.view.empty() ? "" : value.view.data(), value.view.size(),
                            SQLITE_TRANSIENT));
}

bool Query::isNull(int column) const {
  return sqlite3_column_type(statement_, column) == SQLITE_NULL;
}
std::int64_t Query::integer(int column) const {
  return sqlite3_column_int64(statement_, column);
}

int Query::smallInteger(int column) const {
  const std::int64_t value = integer(column);
  if (value < std::numeric_limits<int>::min() || value > std::numeric_limits<int>::max()) {
    damaged(fmt::format("the number {} is out of range", value));
  }
  return static_cast<int>(value);
}

double Query::real(int column) const {
  return sqlite3_column_double(statement_, column);
}

std::string_view Query::textView(int column) const {
  const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_, column));
  if (bytes == nullptr) {
    return {};
  }
  return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))};
}

std::string Query::text(int column) const {
  return std::string(textView(column));
}

std::optional<double> Query::optionalReal(int column) const {
  return isNull(column) ? std::nullopt : std::optional(real(column));
}

std::string_view Query::bytesView(int column) const {
  const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement_, column));
  if (bytes == nullptr) {
    return {};
  }
  return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))};
}

std::string Query::bytes(int column) const {
  return std::string(bytesView(column));
}

Cell Query::cell(int column) const {
  switch (sqlite3_column_type(statement_, column)) {
    case SQLITE_INTEGER:
      return Cell::integer;
    case SQLITE_FLOAT:
      return Cell::real;
    case SQLITE_TEXT:
      return Cell::text;
    case SQLITE_BLOB:
      return Cell::bytes;
    default:
      return Cell::null;
  }
}

void Query::damaged(std::string_view what) const {
  connection_->refuse(fmt::format("is damaged ({})", what), "restore it from a backup");
}

WriteScope::WriteScope(Connection& connection)
    : connection_(connection), nested_(connection.inTransaction()) {
  connection_.query(nested_ ? "SAVEPOINT part" : "BEGIN IMMEDIATE").run();
}

void WriteScope::commit() {
  assert(open_);
  if (nested_ && !connection_.inTransaction()) {
    connection_.refuse("could not be changed", "nothing of it was saved");
  }
  connection_.query(nested_ ? "RELEASE part" : "COMMIT").run();
  open_ = false;
}

WriteScope::~WriteScope() {
  if (!open_) {
    return;
  }
  if (!nested_) {
    connection_.rollback();
    return;
  }
  try {
    if (connection_.inTransaction()) {
      connection_.execute("ROLLBACK TO part");
      connection_.execute("RELEASE part");
    }
  } catch (const StorageError&) {
    connection_.rollback();  // then nothing of the whole is kept
  }
}

}  // namespace spanwright
