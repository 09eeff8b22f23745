// SPDX-License-Identifier: GPL-3.0-or-later
//
// How far a round has come.
#pragma once

#include <string>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/reach.h"

namespace spanwright {

struct StopProgress {
  RoundStop stop;
  std::string place;  ///< path
  CalibrationId calibration =
      0;  ///< the first that counts and was recorded since the round was made; 0: none yet
};
/// Stops in the round's order. A closed round counts only what was recorded before it was closed.
std::vector<StopProgress> roundProgress(const Store& store, const Round& round);

/// Keeps the channels that need a visit, in their walking order, as a round; returns its number. InputError
/// when none does.
std::int64_t makeRound(Store& store, const Reach& reach, const std::string& name, const std::string& person);

}  // namespace spanwright
