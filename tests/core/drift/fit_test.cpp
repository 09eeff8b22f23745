// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/fit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
#include <random>

#include "core/units/time.h"
#include "tests/core/drift/histories.h"

namespace spanwright {
namespace {

using reference::expected;
using reference::number;
using reference::table;
using reference::withinRelative;

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// Certified values: NIST StRD, linear regression, data set Norris. What is lost of 15 digits is rounding of
// centred sums; the intercept is a difference of near-equal numbers, and R squared is 1 minus a small one.
TEST(FitDrift, MeetsCertifiedNorris) {
  const Segment norris = lineFrom("strd_norris.csv", "x", "y");
  ASSERT_EQ(norris.readings.size(), 36u);
  const auto fit = fitDrift({norris});
  ASSERT_TRUE(fit);
  EXPECT_TRUE(withinRelative(fit->rate, expected("strd_norris", "B1"), 1e-14));
  EXPECT_TRUE(withinRelative(fit->intercepts[0], expected("strd_norris", "B0"), 1e-12));
  EXPECT_TRUE(withinRelative(*fit->rateStandardError, expected("strd_norris", "sd_B1"), 1e-13));
  EXPECT_TRUE(withinRelative(fit->interceptStandardErrors[0], expected("strd_norris", "sd_B0"), 1e-13));
  EXPECT_TRUE(withinRelative(*fit->residualSd, expected("strd_norris", "residual_sd"), 1e-13));
  EXPECT_TRUE(withinRelative(*fit->rSquared, expected("strd_norris", "R_squared"), 1e-14));
  EXPECT_EQ(fit->degreesOfFreedom, 34);
  EXPECT_EQ(fit->readings, 36);
  for (const char* at : {"0.5", "500", "1200"}) {
    const Prediction seen = predict(*fit, number(at), 0.95);
    const std::string x = std::string("_at_x=") + at;
    EXPECT_TRUE(withinRelative(seen.value, expected("strd_norris", "fit" + x), 1e-12)) << at;
    EXPECT_TRUE(withinRelative(*seen.low, expected("strd_norris", "pred95_lo" + x), 1e-12)) << at;
    EXPECT_TRUE(withinRelative(*seen.high, expected("strd_norris", "pred95_hi" + x), 1e-12)) << at;
  }
}

// Pontius is certified for y = B0 + B1 x + B2 x^2. With the certified B1 x taken off, what is left is a
// straight line in x^2 with the same B0, B2 and residuals, because these are orthogonal to all three columns.
// x^2 reaches 9e12 while B2 is 3e-15. B1 has 15 digits and B1 x reaches 2.2, so B2 x^2 (at most 0.028) keeps
// 12 or 13, the residuals (2e-4) 11.
TEST(FitDrift, MeetsCertifiedPontiusAsALineInTheSquare) {
  const double b1 = expected("strd_pontius", "B1");
  Segment pontius;
  for (const auto& row : table("strd_pontius.csv")) {
    const double x = number(row.at("x"));
    pontius.readings.push_back({x * x, number(row.at("y")) - b1 * x, false});
  }
  ASSERT_EQ(pontius.readings.size(), 40u);
  const auto fit = fitDrift({pontius});
  ASSERT_TRUE(fit);
  EXPECT_TRUE(withinRelative(fit->rate, expected("strd_pontius", "B2"), 1e-12));
  EXPECT_TRUE(withinRelative(fit->intercepts[0], expected("strd_pontius", "B0"), 1e-11));
  const double rss = *fit->residualSd * *fit->residualSd * fit->degreesOfFreedom;
  EXPECT_TRUE(withinRelative(rss, expected("strd_pontius", "ss_residual"), 1e-10));
}

// NIST/SEMATECH e-Handbook 1.4.2.7. Printed figures are met to half a unit of their last digit, derived ones
// closely.
TEST(FitDrift, MeetsTheHandbooksResistor) {
  Segment byIndex;
  Segment byDay;
  const Date origin(1980, 1, 1);
  for (const auto& row : table("handbook_resistor_drift.csv")) {
    const Date day(static_cast<unsigned short>(number(row.at("year"))),
                   static_cast<unsigned short>(number(row.at("month"))),
                   static_cast<unsigned short>(number(row.at("day"))));
    const double ohm = number(row.at("resistance_ohm"));
    byIndex.readings.push_back({number(row.at("index")), ohm, false});
    byDay.readings.push_back({static_cast<double>((day - origin).days()), ohm, false});
  }
  const std::string name = "handbook_resistor_drift";
  const auto index = fitDrift({byIndex});
  ASSERT_TRUE(index);
  EXPECT_NEAR(index->intercepts[0], expected(name, "intercept (against run index 1..1000)"), 5e-5);
  EXPECT_NEAR(index->rate, expected(name, "slope per reading"), 5e-10);
  EXPECT_NEAR(index->interceptStandardErrors[0], expected(name, "s.e. intercept"), 5e-7);
  EXPECT_NEAR(*index->rateStandardError, expected(name, "s.e. slope"), 5e-10);
  EXPECT_NEAR(*index->residualSd, expected(name, "residual sd"), 5e-9);

  const auto days = fitDrift({byDay});
  ASSERT_TRUE(days);
  EXPECT_TRUE(withinRelative(
      days->rate, expected(name, "slope per day (against calendar days since 1980-01-01)"), 1e-11));
  EXPECT_TRUE(withinRelative(days->intercepts[0], expected(name, "intercept at 1980-01-01"), 1e-12));
  EXPECT_TRUE(withinRelative(*days->rateStandardError, expected(name, "s.e. slope per day"), 1e-11));
  EXPECT_TRUE(withinRelative(*days->residualSd, expected(name, "residual sd (calendar fit)"), 1e-11));
  const Prediction ahead = predict(*days, expected(name, "last day number") + 180.0);
  EXPECT_TRUE(withinRelative(ahead.value, expected(name, "fit 180 days after the last reading"), 1e-12));
  EXPECT_TRUE(withinRelative(*ahead.low, expected(name, "95 % prediction lower, same day"), 1e-12));
  EXPECT_TRUE(withinRelative(*ahead.high, expected(name, "95 % prediction upper, same day"), 1e-12));
}

// JCGM 100:2008 H.3: a thermometer's correction against temperature, told from 20 degC as there. Printed
// figures are met to half a unit of their last digit.
TEST(FitDrift, MeetsTheGumsCalibrationLine) {
  const std::string name = "gum_h3";
  Segment line;
  for (const auto& row : table("gum_h3_data.csv")) {
    line.readings.push_back({number(row.at("t_degC")) - 20.0, number(row.at("b_degC")), false});
  }
  const auto fit = fitDrift({line});
  ASSERT_TRUE(fit);
  EXPECT_NEAR(fit->intercepts[0], expected(name, "y1 (intercept at t0=20 degC)"), 5e-5);
  EXPECT_NEAR(fit->rate, expected(name, "y2 (slope)"), 5e-6);
  EXPECT_NEAR(fit->interceptStandardErrors[0], expected(name, "s(y1)"), 5e-5);
  EXPECT_NEAR(*fit->rateStandardError, expected(name, "s(y2)"), 5e-6);
  EXPECT_NEAR(*fit->residualSd, expected(name, "s"), 5e-5);
  EXPECT_EQ(fit->degreesOfFreedom, expected(name, "dof"));
  for (std::size_t i = 0; i < line.readings.size(); ++i) {
    const std::string k = std::to_string(i + 1);
    const double value = predict(*fit, line.readings[i].time).value;
    EXPECT_NEAR(value, expected(name, "predicted b(t_" + k + ")"), 5e-5);
    EXPECT_NEAR(line.readings[i].error - value, expected(name, "residual_" + k), 5e-5);
  }
  const Prediction at30 = predict(*fit, 10.0, 0.95);
  EXPECT_NEAR(at30.value, expected(name, "b(30 degC)"), 5e-5);
  // The table's t factor is short by 2.5e-11: the closed form for nine degrees of freedom
  // gives 2.26215716279820.
  EXPECT_TRUE(withinRelative(
      *at30.high - at30.value,
      expected(name, "half-width of 95 % prediction interval for a single new correction at 30 degC"),
      3e-11));
  // The budget of that correction (budgets/gum_h3.toml) begins with these figures to their last digit.
  EXPECT_TRUE(withinRelative(fit->intercepts[0], -0.17120379013135, 1e-12));
  EXPECT_TRUE(withinRelative(fit->interceptStandardErrors[0], 0.00287759783515995, 1e-12));
  EXPECT_TRUE(withinRelative(fit->rate, 0.00218269773988728, 1e-12));
  EXPECT_TRUE(withinRelative(*fit->rateStandardError, 0.000667938773227831, 1e-12));
}

// 60 random histories against numpy.linalg.lstsq and scipy.stats.t
// (tests/reference/statistics/make_drift_fits.py).
TEST(FitDrift, AgreesWithFullDesignMatrixLeastSquares) {
  std::map<int, std::vector<Segment>> histories;
  for (const auto& row : table("drift_fits_readings.csv")) {
    auto& segments = histories[static_cast<int>(number(row.at("case")))];
    const auto at = static_cast<std::size_t>(number(row.at("segment")));
    if (segments.size() <= at)
      segments.resize(at + 1);
    segments[at].readings.push_back({number(row.at("time")), number(row.at("error")), false});
  }
  std::map<int, std::map<std::string, double>> results;
  for (const auto& row : table("drift_fits.csv")) {
    results[static_cast<int>(number(row.at("case")))][row.at("quantity")] = number(row.at("value"));
  }
  ASSERT_EQ(histories.size(), 60u);
  int compared = 0;
  for (const auto& [which, want] : results) {
    const auto fit = fitDrift(histories.at(which));
    ASSERT_TRUE(fit) << which;
    std::map<std::string, double> got{{"rate", fit->rate},
                                      {"degrees_of_freedom", fit->degreesOfFreedom},
                                      {"at", want.at("at")},
                                      {"confidence", want.at("confidence")}};
    const Prediction ahead = predict(*fit, want.at("at"), want.at("confidence"));
    got["value"] = ahead.value;
    if (fit->robustRate)
      got["robust_rate"] = *fit->robustRate;
    if (fit->rSquared)
      got["r_squared"] = *fit->rSquared;
    if (fit->residualSd)
      got["residual_sd"] = *fit->residualSd;
    if (fit->rateStandardError)
      got["rate_standard_error"] = *fit->rateStandardError;
    if (ahead.low)
      got["low"] = *ahead.low;
    if (ahead.high)
      got["high"] = *ahead.high;
    if (const auto limits = rateLimits(*fit, want.at("confidence"))) {
      got["rate_low"] = limits->low;
      got["rate_high"] = limits->high;
    }
    for (std::size_t s = 0; s < fit->intercepts.size(); ++s) {
      got["intercept_" + std::to_string(s)] = fit->intercepts[s];
      if (!fit->interceptStandardErrors.empty()) {
        got["intercept_standard_error_" + std::to_string(s)] = fit->interceptStandardErrors[s];
      }
    }
    ASSERT_EQ(got.size(), want.size()) << "case " << which;
    for (const auto& [quantity, value] : want) {
      ASSERT_TRUE(got.contains(quantity)) << which << " " << quantity;
      // With no degrees of freedom the residuals are zero and R squared is one but for rounding, which is not
      // relative.
      EXPECT_TRUE(withinRelative(got.at(quantity), value, 1e-9)) << "case " << which << ", " << quantity;
      ++compared;
    }
  }
  EXPECT_GT(compared, 1000);
}

// ---- properties

TEST(FitDrift, ShiftingTheOriginsMovesOnlyIntercepts) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  for (int round = 0; round < 200; ++round) {
    const auto segments = randomHistory(random, 3, 2, 6);
    auto moved = segments;
    for (Segment& segment : moved) {
      for (DriftReading& reading : segment.readings) {
        reading.time += 512.0;
        reading.error += 64.0;
      }
    }
    const auto a = fitDrift(segments);
    const auto b = fitDrift(moved);
    ASSERT_TRUE(a && b);
    EXPECT_NEAR(a->rate, b->rate, 1e-10);
    EXPECT_NEAR(*a->residualSd, *b->residualSd, 1e-10);
    EXPECT_NEAR(*a->rateStandardError, *b->rateStandardError, 1e-10);
    EXPECT_NEAR(*a->robustRate, *b->robustRate, 1e-10);
    EXPECT_EQ(a->degreesOfFreedom, b->degreesOfFreedom);
    for (std::size_t s = 0; s < a->intercepts.size(); ++s) {
      EXPECT_NEAR(b->intercepts[s], a->intercepts[s] + 64.0 - a->rate * 512.0, 1e-8);
    }
    EXPECT_NEAR(*predict(*a, 20.0).high + 64.0, *predict(*b, 532.0).high, 1e-9);
  }
}

// An adjustment adds a constant: it must move the intercept, never the rate.
TEST(FitDrift, AnAddedConstantAfterABreakKeepsTheRate) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  for (int round = 0; round < 200; ++round) {
    const auto segments = randomHistory(random, 3, 3, 6);
    auto adjusted = segments;
    for (DriftReading& reading : adjusted[1].readings)
      reading.error -= 0.75;
    for (DriftReading& reading : adjusted[2].readings)
      reading.error += 3.5;
    const auto a = fitDrift(segments);
    const auto b = fitDrift(adjusted);
    EXPECT_NEAR(a->rate, b->rate, 1e-12);
    EXPECT_NEAR(*a->rateStandardError, *b->rateStandardError, 1e-12);
    EXPECT_NEAR(*a->robustRate, *b->robustRate, 1e-12);
    EXPECT_NEAR(b->intercepts[0], a->intercepts[0], 1e-11);
    EXPECT_NEAR(b->intercepts[1], a->intercepts[1] - 0.75, 1e-11);
    EXPECT_NEAR(b->intercepts[2], a->intercepts[2] + 3.5, 1e-11);
  }
  // A line cut in two with a constant added to the second half keeps exactly its rate; joined, it would not.
  const auto cut = fitDrift({line({{0, 0}, {1, 0.1}, {2, 0.2}}), line({{3, -0.7}, {4, -0.6}, {5, -0.5}})});
  EXPECT_NEAR(cut->rate, 0.1, 1e-15);
  const auto joined = fitDrift({line({{0, 0}, {1, 0.1}, {2, 0.2}, {3, -0.7}, {4, -0.6}, {5, -0.5}})});
  EXPECT_LT(joined->rate, 0.0);
}

