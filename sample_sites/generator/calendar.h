// SPDX-License-Identifier: GPL-3.0-or-later
//
// Days and times of the invented sites.
#pragma once

#include <chrono>
#include <compare>
#include <string>

namespace spanwright::sample {

using Day = std::chrono::sys_days;

Day day(int year, unsigned month, unsigned dayOfMonth);
int yearOf(Day day);

/// Site local time, to the minute.
struct When {
  Day day;
  int minute = 0;  ///< of the day
  // NOLINTNEXTLINE(modernize-use-nullptr): the defaulted comparison's own zero
  friend auto operator<=>(const When&, const When&) = default;
};
When when(int year, unsigned month, unsigned dayOfMonth, int hour = 8, int minute = 0);

/// Years of 365.25 days since 2018-01-01T00:00.
double years(When when);

std::string isoDate(Day day);       ///< 2026-03-01
std::string isoTime(When when);     ///< 2026-03-01T08:30:00
std::string shortIso(When when);    ///< 2026-03-01 08:30
std::string germanTime(When when);  ///< 01.03.2026 08:30

/// Monday to Friday and not in a shutdown of the invented company (the same weeks every year).
bool isWorkingDay(Day day);
/// `day` itself or the next working day.
Day workingDay(Day day);

}  // namespace spanwright::sample
