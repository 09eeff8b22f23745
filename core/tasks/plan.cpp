// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/plan.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <set>
#include <tuple>
#include <utility>

#include "core/tasks/in_force.h"
#include "core/tasks/plan_needs.h"
#include "core/tasks/plan_question.h"
#include "core/tasks/plan_words.h"
#include "core/tasks/site_calendar.h"
#include "core/tasks/visit.h"
#include "core/tasks/walking_order.h"

namespace spanwright {
namespace {

using boost::gregorian::days;

/// Of an interval, what must be over before a visit may be made early.
constexpr int kEarlyShare = 3;

class SitePlanner {
 public:
  SitePlanner(const Store& store, const PlanQuestion& question)
      : store_(store), site_(store.site()), question_(question), rules_(site_.calendar) {
    if (question.workingWeekdays) {
      rules_.workingWeekdays = *question.workingWeekdays;
    }
    plan_.from = question.from;
    plan_.until = question.from + days(7 * question.weeks - 1);
    const std::set<int> weekdays(rules_.workingWeekdays.begin(), rules_.workingWeekdays.end());
    request_ = std::make_unique<PlanRequest>(PlanRequest{question.from,
                                                         question.weeks,
                                                         workCalendar(rules_),
                                                         static_cast<int>(weekdays.size()),
                                                         techniciansOf(site_, question),
                                                         {},
                                                         {}});
    for (const Standard& standard : site_.standards) {
      request_->standards.push_back(standard.serial);
    }
    usable_ = usableDays(site_, {plan_.from, plan_.until}, question.standardsAway);
  }

  SitePlan run() {
    for (const DueItem& item : dueList(store_, question_.from)) {
      addDue(item);
    }
    std::size_t fixed = 0;
    do {
      const WorkPlan work = planVisits(*request_);
      take(work, fixed);
      fixed = fixAndFollow(work);
    } while (request_->visits.size() > fixed);
    std::stable_sort(plan_.notPlanned.begin(), plan_.notPlanned.end(),
                     [](const PlannedSubject& x, const PlannedSubject& y) {
                       return std::tie(x.state, x.due) < std::tie(y.state, y.due);
                     });
    addStops();
    addWeeks();
    return std::move(plan_);
  }

 private:
  /// What stands behind a visit of the request, by its index.
  struct Behind {
    PlannedSubject subject;
    FixedInterval interval;
    PlannedVisit planned;  ///< `visit` only when it is planned
    bool isPlanned = false;
  };

  void addDue(const DueItem& item) {
    const bool atOnce = item.due.state == DueState::unproven || item.due.state == DueState::overdue;
    Behind behind;
    behind.subject = {item.channel,   item.place, item.subject, {}, 0,   item.due.state,
                      item.due.dueOn, {},         {},           {}, true};
    if (!atOnce && *item.due.dueOn > plan_.until) {
      return;
    }
    const Channel& channel = *site_.channel(item.channel);
    const Routine& routine = *routineFor(channel, item.subject);
    behind.interval = intervalInForce(channel, item.subject, *site_.interval(routine.interval), plan_.from);
    PlanVisit visit;
    if (auto missing = describe(behind.subject, visit)) {
      behind.subject.reason = missing->what;
      plan_.notPlanned.push_back(std::move(behind.subject));
      return;
    }
    visit.unproven = item.due.state == DueState::unproven;
    if (atOnce) {
      visit.due = request_->calendar.onOrAfter(plan_.from).value_or(plan_.from);
      visit.earliest = plan_.from;
      visit.last = visit.due + days(rules_.graceDays);
    } else {
      visit.last = std::max(*item.due.dueOn + days(rules_.graceDays), plan_.from);
      visit.due = std::clamp(*item.due.dueOn, plan_.from, visit.last);
      visit.earliest = std::min(visit.due, earliestFor(*item.due.dueOn, item.intervalDays));
    }
    request_->visits.push_back(std::move(visit));
    behind_.push_back(std::move(behind));
  }

  Date earliestFor(Date due, int intervalDays) const {
    return due - days(std::min(rules_.earlyDays, intervalDays / kEarlyShare));
  }

  /// What does not depend on when; a Problem when there is nothing to visit.
  std::optional<Problem> describe(PlannedSubject& subject, PlanVisit& visit) {
    auto opened = openSheet(site_, subject.channel, subject.subject, endOf(plan_.from));
    if (auto* problem = std::get_if<Problem>(&opened)) {
      return std::move(*problem);
    }
    const VisitSheet& sheet = std::get<VisitSheet>(opened);
    subject.plan = sheet.plan->code;
    subject.minutes = std::max(1, static_cast<int>(std::lround(sheet.plan->minutes)));
    visit.minutes = subject.minutes;
    visit.place = cabinetOf(subject.place);
    visit.only = daysOf(question_.onlyOn, subject.channel);
    visit.never = daysOf(question_.notOn, subject.channel);
    visit.needs = standardNeeds(sheet, usable_, standardsUsed(sheet));
    std::vector<std::string> whats;
    for (const StandardNeed& need : visit.needs) {
      whats.push_back(need.what);
    }
    subject.needs = fmt::format("{}", fmt::join(whats, ", "));
    return std::nullopt;
  }

