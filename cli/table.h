// SPDX-License-Identifier: GPL-3.0-or-later
//
// Plain aligned tables for terminals.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace spanwright {

class Table {
 public:
  enum class Align { left, right };
  struct Column {
    std::string heading;
    Align align = Align::left;
  };
  explicit Table(std::vector<Column> columns);
  /// As many cells as there are columns.
  void add(std::vector<std::string> cells);
  bool empty() const { return rows_.empty(); }
  void print(std::ostream& out) const;

 private:
  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

/// Where columns of numbers stand.
inline constexpr auto kRight = Table::Align::right;

/// Columns a text takes on a terminal: code points, not bytes.
std::size_t shownWidth(const std::string& text);

}  // namespace spanwright
