// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which interval each policy proposes on what the record says, acceptance by a named person, and what the
// fleet's visits would find under each policy.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/register.h"
#include "core/schedule/due.h"
#include "core/schedule/proposal.h"
#include "core/schedule/simulation.h"
#include "core/store/store.h"
#include "core/tasks/interval_outcomes.h"

namespace spanwright {

struct IntervalItem {
  std::string channel, place;
  Subject subject = Subject::channel;
  std::string policy;  ///< code
  PolicyKind kind = PolicyKind::fixed;
  FixedInterval now;  ///< in force
  int nowDays = 0;    ///< as it falls from the day it counts from
  std::optional<Date> acceptedFrom;
  IntervalProposal proposal;
  std::string group;     ///< of like subjects
  OutcomeCounts counts;  ///< of the subject's own visits
};

/// Every routine of one channel, or of all that are not retired when `channel` is empty, in the register's
/// order; the record as it stood at the end of `today`. InputError when there is no such channel.
std::vector<IntervalItem> intervalReport(const Store& store, std::string_view channel, Date today);

struct IntervalChoice {
  std::string channel;
  std::optional<Subject> subject;  ///< may be left out when the channel has one routine
  int days = 0, months = 0;        ///< at most one of them; none: what is proposed
  std::string person;              ///< login; a planner or administrator who works here
  std::string reason;              ///< needed for another length than the proposed one
};
/// Puts the interval in force from `from` on and enters it into the journal. InputError, and nothing written,
/// when the person may not, nothing is proposed and no length given, the length lies outside the policy's
/// limits, a reason is lacking, or it is what holds already.
AcceptedInterval acceptInterval(Store& store, const IntervalChoice& choice, Date from);

struct PolicyOutcome {
  std::string policy;              ///< code; empty: every interval as it is now
  std::optional<PolicyKind> kind;  ///< nothing for those as they are
  FleetOutcome outcome;
};
struct FleetComparison {
  SimulationPlan plan;
  int subjects = 0;    ///< simulated
  int leftOut = 0;     ///< no point of theirs has a rate and a scatter
  int observed = 0;    ///< visits of the record that tell whether the interval was short enough
  int observedIn = 0;  ///< of them, found in tolerance
  std::vector<PolicyOutcome> policies;  ///< as they are now first, then each that proposes, in their order
};
/// Simulates every subject under every policy of the register, on the drift that its record shows
/// (core/schedule/simulation.h says what is assumed). Rates are those pooled with like subjects where there
/// are any. Scatter is taken as at least a hundredth of tolerance.
FleetComparison comparePolicies(const Store& store, Date today, const SimulationPlan& plan);

}  // namespace spanwright