  /// Of the last calibration of this subject under its present setup; failing that, of any channel of the
  /// same kind.
  std::vector<std::string> standardsUsed(const VisitSheet& sheet) const {
    if (auto own = lastStandards(sheet.channel->tag, sheet.subject, sheet.setup->version); !own.empty()) {
      return own;
    }
    for (const Channel& other : site_.channels) {
      const SetupVersion* setup = setupInForce(other, sheet.when);
      if (setup != nullptr && kindName(setup->setup) == kindName(sheet.setup->setup)) {
        if (auto theirs = lastStandards(other.tag, sheet.subject, setup->version); !theirs.empty()) {
          return theirs;
        }
      }
    }
    return {};
  }

  std::vector<std::string> lastStandards(const std::string& channel, Subject subject, int setup) const {
    CalibrationId last = 0;
    for (const CalibrationSummary& summary : store_.calibrations(channel)) {
      if (summary.subject == subject && summary.setupVersion == setup && counts(summary.state) &&
          summary.performed.date() <= plan_.from) {
        last = summary.id;
      }
    }
    std::vector<std::string> serials;
    if (const auto calibration = last == 0 ? std::nullopt : store_.calibration(last)) {
      for (const UsedStandard& used : calibration->standards) {
        serials.push_back(used.serial);
      }
    }
    return serials;
  }

  void take(const WorkPlan& work, std::size_t fixed) {
    for (const PlannedVisit& planned : work.planned) {
      if (planned.visit < fixed) {
        continue;  // fixed by an earlier turn, which said why
      }
      Behind& behind = behind_[planned.visit];
      behind.planned = planned;
      behind.isPlanned = true;
      behind.subject.time = planned.time;
      behind.subject.otherStandards = planned.choice > 0;
      if (planned.reason) {
        say(behind.subject, planned.visit, *planned.reason);
      }
      tellOfLongDue(behind.subject, planned.day);
    }
    for (const UnplannedVisit& unplanned : work.unplanned) {
      PlannedSubject subject = behind_[unplanned.visit].subject;
      say(subject, unplanned.visit, unplanned.reason);
      plan_.notPlanned.push_back(std::move(subject));
    }
  }

  /// What was due before the plan began is not on time, however soon it is visited.
  void tellOfLongDue(PlannedSubject& subject, Date day) const {
    if (subject.state == DueState::unproven || !subject.due || *subject.due >= plan_.from) {
      return;
    }
    subject.time = day <= *subject.due + days(rules_.graceDays) ? PlanTime::inGrace : PlanTime::late;
    if (subject.reason.empty()) {
      subject.reason = "it was due before the plan begins";
    }
  }

  void say(PlannedSubject& subject, std::size_t visit, const PlanReason& reason) const {
    subject.reason = planReasonText(*request_, request_->visits[visit], reason, rules_);
    subject.reasonProven = reason.proven;
  }

  /// What is planned stays; the visits that follow it are added. What did not fit is not asked again. Returns
  /// how many stay.
  std::size_t fixAndFollow(const WorkPlan& work) {
    std::vector<PlanVisit> visits;
    std::vector<Behind> behind;
    std::vector<std::pair<PlanVisit, Behind>> following;
    for (const PlannedVisit& planned : work.planned) {
      PlanVisit visit = request_->visits[planned.visit];
      const Behind& from = behind_[planned.visit];
      if (auto next = followUp(visit, from)) {
        following.push_back(std::move(*next));
      }
      visit.earliest = visit.due = visit.last = planned.day;
      visit.only.clear();
      visit.never.clear();
      visit.agreed = planned.technician;
      visit.needs.clear();
      for (const std::size_t standard : planned.standards) {
        visit.needs.push_back({{}, {{standard, {planned.day, planned.day}, 0}}});
      }
      visits.push_back(std::move(visit));
      behind.push_back(from);
    }
    request_->visits = std::move(visits);
    behind_ = std::move(behind);
    const std::size_t fixed = behind_.size();
    for (auto& [visit, what] : following) {
      request_->visits.push_back(std::move(visit));
      behind_.push_back(std::move(what));
    }
    return fixed;
  }

