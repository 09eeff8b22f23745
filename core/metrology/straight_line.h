// SPDX-License-Identifier: GPL-3.0-or-later
//
// The straight line with the least largest deviation, exactly.
#pragma once

#include <vector>

namespace spanwright {

struct PlanePoint {
  double x = 0.0;
  double y = 0.0;
};

/// y = at0 + slope * x, and the largest |deviation| from it.
struct MinimaxLine {
  double at0 = 0.0;
  double slope = 0.0;
  double deviation = 0.0;
};

/// The line whose largest |y - line| is least (Chebyshev, "best straight line"): it runs parallel to an edge
/// of the convex hull, half way to the vertex furthest from that edge, so only the hull's edges are tried.
/// Exact but for rounding. Several points may share an x. One x only: the level half way between its
/// extremes. Needs at least one point, all finite (asserted).
MinimaxLine bestLine(const std::vector<PlanePoint>& points);

/// The same among lines through `through`: by symmetry the best line of the points and their mirror images
/// through it.
MinimaxLine bestLineThrough(PlanePoint through, const std::vector<PlanePoint>& points);

}  // namespace spanwright
