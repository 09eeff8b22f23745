// SPDX-License-Identifier: GPL-3.0-or-later
//
// Small linear programs, solved exactly (no grid, no iteration towards a limit).
#pragma once

#include <optional>
#include <vector>

namespace spanwright {

/// sum coefficients[k] * x[k] <= bound
struct HalfSpace {
  std::vector<double> coefficients;
  double bound = 0.0;
};

struct VariableRange {
  double low = 0.0;
  double high = 0.0;
};

/// The x inside `box` and all `constraints` with the least objective . x, by adding one constraint after
/// another (R. Seidel, Small-dimensional linear programming and convex hulls made easy, 1991): when the best
/// point so far breaks the next constraint, the new best lies on it, which leaves a program with one variable
/// less. Meant for one to three variables and up to some thousand constraints. Nothing when no x fulfils all.
/// Where several x are best, one of them. Scale the variables to around 1: a constraint counts as kept when
/// broken by no more than 1e-12 of its largest coefficient. All numbers finite (asserted).
std::optional<std::vector<double>> leastOf(const std::vector<double>& objective,
                                           const std::vector<HalfSpace>& constraints,
                                           const std::vector<VariableRange>& box);

}  // namespace spanwright
