// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/uncertainty.h"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace spanwright {
namespace {

void requireUsable(const BudgetLine& line) {
  if (!std::isfinite(line.standardUncertainty) || line.standardUncertainty < 0.0) {
    throw std::invalid_argument("budget line \"" + line.name +
                                "\": the standard uncertainty must be finite and not negative");
  }
  if (!std::isfinite(line.sensitivity)) {
    throw std::invalid_argument("budget line \"" + line.name + "\": the sensitivity must be finite");
  }
  if (!(line.degreesOfFreedom > 0.0)) {
    throw std::invalid_argument("budget line \"" + line.name +
                                "\": the degrees of freedom must be above zero");
  }
}

/// Two-sided coverage of k = 2 under a normal distribution, erf(2/sqrt 2) = 0.95449973...; the GUM rounds it
/// to 95.45 % and its Table G.2 is computed at it.
double upperTail() {
  return std::erfc(std::sqrt(2.0)) / 2.0;
}

}  // namespace

double coverageFactor(double degreesOfFreedom) {
  using boost::math::complement;
  using boost::math::quantile;
  if (!(degreesOfFreedom > 0.0)) {
    throw std::invalid_argument("the degrees of freedom must be above zero");
  }
  // Above this the t quantile equals the normal one to all digits a double has.
  if (degreesOfFreedom > 1e16) {
    return quantile(complement(boost::math::normal_distribution<double>(), upperTail()));
  }
  return quantile(complement(boost::math::students_t_distribution<double>(degreesOfFreedom), upperTail()));
}

Budget combine(std::vector<BudgetLine> lines) {
  Budget budget;
  budget.lines = std::move(lines);
  double combined = 0.0;
  for (const BudgetLine& line : budget.lines) {
    requireUsable(line);
    combined = std::hypot(combined, line.standardUncertainty * line.sensitivity);
  }
  if (!(combined > 0.0) || !std::isfinite(combined)) {
    throw std::invalid_argument("an uncertainty budget needs a line with a contribution above zero");
  }
  budget.combined = combined;
  // Shares of the whole instead of fourth powers, which would run out of a double's range.
  double inverse = 0.0;
  for (const BudgetLine& line : budget.lines) {
    const double share = line.standardUncertainty * line.sensitivity / combined;
    inverse += share * share * share * share / line.degreesOfFreedom;
  }
  budget.degreesOfFreedom = inverse > 0.0 ? 1.0 / inverse : std::numeric_limits<double>::infinity();
  budget.coverageFactor = coverageFactor(budget.degreesOfFreedom);
  budget.expanded = budget.coverageFactor * budget.combined;
  return budget;
}

double rectangular(double halfWidth) {
  return std::abs(halfWidth) / std::sqrt(3.0);
}

double resolutionUncertainty(double step) {
  return std::abs(step) / std::sqrt(12.0);
}

}  // namespace spanwright
