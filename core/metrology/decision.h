// SPDX-License-Identifier: GPL-3.0-or-later
//
// Decision rules: from an error, its limits and its uncertainty to an answer. ILAC-G8:09/2019 (clause 4, read
// in public summaries) and JCGM 106:2012 clause 8. All in one unit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/metrology/risk.h"
#include "core/metrology/tolerance.h"

namespace spanwright {

/// How far inside its limits an error must lie to be accepted.
enum class GuardBasis {
  none,          ///< simple acceptance, shared risk: w = 0 (ILAC-G8 4.2.1, JCGM 106 8.2)
  factor,        ///< w = r x U (ILAC-G8 4.2.2; JCGM 106 8.3)
  width,         ///< w as given
  specificRisk,  ///< at the acceptance limit the risk of accepting what is outside is as given (JCGM 106 9.3)
  globalRisk,    ///< over the population no more than given is accepted and outside (JCGM 106 9.5)
  anyPopulation  ///< the same for whatever spread the subjects have, centred between two limits
};

/// A rule as data, as a plan keeps it.
struct DecisionRule {
  GuardBasis basis = GuardBasis::none;
  double factor = 1.0;  ///< r; below 0 accepts beyond the limits (JCGM 106 8.3.3, guarded rejection)
  double width = 0.0;   ///< w
  double falseAcceptLimit = 0.02;  ///< 2 %: the usual limit (common practice; ANSI/NCSL Z540.3-2006 5.3)
  std::optional<Population> population{};  ///< needed for globalRisk only
};

enum class GuardState {
  found,
  acceptsNothing,  ///< the guard bands of the two sides meet
  outOfReach       ///< even in the middle of the limits the risk is above the one allowed
};
std::string_view text(GuardState state);

struct Guard {
  double width = 0.0;  ///< w; half the distance of the limits when out of reach
  ErrorLimits
      acceptance;  ///< limits drawn in by w; an open side stays open; high not above low accepts nothing
  GuardState state = GuardState::found;
};

/// What makes a rule unusable, or nothing: a factor or width that is not finite, a false-accept limit that is
/// not between 0 and 0.5, no population or a bad one for globalRisk, anyPopulation without two finite limits.
std::optional<std::string> ruleFault(const DecisionRule& rule, const ErrorLimits& limits);

/// The guard band of `rule`. U is `expanded`, u is `standard`. By risk it is the narrowest band that keeps
/// the limit, 0 when none is needed. Throws std::invalid_argument for a riskFault or ruleFault, or an
/// expanded uncertainty that is not finite and above 0.
Guard guardFor(const DecisionRule& rule, const ErrorLimits& limits, double standardUncertainty,
               double expandedUncertainty);

/// Four answers (ILAC-G8 4.2.3), with |w| on either side of the limits; with w = 0 the two in the middle do
/// not occur.
enum class Decision {
  pass,             ///< inside the limits by the guard band or more
  conditionalPass,  ///< inside the limits, nearer to one than the guard band
  conditionalFail,  ///< outside the limits by no more than the guard band
  fail              ///< further outside
};
std::string_view text(Decision decision);  // "pass", "conditional_pass", "conditional_fail", "fail"

/// On a limit counts as inside; differences of less than 1e-12 of the numbers involved are rounding.
Decision decide(const ErrorLimits& limits, const Guard& guard, double error);

/// Accepted by a rule with two answers: inside the acceptance limits. With w below 0 that is also what fails
/// conditionally.
bool accepted(const Guard& guard, double error);

/// Test uncertainty ratio: half the distance of the limits over U, or for one limit its distance from 0 over
/// U. Nothing when it is 0 or no double holds it. With U = 2 u the same as the index C_m of JCGM 106 7.6.
std::optional<double> testUncertaintyRatio(const ErrorLimits& limits, double expandedUncertainty);

/// The factor r of U (k = 2) that keeps false acceptance of symmetric limits at or below 2 % for any spread
/// of the subjects: 1.04 - exp(0.38 ln(ratio) - 0.54); below 0 from a ratio of about 4.6, where none is
/// needed. A published fit to the 2 % requirement of ANSI/NCSL Z540.3-2006, from memory. `ratio` is above 0
/// (asserted).
double twoPercentFactor(double ratio);

}  // namespace spanwright
