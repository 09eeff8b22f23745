// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/due.h"

#include <gtest/gtest.h>

#include <random>
#include <string>

namespace spanwright {
namespace {

using boost::gregorian::days;

Date date(const std::string& text) {
  return *parseDate(text);
}

const WorkCalendar& everyDay() {
  static const WorkCalendar calendar(std::bitset<7>("1111111"), {});
  return calendar;
}
const WorkCalendar& mondayToFriday() {
  static const WorkCalendar calendar(std::bitset<7>("0111110"), {{date("2026-12-24"), date("2027-01-01")}});
  return calendar;
}

constexpr FixedInterval kDays(int count) {
  return {count, 0};
}
constexpr FixedInterval kMonths(int count) {
  return {0, count};
}

// Boost 1.74's own month arithmetic snaps to month ends: it gives 2023-03-31 and 2023-10-31 in the first two
// rows.
TEST(IntervalEnd, MonthsKeepTheDayOfTheMonthClipped) {
  struct Row {
    const char* from;
    FixedInterval interval;
    const char* end;
  };
  const Row rows[] = {
      {"2023-02-28", kMonths(1), "2023-03-28"},  {"2023-04-30", kMonths(6), "2023-10-30"},
      {"2024-01-31", kMonths(1), "2024-02-29"},  {"2023-01-31", kMonths(1), "2023-02-28"},
      {"2024-02-29", kMonths(12), "2025-02-28"}, {"2024-02-29", kMonths(48), "2028-02-29"},
      {"2025-12-31", kMonths(2), "2026-02-28"},  {"2025-11-20", kMonths(12), "2026-11-20"},
      {"2024-02-28", kDays(365), "2025-02-27"},  {"2025-11-20", kDays(1), "2025-11-21"},
      {"2025-11-20", {30, 12}, "2026-11-20"},  // months count before days
  };
  for (const Row& row : rows) {
    EXPECT_EQ(formatDate(intervalEnd(date(row.from), row.interval)), row.end) << row.from;
  }
}

TEST(DueState, MovesToTheWorkingDayOnOrBefore) {
  struct Row {
    const char* proven;
    FixedInterval interval;
    const char* due;
  };
  const Row rows[] = {
      {"2025-03-06", kMonths(12), "2026-03-06"},  // a Friday stays
      {"2025-03-07", kMonths(12), "2026-03-06"},  // Saturday goes back to Friday
      {"2025-03-08", kMonths(12), "2026-03-06"},  // Sunday too
      {"2025-12-28", kMonths(12), "2026-12-23"},  // before the shutdown
      {"2026-12-23", kDays(5), "2026-12-28"},     // no working day in between: the last day itself
      {"2026-12-28", kDays(2), "2026-12-30"},     // proven within the shutdown
      {"2026-03-06", kDays(1), "2026-03-07"},     // Friday, one day: Friday itself would ask again at once
  };
  for (const Row& row : rows) {
    const Due due =
        dueState(date(row.proven), false, std::nullopt, row.interval, mondayToFriday(), {}, date(row.proven));
    EXPECT_EQ(formatDate(due.dueOn.value()), row.due) << row.proven;
    EXPECT_EQ(due.provenOn, date(row.proven));
  }
}

TEST(DueState, BoundariesOfEachStateDayByDay) {
  const Date proven = date("2025-01-10");
  const Date due = date("2026-01-10");
  struct Row {
    int from, to;  // days relative to the due date, inclusive
    DueState state;
  };
  const Row rows[] = {{-365, -31, DueState::ok},
                      {-30, 0, DueState::dueSoon},
                      {1, 14, DueState::inGrace},
                      {15, 800, DueState::overdue}};
  for (const Row& row : rows) {
    for (int i = row.from; i <= row.to; ++i) {
      const Due seen =
          dueState(proven, false, std::nullopt, kMonths(12), everyDay(), {30, 14}, due + days(i));
      ASSERT_EQ(seen.state, row.state) << i;
      ASSERT_EQ(seen.dueOn, due);
    }
  }
  // Without grace and warning the due date alone divides.
  EXPECT_EQ(dueState(proven, false, std::nullopt, kMonths(12), everyDay(), {0, 0}, due - days(1)).state,
            DueState::ok);
  EXPECT_EQ(dueState(proven, false, std::nullopt, kMonths(12), everyDay(), {0, 0}, due).state,
            DueState::dueSoon);
  EXPECT_EQ(dueState(proven, false, std::nullopt, kMonths(12), everyDay(), {0, 0}, due + days(1)).state,
            DueState::overdue);
}

TEST(DueState, UnprovenIsDueAtOnce) {
  const Date saturday = date("2026-03-07");
  const Due never =
      dueState(std::nullopt, false, saturday, kMonths(12), mondayToFriday(), {}, date("2026-03-20"));
  EXPECT_EQ(never.state, DueState::unproven);
  EXPECT_EQ(formatDate(never.dueOn.value()), "2026-03-09");
  EXPECT_FALSE(never.provenOn);
  // A failure afterwards counts, however recent the proof.
  const Due failed = dueState(date("2026-03-01"), true, date("2026-03-05"), kMonths(12), mondayToFriday(), {},
                              date("2026-03-06"));
  EXPECT_EQ(failed.state, DueState::unproven);
  EXPECT_EQ(formatDate(failed.dueOn.value()), "2026-03-05");
  EXPECT_EQ(failed.provenOn, date("2026-03-01"));
  const Due unknown =
      dueState(std::nullopt, false, std::nullopt, kMonths(12), mondayToFriday(), {}, date("2026-03-06"));
  EXPECT_EQ(unknown.state, DueState::unproven);
  EXPECT_FALSE(unknown.dueOn);
  // A site closed for years still gets a day rather than none.
  const WorkCalendar closed(std::bitset<7>("0111110"), {{date("2026-01-01"), date("2030-01-01")}});
  EXPECT_EQ(dueState(std::nullopt, false, saturday, kMonths(12), closed, {}, saturday).dueOn, saturday);
}

// Whatever the calendar: never later than the interval allows, never on or before the proof, and a working
// day if any.
TEST(DueState, NeverLaterThanTheInterval) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  for (int round = 0; round < 5000; ++round) {
    std::vector<WorkCalendar::Closed> closed;
    const Date start = date("2024-01-01") + days(static_cast<int>(random() % 1500));
    for (unsigned i = 0; i < random() % 5; ++i) {
      const Date first = start + days(static_cast<int>(random() % 400));
      closed.push_back({first, first + days(static_cast<int>(random() % 60))});
    }
    const WorkCalendar calendar(std::bitset<7>(1 + random() % 127), closed);
    const FixedInterval interval = random() % 2 ? kDays(1 + static_cast<int>(random() % 500))
                                                : kMonths(1 + static_cast<int>(random() % 24));
    const Date end = intervalEnd(start, interval);
    const Due due = dueState(start, false, std::nullopt, interval, calendar, {}, start);
    ASSERT_TRUE(due.dueOn);
    ASSERT_LE(*due.dueOn, end);
    ASSERT_GT(*due.dueOn, start);
    for (Date day = end; day > *due.dueOn; day -= days(1))
      ASSERT_FALSE(calendar.isWorkingDay(day)) << formatDate(day);
    if (!calendar.isWorkingDay(*due.dueOn)) {
      ASSERT_EQ(*due.dueOn, end);
      for (Date day = end; day > start; day -= days(1))
        ASSERT_FALSE(calendar.isWorkingDay(day)) << formatDate(day);
    }
  }
}

TEST(DueState, NamesAreThoseOfTheCommandLine) {
  EXPECT_EQ(text(DueState::unproven), "unproven");
  EXPECT_EQ(text(DueState::overdue), "overdue");
  EXPECT_EQ(text(DueState::inGrace), "in_grace");
  EXPECT_EQ(text(DueState::dueSoon), "due_soon");
  EXPECT_EQ(text(DueState::ok), "ok");
}

}  // namespace
}  // namespace spanwright
