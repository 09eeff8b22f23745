// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/adjustment.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <stdexcept>

namespace spanwright {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
using Points = std::vector<AdjustmentPoint>;

const ReadingScale kLoop{4.0, 20.0, 0.0};

// Errors at 0, 25 .. 100 % of 4-20 mA, within plus or minus 0.1 mA.
Points fivePoints(const std::array<double, 5>& errors, ErrorLimits limits = {-0.1, 0.1}) {
  Points points;
  for (std::size_t i = 0; i < errors.size(); ++i) {
    const double expected = 4.0 + 4.0 * static_cast<double>(i);
    points.push_back({expected, expected + errors[i], limits, Direction::up});
  }
  return points;
}

double worstAfter(const Points& points, const ReadingScale& scale, double zero, double span) {
  double worst = 0.0;
  for (const AdjustmentPoint& point : points) {
    const double at = (point.reading - scale.low) / (scale.high - scale.low);
    const double error = point.reading + zero + span * at - point.expected;
    worst = std::max(worst, error > 0.0 ? error / point.limits.high : error / point.limits.low);
  }
  return worst;
}

TEST(Adjustment, TakesOutAZeroAndSpanError) {
  // 0.15 mA at the low end, 0.25 mA at the high end, straight between.
  const Points points = fivePoints({0.15, 0.175, 0.2, 0.225, 0.25});
  const AdvisedAdjustment found = adviseAdjustment(points, kLoop, 0.7);
  EXPECT_EQ(found.advice, AdjustmentAdvice::adjust);
  EXPECT_NEAR(found.worstNow, 2.5, 1e-9);
  EXPECT_NEAR(found.worstPredicted, 0.0, 1e-9);
  // The gain works on the reading, so that it is 16 mA over what 16.1 mA reads too much.
  EXPECT_NEAR(found.correction.span, -0.1 * 16.0 / 16.1, 1e-9);
  for (const double error : found.predictedErrors) {
    EXPECT_NEAR(error, 0.0, 1e-10);
  }
}

TEST(Adjustment, ZeroAloneGoesToTheMiddleOfAsymmetricLimits) {
  // One point read 0.05 and 0.25 high: between limits of -0.1 and +0.3 the least worst fraction t has
  // 0.05 + z = -0.1 t and 0.25 + z = 0.3 t: t = 0.5, z = -0.1.
  const Points points{{12.0, 12.05, {-0.1, 0.3}, Direction::up}, {12.0, 12.25, {-0.1, 0.3}, Direction::down}};
  const AdvisedAdjustment found = adviseAdjustment(points, kLoop, 0.1, TrimRange::zeroOnly());
  EXPECT_NEAR(found.correction.zero, -0.1, 1e-9);
  EXPECT_EQ(found.correction.span, 0.0);
  EXPECT_NEAR(found.worstExact, 0.5, 1e-9);
  EXPECT_NEAR(found.hysteresisFraction, 0.5, 1e-9);
  EXPECT_EQ(found.scatterFraction, 0.0);
  EXPECT_EQ(found.advice, AdjustmentAdvice::adjust);
}

TEST(Adjustment, LeavesTheSpanAloneWhenOnePlaceWasRead) {
  const AdvisedAdjustment found = adviseAdjustment({{12.0, 12.2, {-0.1, 0.1}, Direction::up}}, kLoop, 0.7);
  EXPECT_EQ(found.correction.span, 0.0);
  EXPECT_NEAR(found.correction.zero, -0.2, 1e-9);
  EXPECT_EQ(found.advice, AdjustmentAdvice::adjust);
  // 3 % of span apart: a line through both would swing by several mA at the ends.
  const AdvisedAdjustment near = adviseAdjustment(
      {{12.0, 12.3, {-0.1, 0.1}, Direction::up}, {12.5, 12.6, {-0.1, 0.1}, Direction::up}}, kLoop, 0.7);
  EXPECT_EQ(near.correction.span, 0.0);
  EXPECT_NEAR(near.correction.zero, -0.2, 1e-9);
}

TEST(Adjustment, LevelErrorsNeedNoSpan) {
  // The highest reading at the middle against both ends: half of it either way, without a slope.
  Points points = fivePoints({0.0, 0.0, 0.15, 0.0, 0.0});
  points.push_back({12.0, 12.05, {-0.1, 0.1}, Direction::down});
  const AdvisedAdjustment found = adviseAdjustment(points, kLoop, 0.7);
  EXPECT_NEAR(found.worstExact, 1.0 - 0.25, 1e-6);
  EXPECT_NEAR(found.correction.span, 0.0, 1e-6);
  EXPECT_NEAR(found.correction.zero, -0.075, 1e-6);
}

// Only too high counts, so that many corrections leave nothing; a fine walk over slopes, each with the
// highest zero that does, finds the one that moves the ends least.
TEST(Adjustment, OfEquallyGoodOnesMovesLeast) {
  constexpr unsigned kSeed = 20261130;
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> uniform(-0.5, 1.0);
  for (int round = 0; round < 60; ++round) {
    const Points points = fivePoints(
        {uniform(random), uniform(random), 1.0, uniform(random), uniform(random)}, {-kInfinite, 0.1});
    const AdvisedAdjustment found = adviseAdjustment(points, kLoop, 0.01);
    EXPECT_EQ(found.worstExact, 0.0) << "seed " << kSeed << " round " << round;
    const auto place = [](const AdjustmentPoint& point) { return (point.reading - 4.0) / 16.0; };
    const auto move = [&](double zero, double span) {
      return std::max(std::abs(zero + span * place(points.front())),
                      std::abs(zero + span * place(points.back())));
    };
    double least = kInfinite;
    for (int i = -20000; i <= 20000; ++i) {
      const double span = i * 1e-4;
      double zero = kInfinite;
      for (const AdjustmentPoint& point : points) {
        zero = std::min(zero, -(point.reading - point.expected) - span * place(point));
      }
      least = std::min(least, move(zero, span));
    }
    EXPECT_LE(move(found.correction.zero, found.correction.span), least + 1e-9) << "round " << round;
    EXPECT_GE(move(found.correction.zero, found.correction.span), least - 2e-4) << "round " << round;
  }
}

TEST(Adjustment, SaysWhenItIsNotWorthIt) {
  const AdvisedAdjustment inside = adviseAdjustment(fivePoints({0.05, 0.02, 0.0, 0.0, 0.0}), kLoop, 0.7);
  EXPECT_EQ(inside.advice, AdjustmentAdvice::notNeeded);
  EXPECT_EQ(inside.correction.zero, 0.0);
  EXPECT_NEAR(inside.worstPredicted, 0.5, 1e-9);

  // Balanced already: 0.08 both ways.
  const AdvisedAdjustment balanced = adviseAdjustment(fivePoints({0.08, 0.0, -0.08, 0.0, 0.08}), kLoop, 0.7);
  EXPECT_EQ(balanced.advice, AdjustmentAdvice::noGain);
  EXPECT_EQ(balanced.worstPredicted, balanced.worstNow);

  // The step of 0.1 mA lets no gain through: 0.08 at every point goes to 0 exactly, but shows as before.
  ReadingScale coarse = kLoop;
  coarse.step = 0.5;
  const Points between{{12.25, 12.5, {-0.3, 0.3}, Direction::up}, {8.25, 8.5, {-0.3, 0.3}, Direction::up}};
  const AdvisedAdjustment stepped = adviseAdjustment(between, coarse, 0.7);
  EXPECT_EQ(stepped.advice, AdjustmentAdvice::noGain);
  EXPECT_EQ(stepped.correction.zero, 0.0);

  // In tolerance; a repeat differs by 0.12 (0.6 of what the tolerance holds), adjusting would gain 0.2.
  Points noisy = fivePoints({0.08, 0.02, 0.02, 0.02, 0.02});
  noisy.push_back({4.0, 3.96, {-0.1, 0.1}, Direction::up});
  EXPECT_EQ(adviseAdjustment(noisy, kLoop, 0.7).advice, AdjustmentAdvice::withinScatter);
  // Out of tolerance a gain of 0.5, still less than the repeats differ by, is worth it.
  for (AdjustmentPoint& point : noisy) {
    point.reading += 0.03;
  }
  EXPECT_EQ(adviseAdjustment(noisy, kLoop, 0.7).advice, AdjustmentAdvice::adjust);
}

TEST(Adjustment, SaysWhenItCannotHelp) {
  const Points bent = fivePoints({0.0, 0.2, 0.3, 0.2, 0.0});
  const AdvisedAdjustment found = adviseAdjustment(bent, kLoop, 0.7);
  EXPECT_EQ(found.advice, AdjustmentAdvice::nonLinear);
  EXPECT_NEAR(found.worstPredicted, 1.5, 0.01);  // still the best there is, and offered
  EXPECT_LT(found.worstPredicted, found.worstNow);

  Points repeats = fivePoints({0.0, 0.0, 0.15, 0.0, 0.0});
  repeats.push_back({12.0, 11.9, {-0.1, 0.1}, Direction::up});
  const AdvisedAdjustment noisy = adviseAdjustment(repeats, kLoop, 0.7);
  EXPECT_EQ(noisy.advice, AdjustmentAdvice::notRepeatable);
  EXPECT_NEAR(noisy.scatterFraction, 1.25, 1e-9);

  repeats.back().direction = Direction::down;
  const AdvisedAdjustment oneSided = adviseAdjustment(repeats, kLoop, 0.7);
  EXPECT_EQ(oneSided.advice, AdjustmentAdvice::hysteresis);
  EXPECT_EQ(oneSided.scatterFraction, 0.0);

  TrimRange small{-0.05, 0.05, -0.05, 0.05};
  const AdvisedAdjustment limited =
      adviseAdjustment(fivePoints({0.2, 0.2, 0.2, 0.2, 0.2}), kLoop, 0.7, small);
  EXPECT_EQ(limited.advice, AdjustmentAdvice::beyondTrim);
  EXPECT_NEAR(limited.correction.zero, -0.05, 1e-9);
  // At the low end the reading of 4.2 mA already is 1/80 up the span: 0.05 mA of span takes off that much.
  EXPECT_NEAR(limited.worstPredicted, 1.5 - 0.5 / 80.0, 1e-9);

  ReadingScale coarse = kLoop;
  coarse.step = 1.0;
  const Points between{{4.5, 5.0, {-0.3, 0.3}, Direction::up}, {12.5, 13.0, {-0.3, 0.3}, Direction::up}};
  EXPECT_EQ(adviseAdjustment(between, coarse, 0.7).advice, AdjustmentAdvice::stepTooCoarse);
}

TEST(Adjustment, PredictsWholeSteps) {
  ReadingScale tenths{0.0, 400.0, 0.1};
  const Points points{{0.0, 1.3, {-1.0, 1.0}, Direction::up},
                      {200.0, 201.7, {-1.0, 1.0}, Direction::up},
                      {400.0, 402.2, {-1.0, 1.0}, Direction::up}};
  const AdvisedAdjustment found = adviseAdjustment(points, tenths, 0.7);
  EXPECT_EQ(found.advice, AdjustmentAdvice::adjust);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double reading = (points[i].expected + found.predictedErrors[i]) / 0.1;
    EXPECT_NEAR(reading, std::round(reading), 1e-6);
  }
}

