// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/time.h"

#include <gtest/gtest.h>

namespace spanwright {
namespace {

TEST(ParseDate, TakesIsoDatesOnly) {
  for (const char* text : {"2026-03-01", "2024-02-29", "2000-02-29", "1999-12-31"}) {
    const auto date = parseDate(text);
    ASSERT_TRUE(date.has_value()) << text;
    EXPECT_EQ(formatDate(*date), text);
  }
  for (const char* text :
       {"", "2026-3-1", "2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "2026-04-00",
        "01.03.2026", "20260301", "2026-03-01T08:30", "2026-03-01x", "2026/03/01", "0026-03-01",
        "-2026-03-01", "2026-03-0a", "today", "2026-03-"})
    EXPECT_FALSE(parseDate(text).has_value()) << text;
}

TEST(ParseMoment, TakesSecondsMinutesOrADayAlone) {
  const std::pair<const char*, const char*> cases[] = {{"2026-03-01", "2026-03-01T00:00:00"},
                                                       {"2026-03-01T08:30", "2026-03-01T08:30:00"},
                                                       {"2026-03-01 08:30", "2026-03-01T08:30:00"},
                                                       {" 2026-03-01T23:59:59 ", "2026-03-01T23:59:59"}};
  for (const auto& [text, written] : cases) {
    const auto moment = parseMoment(text);
    ASSERT_TRUE(moment.has_value()) << text;
    EXPECT_EQ(formatMoment(*moment), written);
  }
  for (const char* text :
       {"", "2026-03-01T", "2026-03-01T8:30", "2026-03-01T24:00", "2026-03-01T08:60", "2026-03-01T08:30:60",
        "2026-03-01T08:30Z", "2026-03-01T08:30+02:00", "2026-03-01T08:30:00.5", "2026-02-30T08:00", "08:30",
        "2026-03-01T08:30:", "2026-03-01  08:30"})
    EXPECT_FALSE(parseMoment(text).has_value()) << text;
}

TEST(FormatTime, SaysNothingForNoTime) {
  EXPECT_EQ(formatDate(Date(boost::date_time::not_a_date_time)), "");
  EXPECT_EQ(formatMoment(Moment(boost::date_time::not_a_date_time)), "");
}

TEST(AddMonths, KeepsTheDayOfTheMonthOrItsEnd) {
  struct Case {
    const char* from;
    int months;
    const char* to;
  };
  const Case cases[] = {
      {"2023-02-28", 1, "2023-03-28"},  {"2023-04-30", 6, "2023-10-30"},  {"2024-01-31", 1, "2024-02-29"},
      {"2023-01-31", 1, "2023-02-28"},  {"2024-02-29", 12, "2025-02-28"}, {"2024-02-29", 48, "2028-02-29"},
      {"2024-03-31", -1, "2024-02-29"}, {"2024-01-15", -1, "2023-12-15"}, {"2024-12-31", 2, "2025-02-28"},
      {"2024-06-15", 0, "2024-06-15"},  {"2024-11-30", 1, "2024-12-30"},
  };
  for (const Case& c : cases)
    EXPECT_EQ(formatDate(addMonths(*parseDate(c.from), c.months)), c.to) << c.from << " + " << c.months;
  EXPECT_TRUE(addMonths(*parseDate("2024-01-01"), 200000).is_special());
  EXPECT_TRUE(addMonths(*parseDate("2024-01-01"), -200000).is_special());
}

// A second road: for every day of four years the month must be the wanted one and the day the same or the
// month's last.
TEST(AddMonths, HoldsForEveryDay) {
  for (Date day = *parseDate("2023-01-01"); day < *parseDate("2027-01-01");
       day += boost::gregorian::days(1)) {
    for (int months = -25; months <= 25; ++months) {
      const Date to = addMonths(day, months);
      const int index = to.year() * 12 + to.month().as_number() - day.year() * 12 - day.month().as_number();
      ASSERT_EQ(index, months);
      const bool clipped = to == to.end_of_month() && to.day() < day.day();
      ASSERT_TRUE(to.day() == day.day() || clipped) << formatDate(day) << " + " << months;
    }
  }
}

TEST(YearsBetween, CountsYearsOf365AndAQuarterDays) {
  const Moment a = *parseMoment("2020-01-01T00:00:00");
  EXPECT_DOUBLE_EQ(yearsBetween(a, *parseMoment("2024-01-01T00:00:00")), 4.0);
  EXPECT_DOUBLE_EQ(yearsBetween(*parseMoment("2024-01-01"), a), -4.0);
  EXPECT_DOUBLE_EQ(yearsBetween(a, *parseMoment("2020-01-01T06:00")), 0.25 / 365.25);
}

class FixedClock : public Clock {
 public:
  Moment localNow() const override { return *parseMoment("2026-03-01T08:30"); }
  Moment utcNow() const override { return *parseMoment("2026-03-01T07:30"); }
};

TEST(Clock, CanBeReplacedAndTheMachinesRuns) {
  const FixedClock fixed;
  EXPECT_EQ(formatMoment(static_cast<const Clock&>(fixed).localNow()), "2026-03-01T08:30:00");
  const Moment first = systemClock().utcNow();
  const Moment second = systemClock().utcNow();
  EXPECT_LE(first, second);
  // No zone is further than 14 hours from UTC.
  EXPECT_LE(std::abs(yearsBetween(systemClock().localNow(), second)), 15.0 / 24.0 / 365.25);
}

}  // namespace
}  // namespace spanwright
