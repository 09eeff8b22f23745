// SPDX-License-Identifier: GPL-3.0-or-later
//
// What needs doing on a day, and by whom.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/fleet.h"
#include "core/tasks/rounds.h"
#include "core/tasks/standards.h"
#include "core/tasks/status.h"

namespace spanwright {

/// A standard is told of so many days before it may be used no longer (common practice, no source: a
/// laboratory's turn-round and the way there and back).
inline constexpr int kStandardDaysAhead = 60;

/// What concerns a person. A draft and a round concern whom they name, or everybody when they name nobody;
/// what was sent back, and what nobody has signed yet, concerns its technician; what waits for a signature
/// concerns reviewers, but never one's own work (actFault); due work and steps that were found concern
/// technicians and planners; standards concern everybody.
struct TodayConcerns {
  bool visits = false;   ///< drafts, rounds, what was sent back or is not signed
  bool reviews = false;  ///< what waits for a review or an approval
  bool due = false;      ///< due work, steps
};
/// `person` by login; empty: nobody in particular, whom everything concerns. One who is not in the register
/// or has left by the day is concerned by nothing.
TodayConcerns concernsOf(const Register& site, std::string_view person, Date today);

struct SentBack {
  CalibrationSummary calibration;
  std::string by;  ///< login
  std::string reason;
};
struct RoundToWalk {
  Round round;
  std::size_t done = 0;
  std::optional<StopProgress> next;  ///< nothing when every stop is done and the round can be closed
};
struct DueGroup {
  DueState state = DueState::unproven;
  std::size_t count = 0;
  std::vector<DueItem> first;  ///< most pressing first, not more than asked for
};
/// A jump of the error that nobody wrote down; it stands until a new setup, another sensor or a recorded
/// adjustment begins a segment of its own.
struct StepToSee {
  std::string channel, place;
  Subject subject = Subject::channel;
  DriftFinding finding;
};
struct StepGroup {
  std::size_t count = 0;
  std::vector<StepToSee> first;  ///< most certain first, not more than asked for
};
struct StandardToSee {
  std::string serial, description;
  StandardState state = StandardState::valid;
  std::optional<Date> lastDay;  ///< as in StandardStatus; of an allowance its own last day
  int daysLeft = 0;             ///< to `lastDay`; negative: so long ago
  std::string reason;           ///< of what was decided about it
};

struct Today {
  TodayConcerns concerns;
  std::vector<Draft> drafts;        ///< begun last first
  std::vector<RoundToWalk> rounds;  ///< open ones, newest first
  std::vector<SentBack> sentBack;
  std::vector<CalibrationSummary> toSign;               ///< visits nobody has signed, oldest first
  std::vector<CalibrationSummary> toReview, toApprove;  ///< oldest first
  std::vector<DueGroup> due;                            ///< unproven, overdue, in grace, due soon
  StepGroup steps;
  std::vector<StandardToSee> standards;  ///< not usable first, then by days left
};

/// `due` is the due list of the day, `fleet` all subjects by drift with what was found first (fleetRanking;
/// empty while it is not known). Of due items and steps each group carries at most `most`. StorageError when
/// the record cannot be read.
Today todayFor(const Store& store, const std::vector<DueItem>& due, const std::vector<FleetRow>& fleet,
               std::string_view person, Date today, std::size_t most);

/// The subjects with a step that nobody recorded, each by its most certain one.
StepGroup stepsToSee(const std::vector<FleetRow>& fleet, std::size_t most);

/// Those of the site's standards that cannot be used on the day, whose use was allowed without a valid
/// certificate, or that run out within kStandardDaysAhead.
std::vector<StandardToSee> standardsToSee(const Register& site, Date today);

}  // namespace spanwright
