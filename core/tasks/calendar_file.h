// SPDX-License-Identifier: GPL-3.0-or-later
//
// Days for other people's calendars: iCalendar (RFC 5545), by libical.
#pragma once

#include <string>
#include <vector>

#include "core/units/time.h"

namespace spanwright {

/// Something on one whole day.
struct CalendarEvent {
  std::string uid;  ///< of calendarUid; the same for the same thing when it is written again
  Date day;
  std::string summary;
  std::string description;  ///< lines separated by "\n"
  std::string location;
  bool busy = false;  ///< does it take the person's time (TRANSP, 3.8.2.7)?
};

/// A name that is the same for the same parts and no others: the beginning of their digest, and the site's
/// code behind an @ (3.8.4.7: globally unique).
std::string calendarUid(const std::vector<std::string>& parts, const std::string& siteCode);

/// The whole file: UTF-8, lines of CRLF folded at 75 bytes (3.1), text escaped (3.3.11), one all-day VEVENT
/// each (3.6.1) with `stampUtc` as DTSTAMP (3.8.7.2). Control characters in texts become blanks. `name` is
/// what the calendar is called (X-WR-CALNAME, common practice, no source).
std::string calendarText(const std::vector<CalendarEvent>& events, const std::string& name, Moment stampUtc);

}  // namespace spanwright
