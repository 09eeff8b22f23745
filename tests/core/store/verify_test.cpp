// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/verify.h"

#include "full_record.h"

namespace spanwright {
namespace {

class Verify : public testing::Test {
 protected:
  const test::Folder folder;
  const test::FixedClock clock{"2026-11-20T10:00:00", "2026-11-20T09:00:00"};
  const std::filesystem::path file = folder / "site.record";
};

TEST_F(Verify, ANewRecordIsWhole) {
  Store::create(file, test::sampleRegister(), clock);
  const RecordCheck check = verifyRecord(file);
  EXPECT_TRUE(check.problems.empty());
  EXPECT_EQ(check.head.entry, check.entries);
  EXPECT_EQ(check.units, check.entries - 1) << "one entry for each thing, and one for the record itself";
}

TEST_F(Verify, SaysHowFarItIsAndStopsWhenTold) {
  test::makeFullRecord(file, clock);
  double last = 0.0;
  verifyRecord(file, {}, [&](double share) {
    EXPECT_GE(share, last);
    last = share;
    return true;
  });
  EXPECT_EQ(last, 1.0);
  EXPECT_NE(
      test::inputRefusal([&] { verifyRecord(file, {}, [](double) { return false; }); }).find("cancelled"),
      std::string::npos);
}

TEST_F(Verify, WorksWhileAnotherProgramWrites) {
  Store store = Store::create(file, test::sampleRegister(), clock);
  Store::Transaction transaction(store);
  store.add(test::plainCalibration("AI-001", "2026-01-01T08:00:00"));
  EXPECT_TRUE(verifyRecord(file).problems.empty());
  transaction.commit();
  EXPECT_TRUE(verifyRecord(file).problems.empty());
}

TEST_F(Verify, RefusesWhatIsNoRecord) {
  test::expectSentence(test::refusal([&] { verifyRecord(file); }), file);
}

TEST_F(Verify, RandomCalibrationsAreWhole) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE(seed);
  std::mt19937_64 random(seed);
  Store store = Store::create(file, test::sampleRegister(), clock);
  for (int i = 0; i < 50; ++i) {
    store.add(test::randomCalibration(random));
  }
  const RecordCheck check = verifyRecord(file);
  EXPECT_TRUE(check.problems.empty()) << (check.problems.empty() ? "" : check.problems.front().what);
}

}  // namespace
}  // namespace spanwright
