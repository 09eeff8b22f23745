// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/control_chart.h"

#include <gtest/gtest.h>

#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <limits>

#include "tests/core/drift/reference_csv.h"

namespace spanwright {
namespace {

/// Published where printed, else recomputed, from expected_control_charts.csv.
double chartValue(const std::string& example, const std::string& quantity) {
  for (const reference::Row& row : reference::table("expected_control_charts.csv")) {
    if (row.at("example") == example && row.at("quantity") == quantity) {
      return reference::number(row.at("published").empty() ? row.at("recomputed") : row.at("published"));
    }
  }
  ADD_FAILURE() << "no reference value for " << example << ", " << quantity;
  return 0.0;
}

std::vector<double> column(const std::string& file, const std::string& name) {
  std::vector<double> values;
  for (const reference::Row& row : reference::table(file)) {
    values.push_back(reference::number(row.at(name)));
  }
  return values;
}

ControlChart chartOf(const std::vector<double>& values, const ChartSettings& settings = {}) {
  const auto result = controlChart(values, settings);
  EXPECT_TRUE(std::holds_alternative<ControlChart>(result));
  const auto* chart = std::get_if<ControlChart>(&result);
  return chart != nullptr ? *chart : ControlChart{};
}

// e-Handbook 6.3.2.4: target 50, s = 2.0539, lambda = 0.3.
TEST(ControlChart, MeetsThePublishedMovingAverage) {
  ChartSettings settings;
  settings.mean = 50.0;
  settings.sigma = 2.0539;
  settings.weight = 0.3;
  const ControlChart chart = chartOf(column("handbook_ewma.csv", "y"), settings);
  ASSERT_EQ(chart.points.size(), 20U);
  EXPECT_FALSE(chart.estimated);
  for (std::size_t i = 0; i < chart.points.size(); ++i) {
    EXPECT_NEAR(chart.points[i].average, chartValue("handbook_ewma", "EWMA_" + std::to_string(i + 1)), 0.005);
    EXPECT_FALSE(chart.points[i].averageBeyond) << i;
  }
  // Printed are the limits it settles to; after 20 values the exact ones are there. 0.0002: see the row's
  // note.
  EXPECT_NEAR(chart.points.back().averageLimits.high, chartValue("handbook_ewma", "UCL"), 0.0002);
  EXPECT_NEAR(chart.points.back().averageLimits.low, chartValue("handbook_ewma", "LCL"), 0.0002);
  // The first exact limits: lambda sigma L either way.
  EXPECT_NEAR(chart.points.front().averageLimits.high, 50.0 + 3.0 * 2.0539 * 0.3, 1e-12);
}

TEST(ControlChart, FollowsACheckStandardFromItsBaseline) {
  const std::string example = "handbook_mass_check_standard";
  const auto years = column("handbook_mass_check_standard.csv", "decimal_year_minus_1900");
  const auto values = column("handbook_mass_check_standard.csv", "check_value");
  ChartSettings settings;
  settings.spread = SpreadBasis::standardDeviation;
  settings.baseline =
      static_cast<std::size_t>(chartValue(example, "readings dated before 1985.0 in the data file"));
  EXPECT_LT(years[settings.baseline - 1], 85.0);
  EXPECT_GE(years[settings.baseline], 85.0);
  const ControlChart chart = chartOf(values, settings);
  const auto near = [&](double value, const char* quantity) {
    EXPECT_TRUE(reference::withinRelative(value, chartValue(example, quantity), 1e-11)) << quantity;
  };
  near(chart.mean, "baseline mean (before 1985)");
  near(chart.sigma, "baseline sd");
  near(chart.limits.high, "Shewhart upper (mean+3s)");
  near(chart.limits.low, "Shewhart lower (mean-3s)");
  near(chart.points.back().averageLimits.high, "EWMA lambda=0.2 upper");
  near(chart.points.back().averageLimits.low, "EWMA lambda=0.2 lower");
  near(chart.points.back().average,
       "EWMA after the last reading (start = baseline mean, applied to all readings)");
  EXPECT_FALSE(chart.provisional);
  int beyond = 0;
  double firstAverage = 0.0;
  for (std::size_t i = settings.baseline; i < chart.points.size(); ++i) {
    beyond += chart.points[i].valueBeyond ? 1 : 0;
    if (chart.points[i].averageBeyond && firstAverage == 0.0) {
      firstAverage = years[i];
    }
  }
  EXPECT_EQ(beyond, chartValue(example, "individual readings from 1985 on outside mean+-3s"));
  EXPECT_DOUBLE_EQ(
      firstAverage,
      chartValue(example, "first reading from 1985 on whose EWMA is outside its limits (decimal year-1900)"));
}

TEST(ControlChart, TakesAnyFactorForItsLimits) {
  const std::string example = "handbook_resistivity_check";
  ChartSettings settings;
  settings.spread = SpreadBasis::standardDeviation;
  settings.limitFactor = quantile(boost::math::students_t(chartValue(example, "level-2 dof")), 0.975);
  const ControlChart chart =
      chartOf(column("handbook_resistivity_check.csv", "check_value_ohm_cm"), settings);
  EXPECT_NEAR(chart.sigma, chartValue(example, "level-2 sd"), 5e-6);
  EXPECT_TRUE(reference::withinRelative(chart.mean, chartValue(example, "mean"), 1e-12));
  EXPECT_TRUE(reference::withinRelative(
      chart.limits.high, chartValue(example, "check standard limits: mean +- t_0.975(24)*s2, upper"), 1e-11));
}

// e-Handbook 6.3.2.2, flow rates: mean 50.81, mean moving range 1.8778, limits 55.8041 and 45.8159 (printed
// figures from memory; with d2 = 1.128). D4 = 3.267 from the usual tables.
TEST(ControlChart, MeetsThePublishedIndividualsChart) {
  const ControlChart chart = chartOf({49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1});
  EXPECT_NEAR(chart.mean, 50.81, 1e-9);
  EXPECT_NEAR(chart.limits.high, 55.8041, 0.002);
  EXPECT_NEAR(chart.limits.low, 45.8159, 0.002);
  EXPECT_NEAR(chart.rangeLimit, 3.267 * 1.8778, 0.002);
  EXPECT_TRUE(chart.estimated);
  EXPECT_TRUE(chart.provisional);
  EXPECT_FALSE(chart.points[0].movingRange.has_value());
  EXPECT_NEAR(chart.points[4].movingRange.value(), 3.5, 1e-12);
}

TEST(ControlChart, NamesWhatIsBeyond) {
  ChartSettings settings;
  settings.mean = 0.0;
  settings.sigma = 1.0;
  // 3.1 is beyond by itself; +2.9 after -2.9 only by its range; the average drifts out last.
  const ControlChart chart = chartOf({3.1, 0.0, -2.9, 2.9, 1.5, 1.5, 1.5, 1.5, 1.5, 1.5}, settings);
  EXPECT_TRUE(chart.points[0].valueBeyond);
  EXPECT_FALSE(chart.points[3].valueBeyond);
  EXPECT_TRUE(chart.points[3].rangeBeyond);
  EXPECT_FALSE(chart.points[8].valueBeyond);
  EXPECT_FALSE(chart.points[8].rangeBeyond);
  EXPECT_TRUE(chart.points[8].averageBeyond);
  EXPECT_FALSE(chart.points[1].beyond());
}

TEST(ControlChart, TooFewOrAllAlikeGiveNoLimits) {
  EXPECT_EQ(std::get<ChartGap>(controlChart({})), ChartGap::tooFew);
  EXPECT_EQ(std::get<ChartGap>(controlChart({1, 2, 1, 2})), ChartGap::tooFew);
  EXPECT_EQ(std::get<ChartGap>(controlChart({1, 1, 1, 1, 1})), ChartGap::noSpread);
  ChartSettings half;
  half.mean = 1.0;
  EXPECT_EQ(std::get<ChartGap>(controlChart({1, 2, 1, 2}, half)), ChartGap::tooFew);
  half.sigma = 1.0;  // known limits need no values at all
  EXPECT_TRUE(chartOf({}, half).points.empty());
}

TEST(ControlChart, RefusesWhatCannotBe) {
  const std::vector<double> values{1, 2, 3, 4, 5};
  EXPECT_THROW(controlChart({1, std::numeric_limits<double>::quiet_NaN()}), std::invalid_argument);
  ChartSettings settings;
  settings.sigma = 0.0;
  EXPECT_THROW(controlChart(values, settings), std::invalid_argument);
  settings = {};
  settings.mean = std::numeric_limits<double>::infinity();
  EXPECT_THROW(controlChart(values, settings), std::invalid_argument);
  settings = {};
  settings.weight = 0.0;
  EXPECT_THROW(controlChart(values, settings), std::invalid_argument);
  settings.weight = 1.1;
  EXPECT_THROW(controlChart(values, settings), std::invalid_argument);
  settings = {};
  settings.limitFactor = -3.0;
  EXPECT_THROW(controlChart(values, settings), std::invalid_argument);
  settings = {};
  settings.baseline = 6;
  EXPECT_THROW(controlChart(values, settings), std::invalid_argument);
}

}  // namespace
}  // namespace spanwright
