// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/intervals.h"

#include <gmock/gmock.h>

#include "core/store/verify.h"
#include "status_fixture.h"

namespace spanwright::status_test {
namespace {

using testing::HasSubstr;

/// Tolerance of the small site: 1 % of 0..100 degC, so that errors in degC are fractions of it; adjust limit
/// 0.7.
Register policySite() {
  std::vector<Channel> channels;
  const auto add = [&](const char* tag, const char* policy) {
    channels.push_back(channelWith(tag, currentInput(100.0), {{Subject::channel, "AI", policy}}));
  };
  add("TT-1", "yearly");
  add("TT-2", "steps");
  add("TT-3", "target");
  add("TT-4", "target");
  add("TT-5", "band");
  Register site = smallSite(std::move(channels));
  site.people.push_back({"twyke", "Tomas Wyke", {Role::planner}, std::nullopt});
  site.people.push_back({"gone", "Gone Example", {Role::administrator}, date("2025-01-01")});
  site.intervals.push_back({"steps", PolicyKind::staircase, 0, 12, 90, 800, 1.25, 0.5});
  site.intervals.push_back({"target", PolicyKind::reliability, 0, 12, 60, 900, 0, 0, 0.9, 0.95, 4});
  site.intervals.push_back({"band", PolicyKind::forecast, 0, 12, 60, 900});
  return site;
}

const IntervalItem& itemOf(const std::vector<IntervalItem>& items, std::string_view channel) {
  return *std::find_if(items.begin(), items.end(),
                       [&](const IntervalItem& item) { return item.channel == channel; });
}

template <class Work>
std::string refused(Work work) {
  try {
    work();
  } catch (const InputError& error) {
    return error.what();
  }
  ADD_FAILURE() << "no InputError";
  return {};
}

class IntervalsTest : public StatusTest {
 protected:
  IntervalItem item(const std::string& channel, const std::string& on) {
    return itemOf(intervalReport(store(), channel, date(on)), channel);
  }
  SubjectOutcomes outcomes(const std::string& channel) {
    const Channel& one = *store().site().channel(channel);
    return outcomesOf(store().site(), one, one.routines.front(), store().history(channel),
                      date("2026-11-01"));
  }
  IntervalChoice choice(const std::string& channel, int days = 0, const std::string& reason = "") {
    IntervalChoice made;
    made.channel = channel;
    made.days = days;
    made.person = "twyke";
    made.reason = reason;
    return made;
  }
};

TEST_F(IntervalsTest, OutcomesCountFromTheLastPassingAsLeft) {
  open(policySite());
  add({"TT-1", "2020-03-01T08:00", always(0.2)});               // the first
  add({"TT-1", "2021-03-01T08:00", always(0.8)});               // 365 days, beyond 0.7
  add({"TT-1", "2022-03-01T08:00", always(1.2), always(0.0)});  // 365 days, out, adjusted
  add({.channel = "TT-1", .when = "2022-09-01T08:00", .found = always(0.1), .skip = [](const TestPoint&) {
         return true;
       }});                                        // nothing was judged
  add({"TT-1", "2023-03-01T08:00", always(1.5)});  // 365 days, out, left so
  add({"TT-1", "2024-03-01T08:00", always(0.1)});  // after no passing as-left
  add({"TT-1", "2024-03-01T09:00", always(0.1)});  // the same day
  add({"TT-1", "2024-04-10T09:00", always(0.2)});  // 40 days
  const SubjectOutcomes told = outcomes("TT-1");
  ASSERT_EQ(told.outcomes.size(), 4U);
  const auto expect = [&](std::size_t at, double days, FoundState found) {
    EXPECT_NEAR(told.outcomes[at].outcome.intervalDays, days, 1e-9) << at;
    EXPECT_EQ(told.outcomes[at].outcome.found, found) << at;
  };
  expect(0, 365.0, FoundState::beyondAdjustLimit);
  expect(1, 365.0, FoundState::out);
  expect(2, 365.0, FoundState::out);  // counts from the adjustment, past the visit that judged nothing
  expect(3, 40.0, FoundState::within);
  EXPECT_EQ(told.outcomes[3].group, "channel, analog-input, plan AI");
  const OutcomeCounts& counts = told.counts;
  EXPECT_EQ(counts.counted, 4);
  EXPECT_EQ(counts.out, 2);
  EXPECT_EQ(counts.first, 1);
  EXPECT_EQ(counts.notJudged, 1);
  EXPECT_EQ(counts.unprovenBefore, 1);
  EXPECT_EQ(counts.sameDay, 1);
}

TEST_F(IntervalsTest, ANewSetupAnotherSensorAndAnotherPlanBreak) {
  Register site = policySite();
  site.channels[0].setups.push_back({2, moment("2022-01-01T08:00"), currentInput(120.0), "wider"});
  site.channels[1].routines = {{Subject::loop, "AI", "yearly"}};
  site.channels[1].fittings = {{"TX-1", moment("2018-03-01T08:00"), moment("2022-01-01T08:00")},
                               {"TX-2", moment("2022-01-01T08:00"), std::nullopt}};
  Plan other = site.plans.front();
  other.code = "AI-2";
  site.plans.push_back(other);
  site.channels[2].routines[0].plan = "AI-2";
  open(site);
  for (const char* when : {"2020-03-01T08:00", "2021-03-01T08:00", "2022-03-01T08:00", "2023-03-01T08:00"}) {
    const bool later = std::string(when) > "2022";
    add({.channel = "TT-1", .when = when, .found = always(0.1), .setup = later ? 2 : 1});
    add({.channel = "TT-2",
         .when = when,
         .found = always(0.1),
         .subject = Subject::loop,
         .sensor = later ? "TX-2" : "TX-1"});
    add({.channel = "TT-3", .when = when, .found = always(0.1)});
  }
  for (const char* channel : {"TT-1", "TT-2"}) {
    EXPECT_EQ(outcomes(channel).counts.first, 2) << channel;
    EXPECT_EQ(outcomes(channel).counts.counted, 2) << channel;
  }
  EXPECT_EQ(outcomes("TT-3").counts.otherPlan, 4);
  EXPECT_EQ(outcomes("TT-3").counts.counted, 0);
}

TEST_F(IntervalsTest, EmptyHistoriesProposeWhatCanBeSaidOfThem) {
  open(policySite());
  const auto items = intervalReport(store(), "", date("2026-11-01"));
  ASSERT_EQ(items.size(), 5U);
  EXPECT_EQ(itemOf(items, "TT-1").proposal.days, itemOf(items, "TT-1").nowDays);
  EXPECT_EQ(itemOf(items, "TT-2").proposal.days, itemOf(items, "TT-2").nowDays);
  EXPECT_THAT(itemOf(items, "TT-2").proposal.evidence, HasSubstr("No visit has put"));
  EXPECT_FALSE(itemOf(items, "TT-3").proposal.days);
  EXPECT_THAT(itemOf(items, "TT-3").proposal.evidence, HasSubstr("Too few outcomes: 0"));
  EXPECT_FALSE(itemOf(items, "TT-5").proposal.days);
  EXPECT_THAT(itemOf(items, "TT-5").proposal.evidence, HasSubstr("no passing as-left"));
  EXPECT_TRUE(intervalReport(store(), "TT-1", date("2026-11-01")).size() == 1);
  EXPECT_THAT(refused([&] { intervalReport(store(), "TT-9", date("2026-11-01")); }), HasSubstr("TT-9"));
}

TEST_F(IntervalsTest, AStaircaseTakesOneStepForOneVisit) {
  open(policySite());
  add({"TT-2", "2024-06-03T08:00", always(0.1)});
  add({"TT-2", "2025-06-03T08:00", always(0.2)});
  EXPECT_EQ(item("TT-2", "2025-06-10").nowDays, 365);
  EXPECT_EQ(item("TT-2", "2025-06-10").proposal.days, 456);
  acceptInterval(store(), choice("TT-2"), date("2025-06-10"));
  const IntervalItem after = item("TT-2", "2025-06-11");
  EXPECT_EQ(after.nowDays, 456);
  EXPECT_EQ(after.acceptedFrom, date("2025-06-10"));
  EXPECT_EQ(after.proposal.days, 456);  // the visit has had its step
  add({"TT-2", "2026-09-02T08:00", always(1.4), always(0.0)});
  EXPECT_EQ(item("TT-2", "2026-09-03").proposal.days, 228);
}

// Found in the morning, accepted in the afternoon: that visit is what was accepted, and has had its step.
TEST_F(IntervalsTest, TheVisitOfTheDayOfAcceptanceHasHadItsStep) {
  open(policySite());
  add({"TT-2", "2024-06-03T08:00", always(0.1)});
  add({"TT-2", "2025-06-03T08:00", always(0.2)});
  acceptInterval(store(), choice("TT-2"), date("2025-06-03"));
  const IntervalItem after = item("TT-2", "2025-06-04");
  EXPECT_EQ(after.nowDays, 456);
  EXPECT_EQ(after.proposal.days, 456);
}

TEST_F(IntervalsTest, AReliabilityTargetPoolsLikeSubjectsUnderAnyPolicy) {
  open(policySite());
  for (const char* channel : {"TT-1", "TT-3", "TT-4"}) {
    add({channel, "2022-06-01T08:00", always(0.1)});
    add({channel, "2023-06-01T08:00", always(0.1)});
    add({channel, "2024-05-31T08:00", always(channel == std::string("TT-4") ? 1.3 : 0.1), always(0.0)});
  }
  const IntervalItem pooled = item("TT-3", "2026-11-01");
  EXPECT_EQ(pooled.group, "channel, analog-input, plan AI");
  // Five of six in tolerance after 365 days each.
  EXPECT_EQ(pooled.proposal.days, static_cast<int>(365.0 * std::log(0.9) / std::log(5.0 / 6.0)));
  EXPECT_THAT(pooled.proposal.evidence, HasSubstr("5 of 6 visits found in tolerance"));
  EXPECT_THAT(pooled.proposal.evidence, HasSubstr("(3 subjects)"));
  // One by one and all together say the same.
  EXPECT_EQ(itemOf(intervalReport(store(), "", date("2026-11-01")), "TT-3").proposal.evidence,
            pooled.proposal.evidence);
}

TEST_F(IntervalsTest, AForecastEndsTheDayBeforeTheDriftReportsBandLeaves) {
  open(policySite());
  const auto drifting = [](double error) {
    return
        [error](const TestPoint& point) { return error + (point.direction == Direction::up ? 0.02 : -0.02); };
  };
  double error = 0.0;
  for (const char* when :
       {"2022-03-01T08:00", "2023-03-01T08:00", "2024-03-01T08:00", "2025-03-01T08:00", "2026-03-02T08:00"}) {
    add({"TT-5", when, drifting(error += 0.15 + (error > 0.4 ? 0.02 : 0.0))});
  }
  std::optional<Date> soonest;
  for (const DriftItem& drift : driftReport(store(), "TT-5", date("2026-03-10"))) {
    soonest = !soonest || (drift.bandOutOn && *drift.bandOutOn < *soonest) ? drift.bandOutOn : soonest;
  }
  ASSERT_TRUE(soonest);
  const IntervalItem forecast = item("TT-5", "2026-03-10");
  const auto until = static_cast<int>((*soonest - date("2026-03-02")).days());
  ASSERT_GT(until, 61);
  ASSERT_LE(until, 900);
  EXPECT_EQ(forecast.proposal.days, until - 1);
  EXPECT_THAT(forecast.proposal.evidence, HasSubstr("leaves tolerance first, on " + formatDate(*soonest)));
  // Long after the band has left it still counts from the as-left to the day it left.
  const IntervalItem late = item("TT-5", "2030-01-01");
  EXPECT_EQ(late.proposal.days, until - 1) << late.proposal.evidence;
}

TEST_F(IntervalsTest, AnAcceptedIntervalMovesTheDueDateAndIsInTheJournal) {
  open(policySite());
  add({"TT-2", "2024-06-03T08:00", always(0.1)});
  add({"TT-2", "2025-06-03T08:00", always(0.2)});
  const auto dueOf = [&](const char* on) {
    const auto due = dueList(store(), date(on));
    return *std::find_if(due.begin(), due.end(), [](const DueItem& d) { return d.channel == "TT-2"; });
  };
  EXPECT_EQ(dueOf("2025-07-01").due.dueOn, date("2026-06-03"));
  const AcceptedInterval made =
      acceptInterval(store(), choice("TT-2", 300, "production asks for it"), date("2025-07-01"));
  EXPECT_EQ(made.days, 300);
  EXPECT_EQ(made.proposedDays, 456);
  EXPECT_THAT(made.evidence, HasSubstr("a step up by 1.25"));
  EXPECT_EQ(dueOf("2025-06-30").due.dueOn, date("2026-06-03"));  // before its day the policy's holds
  const DueItem due = dueOf("2025-07-01");
  EXPECT_EQ(due.due.dueOn, date("2026-03-30"));
  EXPECT_EQ(due.intervalDays, 300);
  EXPECT_EQ(
      due.reason,
      "interval of 300 days that twyke accepted from 2025-07-01 on, after the passing as-left of 2025-06-03");
  const auto entries = store().entriesAbout({"accepted interval", {made.id}});
  ASSERT_EQ(entries.size(), 1U);
  EXPECT_EQ(entries[0].act, "accepted");
  EXPECT_EQ(entries[0].person, "twyke");
  EXPECT_EQ(entries[0].detail, "production asks for it");
  EXPECT_TRUE(verifyRecord(store().file()).problems.empty());
  // As proposed needs no reason.
  EXPECT_EQ(acceptInterval(store(), choice("TT-1", 200, "trial"), date("2025-07-01")).reason, "trial");
}

TEST_F(IntervalsTest, WhatCannotBeAcceptedIsRefusedAndNothingWritten) {
  open(policySite());
  add({"TT-2", "2024-06-03T08:00", always(0.1)});
  add({"TT-2", "2025-06-03T08:00", always(0.2)});
  const auto head = store().journalHead();
  const Date on = date("2025-07-01");
  const auto say = [&](IntervalChoice made) { return refused([&] { acceptInterval(store(), made, on); }); };
  EXPECT_THAT(say(choice("TT-9")), HasSubstr("no channel \"TT-9\""));
  IntervalChoice wrong = choice("TT-2");
  wrong.person = "mtolland";
  EXPECT_THAT(say(wrong), HasSubstr("mtolland is neither planner nor administrator"));
  wrong.person = "gone";
  EXPECT_THAT(say(wrong), HasSubstr("gone left on 2025-01-01"));
  wrong.person = "nobody";
  EXPECT_THAT(say(wrong), HasSubstr("no person \"nobody\""));
  EXPECT_THAT(say(choice("TT-2", 300)), HasSubstr("300 days for TT-2 is not what the policy proposes"));
  EXPECT_THAT(say(choice("TT-2", 801, "long")),
              HasSubstr("lies outside what its policy steps allows (90 to 800"));
  EXPECT_THAT(say(choice("TT-2", 89, "short")), HasSubstr("lies outside"));
  wrong = choice("TT-2", 300, "both");
  wrong.months = 6;
  EXPECT_THAT(say(wrong), HasSubstr("in days and in months"));
  wrong = choice("TT-2", 0, "same");
  wrong.months = 12;
  EXPECT_THAT(say(wrong), HasSubstr("12 months is what holds for TT-2 already"));
  wrong = choice("TT-2");
  wrong.subject = Subject::loop;
  EXPECT_THAT(say(wrong), HasSubstr("no routine for the subject loop"));
  EXPECT_THAT(say(choice("TT-1")), HasSubstr("what is proposed for TT-1 is what holds already"));
  EXPECT_THAT(say(choice("TT-3")), HasSubstr("nothing is proposed for TT-3 (Too few outcomes"));
  EXPECT_EQ(store().journalHead(), head);
  EXPECT_TRUE(store().site().channel("TT-2")->acceptedIntervals.empty());
}

TEST_F(IntervalsTest, TheComparisonRunsEveryPolicyThatProposes) {
  open(policySite());
  for (const char* channel : {"TT-1", "TT-2", "TT-3"}) {
    double error = 0.0;
    for (const char* when :
         {"2021-03-01T08:00", "2022-03-01T08:00", "2023-03-01T08:00", "2024-03-01T08:00"}) {
      add({channel, when, always(error += 0.1 + (error > 0.15 ? 0.05 : 0.0))});
    }
  }
  const FleetComparison comparison = comparePolicies(store(), date("2026-11-01"), {5, 10, 4});
  EXPECT_EQ(comparison.subjects, 3);
  EXPECT_EQ(comparison.leftOut, 2);
  EXPECT_EQ(comparison.observed, 9);
  EXPECT_EQ(comparison.observedIn, 9);
  ASSERT_EQ(comparison.policies.size(), 4U);
  EXPECT_FALSE(comparison.policies[0].kind);
  EXPECT_EQ(comparison.policies[1].policy, "steps");
  EXPECT_EQ(comparison.policies[2].policy, "target");
  EXPECT_EQ(comparison.policies[3].policy, "band");
  for (const PolicyOutcome& policy : comparison.policies) {
    EXPECT_GT(policy.outcome.visits, 0) << policy.policy;
  }
  // Three subjects, five yearly visits each, ten runs.
  EXPECT_NEAR(comparison.policies[0].outcome.visitsPerYear, 3.0, 1e-12);
}

}  // namespace
}  // namespace spanwright::status_test
