// SPDX-License-Identifier: GPL-3.0-or-later
//
// Faults while a whole file is made, brought up to date or copied, and in the files an import works in.
#include <fstream>
#include <iterator>

#include "core/store/backup.h"
#include "core/store/sqlite_connection.h"
#include "tests/core/store/faults/disk_faults.h"

namespace spanwright::test {
namespace {

namespace fs = std::filesystem;
using Kind = DiskFault::Kind;

TEST_F(DiskFaults, MakingARecordIsWholeOrNotAtAll) {
  states_.assign(1, textOf(makeBareRecord(emptied("bare") / "bare.spanwright")));
  for (std::int64_t at = firstCall();; at += kStep) {
    const fs::path file = emptied("live") / "site.spanwright";
    disk_.begin({Kind::powerCut, at});
    const auto said = trouble([&] { makeBareRecord(file); });
    if (!disk_.struck()) {
      ASSERT_FALSE(said);
      break;
    }
    noteFault();
    for (int i = 0; i < kCrashesPerCut; ++i) {
      const fs::path crashed = emptied("crashed") / "site.spanwright";
      disk_.leaveCrashIn(crashed.parent_path(), random_);
      if (!fs::exists(crashed)) {
        ASSERT_TRUE(said);
        disk_.standAside(true);
        makeBareRecord(crashed);
        disk_.standAside(false);
      }
      check(crashed, 0, false, fmt::format("power cut at call {} of making it, seed {}", at, seed_));
    }
  }
  tally_.print("Power cut while a record is made");
  EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(DiskCall::write)), 50 / kStep);
}

TEST_F(DiskFaults, BringingAnOlderRecordUpToDateIsWholeOrNotAtAll) {
  {
    std::ifstream sql(SPANWRIGHT_SOURCE_DIR "/tests/core/store/records/version_1.sql");
    Connection(folder_ / "old.spanwright", Connection::Access::create)
        .execute(std::string{std::istreambuf_iterator<char>(sql), {}});
  }
  const std::string expected = everything(openRecord(copyOf("old.spanwright", "model")));
  for (std::int64_t at = firstCall();; at += kStep) {
    const fs::path file = copyOf("old.spanwright", "live");
    disk_.begin({Kind::powerCut, at});
    const auto said = trouble([&] { openRecord(file); });
    if (!disk_.struck()) {
      ASSERT_FALSE(said);
      break;
    }
    noteFault();
    for (int i = 0; i < kCrashesPerCut; ++i) {
      const fs::path crashed = emptied("crashed") / "site.spanwright";
      disk_.leaveCrashIn(crashed.parent_path(), random_);
      disk_.standAside(true);
      const Examined now = examine(crashed);
      disk_.standAside(false);
      ++tally_.opened;
      EXPECT_EQ(now.wrong, "") << "power cut at call " << at << ", seed " << seed_;
      EXPECT_EQ(now.says, expected) << "power cut at call " << at << ", seed " << seed_;
    }
  }
  tally_.print("Power cut while an older record is brought up to date");
  EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(DiskCall::write)), 50 / kStep);
}

TEST_F(DiskFaults, ABackupIsWholeOrNotAtAll) {
  const fs::path file = copyOf("new.spanwright", "live");
  {
    Store store = openRecord(file);
    for (int number = 0; number < kSavesOfRound; ++number) {
      doSave(store, numbered(number));
    }
  }
  for (const Kind kind : {Kind::ioError, Kind::fullForGood}) {
    for (std::int64_t at = firstCall();; at += kStep) {
      const fs::path copy = emptied("kept") / "copy.spanwright";
      disk_.begin({kind, at});
      const auto said = trouble([&] { copyRecord(file, copy); });
      const bool struck = disk_.struck();
      if (struck) {
        noteFault();
      }
      const std::string when = fmt::format("fault at call {}, seed {}", at, seed_);
      if (said) {
        expectSaid(*said, "the disk reported an error|cannot be opened|disk is full");
        EXPECT_TRUE(fs::is_empty(copy.parent_path())) << when;
      } else {
        check(copy, kSavesOfRound, false, when);
      }
      if (!struck) {
        ASSERT_FALSE(said) << *said;
        break;
      }
    }
  }
  check(file, kSavesOfRound, false, "after all those copies");
  tally_.print("Error or full disk while a backup is made");
  EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(DiskCall::write)), 50 / kStep);
  EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(DiskCall::read)), 50 / kStep);
}

TEST_F(DiskFaults, AnImportWhoseTemporaryFilesFindNoRoomIsSaidAndLeavesTheRecord) {
  constexpr int kRows = 12'000;  // of a thousand characters: more than is kept in memory
  for (std::int64_t at = 1;; at *= 3) {
    const fs::path file = copyOf("new.spanwright", "live");
    Store store = openRecord(file);
    disk_.begin({Kind::fullOnce, at});
    int seen = 0;
    const auto said = trouble([&] {
      for (int row = kRows; row > 0; --row) {
        store.stage({fmt::format("{:06}", row), row, std::string(1000, 'p')});
      }
      store.forEachStaged([&seen](const StagedRow&) { return ++seen > 0; });
    });
    if (!disk_.struck()) {
      EXPECT_EQ(seen, kRows);
      break;
    }
    noteFault();
    ASSERT_TRUE(said) << "no room at write " << at << ", and nobody was told";
    expectSaid(*said, "temporary working file.*disk is full");
    store.clearStaging();
    doSave(store, numbered(0));
    check(file, 1, false, fmt::format("no room at write {} of temporary files", at));
  }
  tally_.print("Disk full while an import is staged");
  EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(DiskCall::write)), 5);
}

}  // namespace
}  // namespace spanwright::test
