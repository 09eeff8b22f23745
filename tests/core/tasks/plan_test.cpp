// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/plan.h"

#include <gmock/gmock.h>

#include "core/tasks/round_sheet.h"
#include "tests/core/tasks/status_fixture.h"

namespace spanwright {
namespace {

using namespace status_test;
using testing::HasSubstr;

Standard milliampSource(std::string serial, const std::string& from, const std::string& until) {
  Standard standard;
  standard.serial = std::move(serial);
  standard.maker = "Invented";
  standard.model = "source";
  standard.description = "current source";
  StandardCertificate certificate;
  certificate.number = "C-1";
  certificate.issuer = "invented laboratory";
  certificate.issued = certificate.validFrom = date(from);
  certificate.validUntil = date(until);
  certificate.ranges = {{Unit::milliampere, 0.001, {{4.0, 0.0, 0.001}, {20.0, 0.0, 0.001}}}};
  standard.certificates = {certificate};
  return standard;
}

class PlanTest : public StatusTest {
 protected:
  static Register site(std::vector<Routine> routines = {{Subject::channel, "AI", "yearly"}}) {
    Register made = smallSite({channelWith("TT-1", currentInput(100), std::move(routines))});
    made.standards = {milliampSource("S-1", "2020-01-01", "2030-01-01")};
    made.people.front().hoursPerWeek = 10.0;
    return made;
  }
  SitePlan plan(const std::string& from, int weeks, const std::function<void(PlanQuestion&)>& change = {}) {
    PlanQuestion question;
    question.from = date(from);
    question.weeks = weeks;
    if (change) {
      change(question);
    }
    return sitePlan(store(), question);
  }
};

TEST_F(PlanTest, ADueVisitIsPlannedWithItsStandard) {
  open(site());
  add({"TT-1", "2025-11-20T09:30", always(0.1)});
  const SitePlan made = plan("2026-11-02", 4);
  ASSERT_EQ(made.stops.size(), 1U);
  const PlannedStop& stop = made.stops.front();
  EXPECT_EQ(formatDate(stop.day), "2026-11-20");
  EXPECT_EQ(stop.week, "2026-W47");
  EXPECT_EQ(stop.person, "mtolland");
  EXPECT_EQ(stop.cabinet, "Hall / Cabinet");
  EXPECT_EQ(stop.standards, std::vector<std::string>{"S-1"});
  EXPECT_EQ(stop.minutes(), 30);
  EXPECT_EQ(stop.visits.front().needs, "4 to 20 mA");
  EXPECT_TRUE(made.notPlanned.empty());
  EXPECT_TRUE(plan("2026-11-02", 2).stops.empty()) << "not due yet by the end of two weeks";
}

TEST_F(PlanTest, VisitsOfOneCabinetOnOneDayAreOneStop) {
  const std::vector<Routine> yearly{{Subject::channel, "AI", "yearly"}};
  Register made = site();
  made.channels.push_back(channelWith("TT-2", currentInput(100), yearly));
  made.channels.push_back(channelWith("TT-3", currentInput(100), yearly));
  made.channels.back().place = "Hall";
  open(made);
  for (const char* tag : {"TT-1", "TT-2", "TT-3"}) {
    add({tag, "2025-11-20T09:30", always(0.1)});
  }
  const SitePlan planned = plan("2026-11-02", 4);
  ASSERT_EQ(planned.stops.size(), 2U);
  std::map<std::string, std::size_t> visits;
  for (const PlannedStop& stop : planned.stops) {
    visits[stop.cabinet] = stop.visits.size();
  }
  EXPECT_EQ(visits, (std::map<std::string, std::size_t>{{"Hall", 1U}, {"Hall / Cabinet", 2U}}));
}

// ISO 8601: a week belongs to the year of its Thursday.
TEST_F(PlanTest, TheFirstDayOfAYearMayLieInTheLastWeekOfTheOneBefore) {
  open(site());
  add({"TT-1", "2026-01-01T09:30", always(0.1)});
  const SitePlan made = plan("2026-12-28", 1);
  EXPECT_EQ(formatDate(made.stops.front().day), "2027-01-01");
  EXPECT_EQ(made.stops.front().week, "2026-W53");
  ASSERT_EQ(made.weeks.size(), 1U);
  EXPECT_EQ(made.weeks.front().planned, 30);
  EXPECT_EQ(made.weeks.front().hours, 600);
}

TEST_F(PlanTest, AVisitFollowsAnotherWhenItsIntervalEndsWithinThePlan) {
  open(site({{Subject::channel, "AI", "short"}}));  // 90 days
  add({"TT-1", "2026-08-10T09:30", always(0.1)});   // due 2026-11-06, a Friday: the 8th is a Sunday
  const SitePlan made = plan("2026-11-02", 30);
  std::vector<std::string> days;
  for (const PlannedStop& stop : made.stops) {
    days.push_back(formatDate(stop.day));
  }
  EXPECT_EQ(days, (std::vector<std::string>{"2026-11-06", "2027-02-04", "2027-05-05"}));
}

TEST_F(PlanTest, WithoutAStandardItSaysSinceWhen) {
  Register made = site();
  made.standards = {milliampSource("S-1", "2020-01-01", "2026-11-03")};
  open(made);
  add({"TT-1", "2025-12-20T09:30", always(0.1)});
  const SitePlan planned = plan("2026-11-02", 10);
  ASSERT_EQ(planned.notPlanned.size(), 1U);
  EXPECT_THAT(planned.notPlanned.front().reason, HasSubstr("no standard for 4 to 20 mA is valid and here"));
  EXPECT_THAT(planned.notPlanned.front().reason, HasSubstr("S-1 only until 2026-11-03"));
}

TEST_F(PlanTest, AStandardThatIsAwayIsNotTaken) {
  open(site());
  add({"TT-1", "2025-11-20T09:30", always(0.1)});
  const auto stays = [](PlanQuestion& question) {
    question.standardsAway["S-1"] = {{date("2026-11-16"), date("2026-11-30")}};
  };
  EXPECT_EQ(formatDate(plan("2026-11-02", 6, stays).stops.front().day), "2026-11-13");
}

TEST_F(PlanTest, OtherWorkingDaysAndAChannelsOwnDays) {
  open(site());
  add({"TT-1", "2025-11-20T09:30", always(0.1)});
  const auto weekend = [](PlanQuestion& question) { question.workingWeekdays = {0, 6}; };
  EXPECT_EQ(formatDate(plan("2026-11-02", 4, weekend).stops.front().day), "2026-11-15");
  const auto only = [](PlanQuestion& question) {
    question.onlyOn["TT-1"] = {{date("2026-11-23"), date("2026-11-24")}};
  };
  const SitePlan late = plan("2026-11-02", 4, only);
  EXPECT_EQ(formatDate(late.stops.front().day), "2026-11-23");
  EXPECT_EQ(late.stops.front().visits.front().time, PlanTime::inGrace);
  EXPECT_THAT(late.stops.front().visits.front().reason, HasSubstr("on which the channel may be visited"));
}

TEST_F(PlanTest, WhatWasDueBeforeIsNotCalledOnTime) {
  open(site());
  add({"TT-1", "2025-11-20T09:30", always(0.1)});
  EXPECT_EQ(plan("2026-11-23", 4).stops.front().visits.front().time, PlanTime::inGrace);
  const SitePlan overdue = plan("2026-12-14", 4);
  EXPECT_EQ(formatDate(overdue.stops.front().day), "2026-12-14");
  EXPECT_EQ(overdue.stops.front().visits.front().time, PlanTime::late);
  EXPECT_EQ(overdue.stops.front().visits.front().reason, "it was due before the plan begins");
}

TEST_F(PlanTest, WhoHasNoHoursOrHasLeftIsNotSent) {
  Register made = site();
  made.people.front().leftOn = date("2026-11-18");
  open(made);
  add({"TT-1", "2025-11-20T09:30", always(0.1)});
  EXPECT_EQ(formatDate(plan("2026-11-02", 4).stops.front().day), "2026-11-18");
  const SitePlan none = plan("2026-11-02", 4, [](PlanQuestion& q) { q.hours["mtolland"] = 0.0; });
  ASSERT_EQ(none.notPlanned.size(), 1U);
  EXPECT_EQ(none.notPlanned.front().reason, "no technician has hours for calibrations");
}

TEST_F(PlanTest, NamesThatAreNotThereAreRefusedTogether) {
  open(site());
  try {
    plan("2026-11-02", 4, [](PlanQuestion& question) {
      question.hours["nobody"] = 3.0;
      question.standardsAway["S-9"] = {};
      question.onlyOn["TT-9"] = {};
    });
    FAIL();
  } catch (const InputError& error) {
    EXPECT_EQ(error.problems().size(), 3U);
  }
}

TEST_F(PlanTest, EventsKeepTheirNames) {
  open(site());
  add({"TT-1", "2025-11-20T09:30", always(0.1)});
  const auto first = planEvents(plan("2026-11-02", 4), store().site());
  const auto again = planEvents(plan("2026-11-09", 4), store().site());
  ASSERT_EQ(first.size(), 1U);
  EXPECT_EQ(first.front().uid, again.front().uid);
  EXPECT_THAT(first.front().description, HasSubstr("TT-1 (channel), plan AI"));
  const auto due = dueEvents(dueList(store(), date("2026-11-02")), store().site());
  ASSERT_EQ(due.size(), 1U);
  EXPECT_EQ(formatDate(due.front().day), "2026-11-20");
  EXPECT_FALSE(due.front().busy);
}

TEST_F(PlanTest, ASheetSaysWhatIsExpectedAndWhatWasLeft) {
  open(site());
  add({"TT-1", "2025-11-20T09:30", always(0.1)});
  const RoundSheet sheet = sheetOfChannels(store(), {"TT-1"}, date("2026-11-02"));
  ASSERT_EQ(sheet.items.size(), 1U);
  const RoundSheetItem& item = sheet.items.front();
  EXPECT_EQ(item.tag, "TT-1");
  EXPECT_EQ(item.previous, "as left on 2025-11-20, calibration 1");
  ASSERT_EQ(item.points.size(), 6U);
  const RoundSheetPoint& middle = item.points[1];
  EXPECT_EQ(middle.label, "50 % up");
  EXPECT_EQ(middle.applied, "12 mA");
  EXPECT_EQ(middle.expected, "50.00");
  EXPECT_EQ(middle.low, "49.00");
  EXPECT_EQ(middle.high, "51.00");
  EXPECT_EQ(middle.previous, "50.10 (+0.10)");
  EXPECT_EQ(sheet.take, std::vector<std::string>{"4 to 20 mA: S-1"});
  EXPECT_THROW(sheetOfChannels(store(), {"TT-1", "TT-9"}, date("2026-11-02")), InputError);
  EXPECT_THROW(sheetOfRound(store(), 1, date("2026-11-02")), InputError);
}

TEST_F(PlanTest, ASheetForEachDayOfThePlan) {
  open(site());
  add({"TT-1", "2025-11-20T09:30", always(0.1)});
  const SitePlan made = plan("2026-11-02", 4);
  EXPECT_TRUE(sheetsOfPlan(store(), made, 18).empty()) << "up to the 19th";
  const auto sheets = sheetsOfPlan(store(), made, 19);
  ASSERT_EQ(sheets.size(), 1U);
  EXPECT_EQ(sheets.front().day, "2026-11-20");
  EXPECT_EQ(sheets.front().technician, "Mara Tolland");
  EXPECT_THAT(sheets.front().take.front(), HasSubstr("S-1, current source"));
}

}  // namespace
}  // namespace spanwright
