// SPDX-License-Identifier: GPL-3.0-or-later
//
// The table on which a plan is laid out: who has how much on which day, who has which standard.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/schedule/plan.h"

namespace spanwright {

/// A technician's day (index into the plan's working days) with the standards taken along.
struct PlanSlot {
  std::size_t technician = 0;
  std::size_t day = 0;
  std::vector<std::size_t> standards;
  int choice = 0;  ///< the worst among the standards'
};
/// What serves all needs of a visit on a day.
struct StandardSet {
  std::vector<std::size_t> standards;
  int choice = 0;
};

class PlanBoard {
 public:
  /// Keeps a pointer to `request`.
  explicit PlanBoard(const PlanRequest& request);

  std::size_t dayCount() const { return dates_.size(); }
  Date date(std::size_t day) const { return dates_[day]; }
  /// Number of working days of the plan up to and including `day`: one more than the index of the last.
  std::size_t daysUntil(Date day) const;
  const PlanVisit& visit(std::size_t v) const { return request_->visits[v]; }

  /// Days on which the visit could be made if nothing else were planned, ascending.
  const std::vector<std::size_t>& possibleDays(std::size_t v) const { return possible_[v]; }
  /// Is the technician there and, on a day of their own, has time for it?
  bool couldDo(std::size_t v, std::size_t technician, std::size_t day) const;
  /// Every set of standards that serves the visit on the day, first choices first; one empty set without
  /// needs.
  const std::vector<StandardSet>& standardSets(std::size_t v, std::size_t day) const;

  /// The slot with the best choice of standards, among equals with those that leave most to others; nothing
  /// when there is no room.
  std::optional<PlanSlot> fit(std::size_t v, std::size_t technician, std::size_t day) const;
  /// Is there time left, whatever the standards?
  bool hasTime(std::size_t v, std::size_t technician, std::size_t day) const;
  /// May the technician have all of these that day?
  bool free(const std::vector<std::size_t>& standards, std::size_t technician, std::size_t day) const;

  const std::optional<PlanSlot>& slot(std::size_t v) const { return slots_[v]; }
  void place(std::size_t v, PlanSlot slot);
  PlanSlot remove(std::size_t v);
  /// Visits on the technician's day, in the order they were placed.
  const std::vector<std::size_t>& on(std::size_t technician, std::size_t day) const {
    return onDay_[technician][day];
  }
  std::size_t week(std::size_t day) const { return weekOf_[day]; }
  int weekLoad(std::size_t technician, std::size_t day) const { return weekLoad_[technician][weekOf_[day]]; }
  int dayMinutes(std::size_t technician, std::size_t day) const { return dayLimit_[technician][day]; }
  int weekMinutes(std::size_t technician, std::size_t day) const {
    return weekLimit_[technician][weekOf_[day]];
  }
  std::size_t technicianCount() const { return request_->technicians.size(); }
  const PlanRequest& request() const { return *request_; }

 private:
  /// Visits with the same needs share what serves them.
  struct Needs {
    const std::vector<StandardNeed>* needs = nullptr;
    std::vector<std::vector<StandardSet>> sets;  ///< by day
  };
  struct Held {
    std::size_t technician = 0;
    int visits = 0;
  };
  void addDays();
  void addLimits(const PlanTechnician& technician);
  std::size_t needsOf(const std::vector<StandardNeed>& needs);

  const PlanRequest* request_;
  std::vector<Date> dates_;
  std::vector<std::size_t> weekOf_;          ///< by day
  std::vector<std::vector<int>> weekLimit_;  ///< by technician and week
  std::vector<std::vector<int>> dayLimit_;   ///< by technician and day; 0 when away
  std::vector<Needs> needs_;
  std::vector<std::size_t> needsOfVisit_;
  std::vector<std::vector<std::size_t>> possible_;
  std::vector<std::vector<int>> dayLoad_, weekLoad_;
  std::vector<std::vector<Held>> held_;  ///< by standard and day
  std::vector<std::vector<std::vector<std::size_t>>> onDay_;
  std::vector<std::optional<PlanSlot>> slots_;
};

}  // namespace spanwright
