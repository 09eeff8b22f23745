// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/calendar_file.h"

#include <gtest/gtest.h>
#include <libical/ical.h>

#include <memory>

namespace spanwright {
namespace {

using Component = std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)>;

CalendarEvent event() {
  return {"abc@LARK.spanwright",
          *parseDate("2026-12-31"),
          "FT-1, FT-2; \"back\\slash\"",
          "first line\nsecond, line; with more\nthird",
          "Käserei, Halle 1 / Schrank ÄÖÜ",
          true};
}

const Moment kStamp = *parseMoment("2026-11-25T08:00:05");

std::string valueOf(icalcomponent* component, icalproperty_kind kind) {
  icalproperty* property = icalcomponent_get_first_property(component, kind);
  const char* text = property == nullptr ? nullptr : icalproperty_get_value_as_string(property);
  return text == nullptr ? "none" : text;
}

TEST(CalendarFile, IsReadBackAsItWas) {
  const CalendarEvent made = event();
  const std::string text = calendarText({made}, "Larkmead, visits", kStamp);
  const Component calendar(icalparser_parse_string(text.c_str()), &icalcomponent_free);
  ASSERT_NE(calendar, nullptr);
  EXPECT_EQ(icalcomponent_count_errors(calendar.get()), 0);
  EXPECT_EQ(icalrestriction_check(calendar.get()), 1) << "by the rules of the library";
  icalcomponent* read = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT);
  ASSERT_NE(read, nullptr);
  EXPECT_STREQ(icalcomponent_get_uid(read), made.uid.c_str());
  EXPECT_STREQ(icalcomponent_get_summary(read), made.summary.c_str());
  EXPECT_STREQ(icalcomponent_get_description(read), made.description.c_str());
  EXPECT_STREQ(icalcomponent_get_location(read), made.location.c_str());
  const icaltimetype start = icalcomponent_get_dtstart(read), end = icalcomponent_get_dtend(read);
  EXPECT_TRUE(start.is_date);
  EXPECT_EQ(std::tuple(start.year, start.month, start.day), std::tuple(2026, 12, 31));
  EXPECT_TRUE(end.is_date);
  EXPECT_EQ(std::tuple(end.year, end.month, end.day), std::tuple(2027, 1, 1));
  EXPECT_EQ(valueOf(read, ICAL_DTSTAMP_PROPERTY), "20261125T080005Z");
  EXPECT_EQ(valueOf(read, ICAL_TRANSP_PROPERTY), "OPAQUE");
  EXPECT_EQ(icalcomponent_get_next_component(calendar.get(), ICAL_VEVENT_COMPONENT), nullptr);
}

TEST(CalendarFile, LinesEndInCrlfAndAreFoldedAt75Bytes) {
  CalendarEvent made = event();
  made.description = std::string(60, 'x') + "ä ö ü " + std::string(200, 'y');
  made.summary = "bell \a and \x7f and\ttab";
  const std::string text = calendarText({made}, "Larkmead", kStamp);
  std::size_t from = 0, lines = 0;
  while (from < text.size()) {
    const std::size_t end = text.find("\r\n", from);
    ASSERT_NE(end, std::string::npos) << text.substr(from);
    EXPECT_LE(end - from, 75U) << text.substr(from, end - from);
    EXPECT_EQ(text.substr(from, end - from).find_first_of("\a\x7f\t\n"), std::string::npos);
    EXPECT_NE(static_cast<unsigned char>(text[from]) & 0xC0U, 0x80U) << "a character cut in two";
    from = end + 2;
    ++lines;
  }
  EXPECT_GT(lines, 12U);
  EXPECT_NE(text.find("SUMMARY:bell   and   and tab\r\n"), std::string::npos) << text;
}

TEST(CalendarFile, NamesAreTheSameForTheSameThingOnly) {
  EXPECT_EQ(calendarUid({"due", "FT-1", "channel"}, "LARK"), calendarUid({"due", "FT-1", "channel"}, "LARK"));
  EXPECT_NE(calendarUid({"due", "FT-1", "channel"}, "LARK"), calendarUid({"due", "FT-1", "loop"}, "LARK"));
  EXPECT_NE(calendarUid({"a", "bc"}, "LARK"), calendarUid({"ab", "c"}, "LARK"));
  EXPECT_NE(calendarUid({"a"}, "LARK"), calendarUid({"a"}, "TINY"));
}

TEST(CalendarFile, WithoutEventsIsStillACalendar) {
  const Component calendar(icalparser_parse_string(calendarText({}, "x", kStamp).c_str()),
                           &icalcomponent_free);
  ASSERT_NE(calendar, nullptr);
  EXPECT_EQ(icalcomponent_isa(calendar.get()), ICAL_VCALENDAR_COMPONENT);
}

}  // namespace
}  // namespace spanwright
