// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/backup.h"

#include <fstream>

#include "full_record.h"
#include "tamper.h"

namespace spanwright {
namespace {

class Backup : public testing::Test {
 protected:
  void SetUp() override { test::makeFullRecord(file, clock); }
  const test::Folder folder;
  const test::FixedClock clock{"2026-11-20T10:00:00", "2026-11-20T09:00:00"};
  const std::filesystem::path file = folder / "site.record", copy = folder / "copy.record";
};

TEST_F(Backup, HoldsEverythingAndIsChecked) {
  const RecordCopy made = copyRecord(file, copy);
  EXPECT_TRUE(made.check.problems.empty());
  EXPECT_EQ(made.check.head, verifyRecord(file).head);
  const Store original = Store::open(file), again = Store::open(copy);
  EXPECT_EQ(test::everything(again.site()), test::everything(original.site()));
  EXPECT_EQ(made.calibrations, original.calibrationCount());
  EXPECT_EQ(made.readings, original.readingCount());
  for (CalibrationId id = 1; id <= made.calibrations; ++id) {
    EXPECT_EQ(test::everything(*again.calibration(id)), test::everything(*original.calibration(id)));
  }
}

TEST_F(Backup, IsOfOneMomentWhileTheRecordIsInUse) {
  Store store = Store::open(file);
  const std::int64_t before = store.calibrationCount();
  bool wrote = false;
  const RecordCopy made = copyRecord(file, copy, [&](double) {
    if (!wrote) {
      wrote = true;
      store.add(test::plainCalibration("AI-001", "2026-10-01T08:00:00"));
    }
    return true;
  });
  ASSERT_TRUE(wrote);
  EXPECT_EQ(store.calibrationCount(), before + 1);
  EXPECT_EQ(made.calibrations, before);
  EXPECT_TRUE(made.check.problems.empty());
}

TEST_F(Backup, NeverOverwritesAndLeavesNothingBehind) {
  std::ofstream(copy) << "something";
  test::expectSentence(test::refusal([&] { copyRecord(file, copy); }), copy);
  EXPECT_EQ(std::filesystem::file_size(copy), 9U);
  verifyRecord(file);  // SQLite's own two files beside the record stay after a reader
  const auto names = folder.names();
  test::inputRefusal([&] { copyRecord(file, folder / "other.record", [](double) { return false; }); });
  test::refusal([&] { copyRecord(folder / "missing.record", folder / "other.record"); });
  test::refusal([&] { copyRecord(file, folder / "no folder" / "other.record"); });
  EXPECT_EQ(folder.names(), names);
}

TEST_F(Backup, OfARecordThatWasWorkedOnSaysSo) {
  test::behindTheJournal(
      file, [](Connection& c) { c.execute("UPDATE reading SET indicated = 1 WHERE calibration = 5"); });
  const RecordCopy made = copyRecord(file, copy);
  EXPECT_FALSE(made.check.problems.empty());
  EXPECT_EQ(made.check.problems.size(), verifyRecord(file).problems.size());
}

}  // namespace
}  // namespace spanwright
