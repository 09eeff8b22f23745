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
