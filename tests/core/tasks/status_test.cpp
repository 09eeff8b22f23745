// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/status.h"

#include "tests/core/tasks/status_fixture.h"

namespace spanwright {
namespace {

using namespace status_test;

constexpr double kPass = 0.1;
constexpr double kFail = 9.0;

class DueListTest : public StatusTest {
 protected:
  DueItem only(const std::string& today) {
    const auto items = dueList(store(), date(today));
    EXPECT_EQ(items.size(), 1u);
    return items.at(0);
  }
};

TEST_F(DueListTest, NeverCalibratedIsUnprovenSinceItsSetup) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  const DueItem item = only("2020-01-01");
  EXPECT_EQ(item.channel, "TT-1");
  EXPECT_EQ(item.place, "Hall / Cabinet");
  EXPECT_EQ(item.due.state, DueState::unproven);
  EXPECT_EQ(formatDate(item.due.dueOn.value()), "2018-03-01");
  EXPECT_FALSE(item.due.provenOn);
  EXPECT_EQ(item.intervalDays, 365);
  EXPECT_EQ(item.reason, "setup 1 in force since 2018-03-01 has no passing as-left yet");
}

TEST_F(DueListTest, StatesFollowTheCalendarOfTheSite) {
  Register site = smallSite({channelWith("TT-1", currentInput(100))});
  site.calendar.closed = {{date("2026-11-19"), date("2026-11-20"), "shutdown"}};
  site.calendar.dueSoonDays = 10;
  site.calendar.graceDays = 5;
  open(site);
  add({"TT-1", "2025-11-20T09:30",
       always(kPass)});  // a year later is a Friday, closed like the day before it
  struct Row {
    const char* today;
    DueState state;
  };
  const Row rows[] = {{"2025-11-20", DueState::ok},      {"2026-11-07", DueState::ok},
                      {"2026-11-08", DueState::dueSoon}, {"2026-11-18", DueState::dueSoon},
                      {"2026-11-19", DueState::inGrace}, {"2026-11-23", DueState::inGrace},
                      {"2026-11-24", DueState::overdue}, {"2030-01-01", DueState::overdue}};
  for (const Row& row : rows) {
    const DueItem item = only(row.today);
    EXPECT_EQ(item.due.state, row.state) << row.today;
    EXPECT_EQ(formatDate(item.due.dueOn.value()), "2026-11-18") << row.today;
    EXPECT_EQ(formatDate(item.due.provenOn.value()), "2025-11-20") << row.today;
    EXPECT_EQ(item.intervalDays, 365);
    EXPECT_EQ(item.reason,
              "yearly interval (12 months) after the passing as-left of 2025-11-20, moved from 2026-11-20 to "
              "the working "
              "day before");
  }
}

TEST_F(DueListTest, ADaysIntervalSaysSo) {
  open(smallSite({channelWith("TT-1", currentInput(100), {{Subject::channel, "AI", "short"}})}));
  add({"TT-1", "2026-03-02T09:30", always(kPass)});
  const DueItem item = only("2026-03-03");
  EXPECT_EQ(item.intervalDays, 90);
  EXPECT_EQ(formatDate(item.due.dueOn.value()), "2026-05-29");
  EXPECT_EQ(item.reason,
            "short interval (90 days) after the passing as-left of 2026-03-02, moved from 2026-05-31 to the "
            "working day before");
}

TEST_F(DueListTest, AnAsFoundOutOfToleranceButLeftInsideIsProven) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  add({"TT-1", "2026-03-02T09:30", always(kFail), always(kPass)});
  EXPECT_EQ(only("2026-03-03").due.state, DueState::ok);
}

