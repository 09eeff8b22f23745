// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/site_calendar.h"

#include <bitset>

namespace spanwright {

WorkCalendar workCalendar(const CalendarRules& rules) {
  std::bitset<7> weekdays;
  for (const int day : rules.workingWeekdays) {
    weekdays.set(static_cast<std::size_t>(day));
  }
  std::vector<WorkCalendar::Closed> closed;
  closed.reserve(rules.closed.size());
  for (const DayRange& range : rules.closed) {
    closed.push_back({range.first, range.last});
  }
  return {weekdays, std::move(closed)};
}

FixedInterval fixedInterval(const IntervalPolicy& policy) {
  return policy.months > 0 ? FixedInterval{0, policy.months} : FixedInterval{policy.days, 0};
}

}  // namespace spanwright
