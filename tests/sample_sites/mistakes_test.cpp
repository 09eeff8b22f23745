// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet with mistakes: each is refused, where it stands and for what it is, and nothing else is.
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/sample_sites/sample.h"

namespace spanwright::test {
namespace {

struct Expectation {
  std::string mistake, heading, reason;
  int first = 0, last = 0, line = 0;

  explicit Expectation(const CsvRow& row)
      : mistake(row.at("mistake")),
        heading(row.at("heading")),
        reason(row.at("reason")),
        first(static_cast<int>(numberIn(row, "first_line"))),
        last(static_cast<int>(numberIn(row, "last_line"))),
        line(row.at("line").empty() ? 0 : static_cast<int>(numberIn(row, "line"))) {}

  bool holds(int at) const { return first <= at && at <= last; }
  bool met(const Rejection& rejection) const {
    return holds(rejection.where.line) && (line == 0 || rejection.where.line == line) &&
           rejection.reason.find(reason) != std::string::npos;
  }
};

std::vector<Expectation> expectations() {
  std::vector<Expectation> all;
  for (const CsvRow& row : readReferenceCsv((sampleFolder("larkmead") / "mistakes-expected.csv").string())) {
    all.emplace_back(row);
  }
  return all;
}

ImportOutcome importMistakes(bool keepGood) {
  return importInto(sampleRecord("larkmead").store, sampleFolder("larkmead") / "mistakes.csv",
                    sampleFolder("larkmead") / "mistakes.map.toml", keepGood);
}

TEST(Mistakes, EachIsRefusedWhereItStandsForWhatItIs) {
  const ImportOutcome outcome = importMistakes(false);
  const auto expected = expectations();
  EXPECT_GE(expected.size(), 10U);
  for (const Expectation& one : expected) {
    const auto found = std::find_if(outcome.rejected.begin(), outcome.rejected.end(),
                                    [&](const Rejection& rejection) { return one.met(rejection); });
    EXPECT_NE(found, outcome.rejected.end()) << one.mistake;
  }
}

TEST(Mistakes, TheColumnNamedIsTheOneWithTheMistake) {
  const ImportOutcome outcome = importMistakes(false);
  for (const Expectation& one : expectations()) {
    for (const Rejection& rejection : outcome.rejected) {
      if (one.met(rejection) && !one.heading.empty()) {
        EXPECT_EQ(rejection.where.columnName, one.heading) << one.mistake;
      }
    }
  }
}

TEST(Mistakes, NothingElseIsRefused) {
  const auto expected = expectations();
  for (const Rejection& rejection : importMistakes(false).rejected) {
    const auto visit = std::find_if(expected.begin(), expected.end(),
                                    [&](const Expectation& one) { return one.holds(rejection.where.line); });
    ASSERT_NE(visit, expected.end()) << "line " << rejection.where.line << ": " << rejection.reason;
    // Within a visit every refusal is for the visit's own mistake.
    EXPECT_NE(rejection.reason.find(visit->reason), std::string::npos)
        << visit->mistake << ": " << rejection.reason;
  }
}

TEST(Mistakes, NothingOfThemIsStoredEvenWhenTheGoodIsKept) {
  const Store& store = sampleRecord("larkmead").store;
  const auto before = store.calibrationCount();
  EXPECT_EQ(importMistakes(false).calibrations, 0);
  EXPECT_EQ(importMistakes(true).calibrations, 0);
  EXPECT_EQ(store.calibrationCount(), before);
}

}  // namespace
}  // namespace spanwright::test
