// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/calendar.h"

#include <gtest/gtest.h>

#include <random>
#include <string>

namespace spanwright {
namespace {

using boost::gregorian::days;

Date date(const char* text) {
  return *parseDate(text);
}

WorkCalendar weekdaysWith(std::vector<WorkCalendar::Closed> closed) {
  return {std::bitset<7>("0111110"), std::move(closed)};
}

TEST(WorkCalendar, Table) {
  // 2026-03-07 is a Saturday. Closed 24 December to New Year, and one day that touches it.
  const WorkCalendar calendar =
      weekdaysWith({{date("2026-12-24"), date("2027-01-01")}, {date("2026-12-23"), date("2026-12-23")}});
  struct Row {
    const char* day;
    bool working;
    const char* before;
    const char* after;
  };
  const Row rows[] = {
      {"2026-03-06", true, "2026-03-06", "2026-03-06"},   // Friday
      {"2026-03-07", false, "2026-03-06", "2026-03-09"},  // Saturday
      {"2026-03-08", false, "2026-03-06", "2026-03-09"},  // Sunday
      {"2026-12-22", true, "2026-12-22", "2026-12-22"},
      {"2026-12-23", false, "2026-12-22", "2027-01-04"},
      {"2026-12-31", false, "2026-12-22", "2027-01-04"},
      {"2027-01-01", false, "2026-12-22", "2027-01-04"},  // Friday, then a weekend
      {"2027-01-04", true, "2027-01-04", "2027-01-04"},
      {"2028-02-29", true, "2028-02-29", "2028-02-29"},  // leap day, a Tuesday
  };
  for (const Row& row : rows) {
    EXPECT_EQ(calendar.isWorkingDay(date(row.day)), row.working) << row.day;
    EXPECT_EQ(formatDate(calendar.onOrBefore(date(row.day)).value()), row.before) << row.day;
    EXPECT_EQ(formatDate(calendar.onOrAfter(date(row.day)).value()), row.after) << row.day;
  }
}

TEST(WorkCalendar, WeekdaysCountFromSunday) {
  const WorkCalendar sundays(std::bitset<7>("0000001"), {});
  EXPECT_TRUE(sundays.isWorkingDay(date("2026-03-08")));
  EXPECT_FALSE(sundays.isWorkingDay(date("2026-03-09")));
}

// Against the definition: walk day by day and ask each closed range in turn.
TEST(WorkCalendar, AgreesWithWalkingDayByDay) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  for (int round = 0; round < 60; ++round) {
    const std::bitset<7> weekdays(1 + random() % 127);
    const Date start = date("2025-11-01") + days(static_cast<int>(random() % 1000));
    std::vector<WorkCalendar::Closed> closed;
    for (unsigned i = 0; i < random() % 8; ++i) {
      const Date first = start + days(static_cast<int>(random() % 400));
      closed.push_back({first, first + days(static_cast<int>(random() % 40))});  // overlap, touch, any order
    }
    const WorkCalendar calendar(weekdays, closed);
    const auto working = [&](Date day) {
      for (const auto& range : closed) {
        if (day >= range.first && day <= range.last)
          return false;
      }
      return weekdays.test(day.day_of_week().as_number());
    };
    for (int i = -20; i < 460; ++i) {
      const Date day = start + days(i);
      ASSERT_EQ(calendar.isWorkingDay(day), working(day)) << formatDate(day);
      Date before = day;
      while (!working(before))
        before -= days(1);
      Date after = day;
      while (!working(after))
        after += days(1);
      ASSERT_EQ(calendar.onOrBefore(day), before) << formatDate(day);
      ASSERT_EQ(calendar.onOrAfter(day), after) << formatDate(day);
    }
  }
}

TEST(WorkCalendar, SaysSoWhenThereIsNoWorkingDayWithinTwoYears) {
  const Date first = date("2026-01-01");
  const auto reach = [&](int closedDays) {
    return WorkCalendar(std::bitset<7>("1111111"), {{first, first + days(closedDays - 1)}});
  };
  EXPECT_EQ(reach(731).onOrAfter(first), first + days(731));
  EXPECT_EQ(reach(732).onOrAfter(first), std::nullopt);
  const Date last = first + days(730);
  EXPECT_EQ(reach(731).onOrBefore(last), first - days(1));
  EXPECT_EQ(reach(732).onOrBefore(last + days(1)), std::nullopt);
  // Closed to the end of the calendar itself.
  const WorkCalendar never(std::bitset<7>("1111111"), {{date("1400-01-01"), date("9999-12-31")}});
  EXPECT_EQ(never.onOrAfter(first), std::nullopt);
  EXPECT_EQ(never.onOrBefore(first), std::nullopt);
}

}  // namespace
}  // namespace spanwright
