// SPDX-License-Identifier: GPL-3.0-or-later
//
// Several connections and programs on one record. A second opening in the same program once dropped the first
// one's locks, so that another program took the log away and what was saved afterwards was lost.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>

#include "tests/core/store/samples.h"

namespace spanwright::test {
namespace {

namespace fs = std::filesystem;

constexpr const char* kFileVariable = "SPANWRIGHT_TEST_SHARED_FILE";
constexpr const char* kNumberVariable = "SPANWRIGHT_TEST_NUMBER";

std::string day(int number) {
  return formatDate(on("2025-01-01") + boost::gregorian::days(number)) + "T10:00:00";
}

std::string firstTag() {
  return sampleRegister().channels.front().tag;
}

/// The other program: this test program started anew. A forked copy will not do, it inherits what SQLite
/// believes to hold of locks.
TEST(SharingOtherProgram, AddsOne) {
  const char* file = std::getenv(kFileVariable);
  if (file == nullptr) {
    GTEST_SKIP() << "only runs when another test starts it";
  }
  const FixedClock clock("2026-11-25T09:00:00");
  Store store = Store::open(file, Store::Mode::readWrite, clock);
  store.add(plainCalibration(firstTag(), day(std::atoi(std::getenv(kNumberVariable)))));
}

class Sharing : public testing::Test {
 protected:
  Sharing() : clock_("2026-11-25T09:00:00"), file_(folder_ / "shared.spanwright") {
    Store::create(file_, sampleRegister(), clock_);
  }
  void addAt(Store& store, int number) const { store.add(plainCalibration(firstTag(), day(number))); }
  bool otherProgramAdds(int number) const {
    const std::string command = fmt::format(
        "{}='{}' {}={} '{}' --gtest_filter=SharingOtherProgram.AddsOne >/dev/null 2>&1", kFileVariable,
        file_.string(), kNumberVariable, number, fs::read_symlink("/proc/self/exe").string());
    return std::system(command.c_str()) == 0;  // NOLINT(cert-env33-c): the shell only sees our own words
  }
  fs::path log() const { return file_.string() + "-wal"; }

  Folder folder_;
  FixedClock clock_;
  fs::path file_;
};

TEST_F(Sharing, ASecondOpeningInTheSameProgramKeepsTheFirstOnesLocks) {
  Store store = Store::open(file_, Store::Mode::readWrite, clock_);
  addAt(store, 1);
  { const Store reader = Store::open(file_, Store::Mode::readOnly, clock_); }
  const Store reader = Store::open(file_, Store::Mode::readOnly, clock_);
  ASSERT_TRUE(otherProgramAdds(2));
  EXPECT_TRUE(fs::exists(log())) << "another program took the log of an open record away";
  addAt(store, 3);
  ASSERT_TRUE(otherProgramAdds(4));
  EXPECT_EQ(Store::open(file_, Store::Mode::readOnly, clock_).calibrationCount(), 4);
  EXPECT_EQ(store.calibrationCount(), 4);
  EXPECT_EQ(reader.calibrationCount(), 4);
}

TEST_F(Sharing, EveryProgramsVisitsAreThereWhenAllHaveClosed) {
  {
    Store store = Store::open(file_, Store::Mode::readWrite, clock_);
    for (int number = 1; number <= 10; number += 2) {
      addAt(store, number);
      EXPECT_THROW(Store::create(file_, sampleRegister(), clock_), StorageError);
      const Store reader = Store::open(file_, Store::Mode::readOnly, clock_);
      ASSERT_TRUE(otherProgramAdds(number + 1));
    }
  }
  EXPECT_EQ(Store::open(file_, Store::Mode::readWrite, clock_).calibrationCount(), 10);
  EXPECT_FALSE(fs::exists(log())) << "the last to close tidies up";
}

}  // namespace
}  // namespace spanwright::test
