// SPDX-License-Identifier: GPL-3.0-or-later
//
// Does the rate of leaving tolerance change with age? The Weibull model R(t) = exp(-(t/scale)^shape) beside
// the exponential one, from failures known only to lie between two looks.
#pragma once

#include <optional>
#include <vector>

namespace spanwright {

/// Left tolerance after the first time and not later than the second; nothing: was still in at the first.
struct FailureWindow {
  double after = 0.0;           ///< not negative
  std::optional<double> until;  ///< above `after`
  int count = 1;                ///< how many such
};

struct WearFit {
  double scale = 0.0;          ///< in the windows' unit of time
  double shape = 0.0;          ///< above 1: failures grow with age
  double logLikelihood = 0.0;  ///< sum count ln(R(after) - R(until)), R of nothing being 0
  double constantRate = 0.0;   ///< of the exponential model
  double constantLogLikelihood = 0.0;
  double probability =
      1.0;  ///< of the likelihood ratio of the two, or a larger one, when the rate is constant
};

/// Maximum likelihood of both models (Meeker and Escobar, Statistical Methods for Reliability Data, chapter
/// 7, from memory; checked against published fits). Nothing when there is no maximum: no failure, all failed
/// from time 0, one age for all, or a shape that grows or falls without end (outside 0.05 to 50). Times are
/// asserted.
std::optional<WearFit> fitWear(const std::vector<FailureWindow>& windows);

}  // namespace spanwright
