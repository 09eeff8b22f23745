// SPDX-License-Identifier: GPL-3.0-or-later
//
// Half a year of visits on the sample site, every one of them held against the calendar, the hours and the
// standards by code that does not plan.
#include "core/tasks/plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <libical/ical.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/tasks/in_force.h"
#include "core/tasks/visit.h"
#include "tests/sample_sites/sample.h"

namespace spanwright {
namespace {

using namespace test;
using boost::gregorian::days;

constexpr int kWeeks = 26;

PlanQuestion halfAYear() {
  PlanQuestion question;
  question.from = *parseDate("2026-11-26");
  question.weeks = kWeeks;
  return question;
}

/// The same, and two that run into closed days and days away with more to do than fits before them.
std::vector<PlanQuestion> questions() {
  std::vector<PlanQuestion> list(3, halfAYear());
  list[1].from = *parseDate("2026-12-21");
  list[1].hoursFactor = 0.5;
  list[2].from = *parseDate("2027-02-15");
  return list;
}

const Store& larkmead() {
  return sampleRecord("larkmead").store;
}

bool closed(const Register& site, Date day) {
  const auto& weekdays = site.calendar.workingWeekdays;
  return std::find(weekdays.begin(), weekdays.end(), day.day_of_week().as_number()) == weekdays.end() ||
         std::any_of(site.calendar.closed.begin(), site.calendar.closed.end(),
                     [&](const DayRange& range) { return day >= range.first && day <= range.last; });
}

bool away(const Person& person, Date day) {
  return std::any_of(person.away.begin(), person.away.end(),
                     [&](const DayRange& range) { return day >= range.first && day <= range.last; });
}

/// Sunday 0 of a week that begins on Monday.
Date mondayOf(Date day) {
  return day - days((day.day_of_week().as_number() + 6) % 7);
}

TEST(SamplePlan, NoVisitOnAClosedDayOrWithItsTechnicianAway) {
  const Register& site = larkmead().site();
  EXPECT_GT(sitePlan(larkmead(), halfAYear()).visits(), 45U);
  for (const PlanQuestion& question : questions()) {
    const SitePlan plan = sitePlan(larkmead(), question);
    EXPECT_GT(plan.visits(), 20U);
    for (const PlannedStop& stop : plan.stops) {
      EXPECT_FALSE(closed(site, stop.day)) << formatDate(stop.day);
      EXPECT_FALSE(away(*site.person(stop.person), stop.day)) << stop.person << formatDate(stop.day);
      EXPECT_GE(stop.day, plan.from);
      EXPECT_LE(stop.day, plan.until);
    }
  }
}

TEST(SamplePlan, NoDayAndNoWeekHoldsMoreThanItsHours) {
  const Register& site = larkmead().site();
  const SitePlan plan = sitePlan(larkmead(), halfAYear());
  std::map<std::pair<std::string, Date>, int> daily, weekly;
  for (const PlannedStop& stop : plan.stops) {
    for (const PlannedSubject& visit : stop.visits) {
      const int minutes =
          static_cast<int>(site.plan(routineFor(*site.channel(visit.channel), visit.subject)->plan)->minutes);
      daily[{stop.person, stop.day}] += minutes;
      weekly[{stop.person, mondayOf(stop.day)}] += minutes;
    }
  }
  for (const auto& [key, minutes] : daily) {
    EXPECT_LE(minutes, 60 * kLongestDay) << key.first << formatDate(key.second);
  }
  for (const auto& [key, minutes] : weekly) {
    const Person& person = *site.person(key.first);
    int there = 0;
    for (int i = 0; i < 7; ++i) {
      const Date day = key.second + days(i);
      there += day >= plan.from && day <= plan.until && !closed(site, day) && !away(person, day) ? 1 : 0;
    }
    EXPECT_LE(minutes, 60.0 * person.hoursPerWeek.value() * there / 5.0)
        << key.first << formatDate(key.second);
  }
}

// As checkVisit would see it: what is expected at every point lies on a certificate that is valid that day.
TEST(SamplePlan, EveryVisitHasValidStandardsForAllItsPoints) {
  const Register& site = larkmead().site();
  const SitePlan plan = sitePlan(larkmead(), halfAYear());
  std::map<std::pair<std::string, Date>, std::set<std::string>> holders;
  for (const PlannedStop& stop : plan.stops) {
    std::vector<std::string> serials = stop.standards;
    for (const std::string& serial : serials) {
      EXPECT_TRUE(standardUse(*site.standard(serial), stop.day).usable()) << serial << formatDate(stop.day);
      holders[{serial, stop.day}].insert(stop.person);
    }
    for (const PlannedSubject& planned : stop.visits) {
      const auto opened = openSheet(site, planned.channel, planned.subject, endOf(stop.day));
      ASSERT_TRUE(std::holds_alternative<VisitSheet>(opened)) << planned.channel;
      const VisitSheet& sheet = std::get<VisitSheet>(opened);
      ProposedVisit visit;
      visit.channel = planned.channel;
      visit.subject = planned.subject;
      visit.performed = endOf(stop.day);
      visit.person = stop.person;
      visit.standards = serials;
      visit.cautionsConfirmed = true;
      for (const TestPoint& point : sheet.points) {
        const auto expected = expectPoint(point, *sheet.model,
                                          planned.subject == Subject::sensor ? nullptr : &sheet.setup->setup,
                                          sheet.plan->tolerance, point.nominalApplied);
        ProposedReading& reading = visit.asFound.emplace_back();
        reading.sequence = point.sequence;
        reading.typed.indicatedText = std::to_string(std::get<PointResult>(expected).expected);
      }
      const CheckedVisit checked =
          checkVisit(site, visit, endOf(stop.day) + boost::posix_time::hours(1), false);
      for (const Problem& problem : checked.problems) {
        ADD_FAILURE() << planned.channel << " on " << formatDate(stop.day) << ": " << sentence(problem);
      }
    }
  }
  for (const auto& [key, technicians] : holders) {
    EXPECT_EQ(technicians.size(), 1U) << key.first << formatDate(key.second);
  }
}

TEST(SamplePlan, EveryDueSubjectIsThereOnceAndNoneIsLateThatWasNotBefore) {
  const SitePlan plan = sitePlan(larkmead(), halfAYear());
  std::multiset<std::pair<std::string, Subject>> seen;
  for (const PlannedStop& stop : plan.stops) {
    for (const PlannedSubject& visit : stop.visits) {
      seen.insert({visit.channel, visit.subject});
      const bool pressing = visit.due && *visit.due < plan.from;
      EXPECT_TRUE(visit.time == PlanTime::onTime || pressing) << visit.channel << ": " << visit.reason;
    }
  }
  for (const PlannedSubject& visit : plan.notPlanned) {
    seen.insert({visit.channel, visit.subject});
    EXPECT_NE(visit.reason, "") << visit.channel;
  }
  for (const DueItem& item : dueList(larkmead(), plan.from)) {
    const bool wanted = item.due.state == DueState::unproven || *item.due.dueOn <= plan.until;
    EXPECT_EQ(seen.count({item.channel, item.subject}), wanted ? 1U : 0U) << item.channel;
  }
}

TEST(SamplePlan, ItsCalendarIsReadBack) {
  const SitePlan plan = sitePlan(larkmead(), halfAYear());
  const std::string text = calendarText(planEvents(plan, larkmead().site()), "Larkmead", sampleNow());
  icalcomponent* calendar = icalparser_parse_string(text.c_str());
  ASSERT_NE(calendar, nullptr);
  EXPECT_EQ(icalcomponent_count_errors(calendar), 0);
  std::set<std::string> names;
  std::multiset<std::string> read, made;
  for (icalcomponent* event = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT);
       event != nullptr; event = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT)) {
    names.insert(icalcomponent_get_uid(event));
    const icaltimetype day = icalcomponent_get_dtstart(event);
    read.insert(icaltime_as_ical_string(day) + std::string(" ") + icalcomponent_get_location(event));
  }
  for (const PlannedStop& stop : plan.stops) {
    std::string day = formatDate(stop.day);
    std::erase(day, '-');
    made.insert(day + " " + stop.cabinet);
  }
  EXPECT_EQ(read, made);
  EXPECT_EQ(names.size(), plan.stops.size());
  icalcomponent_free(calendar);
}

