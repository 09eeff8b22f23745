// SPDX-License-Identifier: GPL-3.0-or-later
//
// How far a round has come.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/plan.h"
#include "core/tasks/reach.h"

namespace spanwright {

struct StopProgress {
  RoundStop stop;
  std::string place;  ///< path
  /// The first that counts and was performed and recorded since the round was made; 0: none yet.
  CalibrationId calibration = 0;
};
/// Stops in the round's order. A closed round counts only what was recorded before it was closed.
std::vector<StopProgress> roundProgress(const Store& store, const Round& round);

/// Keeps the channels that need a visit, in their walking order, as a round; returns its number. InputError
/// when none does, or it has no name.
std::int64_t makeRound(Store& store, const Reach& reach, const std::string& name, const std::string& person);

/// A round that a person puts together.
struct ProposedRound {
  std::string name;
  std::string person;  ///< login of who walks it; empty: anybody
  std::optional<Date> day;
  std::vector<RoundStop> stops;  ///< in any order
};
/// The round a planned stop amounts to: its day, its person, its visits, named by cabinet and day.
ProposedRound roundOfStop(const PlannedStop& stop);

/// Keeps it with its stops in walking order; returns its number. InputError when it has no name, no stops,
/// one twice, or a channel or person that is not there.
std::int64_t makeRound(Store& store, const ProposedRound& proposed);

/// The first stop not done yet after the stop `after` (by its place in the list), then from the beginning;
/// nothing when all are done.
std::optional<std::size_t> nextStop(const std::vector<StopProgress>& progress,
                                    std::optional<std::size_t> after = std::nullopt);

}  // namespace spanwright
