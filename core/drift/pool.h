// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rates of like subjects seen together: the group's mean and spread, and each rate drawn towards the mean by
// its own uncertainty (empirical Bayes with the spread between subjects by restricted maximum likelihood).
// Scatter likewise.
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
  std::vector<double> shrunkVariance;  ///< posterior variance of each
  double otherMean = 0.0;              ///< what the group says of a like subject of which no rate is known
  double otherVariance = 0.0;
};
/// With v the variance of an estimate and tau2 the variance between subjects, weights w = 1 / (v + tau2) give
/// the mean, with variance 1 / sum w. tau2 maximises the restricted likelihood
///     -1/2 (sum log (v + tau2) + log sum w + sum w (rate - mean)^2)
/// (as R's metafor::rma(method = "REML")); `mean`, `meanVariance` and `betweenVariance` are at that maximum.
/// Given tau2, a rate is drawn to mean + B' (rate - mean), B' = tau2 / (tau2 + v), with variance
/// B' v + (1 - B')^2 / sum w. Of a small group tau2 is poorly known, and bands that take its best value for
/// the truth are too narrow. So `shrunk`, `shrunkVariance` and those of another subject are the mean and
/// variance over the posterior of tau2: the restricted likelihood times a prior of tau that is flat up to
/// about A and falls beyond, 1 / (1 + tau^2 / A^2) (half-Cauchy; A. Gelman, Bayesian Analysis 1 (2006) 515,
/// from memory), A^2 ten times the harmonic mean of the v. Nothing for fewer than three estimates (the group
/// is too small to say anything), or when a variance is not positive or a number is not finite.
std::optional<PooledRates> poolRates(const std::vector<RateEstimate>& estimates);

struct ScatterEstimate {
  double variance = 0.0;  ///< residual variance, not negative
  int degreesOfFreedom = 0;
};
struct PooledScatter {
  double variance = 0.0;          ///< the group's, about which the subjects' own lie
  double degreesOfFreedom = 0.0;  ///< d0: what the group's counts beside a subject's own
  std::vector<double> shrunk;     ///< one per input: (d0 s0^2 + d s^2) / (d0 + d)
};
/// Few calibrations tell little about a subject's own scatter, so each is drawn towards the group's. Given
/// the group's s0^2 and d0, s^2 / s0^2 has the F distribution with d and d0 degrees of freedom (the inverse
/// chi^2 prior of G. K. Smyth, Stat. Appl. Genet. Mol. Biol. 3 (2004) 3). psi = sqrt(2 / d0) is about the
/// standard deviation of log variance between subjects; d0 = 2 / mean of psi^2 over its posterior, the
/// profile likelihood of all s^2 times exp(-psi^2 / (2 0.6^2)): instruments of one type scatter alike, within
/// a third or so (a choice, no source; it decides only in small groups). s0^2 is where the likelihood is
/// largest at that d0. An input without degrees of freedom takes the group's. Variances under a millionth of
/// the group's plain mean are raised to that, since their logarithm is none. Nothing for fewer than three
/// inputs with degrees of freedom, or when all are zero or one is not finite.
std::optional<PooledScatter> poolScatter(const std::vector<ScatterEstimate>& estimates);

}  // namespace spanwright
