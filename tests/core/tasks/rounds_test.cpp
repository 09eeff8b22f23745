// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/rounds.h"

#include <gmock/gmock.h>

#include "core/record/problem.h"
#include "core/tasks/round_sheet.h"
#include "tests/core/tasks/record_fixture.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;

class PuttingARoundTogether : public RecordTest {
 protected:
  std::string refused(const ProposedRound& proposed) {
    try {
      makeRound(store(), proposed);
    } catch (const InputError& error) {
      return error.problems().front().what;
    }
    return "taken";
  }
};

TEST_F(PuttingARoundTogether, StopsStandInWalkingOrder) {
  site_.places.push_back({"Yard", "Yard", "", -1});  // walked before the hall
  site_.channels[3].place = "Yard";                  // TT-110
  const std::int64_t id = makeRound(store(), {"Monday",
                                              "mtolland",
                                              day(2026, 11, 30),
                                              {{"FV-201", Subject::channel},
                                               {"TT-101", Subject::loop},
                                               {"TT-101", Subject::channel},
                                               {"TT-110", Subject::channel}}});
  const Round round = store().rounds().front();
  EXPECT_EQ(round.id, id);
  EXPECT_EQ(round.person, "mtolland");
  EXPECT_EQ(round.reason, "due work, to be walked on 2026-11-30");
  std::vector<std::string> stops;
  for (const RoundStop& stop : round.stops) {
    stops.push_back(stop.channel + " " + std::string(text(stop.subject)));
  }
  EXPECT_THAT(stops, ElementsAre("TT-110 channel", "TT-101 channel", "TT-101 loop", "FV-201 channel"));
}

// An old history read in while a round is open is no visit of the round.
TEST_F(PuttingARoundTogether, OnlyAVisitMadeSinceCountsAsDone) {
  makeRound(store(), {"Monday", "mtolland", std::nullopt, {{"TT-110", Subject::channel}}});
  const auto done = [this] { return roundProgress(store(), store().rounds().front()).front().calibration; };
  const Moment made = store().rounds().front().madeUtc;
  ProposedVisit visit = goodVisit();
  visit.performed = Moment(made.date() - boost::gregorian::days(400), made.time_of_day());
  enterVisit(store(), visit, made);
  EXPECT_EQ(done(), 0);
  visit.performed = made;
  EXPECT_EQ(done(), 0);
  const CalibrationId now = enterVisit(store(), visit, made).id;
  EXPECT_EQ(done(), now);
}

TEST_F(PuttingARoundTogether, APlannedStopBecomesARoundOfItsPersonAndASheet) {
  PlannedStop stop;
  stop.day = day(2026, 12, 2);
  stop.person = "mtolland";
  stop.cabinet = "Hall / Cabinet 1";
  stop.standards = {"LC-2201"};
  for (const char* tag : {"TT-110", "TT-101"}) {
    PlannedSubject visit;
    visit.channel = tag;
    stop.visits.push_back(visit);
  }
  makeRound(store(), roundOfStop(stop));
  const Round round = store().rounds().front();
  EXPECT_EQ(round.name, "Hall / Cabinet 1, 2026-12-02");
  EXPECT_EQ(round.person, "mtolland");
  EXPECT_EQ(round.reason, "due work, to be walked on 2026-12-02");
  ASSERT_EQ(round.stops.size(), 2U);
  EXPECT_EQ(round.stops[0].channel, "TT-101") << "in walking order";
  const RoundSheet sheet = sheetOfStop(store(), stop);
  EXPECT_EQ(sheet.day, "2026-12-02");
  EXPECT_EQ(sheet.technician, "Mara Tolland");
  ASSERT_EQ(sheet.items.size(), 2U);
  EXPECT_EQ(sheet.items[0].tag, "TT-101");
  ASSERT_EQ(sheet.take.size(), 1U);
  EXPECT_THAT(sheet.take[0], testing::HasSubstr("LC-2201"));
}

TEST_F(PuttingARoundTogether, WhatCannotBeWalkedIsRefused) {
  const ProposedRound good{"Monday", "", std::nullopt, {{"TT-101", Subject::channel}}};
  ProposedRound bad = good;
  bad.name = "  ";
  EXPECT_EQ(refused(bad), "the round has no name");
  bad = good;
  bad.stops.clear();
  EXPECT_EQ(refused(bad), "the round has no channels");
  bad = good;
  bad.stops[0].channel = "TT-999";
  EXPECT_EQ(refused(bad), "there is no channel \"TT-999\" in the record");
  bad = good;
  bad.person = "nobody";
  EXPECT_EQ(refused(bad), "there is no person \"nobody\" in the record");
  bad = good;
  bad.stops.push_back(bad.stops[0]);
  EXPECT_EQ(refused(bad), "the channel of TT-101 is in the round twice");
  EXPECT_TRUE(store().rounds().empty());
  EXPECT_EQ(refused(good), "taken");
}

TEST(NextStop, GoesOnFromWhereOneIsAndThenToWhatWasPassedOver) {
  std::vector<StopProgress> stops(4);
  stops[1].calibration = 7;
  EXPECT_EQ(nextStop(stops), 0U);
  EXPECT_EQ(nextStop(stops, 0), 2U) << "the second is done";
  EXPECT_EQ(nextStop(stops, 2), 3U);
  EXPECT_EQ(nextStop(stops, 3), 0U) << "passed over";
  stops[0].calibration = stops[2].calibration = 8;
  EXPECT_EQ(nextStop(stops, 3), 3U) << "the only one left";
  stops[3].calibration = 9;
  EXPECT_EQ(nextStop(stops, 3), std::nullopt);
  EXPECT_EQ(nextStop({}), std::nullopt);
}

}  // namespace
}  // namespace spanwright::test
