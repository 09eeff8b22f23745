// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/visit_before.h"

#include <gtest/gtest.h>

#include "tests/core/tasks/status_fixture.h"

namespace spanwright {
namespace {

using namespace status_test;

Reading left(double percent, Direction direction, int run, double indicated) {
  Reading reading;
  reading.point.percent = percent;
  reading.point.direction = direction;
  reading.point.run = run;
  reading.indicated = indicated;
  return reading;
}

TestPoint point(double percent, Direction direction, int run) {
  return left(percent, direction, run, 0.0).point;
}

TEST(LeftAt, IsThatOfTheSameSideAndRunElseOfTheSideElseOfAny) {
  Calibration earlier;
  earlier.asFound = {left(50, Direction::up, 1, 1.0)};
  earlier.asLeft = {left(50, Direction::up, 1, 2.0), left(50, Direction::down, 1, 3.0),
                    left(50, Direction::down, 2, 4.0), left(100, Direction::up, 1, 5.0)};
  earlier.asLeft.back().skipReason = "no time";
  EXPECT_EQ(leftAt(earlier, point(50, Direction::down, 2))->indicated, 4.0);
  EXPECT_EQ(leftAt(earlier, point(50, Direction::down, 1))->indicated, 3.0);
  EXPECT_EQ(leftAt(earlier, point(50, Direction::down, 3))->indicated, 3.0);
  EXPECT_EQ(leftAt(earlier, point(50, Direction::up, 2))->indicated, 2.0);
  EXPECT_EQ(leftAt(earlier, point(50, Direction::none, 1))->indicated, 2.0);
  EXPECT_EQ(leftAt(earlier, point(25, Direction::up, 1)), nullptr);
  EXPECT_EQ(leftAt(earlier, point(100, Direction::up, 1)), nullptr) << "skipped";
}

class VisitBeforeTest : public StatusTest {};

TEST_F(VisitBeforeTest, CountsOnlyTheSameSubjectUnderTheSameSetupAndEarlier) {
  open(smallSite({channelWith("TT-1", currentInput(100), {{Subject::channel, "AI", "yearly"}})}));
  add({"TT-1", "2024-06-03T08:00", always(0.1)});
  add({"TT-1", "2025-06-03T08:00", always(0.2)});
  add({"TT-1", "2026-06-03T08:00", always(0.3)});
  const auto ids = [this](const VisitSubject& subject, const char* before) {
    return visitsBefore(store(), subject, *parseMoment(before));
  };
  const VisitSubject channel{"TT-1", Subject::channel, 1, "any"};
  EXPECT_EQ(ids(channel, "2026-06-03T08:00"), (std::vector<CalibrationId>{2, 1}))
      << "newest first, itself not";
  EXPECT_EQ(visitBefore(store(), channel, *parseMoment("2026-06-03T08:00"))->id, 2);
  EXPECT_TRUE(ids(channel, "2024-06-03T08:00").empty());
  EXPECT_FALSE(visitBefore(store(), channel, *parseMoment("2024-06-03T08:00")));
  EXPECT_TRUE(ids({"TT-1", Subject::channel, 2, ""}, "2027-01-01T00:00").empty());
  EXPECT_TRUE(ids({"TT-1", Subject::loop, 1, ""}, "2027-01-01T00:00").empty());
}

}  // namespace
}  // namespace spanwright
