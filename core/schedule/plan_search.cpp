// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/plan_search.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <tuple>
#include <utility>

namespace spanwright {
namespace {

/// Of the whole effort, what one visit may use up.
constexpr std::size_t kCallShare = 20;
/// How many visits may be pushed along, one by the other, before everything is tried.
constexpr int kPushes = 2;

}  // namespace

PlanSearch::PlanSearch(PlanBoard& board)
    : board_(board),
      until_(board.request().visits.size(), 0),
      effort_(board.request().effort),
      callEffort_(0) {}

std::optional<PlanReason> PlanSearch::add(std::size_t v, std::size_t until) {
  assert(!board_.slot(v));
  if (auto reason = neverPossible(v, until)) {
    return reason;
  }
  if (placeDirectly(v, until)) {
    until_[v] = until;
    return std::nullopt;
  }
  const std::vector<Window> windows = windowsWith(v, until);
  if (auto reason = tooFewHours(windows)) {
    return reason;
  }
  if (auto reason = tooFewStandardDays(windows)) {
    return reason;
  }
  callEffort_ = std::min(effort_, board_.request().effort / kCallShare);
  effort_ -= callEffort_;
  const std::size_t before = std::exchange(until_[v], until);  // it may itself be pushed along
  const Outcome outcome = makeRoom(v, until, kPushes) ? Outcome::placed : tryEverything(v, until);
  effort_ += callEffort_;
  if (outcome == Outcome::placed) {
    return std::nullopt;
  }
  until_[v] = before;
  const Hull days = *hull(v, until);
  PlanReason reason;
  reason.gap = PlanGap::arrangement;
  reason.span = {board_.date(days.first), board_.date(days.last)};
  reason.proven = outcome == Outcome::impossible;
  return reason;
}

bool PlanSearch::spent() {
  if (callEffort_ == 0) {
    return true;
  }
  --callEffort_;
  return false;
}

std::optional<PlanSearch::Hull> PlanSearch::hull(std::size_t v, std::size_t until) const {
  const std::vector<std::size_t>& days = board_.possibleDays(v);
  const auto end = std::lower_bound(days.begin(), days.end(), until);
  if (end == days.begin()) {
    return std::nullopt;
  }
  return Hull{days.front(), *(end - 1)};
}

std::optional<PlanReason> PlanSearch::neverPossible(std::size_t v, std::size_t until) const {
  if (hull(v, until)) {
    return std::nullopt;
  }
  const PlanVisit& visit = board_.visit(v);
  const PlanRequest& request = board_.request();
  PlanReason reason;
  reason.gap = PlanGap::noWorkingDay;
  reason.span.first = std::max(visit.earliest, request.from);
  const Date end = until < board_.dayCount() ? board_.date(until)
                                             : request.from + boost::gregorian::days(7 * request.weeks);
  reason.span.last = std::max(reason.span.first, end - boost::gregorian::days(1));
  const auto within = [](const std::vector<DaySpan>& spans, Date day) {
    return std::any_of(spans.begin(), spans.end(), [&](const DaySpan& span) { return span.contains(day); });
  };
  std::vector<std::size_t> days;
  for (std::size_t d = 0; d < std::min(until, board_.dayCount()); ++d) {
    const Date day = board_.date(d);
    if (day >= visit.earliest && !within(visit.never, day) &&
        (visit.only.empty() || within(visit.only, day))) {
      days.push_back(d);
    }
  }
  if (days.empty()) {
    return reason;
  }
  reason.span = {board_.date(days.front()), board_.date(days.back())};
  int longest = 0, longestHere = 0;
  for (std::size_t t = 0; t < board_.technicianCount(); ++t) {
    const PlanTechnician& technician = request.technicians[t];
    longest = std::max(longest, std::min(technician.minutesPerDay, technician.minutesPerWeek));
    for (const std::size_t d : days) {
      longestHere = std::max(longestHere, board_.dayMinutes(t, d));
    }
  }
  reason.offered = longest;
  reason.wanted = visit.minutes;
  if (longest > 0 && longest < visit.minutes) {
    reason.gap = PlanGap::tooLong;
    return reason;
  }
  if (longestHere < visit.minutes) {
    // Nobody there, or so few days of the week that their share of its hours is too short.
    reason.gap = longestHere == 0 ? PlanGap::noTechnician : PlanGap::noHours;
    reason.offered = longestHere;
    return reason;
  }
  for (const StandardNeed& need : visit.needs) {
    const bool served = std::any_of(days.begin(), days.end(), [&](std::size_t d) {
      return std::any_of(need.able.begin(), need.able.end(),
                         [&](const StandardNeed::Able& able) { return able.days.contains(board_.date(d)); });
    });
    if (!served) {
      reason.gap = PlanGap::noStandard;
      reason.what = need.what;
      return reason;
    }
  }
  reason.gap = PlanGap::standardsApart;
  return reason;
}

bool PlanSearch::placeDirectly(std::size_t v, std::size_t until) {
  const std::size_t dueUntil = board_.daysUntil(board_.visit(v).due);
  std::optional<PlanSlot> best;
  using Cost = std::tuple<std::size_t, int, bool, std::size_t, int>;
  Cost least;
  for (const std::size_t d : board_.possibleDays(v)) {
    if (d >= until) {
      break;
    }
    for (std::size_t t = 0; t < board_.technicianCount(); ++t) {
      auto slot = board_.fit(v, t, d);
      if (!slot) {
        continue;
      }
      const std::vector<std::size_t>& there = board_.on(t, d);
      const bool joins = std::any_of(there.begin(), there.end(), [&](std::size_t other) {
        return board_.visit(other).place == board_.visit(v).place;
      });
      const Cost cost{d < dueUntil ? 0 : d + 1 - dueUntil, slot->choice, !joins, board_.dayCount() - d,
                      board_.weekLoad(t, d)};
      if (!best || cost < least) {
        least = cost;
        best = std::move(slot);
      }
    }
  }
  if (best) {
    board_.place(v, std::move(*best));
  }
  return best.has_value();
}

std::vector<PlanSearch::Window> PlanSearch::windowsWith(std::size_t v, std::size_t until) const {
  std::vector<Window> windows{{v, until, *hull(v, until)}};
  for (std::size_t other = 0; other < until_.size(); ++other) {
    if (board_.slot(other)) {
      windows.push_back({other, until_[other], *hull(other, until_[other])});
    }
  }
  return windows;
}

std::optional<PlanReason> PlanSearch::tooFewHours(const std::vector<Window>& windows) const {
  // Only stretches around the new visit's own days can have become overfull.
  const Hull own = windows.front().hull;
  const std::size_t days = board_.dayCount();
  std::vector<std::vector<std::size_t>> byFirst(days);
  for (std::size_t i = 0; i < windows.size(); ++i) {
    byFirst[windows[i].hull.first].push_back(i);
  }
  std::vector<int> endingOn(days, 0);  // minutes of visits that begin at or after `a`, by their last day
  for (std::size_t a = days; a-- > 0;) {
    for (const std::size_t i : byFirst[a]) {
      endingOn[windows[i].hull.last] += board_.visit(windows[i].v).minutes;
    }
    if (a > own.first) {
      continue;
    }
    std::vector<int> thisWeek(board_.technicianCount(), 0);
    int wanted = 0, offered = 0;
    for (std::size_t b = a; b < days; ++b) {
      wanted += endingOn[b];
      const bool newWeek = b > a && board_.week(b) != board_.week(b - 1);
      for (std::size_t t = 0; t < thisWeek.size(); ++t) {
        const int left = board_.weekMinutes(t, b) - (newWeek ? thisWeek[t] = 0 : thisWeek[t]);
        const int today = std::min(left, board_.dayMinutes(t, b));
        thisWeek[t] += today;
        offered += today;
      }
      if (b >= own.last && wanted > offered) {
        return PlanReason{PlanGap::noHours, {board_.date(a), board_.date(b)}, {}, wanted, offered, true};
      }
    }
  }
  return std::nullopt;
}

bool PlanSearch::mustUse(const Window& window, std::size_t standard) const {
  for (const std::size_t d : board_.possibleDays(window.v)) {
    if (d >= window.until) {
      break;
    }
    for (const StandardSet& set : board_.standardSets(window.v, d)) {
      if (std::find(set.standards.begin(), set.standards.end(), standard) == set.standards.end()) {
        return false;
      }
    }
  }
  return true;
}

std::optional<PlanReason> PlanSearch::tooFewStandardDays(const std::vector<Window>& windows) const {
  const Window& own = windows.front();
  for (const std::size_t s : board_.standardSets(own.v, own.hull.first).front().standards) {
    if (!mustUse(own, s)) {
      continue;
    }
    std::vector<Window> users;
    std::copy_if(windows.begin(), windows.end(), std::back_inserter(users),
                 [&](const Window& window) { return mustUse(window, s); });
    for (const Window& from : users) {
      for (const Window& to : users) {
        const std::size_t a = from.hull.first, b = to.hull.last;
        if (a > own.hull.first || b < own.hull.last) {
          continue;
        }
        int wanted = 0, offered = 0;
        for (const Window& each : users) {
          wanted += each.hull.first >= a && each.hull.last <= b ? board_.visit(each.v).minutes : 0;
        }
        for (std::size_t d = a; d <= b; ++d) {
          int longest = 0;
          for (std::size_t t = 0; t < board_.technicianCount(); ++t) {
            longest = std::max(longest, board_.dayMinutes(t, d));
          }
          offered += longest;
        }
        if (wanted > offered) {
          return PlanReason{PlanGap::standardTaken,
                            {board_.date(a), board_.date(b)},
                            board_.request().standards[s],
                            wanted,
                            offered,
                            true};
        }
      }
    }
  }
  return std::nullopt;
}

bool PlanSearch::makeRoom(std::size_t v, std::size_t until, int depth) {
  if (placeDirectly(v, until)) {
    return true;
  }
  if (depth == 0) {
    return false;
  }
  for (const std::size_t d : board_.possibleDays(v)) {
    if (d >= until) {
      break;
    }
    for (std::size_t t = 0; t < board_.technicianCount(); ++t) {
      if (board_.couldDo(v, t, d) && makeRoomAt(v, {t, d}, depth)) {
        return true;
      }
    }
  }
  return false;
}

bool PlanSearch::makeRoomAt(std::size_t v, Candidate at, int depth) {
  // Any visit of the technician's week may be what takes the hours away.
  std::vector<std::size_t> others;
  for (std::size_t d = 0; d < board_.dayCount(); ++d) {
    if (board_.week(d) == board_.week(at.day)) {
      const auto& there = board_.on(at.technician, d);
      others.insert(others.end(), there.begin(), there.end());
    }
  }
  for (const std::size_t other : others) {
    if (spent()) {
      return false;
    }
    const PlanSlot was = board_.remove(other);
    if (auto slot = board_.fit(v, at.technician, at.day)) {
      board_.place(v, std::move(*slot));
      if (makeRoom(other, until_[other], depth - 1)) {
        return true;
      }
      board_.remove(v);
    }
    board_.place(other, was);
  }
  return false;
}

PlanSearch::Outcome PlanSearch::tryEverything(std::size_t v, std::size_t until) {
  // Those whose days have nothing to do with these, not even by way of others, can stay.
  std::vector<Window> windows = windowsWith(v, until);
  std::size_t linked = 1;
  for (std::size_t i = 0; i < linked; ++i) {
    const Hull by = windows[i].hull;
    const auto touches = [&](const Window& window) {
      return board_.week(window.hull.first) <= board_.week(by.last) &&
             board_.week(window.hull.last) >= board_.week(by.first);
    };
    const auto end =
        std::stable_partition(windows.begin() + static_cast<std::ptrdiff_t>(linked), windows.end(), touches);
    linked = static_cast<std::size_t>(end - windows.begin());
  }
  windows.resize(linked);
  std::vector<std::pair<std::size_t, PlanSlot>> before;
  for (const Window& window : windows) {
    if (window.v != v) {
      before.emplace_back(window.v, board_.remove(window.v));
    }
  }
  if (descend(windows)) {
    return Outcome::placed;
  }
  for (auto& [other, slot] : before) {
    board_.place(other, std::move(slot));
  }
  return callEffort_ == 0 ? Outcome::gaveUp : Outcome::impossible;
}

bool PlanSearch::descend(std::vector<Window>& open) {
  if (open.empty()) {
    return true;
  }
  // The visit with the fewest places left goes first; one without any ends this branch.
  std::size_t chosen = 0;
  std::size_t fewest = std::numeric_limits<std::size_t>::max();
  std::vector<Candidate> places;
  for (std::size_t i = 0; i < open.size() && fewest > 0; ++i) {
    std::vector<Candidate> found;
    for (const std::size_t d : board_.possibleDays(open[i].v)) {
      if (d >= open[i].until || found.size() >= fewest) {
        break;
      }
      for (std::size_t t = 0; t < board_.technicianCount(); ++t) {
        if (spent()) {
          return false;
        }
        if (board_.fit(open[i].v, t, d)) {
          found.push_back({t, d});
        }
      }
    }
    if (found.size() < fewest) {
      chosen = i;
      fewest = found.size();
      places = std::move(found);
    }
  }
  const Window window = open[chosen];
  open.erase(open.begin() + static_cast<std::ptrdiff_t>(chosen));
  for (const Candidate at : places) {
    for (const StandardSet& set : board_.standardSets(window.v, at.day)) {
      if (!board_.free(set.standards, at.technician, at.day)) {
        continue;
      }
      board_.place(window.v, {at.technician, at.day, set.standards, set.choice});
      if (descend(open)) {
        return true;
      }
      board_.remove(window.v);
    }
  }
  open.insert(open.begin() + static_cast<std::ptrdiff_t>(chosen), window);
  return false;
}

}  // namespace spanwright