TEST(Predict, BandWidensWithTimeAndConfidence) {
  std::mt19937 random(3);
  const auto fit = fitDrift(randomHistory(random, 2, 4, 4));
  double before = 0.0;
  for (int quarter = 0; quarter < 80; ++quarter) {
    const double time = fit->lastMeanTime + 0.25 * quarter;
    const Prediction seen = predict(*fit, time);
    const double width = *seen.high - *seen.low;
    EXPECT_GT(width, before);
    EXPECT_NEAR((*seen.high + *seen.low) / 2.0, seen.value, 1e-12);
    EXPECT_GT(*predict(*fit, time, 0.99).high, *seen.high);
    before = width;
  }
}

// The bound is 4.5 standard deviations of a binomial count: about one run in 150 000 fails by chance, were
// the seed free.
TEST(Predict, CoversTheNextReadingAsOftenAsItSays) {
  std::mt19937 random(20260301);
  std::normal_distribution<double> noise(0.0, 0.3);
  const int rounds = 20000;
  for (const double confidence : {0.8, 0.95}) {
    int inBand = 0;
    int rateInLimits = 0;
    for (int round = 0; round < rounds; ++round) {
      // Yearly visits, two adjustments, seven readings: three degrees of freedom, as short as real histories
      // are.
      const double rate = 0.4;
      std::vector<Segment> segments;
      double level = 0.0;
      for (const auto& years : {std::vector<double>{0, 1, 2}, {2, 3}, {3, 4}}) {
        Segment segment;
        level = noise(random) * 10.0;
        for (const double year : years)
          segment.readings.push_back({year, level + rate * year + noise(random), false});
        segments.push_back(segment);
      }
      const auto fit = fitDrift(segments);
      const Prediction next = predict(*fit, 5.0, confidence);
      const double actual = level + rate * 5.0 + noise(random);
      inBand += actual >= *next.low && actual <= *next.high ? 1 : 0;
      const auto limits = rateLimits(*fit, confidence);
      rateInLimits += rate >= limits->low && rate <= limits->high ? 1 : 0;
    }
    const double bound = 4.5 * std::sqrt(confidence * (1.0 - confidence) / rounds);
    EXPECT_NEAR(static_cast<double>(inBand) / rounds, confidence, bound);
    EXPECT_NEAR(static_cast<double>(rateInLimits) / rounds, confidence, bound);
  }
}

