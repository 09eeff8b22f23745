// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/robust_rate.h"

#include <gtest/gtest.h>

#include <random>

#include "core/drift/fit.h"
#include "tests/core/drift/histories.h"

namespace spanwright {
namespace {

using reference::expected;

TEST(RobustRate, MeetsThePublishedExample) {
  const Segment published = lineFrom("theil_sen_1968.csv", "x", "y");
  EXPECT_DOUBLE_EQ(*robustRate({published}), expected("theil_sen_1968", "slope"));
  EXPECT_DOUBLE_EQ(*fitDrift({published})->robustRate, expected("theil_sen_1968", "slope"));
}

TEST(RobustRate, CountingAgreesWithSorting) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  for (int round = 0; round < 200; ++round) {
    std::vector<Segment> segments(1 + random() % 4);
    for (Segment& segment : segments) {
      const std::size_t count = 1 + random() % 40;
      for (std::size_t i = 0; i < count; ++i) {
        // Whole numbers make equal times, equal readings and equal slopes likely.
        segment.readings.push_back(
            {static_cast<double>(random() % 30), static_cast<double>(random() % 20), false});
      }
    }
    const auto sorted = robustRate(segments);
    const auto counted = robustRateByCounting(segments);
    ASSERT_EQ(sorted.has_value(), counted.has_value());
    if (sorted) {
      ASSERT_NEAR(*sorted, *counted, 1e-12) << "round " << round;
    }
  }
}

TEST(RobustRate, OneWildReadingDoesNotMoveIt) {
  Segment segment;
  for (int i = 0; i < 9; ++i)
    segment.readings.push_back({0.7 * i, 0.25 * 0.7 * i + (i == 4 ? 50.0 : 0.0), false});
  EXPECT_NEAR(*robustRate({segment}), 0.25, 1e-12);
}

TEST(RobustRate, FiveThousandReadingsTakeTheCountingWay) {
  std::mt19937 random(7);
  std::normal_distribution<double> noise(0.0, 0.01);
  Segment segment;
  for (int i = 0; i < 5000; ++i)
    segment.readings.push_back({i * 0.01, 3.0 + 0.125 * i * 0.01 + noise(random), false});
  EXPECT_NEAR(*robustRate({segment}), 0.125, 1e-4);
}

}  // namespace
}  // namespace spanwright
