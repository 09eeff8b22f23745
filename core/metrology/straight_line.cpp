// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/straight_line.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace spanwright {

namespace {

// Twice the signed area of a, b, c; above zero when they turn left.
double turn(const PlanePoint& a, const PlanePoint& b, const PlanePoint& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

// The lower (sign 1) or upper (sign -1) chain of the hull of points sorted by x, then y: for each x only the
// lowest or highest point counts.
std::vector<PlanePoint> chain(const std::vector<PlanePoint>& sorted, double sign) {
  std::vector<PlanePoint> hull;
  for (const PlanePoint& point : sorted) {
    if (!hull.empty() && hull.back().x == point.x) {
      if (sign * point.y >= sign * hull.back().y) {
        continue;
      }
      hull.pop_back();
    }
    while (hull.size() >= 2 && sign * turn(hull[hull.size() - 2], hull.back(), point) <= 0.0) {
      hull.pop_back();
    }
    hull.push_back(point);
  }
  return hull;
}

// Along a chain the distance from a line of given slope is convex (lower) or concave (upper), so its extreme
// is found by looking at every vertex; chains are short.
double extreme(const std::vector<PlanePoint>& hull, double slope, double sign) {
  double least = std::numeric_limits<double>::infinity();
  for (const PlanePoint& point : hull) {
    least = std::min(least, sign * (point.y - slope * point.x));
  }
  return sign * least;
}

}  // namespace

MinimaxLine bestLine(const std::vector<PlanePoint>& points) {
  assert(!points.empty());
  std::vector<PlanePoint> sorted = points;
  // Centred, so that a slope does not meet large x.
  double centre = 0.0;
  for (const PlanePoint& point : sorted) {
    assert(std::isfinite(point.x) && std::isfinite(point.y));
    centre += point.x / static_cast<double>(sorted.size());
  }
  for (PlanePoint& point : sorted) {
    point.x -= centre;
  }
  std::sort(sorted.begin(), sorted.end(),
            [](const PlanePoint& a, const PlanePoint& b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  const std::vector<PlanePoint> lower = chain(sorted, 1.0), upper = chain(sorted, -1.0);
  MinimaxLine best{0.0, 0.0, std::numeric_limits<double>::infinity()};
  const auto consider = [&](double slope) {
    const double low = extreme(lower, slope, 1.0), high = extreme(upper, slope, -1.0);
    if ((high - low) / 2.0 < best.deviation) {
      best = {(high + low) / 2.0 - slope * centre, slope, (high - low) / 2.0};
    }
  };
  if (lower.size() < 2) {
    consider(0.0);
  }
  for (const auto* hull : {&lower, &upper}) {
    for (std::size_t i = 1; i < hull->size(); ++i) {
      const PlanePoint &a = (*hull)[i - 1], &b = (*hull)[i];
      consider((b.y - a.y) / (b.x - a.x));
    }
  }
  return best;
}

MinimaxLine bestLineThrough(PlanePoint through, const std::vector<PlanePoint>& points) {
  std::vector<PlanePoint> both;
  both.reserve(points.size() * 2);
  for (const PlanePoint& point : points) {
    const double x = point.x - through.x, y = point.y - through.y;
    both.push_back({x, y});
    both.push_back({-x, -y});
  }
  MinimaxLine line = bestLine(both);
  line.at0 = through.y - line.slope * through.x;
  return line;
}

}  // namespace spanwright
