// SPDX-License-Identifier: GPL-3.0-or-later
#include "samples.h"

namespace spanwright {
namespace {

using test::at;
using test::everything;
using test::on;

class RegisterChanges : public testing::Test {
 protected:
  SetupVersion nextSetup(const char* from) const {
    SetupVersion setup = site.channels[1].setups[0];
    setup.version = 99;  // the store gives its own
    setup.inForceFrom = at(from);
    setup.remark = "wider range";
    return setup;
  }
  void expectSameOnDisk() {
    EXPECT_EQ(everything(Store::open(folder / "a.record").site()), everything(store.site()));
  }

  const test::Folder folder;
  const Register site = test::sampleRegister();
  Store store = Store::create(folder / "a.record", site);
};

TEST_F(RegisterChanges, SetupFollowsTheNewestWithTheNextVersion) {
  store.addSetup("AI-001", nextSetup("2024-05-01T10:00:00"));
  store.addSetup("AI-001", nextSetup("2024-05-01T10:00:01"));
  const Channel& channel = *store.site().channel("AI-001");
  ASSERT_EQ(channel.setups.size(), 3U);
  EXPECT_EQ(channel.setups[1].version, 2);
  EXPECT_EQ(channel.setups[2].version, 3);
  EXPECT_EQ(channel.setups[2].inForceFrom, at("2024-05-01T10:00:01"));
  EXPECT_EQ(everything(site).size() < everything(store.site()).size(), true);
  expectSameOnDisk();
}

TEST_F(RegisterChanges, SetupNotLaterThanTheNewestIsRefused) {
  for (const char* const from : {"2018-03-01T08:00:00", "2017-01-01"}) {
    const std::string said = test::inputRefusal([&] { store.addSetup("AI-001", nextSetup(from)); });
    EXPECT_NE(said.find("not later than the newest"), std::string::npos) << said;
  }
  EXPECT_NE(test::inputRefusal([&] { store.addSetup("no such", nextSetup("2024-01-01")); }).find("no such"),
            std::string::npos);
  SetupVersion impossible = nextSetup("2024-01-01");
  std::get<AnalogInputSetup>(impossible.setup.kind).signal.high = 4;
  test::inputRefusal([&] { store.addSetup("AI-001", impossible); });
  EXPECT_EQ(everything(store.site()), everything(site));
  expectSameOnDisk();
}

TEST_F(RegisterChanges, FittingEndsTheOneBeforeAndTheSensorsOwn) {
  // TC-0002 sits on TT-101 with no end; it moves to AI-001.
  store.addFitting("AI-001", {"TC-0002", at("2025-01-01T09:00:00"), {}});
  EXPECT_EQ(store.site().channel("TT-101")->fittings[1].until, at("2025-01-01T09:00:00"));
  EXPECT_EQ(store.site().channel("AI-001")->fittings[0].until, std::nullopt);
  // Another sensor takes its place.
  store.addFitting("AI-001", {"RT-0003", at("2025-02-01T09:00:00"), {}});
  EXPECT_EQ(store.site().channel("AI-001")->fittings[0].until, at("2025-02-01T09:00:00"));
  // An end that has passed stays.
  EXPECT_EQ(store.site().channel("TT-101")->fittings[0].until, at("2020-03-01T08:00:00"));
  expectSameOnDisk();
  EXPECT_TRUE(registerFaults(store.site()).empty());
}

TEST_F(RegisterChanges, FittingBeforeTheNewestOrOfNothingIsRefused) {
  test::inputRefusal([&] { store.addFitting("TT-101", {"RT-0003", at("2020-03-01T08:00:00"), {}}); });
  test::inputRefusal([&] { store.addFitting("TT-101", {"no such", at("2025-01-01"), {}}); });
  test::inputRefusal([&] { store.addFitting("TT-101", {"RT-0003", at("2025-01-01"), at("2025-01-01")}); });
  EXPECT_EQ(everything(store.site()), everything(site));
  expectSameOnDisk();
}

TEST_F(RegisterChanges, StandardCertificatesStandInTheOrderOfValidity) {
  StandardCertificate between = site.standards[0].certificates[0];
  between.number = "C-12000";
  between.validFrom = on("2023-06-01");
  store.addStandardCertificate("LC-2201", between);
  const Standard& standard = *store.site().standard("LC-2201");
  ASSERT_EQ(standard.certificates.size(), 3U);
  EXPECT_EQ(standard.certificates[1].number, "C-12000");
  expectSameOnDisk();
  test::inputRefusal([&] { store.addStandardCertificate("LC-2201", between); });
  test::inputRefusal([&] { store.addStandardCertificate("no such", between); });
  expectSameOnDisk();
}

AcceptedInterval acceptedFrom(const char* day, int days) {
  AcceptedInterval accepted;
  accepted.days = days;
  accepted.fromDay = on(day);
  accepted.policy = "yearly";
  accepted.proposedDays = days + 1;
  accepted.evidence = "found in tolerance\nfour times";
  accepted.person = "adam";
  accepted.atUtc = at("2026-05-01T10:00:00");
  accepted.reason = "tried";
  return accepted;
}

TEST_F(RegisterChanges, AnAcceptedIntervalHoldsFromItsDayUntilTheNext) {
  store.acceptInterval("AI-001", acceptedFrom("2026-05-01", 400));
  store.acceptInterval("AI-001", acceptedFrom("2026-05-01", 410));  // the same day: the later one counts
  AcceptedInterval months = acceptedFrom("2026-09-01", 0);
  months.months = 18;
  months.proposedDays.reset();
  store.acceptInterval("AI-001", months);
  AcceptedInterval loop = acceptedFrom("2020-01-01", 90);
  loop.subject = Subject::loop;
  store.acceptInterval("TT-101", loop);
  const Channel& channel = *store.site().channel("AI-001");
  ASSERT_EQ(channel.acceptedIntervals.size(), 3U);
  EXPECT_EQ(acceptedInterval(channel, Subject::channel, on("2026-04-30")), nullptr);
  EXPECT_EQ(acceptedInterval(channel, Subject::channel, on("2026-05-01"))->days, 410);
  EXPECT_EQ(acceptedInterval(channel, Subject::channel, on("2026-08-31"))->days, 410);
  EXPECT_EQ(acceptedInterval(channel, Subject::channel, on("2026-09-01"))->months, 18);
  EXPECT_EQ(acceptedInterval(channel, Subject::loop, on("2026-09-01")), nullptr);
  EXPECT_EQ(channel.acceptedIntervals[2].id, 3);
  expectSameOnDisk();
  EXPECT_EQ(store.unitRows({"accepted interval", {4}}).find("\"proposed_days\":91") == std::string::npos,
            false);
  std::vector<std::string> acts;
  for (const JournalEntry& entry : store.entriesAbout({"accepted interval", {2}})) {
    acts.push_back(entry.person + " " + entry.act + ": " + entry.detail);
  }
  EXPECT_EQ(acts, std::vector<std::string>{"adam accepted: tried"});
}

TEST_F(RegisterChanges, AnAcceptedIntervalWithoutASubjectLengthReasonOrOrderIsRefused) {
  store.acceptInterval("AI-001", acceptedFrom("2026-05-01", 400));
  const std::string before = everything(store.site());
  const auto refused = [&](const char* channel, const AcceptedInterval& accepted, const char* words) {
    const std::string said = test::inputRefusal([&] { store.acceptInterval(channel, accepted); });
    EXPECT_NE(said.find(words), std::string::npos) << said;
  };
  AcceptedInterval wrong = acceptedFrom("2026-04-30", 400);
  refused("AI-001", wrong, "before the one accepted last (2026-05-01)");
  wrong = acceptedFrom("2026-06-01", 0);
  refused("AI-001", wrong, "no length");
  wrong = acceptedFrom("2026-06-01", 10);
  wrong.months = 1;
  refused("AI-001", wrong, "no length");
  wrong = acceptedFrom("2026-06-01", 10);
  wrong.reason.clear();
  refused("AI-001", wrong, "no reason");
  wrong = acceptedFrom("2026-06-01", 10);
  wrong.subject = Subject::sensor;
  refused("AI-001", wrong, "no routine for the subject sensor");
  wrong = acceptedFrom("2026-06-01", 10);
  wrong.person = "nobody";
  refused("AI-001", wrong, "nobody");
  wrong = acceptedFrom("2026-06-01", 10);
  wrong.policy = "weekly";
  refused("AI-001", wrong, "weekly");
  refused("no such", acceptedFrom("2026-06-01", 10), "no such");
  EXPECT_EQ(everything(store.site()), before);
  expectSameOnDisk();
}

TEST_F(RegisterChanges, AnUndoneChangeIsUndoneInMemoryToo) {
  {
    const Store::Transaction transaction(store);
    store.addSetup("AI-001", nextSetup("2024-05-01"));
    store.addFitting("AI-001", {"TC-0002", at("2025-01-01"), {}});
    EXPECT_EQ(store.site().channel("AI-001")->setups.size(), 2U);
  }
  EXPECT_EQ(everything(store.site()), everything(site));
  expectSameOnDisk();
  store.addSetup("AI-001", nextSetup("2024-05-01"));
  EXPECT_EQ(store.site().channel("AI-001")->setups[1].version, 2);
}

TEST_F(RegisterChanges, AnotherProgramsChangeIsSeenAfterRefresh) {
  Store other = Store::open(folder / "a.record");
  other.addSetup("AI-001", nextSetup("2024-05-01"));
  EXPECT_EQ(store.site().channel("AI-001")->setups.size(), 1U);
  store.refresh();
  EXPECT_EQ(store.site().channel("AI-001")->setups.size(), 2U);
  // And by a change of one's own without it: the second new setup is the third version.
  other.addSetup("AI-001", nextSetup("2024-06-01"));
  store.addSetup("AI-001", nextSetup("2024-07-01"));
  EXPECT_EQ(store.site().channel("AI-001")->setups.back().version, 4);
  test::inputRefusal([&] { other.addSetup("AI-001", nextSetup("2024-06-15")); });
  expectSameOnDisk();
}

TEST_F(RegisterChanges, ACalibrationUnderASetupOfAnotherProgramIsTaken) {
  Store other = Store::open(folder / "a.record");
  other.addSetup("AI-001", nextSetup("2024-05-01"));
  Calibration c = test::plainCalibration("AI-001", "2025-01-01");
  c.setupVersion = 2;
  EXPECT_EQ(store.add(c), 1);
}

}  // namespace
}  // namespace spanwright
