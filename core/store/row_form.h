// SPDX-License-Identifier: GPL-3.0-or-later
//
// The one place where a row becomes the text that is digested (covered.h says how it looks), whether it comes
// from a table, from the journal or from a file handed out.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

#include "core/store/sqlite_connection.h"

namespace spanwright {

/// NULL, an integer, a real number, text or raw bytes; valid as long as what it was made from.
using RowValue = std::variant<std::monostate, std::int64_t, double, std::string_view, Bytes>;

class RowForm {
 public:
  explicit RowForm(std::string_view table) : text_(table) { text_ += '\n'; }
  RowForm& add(std::string_view column, const RowValue& value);
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

}  // namespace spanwright
