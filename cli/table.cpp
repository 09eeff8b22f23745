// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/table.h"

#include <algorithm>
#include <cassert>
#include <ostream>

namespace spanwright {

namespace {

void printRow(std::ostream& out, const std::vector<std::string>& cells,
              const std::vector<std::size_t>& widths, const std::vector<Table::Column>& columns) {
  std::string line;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::string blanks(widths[i] - shownWidth(cells[i]), ' ');
    line += i > 0 ? "  " : "";
    line += columns[i].align == Table::Align::right ? blanks + cells[i] : cells[i] + blanks;
  }
  line.erase(line.find_last_not_of(' ') + 1);
  out << line << '\n';
}

}  // namespace

std::size_t shownWidth(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

Table::Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

void Table::add(std::vector<std::string> cells) {
  assert(cells.size() == columns_.size());
  rows_.push_back(std::move(cells));
}

void Table::print(std::ostream& out) const {
  std::vector<std::string> headings, rules;
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    std::size_t width = shownWidth(columns_[i].heading);
    for (const auto& row : rows_) {
      width = std::max(width, shownWidth(row[i]));
    }
    headings.push_back(columns_[i].heading);
    rules.emplace_back(width, '-');
    widths.push_back(width);
  }
  printRow(out, headings, widths, columns_);
  printRow(out, rules, widths, columns_);
  for (const auto& row : rows_) {
    printRow(out, row, widths, columns_);
  }
}

}  // namespace spanwright
