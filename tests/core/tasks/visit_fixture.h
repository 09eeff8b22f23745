// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the tests of visits have in common.
#pragma once

#include <gtest/gtest.h>

#include "core/tasks/visit.h"
#include "tests/core/tasks/visit_site.h"

namespace spanwright::test {

inline const Moment kNow = moment("2026-03-01T12:00");

inline ProposedReading typed(const char* reading, const char* applied = "") {
  ProposedReading proposed;
  proposed.typed.indicatedText = reading;
  proposed.typed.appliedText = applied;
  return proposed;
}
inline ProposedReading skipped(const char* reason) {
  ProposedReading proposed;
  proposed.typed.skipReason = reason;
  return proposed;
}
inline ProposedReading keyed(const char* key, const char* reading, Direction direction = Direction::none) {
  ProposedReading proposed = typed(reading);
  proposed.key = key;
  proposed.direction = direction;
  return proposed;
}

/// A visit to TT-110 (three points, 4-20 mA to 0..150 degC, +/- 0.375 degC) with nothing wrong.
inline ProposedVisit goodVisit() {
  ProposedVisit visit;
  visit.channel = "TT-110";
  visit.performed = moment("2026-02-20T09:30");
  visit.person = "mtolland";
  visit.standards = {"LC-2201"};
  visit.asFound = {typed("0.1", "4.000 mA"), typed("75.2"), typed("150.0")};
  return visit;
}

inline std::vector<std::string> sentences(const CheckedVisit& checked) {
  std::vector<std::string> result;
  for (const Problem& each : checked.problems) {
    EXPECT_FALSE(each.todo.empty()) << each.what;
    result.push_back(sentence(each));
  }
  EXPECT_EQ(checked.calibration.has_value(), checked.problems.empty());
  return result;
}

class VisitTest : public testing::Test {
 protected:
  std::vector<std::string> problems(const ProposedVisit& visit, bool historic = false) const {
    return sentences(checkVisit(site_, visit, kNow, historic));
  }
  Calibration checked(const ProposedVisit& visit, bool historic = false) const {
    const CheckedVisit result = checkVisit(site_, visit, kNow, historic);
    for (const Problem& each : result.problems) {
      ADD_FAILURE() << sentence(each);
    }
    return result.calibration.value_or(Calibration{});
  }

  Register site_ = visitSite();
};

}  // namespace spanwright::test
