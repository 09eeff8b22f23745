// SPDX-License-Identifier: GPL-3.0-or-later
#include "samples.h"

namespace spanwright {
namespace {

using test::at;

class Certificates : public testing::Test {
 protected:
  Certificates() {
    for (int i = 0; i < 5; ++i) {
      store.add(test::plainCalibration("AI-001", "2026-01-01"));
    }
  }
  const test::Folder folder;
  const std::filesystem::path file = folder / "site.record";
  test::FixedClock clock{"2026-12-31T23:30:00", "2026-12-31T22:30:00"};
  Store store = Store::create(file, test::sampleRegister(), clock);
};

TEST_F(Certificates, NumberIsAllottedOnceAndStays) {
  EXPECT_EQ(store.issuedCertificate(3), std::nullopt);
  const auto issued = store.issueCertificate(3);
  EXPECT_EQ(issued.number, "LARK-2026-0001");
  EXPECT_EQ(issued.calibration, 3);
  EXPECT_EQ(issued.issuedUtc, at("2026-12-31T22:30:00"));
  EXPECT_EQ(issued.revision, 1);
  clock.utc = clock.local = at("2028-01-01");
  const auto again = store.issueCertificate(3);
  EXPECT_EQ(again.number, issued.number);
  EXPECT_EQ(again.issuedUtc, issued.issuedUtc);
  EXPECT_EQ(Store::open(file).issuedCertificate(3)->number, issued.number);
}

TEST_F(Certificates, NumbersRunByYearAndAreNeverGivenTwice) {
  EXPECT_EQ(store.issueCertificate(2).number, "LARK-2026-0001");
  Store other = Store::open(file, Store::Mode::readWrite, clock);
  EXPECT_EQ(other.issueCertificate(1).number, "LARK-2026-0002");
  EXPECT_EQ(store.issueCertificate(3).number, "LARK-2026-0003");
  clock.local = at("2027-01-01T00:10:00");
  EXPECT_EQ(store.issueCertificate(4).number, "LARK-2027-0001");
  clock.local = at("2026-06-01");
  EXPECT_EQ(store.issueCertificate(5).number, "LARK-2026-0004");
}

TEST_F(Certificates, AnUnknownCalibrationHasNone) {
  EXPECT_NE(test::inputRefusal([&] { store.issueCertificate(99); }).find("no calibration 99"),
            std::string::npos);
  EXPECT_EQ(store.issueCertificate(1).number, "LARK-2026-0001");  // no number was spent
}

TEST_F(Certificates, RecordedIsStampedByTheClock) {
  EXPECT_EQ(store.calibration(1)->recordedUtc, at("2026-12-31T22:30:00"));
}

}  // namespace

}  // namespace spanwright
