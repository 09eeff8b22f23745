// SPDX-License-Identifier: GPL-3.0-or-later
//
// What interval a policy proposes, and on which evidence. Four policies: fixed; staircase, the method of
// automatic adjustment of ILAC-G24:2022 / OIML D 10:2022 clause 6 (method 1), whose step sizes that document
// leaves open; reliability target, one of its "other statistical approaches"; forecast of drift. Nothing here
// is in force until a person accepts it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/schedule/reliability.h"
#include "core/units/time.h"

namespace spanwright {

/// Within which a proposal stays, days; 0: no such limit. The upper one is not below the lower one.
struct IntervalLimits {
  int minimumDays = 0;
  int maximumDays = 0;
};

struct IntervalProposal {
  std::optional<int> days;  ///< nothing: nothing is proposed, and the evidence says why
  std::string evidence;     ///< in words and numbers, a sentence or more; limits that were applied are named
};

/// What a visit found: everything within the adjust limit; in tolerance, but beyond it; out of tolerance.
enum class FoundState { within, beyondAdjustLimit, out };

/// One visit that tells whether the interval before it was short enough.
struct IntervalOutcome {
  Date performed;
  double intervalDays = 0.0;  ///< since the passing as-left before it, above 0
  FoundState found = FoundState::within;
};

/// Stays at what holds now.
IntervalProposal proposeFixed(int nowDays, IntervalLimits limits);

struct StaircaseRule {
  double lengthen = 1.0;  ///< factor of a step up, above 1
  double shorten = 1.0;   ///< factor of a step down, between 0 and 1
};
/// One step from what holds now: up when the last visit found everything within the adjust limit, down when
/// it found something out of tolerance, none in between. `since`: visits after the interval in force began,
/// oldest first; one visit moves the interval once, so without any there is no step. Steps are rounded to
/// whole days towards the present interval. The limits win over the step.
IntervalProposal proposeStaircase(int nowDays, const std::vector<IntervalOutcome>& since,
                                  const StaircaseRule& rule, IntervalLimits limits);

struct ReliabilityRule {
  double target = 0.9;  ///< probability to be found in tolerance at the end of the interval
  double confidence = 0.95;
  int leastOutcomes = 10;
};
/// A group of like subjects as one of them sees it.
struct OutcomeGroup {
  std::string name;                      ///< for people: "channel, thermocouple-input, plan TC-5"
  int subjects = 0;                      ///< with an outcome, the one that asks included
  std::vector<ToleranceOutcome> own;     ///< of the subject that asks
  std::vector<ToleranceOutcome> others;  ///< of the rest of the group
};
/// The interval at whose end the group is still found in tolerance with the target's probability (exponential
/// model, fitReliability over own and others together). All in tolerance: there is no estimate, and the
/// shortest interval that the confidence allows is taken. All out: the lower limit, or a day. With fewer
/// outcomes than the rule asks for nothing is proposed. A subject whose own outcomes are worse than the
/// others' rate explains (misfit below kMisfitLevel) is judged by its own outcomes instead, when that is
/// shorter. Where the outcomes tell that the rate is not constant (fitWear), that is said beside.
IntervalProposal proposeReliability(const OutcomeGroup& group, const ReliabilityRule& rule,
                                    IntervalLimits limits);

/// The probability of as many of these found out, or more, at this rate of leaving tolerance: a sum of
/// unequal yes-or-no outcomes, each out with 1 - exp(-rate days). 1 when none is out.
double misfit(const std::vector<ToleranceOutcome>& own, double rate);
/// Common practice, no source: one in a hundred by chance.
inline constexpr double kMisfitLevel = 0.01;

/// What the drift of a subject's points says, seen from its last passing as-left.
struct ForecastEvidence {
  Date provenOn;
  int points = 0;              ///< that have history
  int pointsWithBand = 0;      ///< of them, those whose fit gives a band
  std::optional<Date> outOn;   ///< first day on which a band leaves tolerance; nothing: not within ten years
  std::string outAt;           ///< at which point: "100 % up"
  std::optional<Date> lineOn;  ///< likewise the fitted line at that point
};
/// Days from the proof to the day before `outOn`; the upper limit when no band leaves. Nothing is proposed
/// when no point has a band.
IntervalProposal proposeForecast(const ForecastEvidence& evidence, IntervalLimits limits);

}  // namespace spanwright
