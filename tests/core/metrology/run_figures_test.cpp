// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/run_figures.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <stdexcept>

#include "tests/support/csv.h"

namespace spanwright {
namespace {

using Readings = std::vector<RunReading>;

std::string reference(const std::string& name) {
  return std::string(SPANWRIGHT_REFERENCE_DIR "/signals/") + name;
}

Direction directionOf(const test::CsvRow& row) {
  return *parseDirection(row.at("direction"));
}

// Half a unit of the last digit written.
double halfDigit(const std::string& number) {
  return 0.5 * std::pow(10.0, -parseNumber(number)->decimals);
}

Readings isaReport() {
  Readings readings;
  for (const auto& row : test::readReferenceCsv(reference("example_isa51_report_data.csv"))) {
    const double at = test::numberIn(row, "input_percent");
    readings.push_back({at, at + test::numberIn(row, "error_percent_of_span"), directionOf(row),
                        static_cast<int>(test::numberIn(row, "cycle"))});
  }
  return readings;
}

TEST(RunFigures, ReproduceTheIsaReport) {
  const RunFigures figures = runFigures(isaReport(), 0.0, 100.0);
  std::map<std::string, double> found{
      {"inaccuracy_positive", figures.inaccuracyHigh},
      {"inaccuracy_negative", figures.inaccuracyLow},
      {"hysteresis_plus_dead_band_within_cycle", *figures.hysteresisWithinCycle},
      {"hysteresis_averaged", *figures.hysteresis},
      {"repeatability_same_direction_spread", *figures.repeatability},
      {"maximum_average_error_positive", figures.averageErrorHigh},
      {"maximum_average_error_negative", figures.averageErrorLow},
      {"independent_linearity", *figures.linearityBest},
      {"terminal_based_linearity", *figures.linearityTerminal},
      {"zero_based_linearity", *figures.linearityZero}};
  for (const PointErrors& point : figures.points) {
    found["average_error_at_" + formatFixed(point.percent, 0) + "_percent"] = point.average;
  }
  int computed = 0, printed = 0;
  for (const auto& row : test::readReferenceCsv(reference("example_isa51_report_results.csv"))) {
    const std::string& quantity = row.at("quantity");
    ASSERT_EQ(found.count(quantity), 1U) << quantity;
    EXPECT_NEAR(found[quantity], test::numberIn(row, "computed"), halfDigit(row.at("computed")) + 1e-12)
        << quantity;
    ++computed;
    if (!row.at("printed").empty()) {
      EXPECT_NEAR(found[quantity], test::numberIn(row, "printed"), halfDigit(row.at("printed")) + 1e-12)
          << quantity;
      ++printed;
    }
  }
  EXPECT_EQ(computed, 21);
  EXPECT_EQ(printed, 17);
  EXPECT_NEAR(*figures.zeroError, -0.05, 1e-12);
  EXPECT_NEAR(*figures.spanError, 0.15, 1e-12);
  EXPECT_NEAR(figures.maximumError, -0.30, 1e-12);
}

TEST(RunFigures, ReproduceTheWeighingScale) {
  std::map<std::string, test::CsvRow> results;
  for (const auto& row : test::readReferenceCsv(reference("example_weighing_scale_results.csv"))) {
    results[row.at("quantity")] = row;
  }
  const auto computed = [&](const std::string& quantity) {
    return test::numberIn(results.at(quantity), "computed");
  };
  Readings readings;
  for (const auto& row : test::readReferenceCsv(reference("example_weighing_scale_data.csv"))) {
    const double expected =
        computed("line_used_slope") * test::numberIn(row, "true_weight_lb") + computed("line_used_intercept");
    readings.push_back({expected, test::numberIn(row, "reading_lb"), directionOf(row),
                        static_cast<int>(test::numberIn(row, "cycle"))});
  }
  const double low = computed("line_used_intercept"), width = computed("output_span");
  const RunFigures figures = runFigures(readings, low, low + width);
  const double lb = width / 100.0;
  const std::map<std::string, double> found{
      {"max_deviation", figures.inaccuracyHigh * lb},
      {"min_deviation", figures.inaccuracyLow * lb},
      {"max_deviation_percent", figures.inaccuracyHigh},
      {"min_deviation_percent", figures.inaccuracyLow},
      {"hysteresis_within_cycle", *figures.hysteresisWithinCycle * lb},
      {"repeatability_spread", *figures.repeatability * lb},
      {"repeatability_plus_minus_percent", *figures.repeatability / 2.0},
      {"systematic_error_max", figures.averageErrorHigh * lb},
      {"systematic_error_min", figures.averageErrorLow * lb}};
  // Printed figures that do not follow from the printed data (README of the set): hysteresis, systematic
  // limits.
  const std::vector<std::string> notFollowing{"hysteresis_within_cycle", "systematic_error_max",
                                              "systematic_error_min"};
  int printed = 0;
  for (const auto& [quantity, value] : found) {
    const test::CsvRow& row = results.at(quantity);
    EXPECT_NEAR(value, test::numberIn(row, "computed"), halfDigit(row.at("computed")) + 1e-12) << quantity;
    if (!row.at("printed").empty() &&
        std::find(notFollowing.begin(), notFollowing.end(), quantity) == notFollowing.end()) {
      EXPECT_NEAR(value, test::numberIn(row, "printed"), halfDigit(row.at("printed")) + 1e-12) << quantity;
      ++printed;
    }
  }
  EXPECT_EQ(printed, 4);
}

TEST(RunFigures, MissingDirectionsLeaveOut) {
  const RunFigures up = runFigures({{0, 0.1, Direction::up, 1}, {100, 100.3, Direction::up, 1}}, 0.0, 100.0);
  EXPECT_NEAR(*up.zeroError, 0.1, 1e-12);
  EXPECT_NEAR(*up.spanError, 0.2, 1e-12);
  EXPECT_FALSE(up.hysteresis || up.hysteresisWithinCycle || up.repeatability);
  EXPECT_FALSE(up.linearityBest || up.linearityTerminal || up.linearityZero);

  // Up and down of one point in different cycles: there is a hysteresis, but none inside a cycle.
  const RunFigures apart =
      runFigures({{50, 50.1, Direction::up, 1}, {50, 50.4, Direction::down, 2}}, 0.0, 100.0);
  EXPECT_NEAR(*apart.hysteresis, 0.3, 1e-12);
  EXPECT_FALSE(apart.hysteresisWithinCycle);
  EXPECT_FALSE(apart.zeroError || apart.spanError);

  // Sides unknown: nothing is said about repeats, which may come from different sides.
  const RunFigures unknown =
      runFigures({{50, 50.1, Direction::none, 1}, {50, 50.4, Direction::none, 2}}, 0.0, 100.0);
  EXPECT_FALSE(unknown.repeatability);
  EXPECT_NEAR(*unknown.points.at(0).unknown, 0.25, 1e-12);
  EXPECT_NEAR(unknown.inaccuracyHigh, 0.4, 1e-12);
  EXPECT_NEAR(unknown.maximumError, 0.25, 1e-12);
}

TEST(RunFigures, AveragesDirectionsNotReadings) {
  // Two ups and one down: the average error is the mean of the two directions, not of three readings.
  const RunFigures figures =
      runFigures({{50, 50.0, Direction::up, 1}, {50, 50.2, Direction::up, 2}, {50, 50.7, Direction::down, 1}},
                 0.0, 100.0);
  EXPECT_NEAR(figures.points.at(0).average, 0.4, 1e-12);
}

TEST(RunFigures, PointsNearTheEndsAreExtendedAlongTheirLine) {
  // Error 0.1 % at 5 % and 1.0 % at 95 %: 0.05 % at 0 and 1.0 % of span error.
  const RunFigures figures =
      runFigures({{4.8, 4.816, Direction::up, 1}, {19.2, 19.36, Direction::up, 1}}, 4.0, 20.0);
  EXPECT_NEAR(*figures.zeroError, 0.05, 1e-12);
  EXPECT_NEAR(*figures.spanError, 1.0, 1e-12);
  const RunFigures far =
      runFigures({{6.0, 6.0, Direction::up, 1}, {20.0, 20.1, Direction::up, 1}}, 4.0, 20.0);
  EXPECT_FALSE(far.zeroError || far.spanError);
}

TEST(RunFigures, ReversedSpanKeepsTheSignOfTheError) {
  const RunFigures figures =
      runFigures({{20.0, 20.16, Direction::up, 1}, {4.0, 3.68, Direction::up, 1}}, 20.0, 4.0);
  EXPECT_NEAR(*figures.zeroError, 1.0, 1e-12);
  EXPECT_NEAR(*figures.spanError, -3.0, 1e-12);
  EXPECT_NEAR(figures.maximumError, -2.0, 1e-12);
}

TEST(RunFigures, ACalibratorSetNearlyRightIsTheSamePoint) {
  const Readings readings{
      {50.0, 50.1, Direction::up, 1}, {50.4, 50.6, Direction::up, 2}, {50.6, 50.6, Direction::up, 3}};
  const RunFigures figures = runFigures(readings, 0.0, 100.0);
  ASSERT_EQ(figures.points.size(), 2U);  // 50.6 is more than 0.5 % from 50.0
  EXPECT_NEAR(figures.points[0].percent, 50.2, 1e-12);
  EXPECT_NEAR(*figures.repeatability, 0.1, 1e-12);  // of errors, not of readings
}

// A straight error has no linearity error; adding one to any run leaves all three linearities as they are.
TEST(RunFigures, LinearityIgnoresAStraightError) {
  constexpr unsigned kSeed = 20261127;
  std::mt19937 random(kSeed);
  std::normal_distribution<double> normal;
  for (int round = 0; round < 50; ++round) {
    Readings readings, tilted;
    const double zero = normal(random), slope = normal(random) / 100.0;
    for (int i = 0; i <= 10; ++i) {
      const double at = 4.0 + 1.6 * i, error = 0.01 * normal(random);
      readings.push_back({at, at + error, Direction::up, 1});
      tilted.push_back({at, at + error + zero + slope * at, Direction::up, 1});
    }
    const RunFigures a = runFigures(readings, 4.0, 20.0), b = runFigures(tilted, 4.0, 20.0);
    EXPECT_NEAR(*a.linearityBest, *b.linearityBest, 1e-11) << "seed " << kSeed << " round " << round;
    EXPECT_NEAR(*a.linearityTerminal, *b.linearityTerminal, 1e-11) << round;
    EXPECT_NEAR(*a.linearityZero, *b.linearityZero, 1e-11) << round;
    // Fewer freedoms never make it smaller.
    EXPECT_LE(*a.linearityBest, *a.linearityZero + 1e-12);
    EXPECT_LE(*a.linearityZero, *a.linearityTerminal + 1e-12);
  }
}

std::vector<int> cyclesOf(Readings readings) {
  numberCycles(readings, 0.0, 100.0);
  std::vector<int> cycles;
  for (const RunReading& reading : readings) {
    cycles.push_back(reading.cycle);
  }
  return cycles;
}

TEST(NumberCycles, FollowsTheOrderOfTheWork) {
  constexpr auto up = Direction::up, down = Direction::down;
  // Begins in the middle: the first up is short, and belongs to the first cycle all the same.
  EXPECT_EQ(
      cyclesOf(
          {{50, 0, up}, {100, 0, up}, {50, 0, down}, {0, 0, down}, {50, 0, up}, {100, 0, up}, {50, 0, down}}),
      (std::vector<int>{1, 1, 1, 1, 2, 2, 2}));
  // The second cycle begins at a point that the first did not have going up.
  EXPECT_EQ(cyclesOf({{50, 0, up}, {100, 0, up}, {50, 0, down}, {0, 0, down}, {25, 0, up}, {50, 0, up}}),
            (std::vector<int>{1, 1, 1, 1, 2, 2}));
  // By point, as in a table.
  EXPECT_EQ(cyclesOf({{0, 0, down}, {0, 0, down}, {50, 0, up}, {50, 0, up}, {50, 0, down}, {50, 0, down}}),
            (std::vector<int>{1, 2, 1, 2, 1, 2}));
  // Every up run before every down run.
  EXPECT_EQ(
      cyclesOf(
          {{0, 0, up}, {50, 0, up}, {0, 0, up}, {50, 0, up}, {50, 0, down}, {0, 0, down}, {50, 0, down}}),
      (std::vector<int>{1, 1, 2, 2, 1, 1, 2}));
  EXPECT_EQ(cyclesOf({{50, 0, down}, {0, 0, down}, {0, 0, up}, {50, 0, up}, {50, 0, down}}),
            (std::vector<int>{1, 1, 1, 1, 2}));
  EXPECT_TRUE(cyclesOf({}).empty());
}

// The report's rows stand by point; numbered again they are the cycles they came with.
TEST(NumberCycles, FindsTheCyclesOfTheIsaReport) {
  const Readings given = isaReport();
  Readings numbered = given;
  numberCycles(numbered, 0.0, 100.0);
  for (std::size_t i = 0; i < given.size(); ++i) {
    EXPECT_EQ(numbered[i].cycle, given[i].cycle) << i;
  }
}

TEST(RunFigures, RefuseWhatIsNoRun) {
  const double nan = std::nan(""), infinite = std::numeric_limits<double>::infinity();
  const Readings fine{{0, 0, Direction::up, 1}};
  EXPECT_FALSE(runFault(fine, 0, 100));
  EXPECT_TRUE(runFault({}, 0, 100));
  EXPECT_TRUE(runFault(fine, 5, 5));
  EXPECT_TRUE(runFault(fine, nan, 5));
  EXPECT_TRUE(runFault(fine, 0, infinite));
  EXPECT_TRUE(runFault({{0, nan, Direction::up, 1}}, 0, 100));
  EXPECT_TRUE(runFault({{infinite, 0, Direction::up, 1}}, 0, 100));
  EXPECT_TRUE(runFault({{0, 0, Direction::up, 0}}, 0, 100));
  const auto twice = runFault({{10, 0, Direction::up, 1}, {10, 0, Direction::up, 1}}, 0, 100);
  ASSERT_TRUE(twice);
  EXPECT_EQ(*twice, "the point at 10 was read twice going up in cycle 1");
  EXPECT_THROW(runFigures({}, 0, 100), std::invalid_argument);
}

TEST(DeadBand, IsTheLargestMove) {
  EXPECT_FALSE(deadBand({}));
  EXPECT_NEAR(*deadBand({{50.0, 50.12}, {25.0, 24.8}, {75.0, 75.1}}), 0.2, 1e-12);
  EXPECT_THROW(deadBand({{50.0, std::nan("")}}), std::invalid_argument);
}

}  // namespace
}  // namespace spanwright