TEST_F(DueListTest, LeftFailingIsUnprovenUntilItPassesAgain) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  add({"TT-1", "2025-11-20T09:30", always(kPass)});
  add({"TT-1", "2026-02-10T10:00", always(kFail)});
  const DueItem failed = only("2026-02-11");
  EXPECT_EQ(failed.due.state, DueState::unproven);
  EXPECT_EQ(formatDate(failed.due.dueOn.value()), "2026-02-10");
  EXPECT_EQ(failed.reason,
            "left failing on 2026-02-10 under setup 1; the last passing as-left was on 2025-11-20");
  EXPECT_EQ(only("2026-02-09").due.state, DueState::ok) << "the day before nothing was known of it";
  add({"TT-1", "2026-02-12T10:00", always(kFail), always(kPass)});
  EXPECT_EQ(only("2026-02-12").due.state, DueState::ok);
  EXPECT_EQ(formatDate(only("2026-02-12").due.provenOn.value()), "2026-02-12");
}

TEST_F(DueListTest, FailedWithoutAnyPassBefore) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  add({"TT-1", "2026-02-10T10:00", always(kFail)});
  EXPECT_EQ(only("2026-02-11").reason,
            "left failing on 2026-02-10 under setup 1; there is no passing as-left before");
}

TEST_F(DueListTest, AVisitWhereEverythingWasSkippedSaysNothing) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  add({"TT-1", "2025-11-20T09:30", always(kPass)});
  Visit skipped{"TT-1", "2026-02-10T10:00", always(0.0)};
  skipped.skip = [](const TestPoint&) { return true; };
  add(skipped);
  EXPECT_EQ(formatDate(only("2026-02-11").due.provenOn.value()), "2025-11-20");
  EXPECT_EQ(only("2026-02-11").due.state, DueState::ok);
}

TEST_F(DueListTest, ANewSetupHasToBeProvenOnItsOwn) {
  Channel channel = channelWith("TT-1", currentInput(100));
  channel.setups.push_back({2, moment("2025-03-04T14:00"), currentInput(150), "range widened"});
  open(smallSite({channel}));
  add({"TT-1", "2025-01-10T09:00", always(kPass)});
  EXPECT_EQ(only("2025-03-03").due.state, DueState::ok);
  const DueItem changed = only("2025-03-04");
  EXPECT_EQ(changed.due.state, DueState::unproven);
  EXPECT_EQ(formatDate(changed.due.dueOn.value()), "2025-03-04");
  EXPECT_EQ(changed.reason, "setup 2 in force since 2025-03-04 has no passing as-left yet");
  add({"TT-1", "2025-03-10T09:00", always(kPass), nullptr, 2});
  EXPECT_EQ(only("2025-03-10").due.state, DueState::ok);
  EXPECT_EQ(formatDate(only("2025-03-10").due.provenOn.value()), "2025-03-10");
  EXPECT_EQ(only("2025-03-09").due.state, DueState::unproven);
}

TEST_F(DueListTest, ALoopFollowsItsSensorAndTheChannelAloneDoesNot) {
  Channel channel = channelWith("TT-1", currentInput(100),
                                {{Subject::channel, "AI", "yearly"}, {Subject::loop, "AI", "yearly"}});
  channel.fittings = {{"TX-1", moment("2018-03-01T08:00"), moment("2025-06-02T10:00")},
                      {"TX-2", moment("2025-06-03T08:00"), std::nullopt}};
  open(smallSite({channel}));
  add({"TT-1", "2025-05-05T09:00", always(kPass)});
  add({"TT-1", "2025-05-05T11:00", always(kPass), nullptr, 1, Subject::loop, "TX-1"});
  const auto loop = [&](const std::string& today) {
    const auto items = dueList(store(), date(today));
    EXPECT_EQ(items.size(), 2u);
    for (const DueItem& item : items) {
      if (item.subject == Subject::loop) {
        return item;
      }
      EXPECT_EQ(item.due.state, DueState::ok) << today;
    }
    ADD_FAILURE() << "no loop";
    return DueItem{};
  };
  EXPECT_EQ(loop("2025-06-01").due.state, DueState::ok);
  const DueItem off = loop("2025-06-02");
  EXPECT_EQ(off.due.state, DueState::unproven);
  EXPECT_EQ(off.reason, "no sensor is fitted since TX-1 came off on 2025-06-02");
  const DueItem swapped = loop("2025-06-03");
  EXPECT_EQ(swapped.due.state, DueState::unproven);
  EXPECT_EQ(formatDate(swapped.due.dueOn.value()), "2025-06-03");
  EXPECT_EQ(swapped.reason, "sensor TX-2 fitted since 2025-06-03 has no passing as-left under setup 1 yet");
  add({"TT-1", "2025-06-03T11:00", always(kPass), nullptr, 1, Subject::loop, "TX-2"});
  EXPECT_EQ(loop("2025-06-03").due.state, DueState::ok);
}

