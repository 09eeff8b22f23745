// SPDX-License-Identifier: GPL-3.0-or-later
//
// The register's calendar and intervals as the schedule's own types.
#pragma once

#include <string>

#include "core/record/register.h"
#include "core/schedule/calendar.h"
#include "core/schedule/due.h"

namespace spanwright {

/// The rules must have no registerFaults.
WorkCalendar workCalendar(const CalendarRules& rules);
/// The interval to start with.
FixedInterval fixedInterval(const IntervalPolicy& policy);
FixedInterval fixedInterval(const AcceptedInterval& accepted);
/// What holds for the subject on `day`: the interval accepted last, else the one its policy starts with.
FixedInterval intervalInForce(const Channel& channel, Subject subject, const IntervalPolicy& policy,
                              Date day);
/// "12 months", "1 day".
std::string lengthText(FixedInterval interval);

}  // namespace spanwright