TEST(Adjustment, OneSidedLimits) {
  // Only too high counts; what closes the low side is a limit of nothing.
  const Points open = fivePoints({0.2, 0.2, 0.2, 0.2, 0.2}, {-kInfinite, 0.1});
  EXPECT_EQ(adviseAdjustment(open, kLoop, 0.7).worstPredicted, 0.0);
  const Points closed = fivePoints({-0.05, 0.0, 0.0, 0.0, 0.05}, {0.0, 0.1});
  const AdvisedAdjustment found = adviseAdjustment(closed, kLoop, 0.7);
  EXPECT_TRUE(std::isinf(found.worstNow));
  EXPECT_EQ(found.advice, AdjustmentAdvice::adjust);
  EXPECT_TRUE(std::isfinite(found.worstPredicted));
  for (const double error : found.predictedErrors) {
    EXPECT_GE(error, -1e-10);
  }
}

// The least worst fraction by trying every corner of the program: any three of its planes.
double bruteForce(const Points& points, const ReadingScale& scale, const TrimRange& trim) {
  std::vector<std::array<double, 4>> planes;  // a zero + b span + c fraction = d
  for (const AdjustmentPoint& point : points) {
    const double at = (point.reading - scale.low) / (scale.high - scale.low);
    const double error = point.reading - point.expected;
    planes.push_back({1.0, at, -point.limits.high, -error});
    planes.push_back({1.0, at, -point.limits.low, -error});
  }
  for (const double bound : {trim.zeroLow, trim.zeroHigh}) {
    if (std::isfinite(bound)) {
      planes.push_back({1.0, 0.0, 0.0, bound});
    }
  }
  for (const double bound : {trim.spanLow, trim.spanHigh}) {
    if (std::isfinite(bound)) {
      planes.push_back({0.0, 1.0, 0.0, bound});
    }
  }
  double best = worstAfter(points, scale, 0.0, 0.0);
  const auto determinant = [](const std::array<double, 3>& a, const std::array<double, 3>& b,
                              const std::array<double, 3>& c) {
    return a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) +
           a[2] * (b[0] * c[1] - b[1] * c[0]);
  };
  for (std::size_t i = 0; i < planes.size(); ++i) {
    for (std::size_t j = i + 1; j < planes.size(); ++j) {
      for (std::size_t k = j + 1; k < planes.size(); ++k) {
        const auto with = [&](const std::array<double, 4>& p, int column) {
          std::array<double, 3> row{p[0], p[1], p[2]};
          if (column >= 0) {
            row[static_cast<std::size_t>(column)] = p[3];
          }
          return row;
        };
        const auto solved = [&](int column) {
          return determinant(with(planes[i], column), with(planes[j], column), with(planes[k], column));
        };
        const double whole = solved(-1);
        if (std::abs(whole) < 1e-9) {
          continue;
        }
        const double zero = solved(0) / whole, span = solved(1) / whole;
        constexpr double kRoom = 1e-9;
        if (zero >= trim.zeroLow - kRoom && zero <= trim.zeroHigh + kRoom && span >= trim.spanLow - kRoom &&
            span <= trim.spanHigh + kRoom) {
          best = std::min(best, worstAfter(points, scale, zero, span));
        }
      }
    }
  }
  return best;
}

