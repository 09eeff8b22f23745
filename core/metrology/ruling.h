// SPDX-License-Identifier: GPL-3.0-or-later
//
// A plan's decision rule applied to one reading: the verdict, the finer answer behind it, and why there is
// none.
#pragma once

#include <optional>
#include <string>

#include "core/metrology/decision.h"
#include "core/metrology/evaluate.h"

namespace spanwright {

/// The widest guard band a plan may ask for, in U: "six sigma", the last row of ILAC-G8:09/2019 Table 1.
inline constexpr double kWidestGuardFactor = 3.0;

/// What makes a rule unusable in a plan, or nothing. A plan serves readings of any unit, so its band is told
/// by U (a factor above 0, at most kWidestGuardFactor) or by a risk (above 0, below 0.5); a width or a
/// population in reading units has no place in it, nor a band outside the limits.
std::optional<std::string> planRuleFault(const DecisionRule& rule);

/// "simple acceptance", "guard band of 1 U", "guard band for at most 2 % false acceptance of the worst error
/// accepted", "... whatever the spread of the subjects".
std::string describe(const DecisionRule& rule);

/// A probability in %, six digits at most: "2", "0.135".
std::string percentText(double probability);

/// One reading as a rule sees it, all in one unit; k is the factor by which U was expanded.
struct RuledError {
  double error = 0.0;
  ErrorLimits limits;
  std::optional<double> expandedUncertainty;
  double coverageFactor = 2.0;
};

struct Ruling {
  Verdict verdict = Verdict::notJudged;  ///< fail also for what is inside the limits but not accepted
  std::optional<Decision> answer;        ///< nothing without an uncertainty under a guarded rule
  std::optional<Guard> guard;            ///< nothing likewise
  std::string reason;                    ///< why there is no answer, as a clause; else empty
};

/// `verdict` is the one by simple acceptance (see evaluatePoint, which knows limits that are themselves
/// outside); the one a ruling gave may be handed in again and gives the same ruling, so that it can be
/// recomputed from what a record holds.
///
/// Simple acceptance takes it over. A guarded rule accepts inside the limits by the guard band or more.
/// Without a usable uncertainty what is outside its limits fails all the same, since no guard band accepts
/// it; all else is not judged.
Ruling rulingOn(const DecisionRule& rule, const RuledError& reading, Verdict verdict);

/// testUncertaintyRatio, or nothing also where there is no usable uncertainty or limit.
std::optional<double> uncertaintyRatio(const RuledError& reading);

}  // namespace spanwright
