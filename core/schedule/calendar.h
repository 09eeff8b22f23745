// SPDX-License-Identifier: GPL-3.0-or-later
//
// Working days, holidays and shutdowns; due dates moved to working days.
#pragma once

#include <bitset>
#include <optional>
#include <vector>

#include "core/units/time.h"

namespace spanwright {

class WorkCalendar {
 public:
  struct Closed {
    Date first;
    Date last;
  };
  /// Weekdays 0 Sunday .. 6 Saturday; at least one must be set. Closed ranges may overlap, in any order; none
  /// may end before it begins (asserted).
  WorkCalendar(std::bitset<7> workingWeekdays, std::vector<Closed> closed);

  bool isWorkingDay(Date day) const;
  /// `day` itself when it is one, else the nearest earlier / later working day; nothing when there is none
  /// within two years.
  std::optional<Date> onOrBefore(Date day) const;
  std::optional<Date> onOrAfter(Date day) const;

 private:
  const Closed* closedOn(Date day) const;  // nullptr when none covers it

  std::bitset<7> weekdays_;
  std::vector<Closed> closed_;  // by first, merged
};

}  // namespace spanwright
