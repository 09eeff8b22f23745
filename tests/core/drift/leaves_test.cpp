// SPDX-License-Identifier: GPL-3.0-or-later
//
// lineLeaves and bandLeaves of core/drift/band.h.
#include <gtest/gtest.h>

#include <limits>
#include <random>

#include "core/drift/fit.h"
#include "tests/core/drift/histories.h"

namespace spanwright {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// ---- when limits are left, against looking at every day in turn

constexpr double kDay = 1.0 / 365.25;

TEST(Leaves, AgreeWithLookingDayByDay) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> limit(0.05, 4.0);
  int left = 0;
  for (int round = 0; round < 300; ++round) {
    auto segments = randomHistory(random, 1 + static_cast<int>(random() % 3), 2, 5);
    if (random() % 2 == 0) {
      for (Segment& segment : segments) {
        for (DriftReading& reading : segment.readings)
          reading.error = -reading.error;
      }
    }
    const auto fit = fitDrift(segments);
    ASSERT_TRUE(fit);
    const double low = fit->lastMeanError - limit(random);
    const double high = fit->lastMeanError + limit(random);
    const double from = segments.back().readings.back().time;
    const double until = from + 10.0;
    std::optional<double> lineDay;
    std::optional<double> bandDay;
    for (int day = 0; from + day * kDay < until; ++day) {
      const Prediction seen = predict(*fit, from + day * kDay);
      if (!lineDay && (seen.value < low || seen.value > high))
        lineDay = day;
      if (!bandDay && seen.low && (*seen.low < low || *seen.high > high))
        bandDay = day;
    }
    const auto lineAt = lineLeaves(bandOf(*fit), low, high, from, until);
    const auto bandAt = bandLeaves(bandOf(*fit), low, high, from, until);
    const auto agrees = [&](const std::optional<double>& at, const std::optional<double>& day) {
      if (!day) {
        EXPECT_TRUE(!at || *at > until - kDay);
        return;
      }
      ++left;
      ASSERT_TRUE(at);
      const double crossed = (*at - from) / kDay;
      EXPECT_LE(crossed, *day + 1e-9);
      EXPECT_GE(crossed, *day - 1.0 - 1e-9);
      if (*day == 0.0) {
        EXPECT_EQ(*at, from);
      }
    };
    agrees(lineAt, lineDay);
    agrees(bandAt, bandDay);
    if (lineAt && bandAt) {
      EXPECT_LE(*bandAt, *lineAt);  // the band never stays inside longer than its own line
    }
  }
  EXPECT_GT(left, 100);
}

TEST(Leaves, Table) {
  // Rate 1 per year through 0 at time 0, no scatter: the band is the line.
  const auto rising = fitDrift({line({{-2, -2}, {-1, -1}, {0, 0}})});
  const auto falling = fitDrift({line({{-2, 2}, {-1, 1}, {0, 0}})});
  const auto level = fitDrift({line({{-2, 1}, {-1, 1}, {0, 1}})});
  const auto two = fitDrift({line({{-1, -1}, {0, 0}})});
  ASSERT_TRUE(rising && falling && level && two);
  struct Row {
    const char* name;
    const DriftFit* fit;
    double low, high, from, until;
    std::optional<double> line, band;
  };
  const Row rows[] = {
      {"rises through the upper limit", &*rising, -1, 2, 0, 10, 2.0, 2.0},
      {"falls through the lower limit", &*falling, -3, 9, 0, 10, 3.0, 3.0},
      {"outside at once", &*rising, -1, 2, 5, 10, 5.0, 5.0},
      {"not before the end", &*rising, -1, 2, 0, 2, std::nullopt, std::nullopt},
      {"no upper limit", &*rising, -1, kInfinity, 0, 10, std::nullopt, std::nullopt},
      {"no lower limit", &*falling, -kInfinity, 1, 0, 10, std::nullopt, std::nullopt},
      {"level, on the limit", &*level, -1, 1, 0, 10, std::nullopt, std::nullopt},
      {"on the limit and rising", &*rising, -1, 0, 0, 10, 0.0, 0.0},
      {"on the lower limit and rising away", &*rising, 0, 2, 0, 10, 2.0, 2.0},
      {"an empty time", &*rising, -1, 2, 5, 5, std::nullopt, std::nullopt},
      {"two readings have no band", &*two, -1, 2, 0, 10, 2.0, std::nullopt},
  };
  for (const Row& row : rows) {
    const auto agrees = [&](std::optional<double> got, std::optional<double> want, const char* what) {
      ASSERT_EQ(got.has_value(), want.has_value()) << row.name << ", " << what;
      if (want) {
        EXPECT_NEAR(*got, *want, 1e-9) << row.name << ", " << what;
      }
    };
    agrees(lineLeaves(bandOf(*row.fit), row.low, row.high, row.from, row.until), row.line, "line");
    agrees(bandLeaves(bandOf(*row.fit), row.low, row.high, row.from, row.until), row.band, "band");
  }
}

}  // namespace
}  // namespace spanwright
