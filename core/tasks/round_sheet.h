// SPDX-License-Identifier: GPL-3.0-or-later
//
// Sheets to print and take along, filled in from the record. Loads and computes; writes nothing.
#pragma once

#include <string>
#include <vector>

#include "core/certificate/round_sheet.h"
#include "core/store/store.h"
#include "core/tasks/plan.h"

namespace spanwright {

/// What is on the round that has no calibration yet (roundProgress), in walking order, by what is in force on
/// `day`. InputError when there is no such round, or nothing is left of it.
RoundSheet sheetOfRound(const Store& store, std::int64_t round, Date day);
/// Every routine of these channels, in walking order. InputError for a channel that is not there or has no
/// routine.
RoundSheet sheetOfChannels(const Store& store, const std::vector<std::string>& tags, Date day);
/// One sheet for each technician and day of the plan that has visits on the plan's first `dayCount` days.
std::vector<RoundSheet> sheetsOfPlan(const Store& store, const SitePlan& plan, int dayCount);

/// Of one stop of a plan, for its day and person.
RoundSheet sheetOfStop(const Store& store, const PlannedStop& stop);

}  // namespace spanwright
