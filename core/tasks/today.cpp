// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/today.h"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <utility>

#include "core/record/life.h"

namespace spanwright {
namespace {

constexpr std::array kPressing{DueState::unproven, DueState::overdue, DueState::inGrace, DueState::dueSoon};

bool hasAny(const Person& person, std::initializer_list<Role> wanted) {
  return std::any_of(wanted.begin(), wanted.end(), [&person](Role role) {
    return std::find(person.roles.begin(), person.roles.end(), role) != person.roles.end();
  });
}

/// Waiting for this act, by somebody who may do it.
std::vector<CalibrationSummary> waitingFor(const Store& store, LifeAct act, LifeState state,
                                           std::string_view person, Date today) {
  std::vector<CalibrationSummary> waiting = store.inState(state);
  if (person.empty()) {
    return waiting;
  }
  const auto mayNot = [&](const CalibrationSummary& each) {
    Calibration named;  // of a calibration actFault looks at its number and its technician only
    named.id = each.id;
    named.person = each.person;
    return actFault(store.site(), named, store.life(each.id), {act, std::string(person), "", today})
        .has_value();
  };
  std::erase_if(waiting, mayNot);
  return waiting;
}

std::vector<SentBack> sentBackTo(const Store& store, std::string_view person) {
  std::vector<SentBack> all;
  for (CalibrationSummary& each : store.inState(LifeState::sentBack)) {
    if (person.empty() || each.person == person) {
      const LifeEvent last = store.life(each.id).back();
      all.push_back({std::move(each), last.person, last.reason});
    }
  }
  return all;
}

std::vector<Draft> draftsOf(const Store& store, std::string_view person) {
  std::vector<Draft> drafts = store.drafts();
  if (!person.empty()) {
    std::erase_if(drafts,
                  [person](const Draft& each) { return !each.person.empty() && each.person != person; });
  }
  std::sort(drafts.begin(), drafts.end(), [](const Draft& a, const Draft& b) { return a.id > b.id; });
  return drafts;
}

std::vector<RoundToWalk> roundsOf(const Store& store, std::string_view person) {
  std::vector<RoundToWalk> all;
  for (Round& round : store.rounds()) {
    if (round.closedUtc || (!person.empty() && !round.person.empty() && round.person != person)) {
      continue;
    }
    const auto progress = roundProgress(store, round);
    RoundToWalk& one = all.emplace_back();
    one.done = static_cast<std::size_t>(std::count_if(
        progress.begin(), progress.end(), [](const StopProgress& stop) { return stop.calibration != 0; }));
    if (const auto next = nextStop(progress)) {
      one.next = progress[*next];
    }
    one.round = std::move(round);
  }
  return all;
}

std::vector<CalibrationSummary> unsignedOf(const Store& store, std::string_view person) {
  auto visits = store.inState(LifeState::recorded);
  if (!person.empty()) {
    std::erase_if(visits, [person](const CalibrationSummary& each) { return each.person != person; });
  }
  return visits;
}

std::vector<DueGroup> dueGroups(const std::vector<DueItem>& due, std::size_t most) {
  std::vector<DueGroup> groups;
  for (const DueState state : kPressing) {
    groups.push_back({state, 0, {}});
  }
  for (const DueItem& item : due) {
    for (DueGroup& group : groups) {
      if (group.state == item.due.state) {
        ++group.count;
        if (group.first.size() < most) {
          group.first.push_back(item);
        }
      }
    }
  }
  return groups;
}

bool usable(StandardState state) {
  return state == StandardState::valid || state == StandardState::expiresSoon ||
         state == StandardState::useAllowed;
}

}  // namespace

TodayConcerns concernsOf(const Register& site, std::string_view person, Date today) {
  if (person.empty()) {
    return {true, true, true};
  }
  const Person* found = site.person(person);
  if (found == nullptr || (found->leftOn && *found->leftOn <= today)) {
    return {};
  }
  return {hasAny(*found, {Role::technician}), hasAny(*found, {Role::reviewer}),
          hasAny(*found, {Role::technician, Role::planner})};
}

StepGroup stepsToSee(const std::vector<FleetRow>& fleet, std::size_t most) {
  StepGroup group;
  for (const FleetRow& row : fleet) {
    if (row.findings.empty()) {
      break;  // those with findings stand first
    }
    const auto step = std::find_if(row.findings.begin(), row.findings.end(), [](const DriftFinding& finding) {
      return finding.kind == FindingKind::step;
    });
    if (step != row.findings.end()) {
      ++group.count;
      group.first.push_back({row.channel, row.place, row.subject, *step});
    }
  }
  std::stable_sort(group.first.begin(), group.first.end(), [](const StepToSee& a, const StepToSee& b) {
    return a.finding.pValue < b.finding.pValue;
  });
  group.first.resize(std::min(group.first.size(), most));
  return group;
}

std::vector<StandardToSee> standardsToSee(const Register& site, Date today) {
  std::vector<StandardToSee> all;
  for (const StandardStatus& status : standardsOn(site, today)) {
    StandardToSee each{status.standard->serial,
                       status.standard->description,
                       status.state,
                       status.lastDay,
                       status.daysLeft,
                       {}};
    if (status.decision != nullptr) {
      each.reason = status.decision->reason;
      if (status.state == StandardState::useAllowed) {
        each.lastDay = status.decision->lastDay;
        each.daysLeft = static_cast<int>((status.decision->lastDay - today).days());
      }
    }
    const bool fine = status.state == StandardState::valid || status.state == StandardState::expiresSoon;
    if (!fine || each.daysLeft <= kStandardDaysAhead) {
      all.push_back(std::move(each));
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const StandardToSee& a, const StandardToSee& b) {
    return std::pair(usable(a.state), a.daysLeft) < std::pair(usable(b.state), b.daysLeft);
  });
  return all;
}

Today todayFor(const Store& store, const std::vector<DueItem>& due, const std::vector<FleetRow>& fleet,
               std::string_view person, Date today, std::size_t most) {
  Today all;
  all.concerns = concernsOf(store.site(), person, today);
  if (all.concerns.visits) {
    all.drafts = draftsOf(store, person);
    all.rounds = roundsOf(store, person);
    all.sentBack = sentBackTo(store, person);
    all.toSign = unsignedOf(store, person);
  }
  if (all.concerns.reviews) {
    all.toReview = waitingFor(store, LifeAct::reviewed, LifeState::performed, person, today);
    all.toApprove = waitingFor(store, LifeAct::approved, LifeState::reviewed, person, today);
  }
  if (all.concerns.due) {
    all.due = dueGroups(due, most);
    all.steps = stepsToSee(fleet, most);
  }
  all.standards = standardsToSee(store.site(), today);
  return all;
}

}  // namespace spanwright
