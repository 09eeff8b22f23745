// SPDX-License-Identifier: GPL-3.0-or-later
//
// A step in the error between two visits that nobody wrote down: a knock, a loose terminal, an adjustment not
// recorded.
#pragma once

#include <optional>
#include <vector>

#include "core/drift/segments.h"

namespace spanwright {

/// What others say of the scatter of one reading: counts as `degreesOfFreedom` readings
/// (core/drift/like_subjects.h).
struct ScatterKnown {
  double variance = 0.0;
  double degreesOfFreedom = 0.0;
  double leastVariance = 0.0;  ///< what rounding leaves: the scatter is not taken below it
};

struct StepFound {
  double after = 0.0;   ///< years: the last reading before the step
  double before = 0.0;  ///< and the first one behind it
  double amount = 0.0;  ///< by how much the error jumped, by least squares
  double standardError = 0.0;
  /// How probable a step at least so clear, anywhere in the history, is when there is none.
  double pValue = 1.0;
  /// What scatter is left once the step is allowed for, and its degrees of freedom (0: none left).
  double residualVariance = 0.0;
  int degreesOfFreedom = 0;
};

/// The step between neighbouring readings of a segment that is most likely: with one more coefficient, a jump
/// there, least squares leave the smallest residual sum. For normal noise that is the largest likelihood
/// ratio, and it is the largest cumulative sum of standardised residuals, each sum over its own standard
/// deviation:
///     t_k = sum_{i > k} e_i / (s sqrt(sum_i h_ik^2)),
/// e the residuals of the line fit and h_k the step's indicator less what intercepts and rate can follow of
/// it (cumulative sum: E. S. Page, Biometrika 41 (1954) 100; with regression residuals: R. L. Brown, J.
/// Durbin, J. M. Evans, J. R. Stat. Soc. B 37 (1975) 149; both from memory). Here s^2 is what the step
/// leaves, together with what is known of the scatter, so t_k is Student's with N - S - 2 + d0 degrees of
/// freedom for each k, and the p-value is that of the largest |t_k| times the number of places looked at
/// (Bonferroni): the rate of false alarms is at most what it says, in short histories too. Its simulated
/// value is in the tests and in tests/bench/drift_bench. Nothing when no place tells, nothing is left to
/// compare with, or a number is not finite.
std::optional<StepFound> likeliestStep(const std::vector<Segment>& segments, const ScatterKnown& known = {});

}  // namespace spanwright
