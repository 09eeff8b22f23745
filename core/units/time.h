// SPDX-License-Identifier: GPL-3.0-or-later
//
// Dates and moments, ISO 8601, over Boost.Date_Time. A Moment is the site's local time without offset;
// the store's own stamps are UTC and written with a trailing Z by the store.
#pragma once

#include <boost/date_time/gregorian/gregorian_types.hpp>
#include <boost/date_time/posix_time/posix_time_types.hpp>
#include <optional>
#include <string>
#include <string_view>

namespace spanwright {

using Date = boost::gregorian::date;
using Moment = boost::posix_time::ptime;

/// "2026-03-01" only; nothing for any other text or an impossible day.
std::optional<Date> parseDate(std::string_view text);
/// "2026-03-01", "2026-03-01T08:30", "2026-03-01T08:30:00" (blank allowed for T); a date alone is its
/// midnight.
std::optional<Moment> parseMoment(std::string_view text);
std::string formatDate(Date date);        ///< "2026-03-01"; "" for not-a-date
std::string formatMoment(Moment moment);  ///< "2026-03-01T08:30:00"; "" for not-a-date-time

/// Years of 365.25 days from `from` to `to`, negative when `to` is earlier.
double yearsBetween(Moment from, Moment to);
/// The same day of the month `months` later, clipped to the month's end: 2023-02-28 + 1 is 2023-03-28
/// (Boost's own month arithmetic would snap to 03-31). Not-a-date outside the years 1400 to 9999.
Date addMonths(Date date, int months);

/// Where the program asks what time it is; tests pass a fixed one.
class Clock {
 public:
  virtual ~Clock() = default;
  virtual Moment localNow() const = 0;
  virtual Moment utcNow() const = 0;
};
/// The machine's clock.
const Clock& systemClock();

}  // namespace spanwright
