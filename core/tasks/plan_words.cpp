// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/plan_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "core/tasks/plan.h"

namespace spanwright {
namespace {

std::string spanText(const DaySpan& span) {
  return span.first == span.last
             ? "on " + formatDate(span.first)
             : fmt::format("from {} to {}", formatDate(span.first), formatDate(span.last));
}

std::string noWorkingDayText(const PlanVisit& visit, const PlanReason& reason,
                             const CalendarRules& calendar) {
  if (!visit.only.empty() || !visit.never.empty()) {
    return fmt::format("{} there is no working day on which the channel may be visited",
                       spanText(reason.span));
  }
  for (const DayRange& closed : calendar.closed) {
    if (closed.first <= reason.span.last && closed.last >= reason.span.first) {
      return fmt::format("{} there is no working day: closed{} until {}", spanText(reason.span),
                         closed.name.empty() ? "" : " (" + closed.name + ")", formatDate(closed.last));
    }
  }
  return fmt::format("{} there is no working day", spanText(reason.span));
}

/// Who could serve the need on other days of the plan.
std::string otherDaysText(const PlanRequest& request, const StandardNeed& need, const DaySpan& span) {
  std::vector<std::string> parts;
  for (const StandardNeed::Able& able : need.able) {
    const std::string& name = request.standards[able.standard];
    if (able.days.last < span.first) {
      parts.push_back(fmt::format("{} only until {}", name, formatDate(able.days.last)));
    } else if (able.days.first > span.last) {
      parts.push_back(fmt::format("{} only from {}", name, formatDate(able.days.first)));
    }
  }
  return parts.empty() ? "none is in the whole plan" : fmt::format("{}", fmt::join(parts, ", "));
}

std::string noStandardText(const PlanRequest& request, const PlanVisit& visit, const PlanReason& reason) {
  const auto need = std::find_if(visit.needs.begin(), visit.needs.end(),
                                 [&](const StandardNeed& each) { return each.what == reason.what; });
  return fmt::format("no standard for {} is valid and here {} ({})", reason.what, spanText(reason.span),
                     need == visit.needs.end() ? "" : otherDaysText(request, *need, reason.span));
}

}  // namespace

std::string planReasonText(const PlanRequest& request, const PlanVisit& visit, const PlanReason& reason,
                           const CalendarRules& calendar) {
  switch (reason.gap) {
    case PlanGap::noWorkingDay:
      return noWorkingDayText(visit, reason, calendar);
    case PlanGap::tooLong:
      return fmt::format("it takes {} in one go, and nobody has a day longer than {}",
                         hoursText(reason.wanted), hoursText(reason.offered));
    case PlanGap::noTechnician:
      return request.technicians.empty() ? std::string("no technician has hours for calibrations")
                                         : fmt::format("no technician is there {}", spanText(reason.span));
    case PlanGap::noStandard:
      return noStandardText(request, visit, reason);
    case PlanGap::standardsApart:
      return fmt::format("its standards are never all valid and here on one working day {}",
                         spanText(reason.span));
    case PlanGap::noHours:
      return fmt::format("no hours left: {} of visits fall {}, and technicians have {}",
                         hoursText(reason.wanted), spanText(reason.span), hoursText(reason.offered));
    case PlanGap::standardTaken:
      return fmt::format(
          "{} of visits need standard {} {}, and it can be with one technician a day, {} in all",
          hoursText(reason.wanted), reason.what, spanText(reason.span), hoursText(reason.offered));
    case PlanGap::arrangement:
      return reason.proven
                 ? fmt::format(
                       "hours and standards {} do not go together for it and all that is more pressing",
                       spanText(reason.span))
                 : fmt::format("no place was found for it {}, though not every arrangement could be tried",
                               spanText(reason.span));
  }
  return {};
}

}  // namespace spanwright
