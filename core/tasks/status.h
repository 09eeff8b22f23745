// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is due, what drifts, what is known of a channel. Loads from the store and computes; writes nothing.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/calibration.h"
#include "core/record/proposal.h"
#include "core/record/register.h"
#include "core/schedule/due.h"
#include "core/store/store.h"
#include "core/tasks/drift_item.h"

namespace spanwright {

struct DueItem {
  std::string channel, place;
  Subject subject = Subject::channel;
  Due due;
  int intervalDays = 0;  ///< of a months' interval: as it falls from the day it counts from
  std::string reason;    ///< in words: "yearly interval (12 months) after the passing as-left of 2025-11-20"
};
/// Every routine of every channel not retired, most pressing first: by state, then due date, place and tag.
/// The record as it stood at the end of `today`: later setups, fittings and calibrations are not looked at.
/// Proven means a standing as-left that passed under the setup in force, and for a sensor or loop with the
/// sensor fitted now; a later one under them that failed makes it unproven again. One not judged says
/// nothing. The interval is the one accepted last on or before `today`, else the policy's own. InputError
/// when an interval is longer than a hundred years.
std::vector<DueItem> dueList(const Store& store, Date today);

/// Whether rates are drawn towards those of like subjects, for which their histories must be read too.
enum class Pooling { likeSubjects, none };

/// For one channel, or all that are not retired when `channel` is empty, in the register's order, points in
/// the plan's. The record as it stood at the end of `today`. The whole site is one pass over the record; one
/// channel reads its own history and, for pooling, those of channels with the same subject, kind of point and
/// range family. Points whose history all lies before the setup or sensor in force keep their segments and
/// have no fit. InputError when there is no such channel, and "cancelled" when `progress` says so.
std::vector<DriftItem> driftReport(const Store& store, std::string_view channel, Date today,
                                   Pooling pooling = Pooling::likeSubjects, const Progress& progress = {});

/// Worst of a channel's routines, for trees and lists. (`nothing` when it has no routine.)
std::optional<DueState> channelState(const std::vector<DueItem>& due, std::string_view channel);
/// The same for all channels at once, by tag.
std::map<std::string, DueState, std::less<>> channelStates(const std::vector<DueItem>& due);

}  // namespace spanwright
