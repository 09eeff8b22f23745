// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/site_calendar.h"

#include <fmt/format.h>

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

FixedInterval fixedInterval(const AcceptedInterval& accepted) {
  return {accepted.days, accepted.months};
}

FixedInterval intervalInForce(const Channel& channel, Subject subject, const IntervalPolicy& policy,
                              Date day) {
  const AcceptedInterval* const accepted = acceptedInterval(channel, subject, day);
  return accepted != nullptr ? fixedInterval(*accepted) : fixedInterval(policy);
}

std::string lengthText(FixedInterval interval) {
  const bool months = interval.months > 0;
  const int count = months ? interval.months : interval.days;
  return fmt::format("{} {}{}", count, months ? "month" : "day", count == 1 ? "" : "s");
}

}  // namespace spanwright
