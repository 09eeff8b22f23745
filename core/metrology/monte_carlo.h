// SPDX-License-Identifier: GPL-3.0-or-later
//
// Propagation of distributions by a Monte Carlo method, JCGM 101:2008, as a check of the GUM's answer.
#pragma once

#include <cstddef>
#include <cstdint>
#include <variant>

#include "core/metrology/budget_model.h"

namespace spanwright {

struct MonteCarloOptions {
  std::uint64_t seed = 1;
  int digits = 2;                          ///< significant digits of u(y) that matter, 1 to 4
  std::size_t maximumTrials = 10'000'000;  ///< at least 200 000; eight bytes of memory each
};

struct CoverageInterval {
  double low = 0.0;
  double high = 0.0;
};

struct MonteCarloResult {
  std::size_t trials = 0;
  /// Were mean, standard deviation and both ends of the interval steady to a fifth of `tolerance` (JCGM 101
  /// 8.2, twice the standard deviation of their averages) before maximumTrials?
  bool stabilised = false;
  double value = 0.0;                ///< average of the draws, 7.6
  double standardUncertainty = 0.0;  ///< their standard deviation, 7.6
  double probability = 0.0;          ///< of the intervals
  CoverageInterval symmetric;        ///< equal probability on both sides, 7.7
  CoverageInterval shortest;         ///< 5.3.4, 7.7
  double tolerance = 0.0;            ///< numerical tolerance delta of u(y), 7.9.2
  double differenceLow = 0.0;        ///< |y - U - low| of the symmetric interval, 8.1
  double differenceHigh = 0.0;       ///< |y + U - high|
  /// Both differences within `tolerance` (8.1) and the simulation steady.
  bool validated = false;
};

/// Numerical tolerance of a standard uncertainty (JCGM 101 7.9.2): written as c x 10^l with c a whole number
/// of `digits` digits, half of 10^l. Needs a positive number and at least one digit.
double numericalTolerance(double standardUncertainty, int digits);

/// Draws the inputs, evaluates the model and compares with `gum`, which must come from the same model.
/// Adaptive procedure of 7.9.4 in blocks of M = max(10 000, 100/(1 - p)) trials, with a tenth block at the
/// least: from two or three blocks alone a spread is not known (stricter than the text).
///
/// Distributions (6.4): `student`, and `normal` with finite degrees of freedom, as scaled and shifted t
/// (6.4.9); the others as named, with the stated standard uncertainty; correlated inputs as jointly normal
/// (6.4.8), whatever their degrees of freedom.
///
/// A BudgetFault for: t with two degrees of freedom or fewer (it has no standard deviation); a correlated
/// input that is neither normal nor t; a model without a value for a draw.
std::variant<MonteCarloResult, BudgetFault> monteCarlo(const BudgetModel& model,
                                                       const ModelFunction& function, const ModelBudget& gum,
                                                       const MonteCarloOptions& options = {});

}  // namespace spanwright
