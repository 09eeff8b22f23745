// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/plan.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <string_view>
#include <tuple>
#include <utility>

#include "core/schedule/plan_board.h"
#include "core/schedule/plan_search.h"

namespace spanwright {
namespace {

class Planner {
 public:
  explicit Planner(const PlanRequest& request)
      : request_(request), board_(request), search_(board_), reasons_(request.visits.size()) {
    order_.resize(request.visits.size());
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    const auto pressing = [&](std::size_t v) {
      const PlanVisit& visit = request_.visits[v];
      return std::tuple(!visit.agreed, !visit.unproven, visit.due, visit.place);
    };
    std::stable_sort(order_.begin(), order_.end(),
                     [&](std::size_t a, std::size_t b) { return pressing(a) < pressing(b); });
  }

  WorkPlan run() {
    std::vector<std::size_t> late;
    for (const std::size_t v : order_) {
      reasons_[v] = search_.add(v, board_.daysUntil(request_.visits[v].last));
      if (reasons_[v]) {
        late.push_back(v);
      }
    }
    for (const std::size_t v : order_) {
      if (board_.slot(v)) {
        bringForward(v, board_.daysUntil(request_.visits[v].due));
      }
    }
    for (const std::size_t v : late) {
      if (auto reason = search_.add(v, board_.dayCount())) {
        reasons_[v] = std::move(reason);
      } else {
        firstDay(v, board_.daysUntil(request_.visits[v].last));
      }
    }
    while (joinStops()) {
    }
    return result();
  }

 private:
  /// Tries the visit by `until`, and keeps it where it is when that cannot be.
  std::optional<PlanReason> tryBy(std::size_t v, std::size_t until) {
    PlanSlot was = board_.remove(v);
    auto reason = search_.add(v, until);
    if (reason) {
      board_.place(v, std::move(was));
    }
    return reason;
  }

  void bringForward(std::size_t v, std::size_t dueUntil) {
    if (board_.slot(v)->day < dueUntil) {
      search_.limit(v, dueUntil);
      return;
    }
    reasons_[v] = tryBy(v, dueUntil);
    if (reasons_[v]) {
      firstDay(v, dueUntil);
    }
  }

  /// The first day on which it can be, knowing that it cannot be within the first `impossible` ones.
  void firstDay(std::size_t v, std::size_t impossible) {
    std::size_t no = impossible;
    std::size_t yes = board_.slot(v)->day + 1;
    while (no + 1 < yes) {
      const std::size_t middle = no + (yes - no) / 2;
      if (tryBy(v, middle)) {
        no = middle;
      } else {
        yes = board_.slot(v)->day + 1;
      }
    }
    search_.limit(v, yes);
  }

  /// Moves the visits of one place on one technician's day to another day the place is visited on, all or
  /// none, where their limits allow; true when any were moved.
  bool joinStops() {
    std::map<std::string_view, std::vector<std::size_t>> byPlace;
    for (const std::size_t v : order_) {
      if (board_.slot(v)) {
        byPlace[request_.visits[v].place].push_back(v);
      }
    }
    bool any = false;
    for (const auto& [place, visits] : byPlace) {
      for (const std::size_t v : visits) {
        any = joinsOther(v, visits) || any;
      }
    }
    return any;
  }

  bool joinsOther(std::size_t v, const std::vector<std::size_t>& samePlace) {
    const PlanSlot here = *board_.slot(v);
    std::vector<std::size_t> stop = board_.on(here.technician, here.day);
    std::erase_if(
        stop, [&](std::size_t other) { return request_.visits[other].place != request_.visits[v].place; });
    return std::any_of(samePlace.begin(), samePlace.end(), [&](std::size_t other) {
      const PlanSlot& there = *board_.slot(other);
      const std::size_t technician = there.technician, day = there.day;
      return std::tie(technician, day) != std::tie(here.technician, here.day) &&
             moveAll(stop, technician, day);
    });
  }

  bool moveAll(const std::vector<std::size_t>& stop, std::size_t technician, std::size_t day) {
    std::vector<PlanSlot> were;
    for (const std::size_t v : stop) {
      were.push_back(board_.remove(v));
    }
    std::size_t moved = 0;
    for (; moved < stop.size(); ++moved) {
      const std::size_t v = stop[moved];
      const auto& days = board_.possibleDays(v);
      auto slot = day < search_.limitOf(v) && std::binary_search(days.begin(), days.end(), day)
                      ? board_.fit(v, technician, day)
                      : std::nullopt;
      if (!slot || slot->choice > were[moved].choice) {
        break;
      }
      board_.place(v, std::move(*slot));
    }
    if (moved == stop.size()) {
      return true;
    }
    while (moved-- > 0) {
      board_.remove(stop[moved]);
    }
    for (std::size_t i = 0; i < stop.size(); ++i) {
      board_.place(stop[i], std::move(were[i]));
    }
    return false;
  }

  WorkPlan result() {
    WorkPlan plan;
    for (std::size_t v = 0; v < request_.visits.size(); ++v) {
      const auto& slot = board_.slot(v);
      if (!slot) {
        plan.unplanned.push_back({v, *reasons_[v]});
        continue;
      }
      const PlanVisit& visit = request_.visits[v];
      PlannedVisit planned{
          v, board_.date(slot->day), slot->technician, slot->standards, slot->choice, PlanTime::onTime, {}};
      if (planned.day > visit.due) {
        planned.time = planned.day > visit.last ? PlanTime::late : PlanTime::inGrace;
        planned.reason = reasons_[v];
      }
      plan.planned.push_back(std::move(planned));
    }
    std::stable_sort(plan.planned.begin(), plan.planned.end(),
                     [&](const PlannedVisit& a, const PlannedVisit& b) {
                       return std::tie(a.day, a.technician, request_.visits[a.visit].place) <
                              std::tie(b.day, b.technician, request_.visits[b.visit].place);
                     });
    return plan;
  }

  const PlanRequest& request_;
  PlanBoard board_;
  PlanSearch search_;
  std::vector<std::size_t> order_;
  std::vector<std::optional<PlanReason>> reasons_;
};

}  // namespace

std::string_view text(PlanTime time) {
  switch (time) {
    case PlanTime::onTime:
      return "on_time";
    case PlanTime::inGrace:
      return "in_grace";
    case PlanTime::late:
      return "late";
  }
  return "";
}

WorkPlan planVisits(const PlanRequest& request) {
  return Planner(request).run();
}

}  // namespace spanwright
