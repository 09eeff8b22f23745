// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/straight_line.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace spanwright {
namespace {

double deviation(const std::vector<PlanePoint>& points, double at0, double slope) {
  double worst = 0.0;
  for (const PlanePoint& point : points) {
    worst = std::max(worst, std::abs(point.y - at0 - slope * point.x));
  }
  return worst;
}

// The deviation that the best of the lines parallel to a pair of points leaves: a slower road, over all
// pairs.
double bruteForce(const std::vector<PlanePoint>& points) {
  double best = std::numeric_limits<double>::infinity();
  for (const PlanePoint& a : points) {
    for (const PlanePoint& b : points) {
      if (a.x == b.x) {
        continue;
      }
      const double slope = (b.y - a.y) / (b.x - a.x);
      double low = std::numeric_limits<double>::infinity(), high = -low;
      for (const PlanePoint& point : points) {
        low = std::min(low, point.y - slope * point.x);
        high = std::max(high, point.y - slope * point.x);
      }
      best = std::min(best, (high - low) / 2.0);
    }
  }
  return best;
}

TEST(BestLine, OfAParabolaHalvesItsDeviation) {
  // y = x^2 on 0..1: the best line is x - 1/8, deviation 1/8 (by calculus; the points include 0, 1/2 and 1).
  std::vector<PlanePoint> points;
  for (int i = 0; i <= 10; ++i) {
    points.push_back({i / 10.0, i * i / 100.0});
  }
  const MinimaxLine line = bestLine(points);
  EXPECT_NEAR(line.slope, 1.0, 1e-14);
  EXPECT_NEAR(line.at0, -0.125, 1e-14);
  EXPECT_NEAR(line.deviation, 0.125, 1e-14);
}

TEST(BestLine, OnePlaceAndTwoPointsAndRepeats) {
  EXPECT_EQ(bestLine({{3.0, 2.0}}).deviation, 0.0);
  const MinimaxLine level = bestLine({{3.0, 2.0}, {3.0, 4.0}, {3.0, 2.5}});
  EXPECT_EQ(level.at0, 3.0);
  EXPECT_EQ(level.slope, 0.0);
  EXPECT_EQ(level.deviation, 1.0);
  EXPECT_NEAR(bestLine({{1000.0, 2.0}, {1001.0, 4.0}}).deviation, 0.0, 1e-12);
  // Up and down at either end: a line through the middles.
  const MinimaxLine repeats = bestLine({{0.0, 0.0}, {0.0, 2.0}, {10.0, 5.0}, {10.0, 7.0}});
  EXPECT_NEAR(repeats.deviation, 1.0, 1e-14);
  EXPECT_NEAR(repeats.at0, 1.0, 1e-14);
  EXPECT_NEAR(repeats.slope, 0.5, 1e-14);
}

TEST(BestLine, AgreesWithEveryPairOnRandomPoints) {
  constexpr unsigned kSeed = 20261125;
  std::mt19937 random(kSeed);
  std::normal_distribution<double> normal;
  for (int round = 0; round < 400; ++round) {
    std::vector<PlanePoint> points;
    const int count = 2 + static_cast<int>(random() % 20);
    for (int i = 0; i < count; ++i) {
      // Every other round on a grid, so that places repeat.
      const double x = normal(random) * 50.0;
      points.push_back({round % 2 == 0 ? x : std::round(x / 25.0), normal(random)});
    }
    points.push_back({points[0].x + 1.0, 0.0});
    const MinimaxLine line = bestLine(points);
    EXPECT_NEAR(line.deviation, bruteForce(points), 1e-12) << "seed " << kSeed << " round " << round;
    // The line does leave what it says.
    EXPECT_NEAR(deviation(points, line.at0, line.slope), line.deviation, 1e-11) << "round " << round;
  }
}

TEST(BestLineThrough, IsNoWorseThanAnyOtherSlope) {
  constexpr unsigned kSeed = 20261126;
  std::mt19937 random(kSeed);
  std::normal_distribution<double> normal;
  for (int round = 0; round < 200; ++round) {
    std::vector<PlanePoint> points{{-4.0, normal(random)}};
    for (int i = 0; i < 8; ++i) {
      points.push_back({-3.0 + i, normal(random)});
    }
    const MinimaxLine line = bestLineThrough(points[0], points);
    EXPECT_NEAR(line.at0 + line.slope * points[0].x, points[0].y, 1e-12);
    EXPECT_NEAR(deviation(points, line.at0, line.slope), line.deviation, 1e-12);
    double least = std::numeric_limits<double>::infinity();
    for (int i = -40000; i <= 40000; ++i) {
      const double slope = i * 1e-4;
      least = std::min(least, deviation(points, points[0].y - slope * points[0].x, slope));
    }
    EXPECT_LE(line.deviation, least + 1e-12) << "seed " << kSeed << " round " << round;
    EXPECT_GE(line.deviation, least - 8.0 * 1e-4) << "round " << round;
  }
}

}  // namespace
}  // namespace spanwright
