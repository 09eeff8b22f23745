// SPDX-License-Identifier: GPL-3.0-or-later
//
// From what calibrations found, in or out of tolerance, to how long subjects can be trusted: the exponential
// reliability model R(t) = exp(-rate t), "other statistical approaches" of ILAC-G24:2022 / OIML D 10:2022
// clause 6.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace spanwright {

/// One calibration: how long after the one before it, and what it found.
struct ToleranceOutcome {
  double intervalDays = 0.0;
  bool inTolerance = false;
};

enum class OutcomeMix {
  mixed,
  allIn,  ///< nothing failed yet: the rate has an upper limit only
  allOut  ///< nothing held: the rate has a lower limit only
};
std::string_view text(OutcomeMix mix);  // "mixed", "all_in", "all_out"

/// The rate of leaving tolerance, per day.
struct ReliabilityFit {
  OutcomeMix mix = OutcomeMix::mixed;
  std::optional<double> rate;               ///< 0 when all were in; nothing when all were out
  std::optional<double> rateLow, rateHigh;  ///< limits at the confidence; nothing on the open side
  double confidence = 0.0;
  int outcomes = 0;
  int out = 0;
};

/// What makes outcomes unusable, or nothing: none, an interval that is not finite and above 0, a confidence
/// that is not between 0 and 1.
std::optional<std::string> outcomesFault(const std::vector<ToleranceOutcome>& outcomes, double confidence);

/// Maximum likelihood at unequal intervals: when a subject left tolerance inside its interval is not known,
/// so the log-likelihood is sum over in (-rate t) + sum over out log(1 - exp(-rate t)). Limits where twice
/// the drop of the log-likelihood is the chi-square quantile of one degree of freedom (likelihood ratio,
/// two-sided). When all were in or all out there is no maximum inside; the one limit is then the exact
/// one-sided one: the rate at which what was seen has the probability 1 - confidence. Throws
/// std::invalid_argument with the words of outcomesFault.
ReliabilityFit fitReliability(const std::vector<ToleranceOutcome>& outcomes, double confidence = 0.95);

/// R(t): probability to be in tolerance after that many days.
double reliabilityAt(double rate, double days);

/// The interval at whose end the reliability is still `target` (above 0, below 1; asserted): -ln(target) /
/// rate. Nothing for a rate of 0 or one that is not known.
std::optional<double> intervalForTarget(std::optional<double> rate, double target);

/// The same from one observed pair, for R(t) = exp(-(t/scale)^shape): observedInterval x
/// (ln target / ln observedReliability)^(1/shape); shape 1 is the exponential model. Reliabilities between 0
/// and 1, interval and shape above 0 (asserted).
double intervalFromPair(double observedInterval, double observedReliability, double target,
                        double shape = 1.0);

}  // namespace spanwright
