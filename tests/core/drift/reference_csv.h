// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads the reference tables of this room: plain CSV with a header row, cells in quotes where they hold a
// comma.
#pragma once

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <string>
#include <vector>

#include "core/units/number.h"

namespace spanwright::reference {

using Row = std::map<std::string, std::string>;

inline std::vector<std::string> cellsOf(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  return cells;
}

inline std::vector<Row> table(const std::string& name) {
  std::ifstream in(SPANWRIGHT_REFERENCE_DIR "/statistics/" + name);
  EXPECT_TRUE(in.good()) << name;
  std::string line;
  std::getline(in, line);
  const std::vector<std::string> headings = cellsOf(line);
  std::vector<Row> rows;
  while (std::getline(in, line)) {
    const std::vector<std::string> cells = cellsOf(line);
    EXPECT_EQ(cells.size(), headings.size()) << name << ": " << line;
    Row row;
    for (std::size_t i = 0; i < headings.size() && i < cells.size(); ++i)
      row[headings[i]] = cells[i];
    rows.push_back(row);
  }
  return rows;
}

/// The number in a cell; a cell that is not one fails the test.
inline double number(const std::string& cell) {
  const std::string text = !cell.empty() && cell.front() == '.' ? "0" + cell : cell;
  const auto parsed = parseNumber(text);
  EXPECT_TRUE(parsed.has_value()) << "not a number: " << cell;
  return parsed ? parsed->value : 0.0;
}

/// The published value of a quantity in expected_drift.csv, the recomputed one where none was published.
inline double expected(const std::string& example, const std::string& quantity) {
  static const std::vector<Row> rows = table("expected_drift.csv");
  for (const Row& row : rows) {
    if (row.at("example") != example || row.at("quantity") != quantity)
      continue;
    return number(row.at("published").empty() ? row.at("recomputed") : row.at("published"));
  }
  ADD_FAILURE() << "no reference value for " << example << ", " << quantity;
  return 0.0;
}

inline ::testing::AssertionResult withinRelative(double value, double reference, double relative) {
  const double off = value > reference ? value - reference : reference - value;
  const double size = reference < 0 ? -reference : reference;
  if (off <= relative * size)
    return ::testing::AssertionSuccess();
  return ::testing::AssertionFailure()
         << formatShortest(value) << " is off " << formatShortest(reference) << " by "
         << formatShortest(off / size) << " of it, allowed " << formatShortest(relative);
}

}  // namespace spanwright::reference
