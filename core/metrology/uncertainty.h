// SPDX-License-Identifier: GPL-3.0-or-later
//
// A measurement uncertainty budget, JCGM 100:2008 (GUM).
#pragma once

#include <limits>
#include <string>
#include <vector>

namespace spanwright {

struct BudgetLine {
  std::string name;
  double standardUncertainty = 0.0;  ///< in the input's own unit
  double sensitivity = 1.0;          ///< result unit per input unit
  double degreesOfFreedom = std::numeric_limits<double>::infinity();
};

struct Budget {
  std::vector<BudgetLine> lines;
  double combined = 0.0;          ///< root sum of squares (GUM 5.1.2), independent inputs
  double degreesOfFreedom = 0.0;  ///< Welch-Satterthwaite (GUM G.4.1), infinite when all lines are
  double coverageFactor = 0.0;    ///< coverageFactor(degreesOfFreedom)
  double expanded = 0.0;
};

/// The factor k for 95.45 % two-sided coverage: Student's t at the exact coverage of two standard deviations
/// of a normal distribution, erf(sqrt 2) = 0.95449973... (GUM G.6.4, Table G.2). Degrees of freedom are used
/// as they are, not cut to a whole number (GUM G.4.1 allows interpolation); infinite ones give 2 to within
/// rounding. std::invalid_argument unless above zero.
double coverageFactor(double degreesOfFreedom);

/// Combines the lines. Needs at least one line with a positive contribution; every uncertainty finite and not
/// negative, every sensitivity finite, all degrees of freedom above zero (std::invalid_argument naming the
/// line otherwise).
Budget combine(std::vector<BudgetLine> lines);

/// Half-width a of a rectangular distribution as standard uncertainty, a/sqrt(3) (GUM 4.3.7).
double rectangular(double halfWidth);
/// Standard uncertainty of reading to the nearest `step`: step/sqrt(12) (GUM F.2.2.1).
double resolutionUncertainty(double step);

}  // namespace spanwright
