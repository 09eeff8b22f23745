// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "core/drift/fit.h"
#include "tests/core/drift/reference_csv.h"

namespace spanwright {
namespace {

using reference::number;
using reference::table;
using reference::withinRelative;

double certified(const std::string& quantity) {
  for (const auto& row : table("strd_noint1_certified.csv"))
    if (row.at("quantity") == quantity)
      return number(row.at("value"));
  throw std::runtime_error("no certified " + quantity);
}

Segment line(const std::vector<std::pair<double, double>>& points) {
  Segment segment;
  for (const auto& [time, error] : points)
    segment.readings.push_back({time, error, false});
  return segment;
}

TEST(FitDriftThroughZero, MeetsCertifiedNoInt1) {
  Segment noint1;
  for (const auto& row : table("strd_noint1.csv"))
    noint1.readings.push_back({number(row.at("x")), number(row.at("y")), false});
  ASSERT_EQ(noint1.readings.size(), 11u);
  const auto fit = fitDriftThroughZero({noint1});
  ASSERT_TRUE(fit);
  EXPECT_TRUE(withinRelative(fit->rate, certified("B1"), 3e-15));
  EXPECT_TRUE(withinRelative(*fit->rateStandardError, certified("sd_B1"), 3e-13));
  EXPECT_TRUE(withinRelative(*fit->residualSd, certified("residual_sd"), 3e-13));
  EXPECT_TRUE(withinRelative(*fit->rSquared, certified("R_squared"), 3e-15));
  EXPECT_EQ(fit->degreesOfFreedom, 10);
  EXPECT_EQ(fit->intercepts, std::vector<double>{0.0});
  EXPECT_EQ(fit->interceptStandardErrors, std::vector<double>{0.0});
}

TEST(FitDriftThroughZero, PredictionStartsAtZeroAndOpensOut) {
  // t e = 1, 4, 9.3; by hand: rate = 14.3/14, RSS = 0.0642857, 2 degrees of freedom, t = 4.302653.
  const auto fit = fitDriftThroughZero({line({{1.0, 1.0}, {2.0, 2.0}, {3.0, 3.1}})});
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->rate, 14.3 / 14.0, 1e-15);
  const double rss =
      std::pow(1.0 - fit->rate, 2) + std::pow(2.0 - 2.0 * fit->rate, 2) + std::pow(3.1 - 3.0 * fit->rate, 2);
  EXPECT_NEAR(*fit->residualSd, std::sqrt(rss / 2.0), 1e-15);
  const Prediction zero = predict(*fit, 0.0);
  EXPECT_EQ(zero.value, 0.0);
  EXPECT_NEAR(*zero.high, 4.302652729749464 * *fit->residualSd, 1e-12);
  const Prediction ahead = predict(*fit, 10.0);
  EXPECT_NEAR(ahead.value, 143.0 / 14.0, 1e-12);
  EXPECT_NEAR(*ahead.high - ahead.value, 4.302652729749464 * *fit->residualSd * std::sqrt(1.0 + 100.0 / 14.0),
              1e-12);
  EXPECT_NEAR(*fit->robustRate, 1.0, 1e-15);
}

TEST(FitDriftThroughZero, ManySegmentsAreOneLine) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::normal_distribution<double> scatter(0.0, 0.3);
  Segment all;
  std::vector<Segment> parts(3);
  for (int i = 1; i <= 30; ++i) {
    const DriftReading reading{0.1 * i, 0.2 * i + scatter(random), false};
    all.readings.push_back(reading);
    parts[static_cast<std::size_t>(i % 3)].readings.push_back(reading);
  }
  const auto whole = fitDriftThroughZero({all});
  const auto split = fitDriftThroughZero(parts);
  ASSERT_TRUE(whole && split);
  EXPECT_NEAR(split->rate, whole->rate, 1e-13);
  EXPECT_NEAR(*split->residualSd, *whole->residualSd, 1e-13);
  EXPECT_EQ(split->degreesOfFreedom, 29);
  EXPECT_EQ(split->intercepts.size(), 3u);
  EXPECT_DOUBLE_EQ(*split->robustRate, *whole->robustRate);
}

TEST(FitDriftThroughZero, OneReadingGivesARateWithoutScatter) {
  const auto fit = fitDriftThroughZero({line({{2.0, 3.0}})});
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->rate, 1.5);
  EXPECT_FALSE(fit->rateStandardError.has_value());
  EXPECT_TRUE(fit->interceptStandardErrors.empty());
  EXPECT_FALSE(predict(*fit, 5.0).low.has_value());
}

TEST(FitDriftThroughZero, RefusesWhatHasNoRate) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_FALSE(fitDriftThroughZero({}));
  EXPECT_FALSE(fitDriftThroughZero({Segment{}}));
  EXPECT_FALSE(fitDriftThroughZero({line({{0.0, 1.0}, {0.0, 2.0}})}));
  EXPECT_FALSE(fitDriftThroughZero({line({{1.0, nan}})}));
  EXPECT_FALSE(fitDriftThroughZero({line({{nan, 1.0}})}));
  EXPECT_FALSE(fitDriftThroughZero({line({{1e200, 1.0}})}));
}

}  // namespace
}  // namespace spanwright
