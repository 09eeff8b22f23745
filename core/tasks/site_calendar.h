// SPDX-License-Identifier: GPL-3.0-or-later
//
// The register's calendar and intervals as the schedule's own types.
#pragma once

#include "core/record/register.h"
#include "core/schedule/calendar.h"
#include "core/schedule/due.h"

namespace spanwright {

/// The rules must have no registerFaults.
WorkCalendar workCalendar(const CalendarRules& rules);
FixedInterval fixedInterval(const IntervalPolicy& policy);

}  // namespace spanwright
