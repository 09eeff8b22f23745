// SPDX-License-Identifier: GPL-3.0-or-later
//
// A plan held against its request, rule by rule, by code of its own.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/schedule/plan.h"

namespace spanwright::plan_test {

inline Date mondayOf(Date day) {
  while (day.day_of_week().as_number() != 1) {
    day -= boost::gregorian::days(1);
  }
  return day;
}

inline bool in(const std::vector<DaySpan>& spans, Date day) {
  for (const DaySpan& span : spans) {
    if (day >= span.first && day <= span.last) {
      return true;
    }
  }
  return false;
}

/// Every rule that the plan breaks, in words; empty when it breaks none.
inline std::vector<std::string> broken(const PlanRequest& request, const WorkPlan& plan) {
  std::vector<std::string> list;
  std::map<std::pair<std::size_t, Date>, int> days, weeks;
  std::map<std::pair<std::size_t, Date>, std::set<std::size_t>> holders;
  std::multiset<std::size_t> seen;
  for (const UnplannedVisit& each : plan.unplanned) {
    seen.insert(each.visit);
  }
  for (const PlannedVisit& each : plan.planned) {
    seen.insert(each.visit);
    const PlanVisit& visit = request.visits[each.visit];
    const std::string name = "visit " + std::to_string(each.visit) + " on " + formatDate(each.day);
    const auto rule = [&](bool holds, const std::string& what) {
      if (!holds) {
        list.push_back(name + ": " + what);
      }
    };
    rule(request.calendar.isWorkingDay(each.day), "no working day");
    rule(each.day >= request.from && each.day < request.from + boost::gregorian::days(7 * request.weeks),
         "outside the plan");
    rule(each.day >= visit.earliest, "before its earliest day");
    rule(visit.only.empty() || in(visit.only, each.day), "not on a day it may be visited on");
    rule(!in(visit.never, each.day), "on a day it may not be visited on");
    rule(!in(request.technicians[each.technician].away, each.day), "the technician is away");
    for (const StandardNeed& need : visit.needs) {
      bool served = false;
      for (const StandardNeed::Able& able : need.able) {
        for (const std::size_t standard : each.standards) {
          served = served ||
                   (able.standard == standard && each.day >= able.days.first && each.day <= able.days.last);
        }
      }
      rule(served, "no valid standard for " + need.what);
    }
    const PlanTime time = each.day <= visit.due    ? PlanTime::onTime
                          : each.day <= visit.last ? PlanTime::inGrace
                                                   : PlanTime::late;
    rule(each.time == time, "called " + std::string(text(each.time)));
    rule(each.reason.has_value() == (time != PlanTime::onTime), "reason or none");
    days[{each.technician, each.day}] += visit.minutes;
    weeks[{each.technician, mondayOf(each.day)}] += visit.minutes;
    for (const std::size_t standard : each.standards) {
      holders[{standard, each.day}].insert(each.technician);
    }
  }
  for (const auto& [key, minutes] : days) {
    if (minutes > request.technicians[key.first].minutesPerDay) {
      list.push_back("too much on " + formatDate(key.second));
    }
  }
  for (const auto& [key, minutes] : weeks) {
    const PlanTechnician& technician = request.technicians[key.first];
    int there = 0;
    for (int i = 0; i < 7; ++i) {
      const Date day = key.second + boost::gregorian::days(i);
      there += day >= request.from && day < request.from + boost::gregorian::days(7 * request.weeks) &&
                       request.calendar.isWorkingDay(day) && !in(technician.away, day)
                   ? 1
                   : 0;
    }
    if (request.weekdays * minutes > there * technician.minutesPerWeek) {
      list.push_back("too much in the week of " + formatDate(key.second));
    }
  }
  for (const auto& [key, technicians] : holders) {
    if (technicians.size() > 1) {
      list.push_back("standard " + std::to_string(key.first) + " with two technicians on " +
                     formatDate(key.second));
    }
  }
  for (std::size_t v = 0; v < request.visits.size(); ++v) {
    if (seen.count(v) != 1) {
      list.push_back("visit " + std::to_string(v) + " is named " + std::to_string(seen.count(v)) + " times");
    }
  }
  return list;
}

}  // namespace spanwright::plan_test
