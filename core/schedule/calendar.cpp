// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/calendar.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace spanwright {

namespace {

using boost::gregorian::days;

constexpr long kReachDays = 731;  // two years, one of them a leap year

/// The same days without overlaps, by first; ranges that touch become one.
std::vector<WorkCalendar::Closed> merged(std::vector<WorkCalendar::Closed> ranges) {
  std::sort(ranges.begin(), ranges.end(),
            [](const WorkCalendar::Closed& a, const WorkCalendar::Closed& b) { return a.first < b.first; });
  std::vector<WorkCalendar::Closed> out;
  for (const WorkCalendar::Closed& range : ranges) {
    assert(range.first <= range.last);
    if (!out.empty() && (range.first - out.back().last).days() <= 1) {
      out.back().last = std::max(out.back().last, range.last);
    } else {
      out.push_back(range);
    }
  }
  return out;
}

}  // namespace

WorkCalendar::WorkCalendar(std::bitset<7> workingWeekdays, std::vector<Closed> closed)
    : weekdays_(workingWeekdays), closed_(merged(std::move(closed))) {
  assert(weekdays_.any());
}

const WorkCalendar::Closed* WorkCalendar::closedOn(Date day) const {
  const auto after = std::upper_bound(closed_.begin(), closed_.end(), day,
                                      [](Date wanted, const Closed& range) { return wanted < range.first; });
  if (after == closed_.begin())
    return nullptr;
  const Closed& range = *std::prev(after);
  return day <= range.last ? &range : nullptr;
}

bool WorkCalendar::isWorkingDay(Date day) const {
  return weekdays_.test(day.day_of_week().as_number()) && closedOn(day) == nullptr;
}

std::optional<Date> WorkCalendar::onOrBefore(Date day) const {
  Date at = day;
  while ((day - at).days() <= kReachDays) {
    if (const Closed* range = closedOn(at)) {
      if ((day - range->first).days() >= kReachDays)
        return std::nullopt;
      at = range->first - days(1);
    } else if (weekdays_.test(at.day_of_week().as_number())) {
      return at;
    } else {
      at -= days(1);
    }
  }
  return std::nullopt;
}

std::optional<Date> WorkCalendar::onOrAfter(Date day) const {
  Date at = day;
  while ((at - day).days() <= kReachDays) {
    if (const Closed* range = closedOn(at)) {
      if ((range->last - day).days() >= kReachDays)
        return std::nullopt;
      at = range->last + days(1);
    } else if (weekdays_.test(at.day_of_week().as_number())) {
      return at;
    } else {
      at += days(1);
    }
  }
  return std::nullopt;
}

}  // namespace spanwright