TEST(Adjustment, IsTheBestOfAllCornersAndNeverMakesItWorse) {
  constexpr unsigned kSeed = 20261128;
  std::mt19937 random(kSeed);
  std::normal_distribution<double> normal;
  std::uniform_real_distribution<double> uniform;
  int helped = 0;
  for (int round = 0; round < 400; ++round) {
    const ReadingScale scale{round % 2 == 0 ? 0.0 : 20.0, round % 3 == 0 ? 4.0 : 100.0,
                             round % 4 == 0 ? 0.0 : 0.05 * uniform(random)};
    const double width = scale.high - scale.low;
    Points points;
    const int count = 2 + static_cast<int>(random() % 5);
    const double zero = normal(random), slope = normal(random);
    for (int i = 0; i < count; ++i) {
      const double at = i < 2 ? i * 0.9 : uniform(random);
      const double expected = scale.low + at * width;
      const ErrorLimits limits{-0.2 - uniform(random), 0.2 + uniform(random)};
      points.push_back({expected, expected + zero + slope * at + 0.4 * normal(random), limits,
                        round % 2 == 0 ? Direction::up : Direction::none});
    }
    TrimRange trim;
    if (round % 5 == 1) {
      trim = TrimRange::zeroOnly();
    } else if (round % 5 == 2) {
      trim = TrimRange::spanOnly();
    } else if (round % 5 == 3) {
      trim = {-uniform(random), uniform(random), -uniform(random), uniform(random)};
    }
    const AdvisedAdjustment found = adviseAdjustment(points, scale, 0.01, trim);
    const double best = bruteForce(points, scale, trim);
    EXPECT_NEAR(found.worstExact, best, 1e-7 * (1.0 + best)) << "seed " << kSeed << " round " << round;
    EXPECT_LE(found.worstPredicted, found.worstNow) << "seed " << kSeed << " round " << round;
    EXPECT_LE(found.worstExact, found.worstNow) << "seed " << kSeed << " round " << round;
    EXPECT_GE(found.correction.zero, trim.zeroLow - 1e-9);
    EXPECT_LE(found.correction.zero, trim.zeroHigh + 1e-9);
    EXPECT_GE(found.correction.span, trim.spanLow - 1e-9);
    EXPECT_LE(found.correction.span, trim.spanHigh + 1e-9);
    helped += found.worstPredicted < found.worstNow ? 1 : 0;
  }
  EXPECT_GT(helped, 300);
}

