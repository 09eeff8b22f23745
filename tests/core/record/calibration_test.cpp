// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/calibration.h"

#include <gtest/gtest.h>

#include <functional>

namespace spanwright {
namespace {

Reading reading(int sequence, double applied, double indicated) {
  Reading made;
  made.point.sequence = sequence;
  made.applied = applied;
  made.indicated = indicated;
  return made;
}

Calibration visit() {
  Calibration made;
  made.id = 4;
  made.channel = "TT-1";
  made.setupVersion = 2;
  made.plan = "P";
  made.performed = *parseMoment("2025-05-06T10:00");
  made.person = "mt";
  made.standards = {{"S1", "C1"}};
  made.asFound = {reading(1, 4.0, 0.1), reading(2, 20.0, 100.2)};
  return made;
}

TEST(SameContent, IgnoresWhatWasGivenByTheStoreOrComputed) {
  Calibration other = visit();
  other.id = 99;
  other.source = "other.csv";
  other.recordedUtc = *parseMoment("2026-01-01");
  other.asFound[0].expected = 3.0;
  other.asFound[0].verdict = Verdict::fail;
  other.asFound[0].indicatedText = "0,10";
  EXPECT_TRUE(sameContent(visit(), other));
}

TEST(SameContent, SeesEveryChangeOfWhatWasDone) {
  const std::function<void(Calibration&)> changes[] = {
      [](Calibration& c) { c.channel = "TT-2"; },
      [](Calibration& c) { c.subject = Subject::loop; },
      [](Calibration& c) { c.setupVersion = 1; },
      [](Calibration& c) { c.sensor = "X"; },
      [](Calibration& c) { c.planRevision = "3"; },
      [](Calibration& c) { c.performed += boost::posix_time::seconds(1); },
      [](Calibration& c) { c.person = "other"; },
      [](Calibration& c) { c.standards[0].certificate = "C2"; },
      [](Calibration& c) { c.conditions.temperature = 20.0; },
      [](Calibration& c) { c.conditions.referenceJunction = 20.0; },
      [](Calibration& c) { c.adjustment.adjusted = true; },
      [](Calibration& c) { c.remarks = "x"; },
      [](Calibration& c) { c.asFound[1].indicated = 100.3; },
      [](Calibration& c) { c.asFound[1].applied = 19.9; },
      [](Calibration& c) { c.asFound.pop_back(); },
      [](Calibration& c) { c.asFound[0].skipReason = "stuck"; },
      [](Calibration& c) { c.asLeft.push_back(reading(1, 4.0, 0.0)); },
  };
  for (const auto& change : changes) {
    Calibration other = visit();
    change(other);
    EXPECT_FALSE(sameContent(visit(), other)) << "change " << (&change - changes);
  }
}

TEST(SameContent, SkippedPointsCompareByReasonNotByNumber) {
  Calibration one = visit(), other = visit();
  one.asFound[0].skipReason = other.asFound[0].skipReason = "stuck";
  other.asFound[0].indicated = 55.0;
  EXPECT_TRUE(sameContent(one, other));
}

TEST(Overall, OnePointThatCouldNotBeJudgedIsNotPassedOver) {
  const auto of = [](std::vector<Verdict> verdicts) {
    std::vector<Reading> readings;
    for (const Verdict verdict : verdicts) {
      readings.push_back(reading(1, 4.0, 0.0));
      readings.back().verdict = verdict;
    }
    readings.push_back(reading(2, 4.0, 0.0));
    readings.back().skipReason = "stuck";
    readings.back().verdict = Verdict::notJudged;
    return overall(readings);
  };
  constexpr auto kPass = Verdict::pass, kFail = Verdict::fail, kNot = Verdict::notJudged;
  EXPECT_EQ(of({kPass, kPass}), kPass);
  EXPECT_EQ(of({kPass, kNot}), kNot);
  EXPECT_EQ(of({kNot, kPass}), kNot);
  EXPECT_EQ(of({kPass, kNot, kFail}), kFail);
  EXPECT_EQ(of({}), kNot);
}

TEST(StandingAsLeft, IsAsFoundWhenNothingWasDoneAfterwards) {
  Calibration one = visit();
  EXPECT_EQ(&one.standingAsLeft(), &one.asFound);
  one.asLeft = {reading(1, 4.0, 0.0)};
  EXPECT_EQ(&one.standingAsLeft(), &one.asLeft);
}

}  // namespace
}  // namespace spanwright