  std::optional<std::pair<PlanVisit, Behind>> followUp(const PlanVisit& visit, const Behind& from) const {
    if (visit.agreed) {
      return std::nullopt;  // fixed: its follower is there already
    }
    const Date day = from.planned.day;
    const Due due = dueState(day, false, std::nullopt, from.interval, request_->calendar,
                             {rules_.dueSoonDays, rules_.graceDays}, day);
    if (*due.dueOn > plan_.until) {
      return std::nullopt;
    }
    std::pair<PlanVisit, Behind> next{visit, from};
    next.first.unproven = false;
    next.first.due = *due.dueOn;
    next.first.last = *due.dueOn + days(rules_.graceDays);
    next.first.earliest =
        std::max(day + days(1), earliestFor(*due.dueOn, static_cast<int>((*due.dueOn - day).days())));
    next.second.isPlanned = false;
    PlannedSubject& subject = next.second.subject;
    subject.state = DueState::ok;
    subject.due = due.dueOn;
    subject.reason.clear();
    subject.reasonProven = true;
    subject.time = PlanTime::onTime;
    return next;
  }

  void addStops() {
    using Key = std::tuple<Date, std::size_t, int, std::string>;
    const auto places = placeRanks(site_);
    const auto channels = channelRanks(site_);
    std::map<Key, PlannedStop> stops;
    for (const Behind& each : behind_) {
      const std::string cabinet = cabinetOf(each.subject.place);
      const auto rank = places.find(cabinet);
      PlannedStop& stop =
          stops[{each.planned.day, each.planned.technician,
                 rank == places.end() ? static_cast<int>(places.size()) : rank->second, cabinet}];
      stop.day = each.planned.day;
      stop.week = isoWeek(stop.day);
      stop.person = request_->technicians[each.planned.technician].name;
      stop.cabinet = cabinet;
      stop.visits.push_back(each.subject);
      for (const std::size_t standard : each.planned.standards) {
        const std::string& serial = request_->standards[standard];
        if (std::find(stop.standards.begin(), stop.standards.end(), serial) == stop.standards.end()) {
          stop.standards.push_back(serial);
        }
      }
    }
    for (auto& [key, stop] : stops) {
      std::sort(stop.standards.begin(), stop.standards.end());
      std::sort(stop.visits.begin(), stop.visits.end(),
                [&](const PlannedSubject& a, const PlannedSubject& b) {
                  return std::pair(channels.at(a.channel), a.subject) <
                         std::pair(channels.at(b.channel), b.subject);
                });
      plan_.stops.push_back(std::move(stop));
    }
  }

  void addWeeks() {
    for (const PlanTechnician& technician : request_->technicians) {
      std::map<std::string, std::pair<int, int>> weeks;  // days there, minutes planned
      for (Date day = plan_.from; day <= plan_.until; day += days(1)) {
        const bool away = std::any_of(technician.away.begin(), technician.away.end(),
                                      [&](const DaySpan& span) { return span.contains(day); });
        weeks[isoWeek(day)].first += request_->calendar.isWorkingDay(day) && !away ? 1 : 0;
      }
      for (const PlannedStop& stop : plan_.stops) {
        weeks[stop.week].second += stop.person == technician.name ? stop.minutes() : 0;
      }
      for (const auto& [week, sums] : weeks) {
        plan_.weeks.push_back({week, technician.name, sums.second,
                               technician.minutesPerWeek * sums.first / request_->weekdays});
      }
    }
    std::stable_sort(plan_.weeks.begin(), plan_.weeks.end(),
                     [](const PlannedWeek& a, const PlannedWeek& b) { return a.week < b.week; });
  }

  const Store& store_;
  const Register& site_;
  const PlanQuestion& question_;
  CalendarRules rules_;
  std::unique_ptr<PlanRequest> request_;
  std::vector<UsableDays> usable_;
  std::vector<Behind> behind_;  ///< by index of the request's visits
  SitePlan plan_;
};

}  // namespace

std::string isoWeek(Date day) {
  // The week belongs to the year of its Thursday (ISO 8601).
  const Date thursday = day + days(3 - (day.day_of_week().as_number() + 6) % 7);
  return fmt::format("{}-W{:02}", static_cast<int>(thursday.year()), day.week_number());
}

int PlannedStop::minutes() const {
  int sum = 0;
  for (const PlannedSubject& visit : visits) {
    sum += visit.minutes;
  }
  return sum;
}

std::size_t SitePlan::visits() const {
  std::size_t sum = 0;
  for (const PlannedStop& stop : stops) {
    sum += stop.visits.size();
  }
  return sum;
}

SitePlan sitePlan(const Store& store, const PlanQuestion& question) {
  refuseFaulty(store.site(), question);
  return SitePlanner(store, question).run();
}

std::string hoursText(int minutes) {
  return fmt::format("{:.4g} h", std::round(minutes / 0.6) / 100.0);
}

std::string cabinetOf(const std::string& place) {
  constexpr std::string_view kBetween = " / ";
  const std::size_t first = place.find(kBetween);
  const std::size_t second =
      first == std::string::npos ? first : place.find(kBetween, first + kBetween.size());
  return place.substr(0, second);
}

}  // namespace spanwright
