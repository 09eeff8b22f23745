// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/plan.h"

#include <gtest/gtest.h>

#include <bitset>
#include <chrono>
#include <map>
#include <random>

#include "tests/core/schedule/plan_check.h"

namespace spanwright {
namespace {

using namespace plan_test;

Date day(std::string_view text) {
  return *parseDate(text);
}

const std::bitset<7> kMondayToFriday("0111110");

/// Four weeks from Monday 2026-11-30; one technician, 8 hours a day, 40 a week.
PlanRequest fourWeeks() {
  return {day("2026-11-30"), 4, WorkCalendar(kMondayToFriday, {}), 5, {{"ann", 2400, 480, {}}}, {}, {}};
}

PlanVisit visit(std::string place, int minutes, std::string_view earliest, std::string_view due,
                std::string_view last) {
  PlanVisit made;
  made.place = std::move(place);
  made.minutes = minutes;
  made.earliest = day(earliest);
  made.due = day(due);
  made.last = day(last);
  return made;
}

std::optional<Date> dayOf(const WorkPlan& plan, std::size_t v) {
  for (const PlannedVisit& each : plan.planned) {
    if (each.visit == v) {
      return each.day;
    }
  }
  return std::nullopt;
}

const PlanReason& reasonOf(const WorkPlan& plan, std::size_t v) {
  for (const UnplannedVisit& each : plan.unplanned) {
    if (each.visit == v) {
      return each.reason;
    }
  }
  for (const PlannedVisit& each : plan.planned) {
    if (each.visit == v && each.reason) {
      return *each.reason;
    }
  }
  ADD_FAILURE() << "no reason for " << v;
  static const PlanReason none;
  return none;
}

WorkPlan checkedPlan(const PlanRequest& request) {
  WorkPlan plan = planVisits(request);
  for (const std::string& fault : broken(request, plan)) {
    ADD_FAILURE() << fault;
  }
  return plan;
}

TEST(Plan, AVisitIsMadeOnItsDueDayAndThoseOfItsPlaceWithIt) {
  PlanRequest request = fourWeeks();
  request.visits = {visit("A", 30, "2026-11-30", "2026-12-08", "2026-12-20"),
                    visit("A", 30, "2026-11-30", "2026-12-10", "2026-12-20"),
                    visit("B", 30, "2026-11-30", "2026-12-09", "2026-12-20"),
                    visit("A", 30, "2026-12-10", "2026-12-12", "2026-12-20")};
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(dayOf(plan, 0), day("2026-12-08"));
  EXPECT_EQ(dayOf(plan, 1), day("2026-12-08")) << "its place is visited already";
  EXPECT_EQ(dayOf(plan, 2), day("2026-12-09"));
  EXPECT_EQ(dayOf(plan, 3), day("2026-12-11")) << "may not be made so early; the 12th is a Saturday";
}

TEST(Plan, WhatIsDueAtOnceComesFirstAndTheUnprovenBeforeTheOverdue) {
  PlanRequest request = fourWeeks();
  request.technicians[0].minutesPerDay = 60;
  request.visits = {visit("A", 60, "2026-11-30", "2026-11-30", "2026-12-14"),
                    visit("A", 60, "2026-11-30", "2026-11-30", "2026-12-14")};
  request.visits[1].unproven = true;
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(dayOf(plan, 1), day("2026-11-30"));
  EXPECT_EQ(dayOf(plan, 0), day("2026-12-01"));
  EXPECT_EQ(reasonOf(plan, 0).gap, PlanGap::noHours);
  EXPECT_EQ(reasonOf(plan, 0).wanted, 120);
  EXPECT_EQ(reasonOf(plan, 0).offered, 60);
}

// Two that fit together only in one way, which putting one after the other where it suits it best misses.
TEST(Plan, OthersMoveSoThatNothingIsLate) {
  PlanRequest request = fourWeeks();
  request.calendar = WorkCalendar(kMondayToFriday, {{day("2026-12-03"), day("2026-12-04")}});
  request.technicians[0].minutesPerDay = 100;
  request.technicians[0].minutesPerWeek = 334;  // 200 in the first week, which has three days
  request.visits = {visit("A", 60, "2026-11-30", "2026-12-01", "2026-12-01"),
                    visit("A", 60, "2026-11-30", "2026-12-02", "2026-12-02"),
                    visit("A", 40, "2026-11-30", "2026-12-02", "2026-12-02"),
                    visit("A", 40, "2026-12-02", "2026-12-02", "2026-12-02")};
  const WorkPlan plan = checkedPlan(request);
  for (const PlannedVisit& each : plan.planned) {
    EXPECT_EQ(each.time, PlanTime::onTime) << each.visit;
  }
  EXPECT_EQ(plan.planned.size(), 4U);
}

TEST(Plan, AWeekIsMondayToSundayAndItsHoursHold) {
  PlanRequest request = fourWeeks();
  request.from = day("2026-12-03");  // a Thursday: two of the week's five days are left, with 480 minutes
  request.technicians[0].minutesPerWeek = 1200;
  request.visits = {visit("A", 300, "2026-12-03", "2026-12-04", "2026-12-11"),
                    visit("A", 300, "2026-12-03", "2026-12-04", "2026-12-11")};
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(dayOf(plan, 0), day("2026-12-04"));
  EXPECT_EQ(dayOf(plan, 1), day("2026-12-07"));
  EXPECT_EQ(reasonOf(plan, 1).gap, PlanGap::noHours);
  EXPECT_EQ(reasonOf(plan, 1).wanted, 600);
  EXPECT_EQ(reasonOf(plan, 1).offered, 480);
}

TEST(Plan, AWeekWithDaysOffHasItsShareOfTheHours) {
  PlanRequest request = fourWeeks();
  request.calendar = WorkCalendar(kMondayToFriday, {{day("2026-12-07"), day("2026-12-09")}});
  request.technicians[0].minutesPerWeek = 250;
  request.technicians[0].away = {{day("2026-12-10"), day("2026-12-10")}};
  request.visits = {visit("A", 60, "2026-12-07", "2026-12-11", "2026-12-13")};
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(dayOf(plan, 0), day("2026-12-14")) << "one day of five has 50 minutes";
  EXPECT_EQ(reasonOf(plan, 0).gap, PlanGap::noHours);
  EXPECT_EQ(reasonOf(plan, 0).offered, 50);
}

// What is placed first cannot know of the stop that a late visit makes.
TEST(Plan, AVisitJoinsAStopMadeAfterIt) {
  PlanRequest request = fourWeeks();
  request.standards = {"S1"};
  request.visits = {visit("A", 30, "2026-11-30", "2026-11-30", "2026-12-01"),
                    visit("A", 30, "2026-11-30", "2026-12-08", "2026-12-20")};
  request.visits[0].needs = {{"mA", {{0, {day("2026-12-03"), day("2027-01-01")}, 0}}}};
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(dayOf(plan, 0), day("2026-12-03"));
  EXPECT_EQ(dayOf(plan, 1), day("2026-12-03"));
}

TEST(Plan, AShutdownBeforeTheDueDayBringsItForward) {
  PlanRequest request = fourWeeks();
  request.calendar = WorkCalendar(kMondayToFriday, {{day("2026-12-07"), day("2026-12-16")}});
  request.visits = {visit("A", 30, "2026-12-01", "2026-12-14", "2026-12-28"),
                    visit("B", 30, "2026-12-08", "2026-12-14", "2026-12-28"),
                    visit("C", 30, "2026-12-08", "2026-12-14", "2026-12-16")};
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(dayOf(plan, 0), day("2026-12-04"));
  EXPECT_EQ(dayOf(plan, 1), day("2026-12-17"));
  EXPECT_EQ(reasonOf(plan, 1).gap, PlanGap::noWorkingDay);
  EXPECT_EQ(dayOf(plan, 2), day("2026-12-17"));
  EXPECT_EQ(plan.planned.back().time, PlanTime::late);
}

TEST(Plan, WhatIsAgreedWithATechnicianStays) {
  PlanRequest request = fourWeeks();
  request.technicians = {{"ann", 2400, 60, {}}, {"bob", 2400, 60, {}}};
  request.visits = {visit("A", 60, "2026-11-30", "2026-11-30", "2026-12-14"),
                    visit("A", 60, "2026-11-30", "2026-11-30", "2026-12-14"),
                    visit("B", 60, "2026-12-01", "2026-12-01", "2026-12-01")};
  request.visits[0].unproven = request.visits[1].unproven = true;
  request.visits[2].earliest = request.visits[2].due = request.visits[2].last = day("2026-11-30");
  request.visits[2].agreed = 1;
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(dayOf(plan, 2), day("2026-11-30"));
  EXPECT_EQ(dayOf(plan, 0), day("2026-11-30"));
  EXPECT_EQ(dayOf(plan, 1), day("2026-12-01"));
  for (const PlannedVisit& each : plan.planned) {
    EXPECT_EQ(each.technician, each.visit == 2 ? 1U : each.day == day("2026-11-30") ? 0U : each.technician);
  }
}

TEST(Plan, AStandardServesOneTechnicianADay) {
  PlanRequest request = fourWeeks();
  request.technicians = {{"ann", 2400, 60, {}}, {"bob", 2400, 60, {}}};
  request.standards = {"S1"};
  const StandardNeed milliamp{"mA", {{0, {day("2026-11-01"), day("2027-01-01")}, 0}}};
  for (int i = 0; i < 3; ++i) {
    request.visits.push_back(visit("A", 60, "2026-11-30", "2026-12-01", "2026-12-24"));
    request.visits.back().needs = {milliamp};
  }
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(dayOf(plan, 0), day("2026-12-01"));
  EXPECT_EQ(dayOf(plan, 1), day("2026-11-30"));
  EXPECT_EQ(dayOf(plan, 2), day("2026-12-02"));
  EXPECT_EQ(reasonOf(plan, 2).gap, PlanGap::standardTaken);
  EXPECT_EQ(reasonOf(plan, 2).what, "S1");
}

TEST(Plan, ALaterChoiceOfStandardIsTakenOnlyToBeLessLate) {
  PlanRequest request = fourWeeks();
  request.standards = {"good", "other"};
  request.visits = {visit("A", 30, "2026-12-01", "2026-12-10", "2026-12-24"),
                    visit("A", 30, "2026-12-07", "2026-12-10", "2026-12-24")};
  for (PlanVisit& each : request.visits) {
    each.needs = {
        {"mA",
         {{0, {day("2026-11-01"), day("2026-12-03")}, 0}, {1, {day("2026-11-01"), day("2027-01-01")}, 1}}}};
  }
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(dayOf(plan, 0), day("2026-12-03"));
  EXPECT_EQ(plan.planned[0].standards, std::vector<std::size_t>{0});
  EXPECT_EQ(dayOf(plan, 1), day("2026-12-10"));
  EXPECT_EQ(plan.planned[1].standards, std::vector<std::size_t>{1});
  EXPECT_EQ(plan.planned[0].choice, 0);
  EXPECT_EQ(plan.planned[1].choice, 1);
}

TEST(Plan, WhyAVisitCannotBeMade) {
  PlanRequest request = fourWeeks();
  request.technicians[0].away = {{day("2026-12-14"), day("2026-12-18")}};
  request.standards = {"S1", "S2"};
  const StandardNeed milliamp{"mA", {{0, {day("2026-11-01"), day("2026-12-04")}, 0}}};
  const StandardNeed volt{"V", {{1, {day("2026-12-08"), day("2026-12-30")}, 0}}};
  request.visits = {visit("A", 481, "2026-11-30", "2026-12-10", "2026-12-20"),
                    visit("A", 30, "2026-12-07", "2026-12-10", "2026-12-20"),
                    visit("A", 30, "2026-11-30", "2026-12-10", "2026-12-20"),
                    visit("A", 30, "2026-12-14", "2026-12-15", "2026-12-17"),
                    visit("A", 30, "2026-12-28", "2026-12-29", "2026-12-29")};
  request.visits[1].needs = {milliamp};
  request.visits[2].needs = {milliamp, volt};
  const WorkPlan plan = checkedPlan(request);
  EXPECT_EQ(reasonOf(plan, 0).gap, PlanGap::tooLong);
  EXPECT_EQ(reasonOf(plan, 0).offered, 480);
  EXPECT_EQ(reasonOf(plan, 1).gap, PlanGap::noStandard);
  EXPECT_EQ(reasonOf(plan, 1).what, "mA");
  EXPECT_EQ(reasonOf(plan, 2).gap, PlanGap::standardsApart);
  EXPECT_EQ(reasonOf(plan, 3).gap, PlanGap::noTechnician);
  EXPECT_EQ(dayOf(plan, 3), day("2026-12-21")) << "late, but made";
  EXPECT_EQ(reasonOf(plan, 4).gap, PlanGap::noWorkingDay) << "after the last day of the plan";
  EXPECT_EQ(plan.unplanned.size(), 4U);
}

TEST(Plan, WithoutTechniciansNothingIsPlanned) {
  PlanRequest request = fourWeeks();
  request.technicians.clear();
  request.visits = {visit("A", 30, "2026-11-30", "2026-12-10", "2026-12-20")};
  const WorkPlan plan = checkedPlan(request);
  ASSERT_EQ(plan.unplanned.size(), 1U);
  EXPECT_EQ(plan.unplanned[0].reason.gap, PlanGap::noTechnician);
}

TEST(Plan, AnEffortThatEndsIsSaid) {
  // Three halves of 7, 7 and 6 tenths of a day in two days each: sums fit, no arrangement does.
  PlanRequest request = fourWeeks();
  request.technicians[0].minutesPerDay = 100;
  request.visits.assign(3, visit("A", 60, "2026-11-30", "2026-12-01", "2026-12-01"));
  EXPECT_TRUE(reasonOf(checkedPlan(request), 2).proven);
  EXPECT_EQ(reasonOf(checkedPlan(request), 2).gap, PlanGap::arrangement);
  request.effort = 20;
  EXPECT_FALSE(reasonOf(checkedPlan(request), 2).proven);
}

// As many channels as a large site has: every rule holds, and it stays a matter of seconds.
TEST(Plan, AYearOfALargeSite) {
  constexpr unsigned kSeed = 7;
  std::mt19937 random(kSeed);
  const auto pick = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  PlanRequest request = fourWeeks();
  request.weeks = 26;
  for (int t = 1; t < 8; ++t) {
    request.technicians.push_back({"t" + std::to_string(t), 1500, 480, {}});
  }
  std::vector<StandardNeed> needs(4);
  for (std::size_t n = 0; n < needs.size(); ++n) {
    needs[n].what = "quantity " + std::to_string(n);
    for (std::size_t i = 0; i < 6 - n; ++i) {
      request.standards.push_back("S" + std::to_string(request.standards.size()));
      needs[n].able.push_back({request.standards.size() - 1,
                               {day("2026-01-01"), day("2026-12-31") + boost::gregorian::days(pick(0, 200))},
                               0});
    }
  }
  for (int v = 0; v < 4000; ++v) {
    const Date due = request.from + boost::gregorian::days(pick(0, 181));
    PlanVisit& each = request.visits.emplace_back();
    each.place = "cabinet " + std::to_string(pick(1, 120));
    each.minutes = 5 * pick(3, 12);
    each.unproven = pick(0, 50) == 0;
    each.due = each.unproven ? request.from : due;
    each.earliest = due - boost::gregorian::days(30);
    each.last = each.due + boost::gregorian::days(14);
    if (each.earliest > each.due) {
      each.earliest = each.due;
    }
    each.needs = {needs[static_cast<std::size_t>(pick(0, 3))]};
  }
  const auto began = std::chrono::steady_clock::now();
  const WorkPlan plan = checkedPlan(request);
  std::map<PlanTime, int> times;
  for (const PlannedVisit& each : plan.planned) {
    ++times[each.time];
  }
  std::cout << "seed " << kSeed << ": " << times[PlanTime::onTime] << " on time, " << times[PlanTime::inGrace]
            << " in grace, " << times[PlanTime::late] << " late, " << plan.unplanned.size() << " unplanned; "
            << std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count() << " s\n";
  EXPECT_GT(times[PlanTime::onTime], 3000);
}

}  // namespace
}  // namespace spanwright
