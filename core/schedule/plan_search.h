// SPDX-License-Identifier: GPL-3.0-or-later
//
// One more visit on the table, with the others moved about where that makes room.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/schedule/plan_board.h"

namespace spanwright {

class PlanSearch {
 public:
  explicit PlanSearch(PlanBoard& board);

  /// Places the visit on one of the plan's first `until` working days, or says why that cannot be. Visits
  /// already placed may move, each within its own limit; when it cannot be they are where they were.
  std::optional<PlanReason> add(std::size_t v, std::size_t until);
  /// From now on the visit, which is placed, stays within the first `until` working days.
  void limit(std::size_t v, std::size_t until) { until_[v] = until; }
  std::size_t limitOf(std::size_t v) const { return until_[v]; }

 private:
  struct Hull {
    std::size_t first = 0, last = 0;  ///< days
  };
  struct Window {
    std::size_t v = 0, until = 0;
    Hull hull;
  };
  struct Candidate {
    std::size_t technician = 0, day = 0;
  };
  enum class Outcome { placed, impossible, gaveUp };

  std::optional<Hull> hull(std::size_t v, std::size_t until) const;
  std::optional<PlanReason> neverPossible(std::size_t v, std::size_t until) const;
  bool placeDirectly(std::size_t v, std::size_t until);
  std::vector<Window> windowsWith(std::size_t v, std::size_t until) const;
  std::optional<PlanReason> tooFewHours(const std::vector<Window>& windows) const;
  std::optional<PlanReason> tooFewStandardDays(const std::vector<Window>& windows) const;
  bool mustUse(const Window& window, std::size_t standard) const;
  bool makeRoom(std::size_t v, std::size_t until, int depth);
  bool makeRoomAt(std::size_t v, Candidate at, int depth);
  Outcome tryEverything(std::size_t v, std::size_t until);
  bool descend(std::vector<Window>& open);
  bool spent();

  PlanBoard& board_;
  std::vector<std::size_t> until_;
  std::size_t effort_;      ///< left in all
  std::size_t callEffort_;  ///< left for this visit
};

}  // namespace spanwright
