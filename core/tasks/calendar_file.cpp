// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/calendar_file.h"

#include <libical/ical.h>

#include <algorithm>
#include <cassert>
#include <memory>

#include "core/store/digest.h"

namespace spanwright {
namespace {

struct FreeComponent {
  void operator()(icalcomponent* component) const { icalcomponent_free(component); }
};
using Component = std::unique_ptr<icalcomponent, FreeComponent>;

/// Text as RFC 5545 3.1 and 3.3.11 allow it; libical escapes and folds it.
std::string plain(std::string text, bool lines) {
  std::replace_if(
      text.begin(), text.end(),
      [&](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return (byte < 0x20 && !(lines && c == '\n')) || byte == 0x7F;
      },
      ' ');
  return text;
}

icaltimetype dayOf(Date day) {
  icaltimetype time = icaltime_null_date();
  const auto parts = day.year_month_day();
  time.year = parts.year;
  time.month = parts.month;
  time.day = parts.day;
  return time;
}

icaltimetype momentOf(Moment utc) {
  icaltimetype time = dayOf(utc.date());
  time.is_date = 0;
  time.hour = static_cast<int>(utc.time_of_day().hours());
  time.minute = static_cast<int>(utc.time_of_day().minutes());
  time.second = static_cast<int>(utc.time_of_day().seconds());
  time.zone = icaltimezone_get_utc_timezone();
  return time;
}

/// The calendar owns what is added to it.
void addEvent(icalcomponent* calendar, const CalendarEvent& event, Moment stampUtc) {
  icalcomponent* made = icalcomponent_new(ICAL_VEVENT_COMPONENT);
  icalcomponent_add_component(calendar, made);
  const auto add = [&](icalproperty* property) { icalcomponent_add_property(made, property); };
  add(icalproperty_new_uid(plain(event.uid, false).c_str()));
  add(icalproperty_new_dtstamp(momentOf(stampUtc)));
  add(icalproperty_new_dtstart(dayOf(event.day)));
  add(icalproperty_new_dtend(
      dayOf(event.day + boost::gregorian::days(1))));  // the first day that is not in it
  add(icalproperty_new_summary(plain(event.summary, false).c_str()));
  if (!event.description.empty()) {
    add(icalproperty_new_description(plain(event.description, true).c_str()));
  }
  if (!event.location.empty()) {
    add(icalproperty_new_location(plain(event.location, false).c_str()));
  }
  add(icalproperty_new_transp(event.busy ? ICAL_TRANSP_OPAQUE : ICAL_TRANSP_TRANSPARENT));
}

}  // namespace

std::string calendarUid(const std::vector<std::string>& parts, const std::string& siteCode) {
  DigestOver digest;
  for (const std::string& part : parts) {
    digest.add(std::to_string(part.size()) + ":" + part);  // "a","bc" is not "ab","c"
  }
  constexpr std::size_t kDigits = 32;
  return hex(digest.finish()).substr(0, kDigits) + "@" + siteCode + ".spanwright";
}

std::string calendarText(const std::vector<CalendarEvent>& events, const std::string& name, Moment stampUtc) {
  assert(!stampUtc.is_special());
  const Component calendar(icalcomponent_new(ICAL_VCALENDAR_COMPONENT));
  icalcomponent_add_property(calendar.get(), icalproperty_new_version("2.0"));
  icalcomponent_add_property(calendar.get(),
                             icalproperty_new_prodid("-//Spanwright//Spanwright " SPANWRIGHT_VERSION "//EN"));
  icalproperty* called = icalproperty_new_x(plain(name, false).c_str());
  icalproperty_set_x_name(called, "X-WR-CALNAME");
  icalcomponent_add_property(calendar.get(), called);
  for (const CalendarEvent& event : events) {
    addEvent(calendar.get(), event, stampUtc);
  }
  struct Free {
    void operator()(char* text) const { icalmemory_free_buffer(text); }
  };
  const std::unique_ptr<char, Free> text(icalcomponent_as_ical_string_r(calendar.get()));
  return text.get();
}

}  // namespace spanwright
