// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/fleet.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "tests/core/tasks/record_fixture.h"

namespace spanwright {
namespace {

using testing::ElementsAre;

const Date kDay = *parseDate("2026-03-01");

/// A point whose line stands at `level` on kDay and rises by `rate` a year; the band is as wide as scatter
/// 0.01 makes it (Student's t of 5 degrees of freedom).
DriftItem point(const std::string& channel, const std::string& key, double level, double rate) {
  DriftItem item;
  item.channel = channel;
  item.point = key;
  item.unit = Unit::bar;
  item.origin = *parseMoment("2024-03-01");
  item.limits = {-0.1, 0.2};
  const double now = yearsBetween(item.origin, Moment(kDay));
  DriftBand band;
  band.rate = rate;
  band.anchor = now;
  band.level = level;
  band.lastTime = now;
  band.scatter = 0.01;
  band.degreesOfFreedom = 5;
  item.band = band;
  item.basis = BandBasis::own;
  item.segments = {{BreakCause::start, 0.0, {{0.0, level, false}, {now, level, false}}}};
  item.fitted = item.segments;
  item.inTolerance = probabilityInTolerance(item, Moment(kDay));
  return item;
}

std::vector<std::string> channels(const std::vector<FleetRow>& rows) {
  std::vector<std::string> out;
  for (const FleetRow& row : rows) {
    out.push_back(row.channel);
  }
  return out;
}

DriftFinding finding(double pValue) {
  DriftFinding found;
  found.pValue = pValue;
  found.words = "found";
  return found;
}

TEST(Fleet, TheShareOfToleranceIsByTheLimitOnTheErrorsSide) {
  EXPECT_DOUBLE_EQ(shareOfTolerance({-0.1, 0.2}, 0.05), 0.25);
  EXPECT_DOUBLE_EQ(shareOfTolerance({-0.1, 0.2}, -0.05), 0.5);
  EXPECT_DOUBLE_EQ(shareOfTolerance({-0.1, 0.2}, 0.4), 2.0);
  EXPECT_DOUBLE_EQ(shareOfTolerance({-0.1, 0.0}, 0.0), 0.0);
  EXPECT_TRUE(std::isinf(shareOfTolerance({-0.1, 0.0}, 0.01)));
  EXPECT_DOUBLE_EQ(shareOfTolerance({-0.1, std::numeric_limits<double>::infinity()}, 5.0), 0.0);
}

TEST(Fleet, ASubjectIsShownByItsWorstPoint) {
  std::vector<DriftItem> items{point("PT-1", "0", 0.02, 0.0), point("PT-1", "100", -0.09, 0.0)};
  items[0].bandOutOn = *parseDate("2026-09-01");
  items[1].bandOutOn = *parseDate("2027-03-01");
  items[1].findings = {finding(1e-5)};

  const auto soonest = fleetRanking(items, {}, kDay, FleetOrder::forecast);
  ASSERT_EQ(soonest.size(), 1U);
  EXPECT_EQ(soonest[0].point, "0");
  EXPECT_EQ(soonest[0].daysToForecast, 184);
  EXPECT_NEAR(soonest[0].used.value(), 0.1, 1e-12);
  EXPECT_EQ(soonest[0].points, 2);
  EXPECT_EQ(soonest[0].findings.size(), 1U);  // of the other point, but of this subject
  EXPECT_DOUBLE_EQ(soonest[0].inTolerance.value(), items[1].inTolerance.value());

  const auto fullest = fleetRanking(items, {}, kDay, FleetOrder::toleranceUsed);
  ASSERT_EQ(fullest.size(), 1U);
  EXPECT_EQ(fullest[0].point, "100");
  EXPECT_NEAR(fullest[0].used.value(), 0.9, 1e-12);
  // t of 5 degrees of freedom, two-sided 95 %: 2.5706 (tables of Student's t).
  EXPECT_NEAR(fullest[0].usedByBand.value(), (0.09 + 2.5706 * 0.01) / 0.1, 1e-4);
}

TEST(Fleet, EachOrderPutsItsWorstFirst) {
  std::vector<DriftItem> items{point("A", "0", 0.00, 0.0), point("B", "0", 0.15, 0.0),
                               point("C", "0", -0.09, 0.0), point("D", "0", 0.00, 0.0)};
  items[0].bandOutOn = *parseDate("2026-04-01");
  items[1].bandOutOn = *parseDate("2026-03-15");
  items[3].findings = {finding(1e-3), finding(1e-6)};
  items[2].findings = {finding(1e-4)};
  EXPECT_THAT(channels(fleetRanking(items, {}, kDay, FleetOrder::forecast)), ElementsAre("B", "A", "C", "D"));
  EXPECT_THAT(channels(fleetRanking(items, {}, kDay, FleetOrder::toleranceUsed)),
              ElementsAre("C", "B", "A", "D"));
  EXPECT_THAT(channels(fleetRanking(items, {}, kDay, FleetOrder::findings)), ElementsAre("D", "C", "B", "A"));
}

TEST(Fleet, OneThatIsOutAlreadyHasNoDaysLeftAndComesFirst) {
  std::vector<DriftItem> items{point("A", "0", 0.0, 0.0), point("B", "0", 0.3, 0.0)};
  items[0].bandOutOn = kDay + boost::gregorian::days(1);
  items[1].bandOutOn = kDay;
  const auto rows = fleetRanking(items, {}, kDay, FleetOrder::forecast);
  EXPECT_EQ(rows[0].channel, "B");
  EXPECT_EQ(rows[0].daysToForecast, 0);
  EXPECT_GT(rows[0].used.value(), 1.0);
}

TEST(Fleet, WithoutALineOrLimitsNothingIsMadeUp) {
  DriftItem bare = point("A", "0", 0.0, 0.0);
  bare.band.reset();
  bare.basis = BandBasis::none;
  DriftItem unjudged = point("B", "0", 0.0, 0.0);
  unjudged.limits = {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::quiet_NaN()};
  for (const FleetRow& row : fleetRanking({bare, unjudged}, {}, kDay, FleetOrder::toleranceUsed)) {
    EXPECT_FALSE(row.used.has_value()) << row.channel;
    EXPECT_FALSE(row.usedByBand.has_value()) << row.channel;
    EXPECT_FALSE(row.daysToForecast.has_value()) << row.channel;
  }
  EXPECT_TRUE(fleetRanking({}, {}, kDay, FleetOrder::forecast).empty());
}

TEST(Fleet, NoRankingDependsOnWhereAPointStandsInTheList) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> level(-0.15, 0.25);
  std::uniform_int_distribution<int> days(0, 4000);
  for (int round = 0; round < 50; ++round) {
    std::vector<DriftItem> items;
    for (int c = 0; c < 12; ++c) {
      for (const char* key : {"0", "50", "100"}) {
        items.push_back(point("C" + std::to_string(c), key, level(random), 0.0));
        items.back().bandOutOn = kDay + boost::gregorian::days(days(random));
      }
    }
    std::vector<DriftItem> shuffled = items;
    std::shuffle(shuffled.begin(), shuffled.end(), random);
    for (const FleetOrder order : {FleetOrder::forecast, FleetOrder::toleranceUsed}) {
      EXPECT_EQ(channels(fleetRanking(items, {}, kDay, order)),
                channels(fleetRanking(shuffled, {}, kDay, order)));
    }
  }
}

TEST(FirstToLeave, ListsOncePerSubjectThePointThatLeavesFirst) {
  const auto item = [](const char* channel, const char* point, const char* out) {
    DriftItem drift;
    drift.channel = channel;
    drift.point = point;
    drift.bandOutOn = parseDate(out);
    return drift;
  };
  const std::vector<DriftItem> items{item("TT-1", "0", "2029-01-01"), item("TT-1", "50", "2028-01-01"),
                                     item("PT-2", "0", "2027-05-05"), item("XS-3", "on", "")};
  const auto leaving = firstToLeave(items, 10);
  ASSERT_EQ(leaving.size(), 2U);
  EXPECT_EQ(leaving[0].channel, "PT-2");
  EXPECT_EQ(leaving[1].channel, "TT-1");
  EXPECT_EQ(leaving[1].point, "50");
  EXPECT_EQ(firstToLeave(items, 1).size(), 1U);
}

}  // namespace
}  // namespace spanwright
