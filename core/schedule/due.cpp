// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/due.h"

#include <cassert>

namespace spanwright {

namespace {

using boost::gregorian::days;

Date dueAfter(Date provenOn, FixedInterval interval, const WorkCalendar& calendar) {
  const Date end = intervalEnd(provenOn, interval);
  const std::optional<Date> moved = calendar.onOrBefore(end);
  // A day on or before the proof itself would ask for it again at once.
  return moved && *moved > provenOn ? *moved : end;
}

DueState stateOn(Date today, Date dueOn, const DueRules& rules) {
  if (today > dueOn + days(rules.graceDays))
    return DueState::overdue;
  if (today > dueOn)
    return DueState::inGrace;
  if (today >= dueOn - days(rules.dueSoonDays))
    return DueState::dueSoon;
  return DueState::ok;
}

}  // namespace

std::string_view text(DueState state) {
  switch (state) {
    case DueState::unproven:
      return "unproven";
    case DueState::overdue:
      return "overdue";
    case DueState::inGrace:
      return "in_grace";
    case DueState::dueSoon:
      return "due_soon";
    case DueState::ok:
      return "ok";
  }
  return "";
}

Date intervalEnd(Date from, FixedInterval interval) {
  assert(!from.is_special());
  assert(interval.months > 0 ? interval.months <= 1200
                             : interval.months == 0 && interval.days > 0 && interval.days <= 36525);
  return interval.months > 0 ? addMonths(from, interval.months) : from + days(interval.days);
}

Due dueState(std::optional<Date> provenOn, bool failedSince, std::optional<Date> unprovenSince,
             FixedInterval interval, const WorkCalendar& calendar, const DueRules& rules, Date today) {
  assert(!today.is_special() && (!provenOn || !provenOn->is_special()));
  assert(!unprovenSince || !unprovenSince->is_special());
  assert(rules.dueSoonDays >= 0 && rules.graceDays >= 0);
  Due due;
  due.provenOn = provenOn;
  if (!provenOn || failedSince) {
    due.state = DueState::unproven;
    if (unprovenSince)
      due.dueOn = calendar.onOrAfter(*unprovenSince).value_or(*unprovenSince);
    return due;
  }
  due.dueOn = dueAfter(*provenOn, interval, calendar);
  due.state = stateOn(today, *due.dueOn, rules);
  return due;
}

}  // namespace spanwright