// ---- what has no fit

TEST(FitDrift, RefusesWhatTellsNoRate) {
  const double nan = std::nan("");
  EXPECT_FALSE(fitDrift({}));
  EXPECT_FALSE(fitDrift({Segment{}}));
  EXPECT_FALSE(fitDrift({line({{1, 2}})}));
  EXPECT_FALSE(fitDrift({line({{1, 2}, {1, 3}, {1, 4}})}));
  EXPECT_FALSE(fitDrift({line({{1, 2}}), line({{2, 3}}), line({{3, 4}})}));
  EXPECT_FALSE(fitDrift({line({{1, 2}, {2, nan}, {3, 4}})}));
  EXPECT_FALSE(fitDrift({line({{1, 2}, {nan, 3}, {3, 4}})}));
  EXPECT_FALSE(fitDrift({line({{1, 2}, {2, kInfinity}})}));
  EXPECT_FALSE(fitDrift({line({{0, 1}, {1e-200, 2}})})) << "times whose difference cannot be squared";
  EXPECT_FALSE(fitDrift({line({{0, -1e200}, {1, 1e200}, {2, 0}})})) << "errors too large to be squared";
  EXPECT_FALSE(fitDrift({Segment{}, line({{0, 1}, {1, 2}})})) << "a segment without readings";
}

TEST(FitDrift, WithoutDegreesOfFreedomThereIsARateButNoScatter) {
  const auto fit = fitDrift({line({{0, 1}, {2, 2}}), line({{3, 0}})});
  ASSERT_TRUE(fit);
  EXPECT_DOUBLE_EQ(fit->rate, 0.5);
  EXPECT_EQ(fit->degreesOfFreedom, 0);
  EXPECT_FALSE(fit->residualSd);
  EXPECT_FALSE(fit->rateStandardError);
  EXPECT_TRUE(fit->interceptStandardErrors.empty());
  EXPECT_FALSE(rateLimits(*fit));
  const Prediction ahead = predict(*fit, 5.0);
  EXPECT_DOUBLE_EQ(ahead.value, 1.0);
  EXPECT_FALSE(ahead.low);
  EXPECT_FALSE(ahead.high);
}

TEST(FitDrift, AnUnchangedReadingHasRateZeroAndNoRSquared) {
  const auto fit = fitDrift({line({{0, 0.5}, {1, 0.5}, {2, 0.5}})});
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->rate, 0.0);
  EXPECT_EQ(*fit->residualSd, 0.0);
  EXPECT_FALSE(fit->rSquared);
}

}  // namespace
}  // namespace spanwright
