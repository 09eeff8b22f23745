// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the visits of the record say about intervals: found in or out of tolerance, so long after the passing
// as-left before.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/record/calibration.h"
#include "core/record/register.h"
#include "core/schedule/proposal.h"
#include "core/store/store.h"

namespace spanwright {

/// Visits of one subject that tell nothing, by the reason.
struct OutcomeCounts {
  int counted = 0;         ///< tell something
  int out = 0;             ///< of them, found out of tolerance
  int first = 0;           ///< the first under their setup or sensor: nothing was left before
  int notJudged = 0;       ///< all skipped, or a point that could not be judged
  int unprovenBefore = 0;  ///< the as-left before did not pass
  int otherPlan = 0;       ///< judged by another plan than the routine's
  int sameDay = 0;         ///< less than a day after the one before
};

/// An outcome with what it was an outcome of.
struct SubjectOutcome {
  IntervalOutcome outcome;
  int setup = 0;
  std::string sensor;  ///< empty for the channel alone
  std::string group;   ///< like subjects: same subject, kind of point then, and plan
};
struct SubjectOutcomes {
  OutcomeCounts counts;
  std::vector<SubjectOutcome> outcomes;  ///< oldest first
};

/// By channel and subject.
using FleetOutcomes = std::map<std::pair<std::string, Subject>, SubjectOutcomes>;

/// One routine's outcomes up to the end of `today`. An interval never spans a new setup or another sensor; it
/// begins with what stood as left after an adjustment or repair. A visit that judged and changed nothing
/// leaves the as-left before it standing. `history`: as Store::history gives it.
SubjectOutcomes outcomesOf(const Register& site, const Channel& channel, const Routine& routine,
                           const std::vector<Calibration>& history, Date today);

/// For every routine of every channel not retired, in one pass over the record.
FleetOutcomes fleetOutcomes(const Store& store, Date today);

/// "channel, thermocouple-input, plan TC-5"; a sensor on its own has no kind of point.
std::string likeSubjects(Subject subject, const ChannelSetup& setup, std::string_view plan);

}  // namespace spanwright
