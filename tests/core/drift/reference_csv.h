// SPDX-License-Identifier: GPL-3.0-or-later
//
// The reference tables of this room, and how near a value is to one of them.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "core/units/number.h"
#include "tests/support/csv.h"

namespace spanwright::reference {

using Row = test::CsvRow;

inline std::vector<Row> table(const std::string& name) {
  return test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/statistics/" + name);
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