TEST_F(DueListTest, BeforeTheFirstSetupThereIsNothingInForce) {
  open(smallSite({channelWith("TT-1", currentInput(100))}));
  const DueItem item = only("2017-01-01");
  EXPECT_EQ(item.due.state, DueState::unproven);
  EXPECT_EQ(item.reason, "its first setup comes into force on 2018-03-01");
}

TEST_F(DueListTest, ALoopThatFailedLeavesTheChannelAlone) {
  Channel channel = channelWith("TT-1", currentInput(100));
  channel.fittings = {{"TX-1", moment("2018-03-01T08:00"), std::nullopt}};
  open(smallSite({channel}));
  add({"TT-1", "2026-01-12T09:00", always(kPass)});
  add({"TT-1", "2026-01-12T10:00", always(kFail), nullptr, 1, Subject::loop, "TX-1"});
  EXPECT_EQ(only("2026-03-10").due.state, DueState::ok);
}

TEST_F(DueListTest, MostPressingFirstAndNothingRetired) {
  Channel retired = channelWith("TT-9", currentInput(100));
  retired.retired = true;
  Channel idle = channelWith("TT-8", currentInput(100), {});
  Channel young = channelWith("TT-5", currentInput(100));
  young.setups.front().inForceFrom =
      moment("2026-03-02T08:00");  // unproven counts before overdue, however short
  open(smallSite({channelWith("TT-1", currentInput(100)), channelWith("TT-2", currentInput(100)),
                  channelWith("TT-3", currentInput(100)), channelWith("TT-4", currentInput(100)), young, idle,
                  retired}));
  add({"TT-1", "2026-01-12T09:00", always(kPass)});
  add({"TT-2", "2025-03-20T09:00", always(kPass)});
  add({"TT-3", "2025-01-10T09:00", always(kPass)});
  add({"TT-4", "2024-01-10T09:00", always(kPass)});
  const auto items = dueList(store(), date("2026-03-10"));
  std::string order;
  for (const DueItem& item : items) {
    order += item.channel + " " + std::string(text(item.due.state)) + "; ";
  }
  EXPECT_EQ(order, "TT-5 unproven; TT-4 overdue; TT-3 overdue; TT-2 due_soon; TT-1 ok; ");
  EXPECT_EQ(channelState(items, "TT-3"), DueState::overdue);
  EXPECT_EQ(channelState(items, "TT-8"), std::nullopt);
  const auto states = channelStates(items);
  EXPECT_EQ(states.size(), 5u);
  EXPECT_EQ(states.at("TT-2"), DueState::dueSoon);
}

TEST_F(DueListTest, AChannelIsAsBadAsItsWorstRoutine) {
  Channel channel = channelWith("TT-1", currentInput(100),
                                {{Subject::channel, "AI", "yearly"}, {Subject::loop, "AI", "yearly"}});
  channel.fittings = {{"TX-1", moment("2018-03-01T08:00"), std::nullopt}};
  open(smallSite({channel}));
  add({"TT-1", "2026-01-12T09:00", always(kPass)});
  const auto items = dueList(store(), date("2026-03-10"));
  EXPECT_EQ(channelState(items, "TT-1"), DueState::unproven);
  EXPECT_EQ(channelStates(items).at("TT-1"), DueState::unproven);
}

TEST_F(DueListTest, AnIntervalNobodyCanMeanNeverGetsIntoARecord) {
  Register site = smallSite({channelWith("TT-1", currentInput(100))});
  site.intervals.front().months = 120000;
  EXPECT_THROW(open(site), InputError);
}

}  // namespace
}  // namespace spanwright
