// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/tasks/plan.h"

namespace spanwright {

std::vector<CalendarEvent> planEvents(const SitePlan& plan, const Register& site) {
  std::vector<CalendarEvent> events;
  for (const PlannedStop& stop : plan.stops) {
    CalendarEvent& event = events.emplace_back();
    event.uid = calendarUid({"stop", formatDate(stop.day), stop.person, stop.cabinet}, site.site.code);
    event.day = stop.day;
    const Person* person = site.person(stop.person);
    event.summary = fmt::format("Calibrations: {} ({}, {})", stop.cabinet, hoursText(stop.minutes()),
                                person == nullptr ? stop.person : person->name);
    event.location = stop.cabinet;
    event.busy = true;
    for (const PlannedSubject& visit : stop.visits) {
      event.description +=
          fmt::format("{} ({}), plan {}, {}: due {}{}\n", visit.channel, text(visit.subject), visit.plan,
                      visit.place, visit.due ? formatDate(*visit.due) : "at once",
                      visit.state == DueState::unproven ? ", unproven" : "");
    }
    event.description += fmt::format("Standards: {}", fmt::join(stop.standards, ", "));
  }
  return events;
}

std::vector<CalendarEvent> dueEvents(const std::vector<DueItem>& due, const Register& site) {
  std::vector<CalendarEvent> events;
  for (const DueItem& item : due) {
    if (!item.due.dueOn) {
      continue;
    }
    events.push_back({calendarUid({"due", item.channel, std::string(text(item.subject))}, site.site.code),
                      *item.due.dueOn, fmt::format("Due: {} ({})", item.channel, text(item.subject)),
                      fmt::format("{}\n{}", text(item.due.state), item.reason), item.place, false});
  }
  return events;
}

}  // namespace spanwright
