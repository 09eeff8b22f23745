// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/simulation.h"

#include <gtest/gtest.h>

#include <cmath>

namespace spanwright {
namespace {

SimulatedSubject one(SimulatedPoint point, int days = 365, double adjustLimit = 0.7) {
  return {"like", days, adjustLimit, {point}};
}

// No drift: each visit finds a normal error of 0.5, in tolerance with the probability erf(1 / (0.5 sqrt 2)).
TEST(Simulation, WithoutDriftTheShareIsThatOfTheScatter) {
  const FleetOutcome outcome = simulateFleet({one({0.0, 0.0, 0.5})}, {AsItIs{}, {}}, {10, 2000, 7});
  EXPECT_EQ(outcome.visits, 20000);
  EXPECT_NEAR(outcome.visitsPerYear, 1.0, 1e-12);
  EXPECT_NEAR(outcome.meanIntervalDays, 365.0, 1e-12);
  EXPECT_NEAR(outcome.inTolerance, std::erf(2.0 / std::sqrt(2.0)), 4.0 * outcome.standardError);
  EXPECT_NEAR(outcome.standardError, std::sqrt(0.9545 * 0.0455 / 20000.0), 2e-4);
}

// 0.3 a year, adjusted only when out: 0.3, 0.6, 0.9, then 1.2 is out and brought to zero.
TEST(Simulation, ErrorsStayUntilTheAdjustLimitAndGoToZeroBeyond) {
  const FleetOutcome late = simulateFleet({one({0.3, 0.0, 1e-6}, 365, 1.0)}, {AsItIs{}, {}}, {10, 3, 1});
  EXPECT_EQ(late.visits, 30);
  EXPECT_DOUBLE_EQ(late.inTolerance, 0.8);
  // Adjusted from 0.7 on: 0.3, 0.6, 0.9, 0.3 ... never out.
  EXPECT_DOUBLE_EQ(simulateFleet({one({0.3, 0.0, 1e-6})}, {AsItIs{}, {}}, {10, 3, 1}).inTolerance, 1.0);
  // Two years of 0.6 without a visit are always too long.
  EXPECT_DOUBLE_EQ(simulateFleet({one({0.6, 0.0, 1e-6}, 730)}, {AsItIs{}, {}}, {10, 3, 1}).inTolerance, 0.0);
}

// The band leaves at 0.5 t + 1.96 x 0.05 = 1, t = 1.804 years = 658.9 days; the 0.9 of then is beyond the
// adjust limit by eight standard deviations, so that every interval is the same.
TEST(Simulation, AForecastEndsWhereTheBandLeaves) {
  const FleetOutcome outcome =
      simulateFleet({one({0.5, 0.0, 0.05}, 365, 0.5)}, {ForecastRule{}, {30, 3000}}, {10, 2000, 3});
  EXPECT_EQ(outcome.meanIntervalDays, 658.0);
  EXPECT_NEAR(outcome.visitsPerYear, 0.5, 1e-12);
  const double deviations = (1.0 - 0.5 * 658.0 / 365.25) / 0.05;
  EXPECT_NEAR(outcome.inTolerance, (1.0 + std::erf(deviations / std::sqrt(2.0))) / 2.0,
              4.0 * outcome.standardError);
}

TEST(Simulation, AStaircaseClimbsToItsLimitWhenNothingIsFound) {
  const FleetOutcome outcome =
      simulateFleet({one({0.0, 0.0, 1e-3}, 100)}, {StaircaseRule{1.5, 0.5}, {50, 400}}, {10, 1, 1});
  EXPECT_EQ(outcome.meanIntervalDays, 400.0);
  EXPECT_EQ(outcome.inTolerance, 1.0);
}

TEST(Simulation, AHigherTargetVisitsOftenerAndFindsMoreInTolerance) {
  std::vector<SimulatedSubject> fleet(12, one({0.0, 0.8, 0.2}));
  const auto under = [&](double target) {
    return simulateFleet(fleet, {ReliabilityRule{target, 0.95, 10}, {30, 1500}}, {20, 30, 5});
  };
  const FleetOutcome low = under(0.8), high = under(0.95);
  EXPECT_GT(high.visitsPerYear, 1.5 * low.visitsPerYear);
  EXPECT_GT(high.inTolerance, low.inTolerance + 0.05);
}

TEST(Simulation, TheSeedDecides) {
  const std::vector<SimulatedSubject> fleet{one({0.3, 0.2, 0.3}), one({-0.2, 0.1, 0.2}, 180)};
  const SimulatedPolicy policy{StaircaseRule{1.25, 0.5}, {60, 900}};
  const FleetOutcome a = simulateFleet(fleet, policy, {10, 20, 11}),
                     b = simulateFleet(fleet, policy, {10, 20, 11});
  EXPECT_EQ(a.visits, b.visits);
  EXPECT_EQ(a.inTolerance, b.inTolerance);
  EXPECT_NE(a.inTolerance, simulateFleet(fleet, policy, {10, 20, 12}).inTolerance);
}

TEST(Simulation, NothingToVisitGivesNothing) {
  EXPECT_EQ(simulateFleet({}, {AsItIs{}, {}}, {}).visits, 0);
  EXPECT_EQ(simulateFleet({{"like", 365, 0.7, {}}}, {AsItIs{}, {}}, {}).visits, 0);
  EXPECT_EQ(simulateFleet({one({0, 0, 0.1})}, {AsItIs{}, {}}, {0, 10, 1}).visits, 0);
  EXPECT_EQ(simulateFleet({one({0, 0, 0.1})}, {AsItIs{}, {}}, {10, 0, 1}).visits, 0);
}

}  // namespace
}  // namespace spanwright
