// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rates of like subjects seen together: the group's mean and spread, and each rate drawn towards the mean by
// its own uncertainty (empirical Bayes, DerSimonian and Laird 1986 for the between-subject variance). Scatter
// likewise.
#pragma once

#include <optional>
#include <vector>

namespace spanwright {

struct RateEstimate {
  double rate = 0.0;
  double variance = 0.0;  ///< of the estimate, positive
};
struct PooledRates {
  double mean = 0.0;
  double meanVariance = 0.0;  ///< of the mean
  double betweenVariance = 0.0;
  std::vector<double> shrunk;          ///< one per input, same order
  std::vector<double> shrunkVariance;  ///< posterior variance of each, that of the mean included
};
/// With v the variance of an estimate and tau2 the variance between subjects, weights 1 / (v + tau2) give the
/// mean, and shrunk = mean + tau2 / (tau2 + v) (rate - mean). tau2 = max(0, (Q - (k - 1)) / (sum w - sum w^2
/// / sum w)), w = 1 / v, Q = sum w (rate - fixed mean)^2 (R. DerSimonian, N. Laird, Controlled Clinical
/// Trials 7 (1986) 177). Nothing for fewer than three estimates (the group is too small to say anything), or
/// when a variance is not positive or a number is not finite.
std::optional<PooledRates> poolRates(const std::vector<RateEstimate>& estimates);

struct ScatterEstimate {
  double variance = 0.0;  ///< residual variance, not negative
  int degreesOfFreedom = 0;
};
struct PooledScatter {
  double variance = 0.0;          ///< the group's, about which the subjects' own lie
  double degreesOfFreedom = 0.0;  ///< what the group's counts beside a subject's own; infinite: all alike
  std::vector<double> shrunk;     ///< one per input: (d0 s0^2 + d s^2) / (d0 + d)
};
/// Few calibrations tell little about a subject's own scatter, so each is drawn towards the group's. Group
/// variance and degrees of freedom by matching the moments of log s^2 (G. K. Smyth, Stat. Appl. Genet. Mol.
/// Biol. 3 (2004) 3, section 6.2; the moments checked against a public implementation). An input without
/// degrees of freedom takes the group's. Variances under a millionth of the group's plain mean are raised to
/// that, since their logarithm would decide alone. Nothing for fewer than three inputs with degrees of
/// freedom, or when all are zero or one is not finite.
std::optional<PooledScatter> poolScatter(const std::vector<ScatterEstimate>& estimates);

}  // namespace spanwright
