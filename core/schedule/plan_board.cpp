// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/plan_board.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <utility>

namespace spanwright {
namespace {

using Sets = std::vector<StandardSet>;

bool within(const std::vector<DaySpan>& spans, Date day) {
  return std::any_of(spans.begin(), spans.end(), [&](const DaySpan& span) { return span.contains(day); });
}

/// Every way to serve all needs that day: one standard for each, each standard once.
Sets setsOn(const std::vector<StandardNeed>& needs, Date day) {
  Sets sets{{}};
  for (const StandardNeed& need : needs) {
    Sets longer;
    for (const StandardSet& set : sets) {
      for (const StandardNeed::Able& able : need.able) {
        if (!able.days.contains(day)) {
          continue;
        }
        StandardSet with = set;
        with.choice = std::max(with.choice, able.choice);
        if (std::find(with.standards.begin(), with.standards.end(), able.standard) == with.standards.end()) {
          with.standards.push_back(able.standard);
        }
        const bool known = std::any_of(longer.begin(), longer.end(), [&](const StandardSet& other) {
          return other.standards == with.standards && other.choice <= with.choice;
        });
        if (!known) {
          longer.push_back(std::move(with));
        }
      }
    }
    sets = std::move(longer);
  }
  std::stable_sort(sets.begin(), sets.end(), [](const StandardSet& a, const StandardSet& b) {
    return std::pair(a.choice, a.standards.size()) < std::pair(b.choice, b.standards.size());
  });
  return sets;
}

}  // namespace

PlanBoard::PlanBoard(const PlanRequest& request) : request_(&request) {
  assert(request.weeks > 0 && request.weekdays > 0);
  addDays();
  const std::size_t days = dates_.size();
  const std::size_t weeks = days == 0 ? 0 : weekOf_.back() + 1;
  const std::size_t technicians = request.technicians.size();
  for (const PlanTechnician& technician : request.technicians) {
    addLimits(technician);
  }
  dayLoad_.assign(technicians, std::vector<int>(days, 0));
  weekLoad_.assign(technicians, std::vector<int>(weeks, 0));
  onDay_.assign(technicians, std::vector<std::vector<std::size_t>>(days));
  held_.assign(request.standards.size(), std::vector<Held>(days));
  slots_.resize(request.visits.size());
  for (std::size_t v = 0; v < request.visits.size(); ++v) {
    const PlanVisit& visit = request.visits[v];
    assert(visit.minutes > 0 && visit.earliest <= visit.due && visit.due <= visit.last);
    needsOfVisit_.push_back(needsOf(visit.needs));
    std::vector<std::size_t>& possible = possible_.emplace_back();
    for (std::size_t d = 0; d < days; ++d) {
      const Date day = dates_[d];
      if (day < visit.earliest || within(visit.never, day) ||
          (!visit.only.empty() && !within(visit.only, day)) || standardSets(v, d).empty()) {
        continue;
      }
      for (std::size_t t = 0; t < technicians; ++t) {
        if (couldDo(v, t, d)) {
          possible.push_back(d);
          break;
        }
      }
    }
  }
}

void PlanBoard::addDays() {
  const auto monday = [](Date day) {
    const int since = (day.day_of_week().as_number() + 6) % 7;
    return day - boost::gregorian::days(since);
  };
  std::vector<Date> mondays;
  for (int i = 0; i < 7 * request_->weeks; ++i) {
    const Date day = request_->from + boost::gregorian::days(i);
    if (!request_->calendar.isWorkingDay(day)) {
      continue;
    }
    if (mondays.empty() || mondays.back() != monday(day)) {
      mondays.push_back(monday(day));
    }
    dates_.push_back(day);
    weekOf_.push_back(mondays.size() - 1);
  }
}

void PlanBoard::addLimits(const PlanTechnician& technician) {
  std::vector<int>& days = dayLimit_.emplace_back(dates_.size(), 0);
  std::vector<int>& weeks = weekLimit_.emplace_back(dates_.empty() ? 0 : weekOf_.back() + 1, 0);
  std::vector<int> there(weeks.size(), 0);
  for (std::size_t d = 0; d < dates_.size(); ++d) {
    there[weekOf_[d]] += within(technician.away, dates_[d]) ? 0 : 1;
  }
  for (std::size_t w = 0; w < weeks.size(); ++w) {
    weeks[w] = technician.minutesPerWeek * there[w] / request_->weekdays;
  }
  for (std::size_t d = 0; d < dates_.size(); ++d) {
    days[d] = within(technician.away, dates_[d]) ? 0 : std::min(technician.minutesPerDay, weeks[weekOf_[d]]);
  }
}

std::size_t PlanBoard::needsOf(const std::vector<StandardNeed>& needs) {
  for (std::size_t i = 0; i < needs_.size(); ++i) {
    if (*needs_[i].needs == needs) {
      return i;
    }
  }
  Needs& added = needs_.emplace_back();
  added.needs = &needs;
  for (const Date day : dates_) {
    added.sets.push_back(setsOn(needs, day));
  }
  return needs_.size() - 1;
}

std::size_t PlanBoard::daysUntil(Date day) const {
  return static_cast<std::size_t>(std::upper_bound(dates_.begin(), dates_.end(), day) - dates_.begin());
}

bool PlanBoard::couldDo(std::size_t v, std::size_t technician, std::size_t day) const {
  const PlanVisit& wanted = visit(v);
  return wanted.minutes <= dayLimit_[technician][day] && wanted.agreed.value_or(technician) == technician;
}

const Sets& PlanBoard::standardSets(std::size_t v, std::size_t day) const {
  return needs_[needsOfVisit_[v]].sets[day];
}

bool PlanBoard::hasTime(std::size_t v, std::size_t technician, std::size_t day) const {
  const int minutes = visit(v).minutes;
  return couldDo(v, technician, day) && dayLoad_[technician][day] + minutes <= dayLimit_[technician][day] &&
         weekLoad_[technician][weekOf_[day]] + minutes <= weekMinutes(technician, day);
}

bool PlanBoard::free(const std::vector<std::size_t>& standards, std::size_t technician,
                     std::size_t day) const {
  return std::all_of(standards.begin(), standards.end(), [&](std::size_t s) {
    return held_[s][day].visits == 0 || held_[s][day].technician == technician;
  });
}

std::optional<PlanSlot> PlanBoard::fit(std::size_t v, std::size_t technician, std::size_t day) const {
  if (!hasTime(v, technician, day)) {
    return std::nullopt;
  }
  const StandardSet* best = nullptr;
  auto least = std::pair(std::numeric_limits<int>::max(), std::ptrdiff_t{0});
  for (const StandardSet& set : standardSets(v, day)) {
    if (!free(set.standards, technician, day)) {
      continue;
    }
    const auto taken = std::count_if(set.standards.begin(), set.standards.end(),
                                     [&](std::size_t s) { return held_[s][day].visits == 0; });
    if (std::pair(set.choice, taken) < least) {
      least = {set.choice, taken};
      best = &set;
    }
  }
  return best == nullptr ? std::nullopt
                         : std::optional(PlanSlot{technician, day, best->standards, best->choice});
}

void PlanBoard::place(std::size_t v, PlanSlot slot) {
  assert(!slots_[v]);
  const int minutes = visit(v).minutes;
  dayLoad_[slot.technician][slot.day] += minutes;
  weekLoad_[slot.technician][weekOf_[slot.day]] += minutes;
  onDay_[slot.technician][slot.day].push_back(v);
  for (const std::size_t s : slot.standards) {
    Held& held = held_[s][slot.day];
    assert(held.visits == 0 || held.technician == slot.technician);
    held.technician = slot.technician;
    ++held.visits;
  }
  slots_[v] = std::move(slot);
}

PlanSlot PlanBoard::remove(std::size_t v) {
  assert(slots_[v]);
  PlanSlot slot = std::move(*slots_[v]);
  slots_[v].reset();
  const int minutes = visit(v).minutes;
  dayLoad_[slot.technician][slot.day] -= minutes;
  weekLoad_[slot.technician][weekOf_[slot.day]] -= minutes;
  std::erase(onDay_[slot.technician][slot.day], v);
  for (const std::size_t s : slot.standards) {
    --held_[s][slot.day].visits;
  }
  return slot;
}

}  // namespace spanwright