TEST(SamplePlan, WhatIfAStandardIsAwayOrHoursAreFewer) {
  const SitePlan plain = sitePlan(larkmead(), halfAYear());
  PlanQuestion question = halfAYear();
  question.standardsAway["TS-2210"] = {{question.from, question.from + days(7 * kWeeks)}};
  const SitePlan without = sitePlan(larkmead(), question);
  EXPECT_GT(without.notPlanned.size(), plain.notPlanned.size());
  for (const PlannedSubject& visit : without.notPlanned) {
    EXPECT_THAT(visit.reason, testing::HasSubstr("no standard for")) << visit.channel;
  }
  for (const PlannedStop& stop : without.stops) {
    EXPECT_THAT(stop.standards, testing::Not(testing::Contains("TS-2210")));
    for (const PlannedSubject& visit : stop.visits) {
      // The register lets the dry block stand in for it; whether it will do is for a person to see.
      EXPECT_TRUE(visit.otherStandards || visit.channel != "TE-410");
    }
  }
  question = halfAYear();
  question.hoursFactor = 0.1;
  const SitePlan tired = sitePlan(larkmead(), question);
  EXPECT_LT(tired.visits(), plain.visits());
  EXPECT_EQ(tired.visits() + tired.notPlanned.size(), plain.visits() + plain.notPlanned.size());
  question.hoursFactor = 0.0;
  EXPECT_EQ(sitePlan(larkmead(), question).visits(), 0U);
}

}  // namespace
}  // namespace spanwright
