// SPDX-License-Identifier: GPL-3.0-or-later
//
// How likely a judgement is wrong: JCGM 106:2012, clauses 7 and 9, annex A. Errors, limits and uncertainties
// in one unit. Uncertainties here are standard uncertainties; distributions are normal.
#pragma once

#include <optional>
#include <string>

#include "core/metrology/tolerance.h"

namespace spanwright {

/// The spread of true errors among the subjects that come to be judged (JCGM 106 clause 9.5.2, "process"):
/// normal with this mean and standard deviation.
struct Population {
  double mean = 0.0;
  double sd = 0.0;
};

/// What makes limits and a standard uncertainty unusable, or nothing: limits that are not in order, both
/// open, or not numbers; an uncertainty that is not finite and above 0. Equal limits are a tolerance of
/// nothing.
std::optional<std::string> riskFault(const ErrorLimits& limits, double standardUncertainty);
/// A mean that is not finite, a standard deviation that is not finite and above 0.
std::optional<std::string> populationFault(const Population& population);

// All below throw std::invalid_argument with the words of these two, or for an error that is not finite.

/// The probability that the true error lies within the limits (closed or not makes no difference) after
/// `error` was measured, when nothing was known before: Phi((high - e)/u) - Phi((low - e)/u) (JCGM
/// 106 7.3, 7.4).
double conformanceProbability(const ErrorLimits& limits, double error, double standardUncertainty);
/// One less that, exact also where it is tiny: the specific consumer's risk of accepting (JCGM 106 9.3.2).
double nonConformanceProbability(const ErrorLimits& limits, double error, double standardUncertainty);

/// Average risks over the population (JCGM 106 9.5, A.5), and where they come from.
struct GlobalRisk {
  double falseAccept = 0.0;  ///< accepted and outside: R_C, global consumer's risk
  double falseReject = 0.0;  ///< rejected and inside: R_P, global producer's risk
  double inTolerance = 0.0;  ///< truly inside
  /// Accepted, outside or not.
  double accepted() const { return inTolerance - falseReject + falseAccept; }
};

/// Over `limits` (what is right) and `acceptance` (what is accepted; either side may be open; high below low
/// accepts nothing). By Gauss-Kronrod quadrature between the places where the integrand bends; relative error
/// of each risk about 1e-11.
GlobalRisk globalRisk(const ErrorLimits& limits, const ErrorLimits& acceptance, const Population& population,
                      double standardUncertainty);

/// The largest globalRisk().falseAccept over all populations centred between two finite limits, whatever
/// their standard deviation, from the measurement's uncertainty over 1000 to the tolerance times 1000. For a
/// requirement that must hold although nobody knows how the subjects spread.
double worstFalseAccept(const ErrorLimits& limits, const ErrorLimits& acceptance, double standardUncertainty);

/// What is known of a subject's true error once it was measured and the population is taken as known before:
/// the product of two normal densities (Bayes' rule, JCGM 106 clause 6), their weighted mean and its standard
/// uncertainty. To be used with conformanceProbability.
struct Estimate {
  double error = 0.0;
  double standardUncertainty = 0.0;
};
Estimate estimateWithin(const Population& population, double error, double standardUncertainty);

}  // namespace spanwright