TEST(Adjustment, RefusesWhatIsNoInput) {
  const Points fine = fivePoints({0, 0, 0, 0, 0});
  EXPECT_FALSE(adjustmentFault(fine, kLoop, 0.7, {}));
  EXPECT_TRUE(adjustmentFault({}, kLoop, 0.7, {}));
  EXPECT_TRUE(adjustmentFault(fine, {4.0, 4.0, 0.0}, 0.7, {}));
  EXPECT_TRUE(adjustmentFault(fine, {4.0, kInfinite, 0.0}, 0.7, {}));
  EXPECT_TRUE(adjustmentFault(fine, {4.0, 20.0, -0.1}, 0.7, {}));
  EXPECT_TRUE(adjustmentFault(fine, kLoop, 0.0, {}));
  EXPECT_TRUE(adjustmentFault(fine, kLoop, std::nan(""), {}));
  EXPECT_TRUE(adjustmentFault(fine, kLoop, 0.7, {0.1, 0.2, 0.0, 0.0}));
  EXPECT_TRUE(adjustmentFault(fine, kLoop, 0.7, {.spanHigh = std::nan("")}));
  EXPECT_TRUE(adjustmentFault(fivePoints({0, std::nan(""), 0, 0, 0}), kLoop, 0.7, {}));
  EXPECT_TRUE(adjustmentFault(fivePoints({0, 0, 0, 0, 0}, {0.0, 0.0}), kLoop, 0.7, {}));
  EXPECT_TRUE(adjustmentFault(fivePoints({0, 0, 0, 0, 0}, {0.1, 0.2}), kLoop, 0.7, {}));
  EXPECT_THROW(adviseAdjustment({}, kLoop, 0.7), std::invalid_argument);
}

TEST(Adjustment, HasWordsForEveryAnswer) {
  for (int i = 0; i <= static_cast<int>(AdjustmentAdvice::nonLinear); ++i) {
    EXPECT_FALSE(text(static_cast<AdjustmentAdvice>(i)).empty());
    EXPECT_EQ(explain(static_cast<AdjustmentAdvice>(i)).back(), '.');
  }
}

}  // namespace
}  // namespace spanwright
