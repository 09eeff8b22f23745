// SPDX-License-Identifier: GPL-3.0-or-later
//
// Why a visit does not fit, in words.
#pragma once

#include <string>

#include "core/record/register.h"
#include "core/schedule/plan.h"

namespace spanwright {

/// A clause for a person who knows the site: names the closed days, the standard and until when it is valid.
std::string planReasonText(const PlanRequest& request, const PlanVisit& visit, const PlanReason& reason,
                           const CalendarRules& calendar);

}  // namespace spanwright
