// SPDX-License-Identifier: GPL-3.0-or-later
//
// A fault at every call to the disk in turn, while a record is worked on: what was acknowledged is there
// afterwards, and nothing is there by half.
#include "tests/core/store/faults/disk_faults.h"

namespace spanwright::test {
namespace {

namespace fs = std::filesystem;
using Kind = DiskFault::Kind;

TEST_F(DiskFaults, APowerCutAtAnyCallLosesNothingAcknowledged) {
  cutThePowerAtEveryCall();
  tally_.print("Power cut");
  EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(DiskCall::write)), 100 / kStep);
  EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(DiskCall::sync)), kSaves / kStep / 2);
}

TEST_F(DiskFaults, AnErrorAtAnyCallFailsOneSaveAndTheNextTryWorks) {
  for (std::int64_t at = firstCall();; at += kStep) {
    const fs::path file = copyOf("new.spanwright", "live");
    int failures = 0;
    std::string when;
    const int done =
        workWith(file, {Kind::ioError, at}, [&](Store* store, int before, const std::string& said) {
          when = fmt::format("error at call {} ({}), seed {}", at, text(disk_.struckAt()), seed_);
          expectSaid(said, "the disk reported an error|cannot be opened");
          EXPECT_EQ(++failures, 1) << when;
          if (store != nullptr) {
            EXPECT_EQ(stateOf(textOf(*store)), std::to_string(before)) << when;
          }
          checkCrash(before, true, when + ", then the power was cut");
          return failures == 1;
        });
    if (!disk_.struck()) {
      break;
    }
    noteFault();
    ASSERT_EQ(done, kSaves) << when;
    checkCrash(kSaves, false, when + ", tried again, worked on, then the power was cut");
    check(file, kSaves, false, when + ", tried again, worked on");
  }
  tally_.print("Error");
  for (const DiskCall call : {DiskCall::write, DiskCall::read, DiskCall::sync}) {
    EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(call)), 0) << text(call);
  }
}

TEST_F(DiskFaults, ADiskFullOnceFailsOneSaveAndTheNextTryWorks) {
  for (std::int64_t at = firstCall();; at += kStep) {
    const fs::path file = copyOf("new.spanwright", "live");
    const std::string when = fmt::format("disk full at write {}, seed {}", at, seed_);
    int failures = 0;
    const int done =
        workWith(file, {Kind::fullOnce, at}, [&](Store* store, int before, const std::string& said) {
          expectSaid(said, "disk is full");
          EXPECT_EQ(++failures, 1) << when;
          if (store != nullptr) {
            EXPECT_EQ(stateOf(textOf(*store)), std::to_string(before)) << when;
          }
          checkCrash(before, true, when + ", then the power was cut");
          return failures == 1;
        });
    if (!disk_.struck()) {
      break;
    }
    noteFault();
    ASSERT_EQ(done, kSaves) << when;
    check(file, kSaves, false, when + ", tried again, worked on");
  }
  tally_.print("Disk full once");
  EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(DiskCall::write)), 100 / kStep);
}

TEST_F(DiskFaults, ADiskFullForGoodKeepsWhatIsThere) {
  for (std::int64_t at = firstCall();; at += kStep) {
    const fs::path file = copyOf("new.spanwright", "live");
    const std::string when = fmt::format("disk full from write {} on, seed {}", at, seed_);
    const int done =
        workWith(file, {Kind::fullForGood, at}, [&](Store* store, int before, const std::string& said) {
          expectSaid(said, "disk is full");
          if (store != nullptr) {
            EXPECT_EQ(stateOf(textOf(*store)), std::to_string(before)) << when;
          }
          return false;
        });
    if (!disk_.struck()) {
      break;
    }
    noteFault();
    checkCrash(done, true, when + ", then the power was cut");
    check(file, done, true, when);
  }
  tally_.print("Disk full for good");
  EXPECT_GT(tally_.faults.at(static_cast<std::size_t>(DiskCall::write)), 100 / kStep);
}

// Tests of the tests: what they look for they find.

/// Takes away the store's "PRAGMA synchronous = FULL".
int refuseSynchronous(void*, int action, const char* first, const char* second, const char*, const char*) {
  return action == SQLITE_PRAGMA && second != nullptr && std::string_view(first) == "synchronous"
             ? SQLITE_IGNORE
             : SQLITE_OK;
}
int forceUnsynchronous(sqlite3* database, char**, const struct sqlite3_api_routines*) {
  const int code = sqlite3_exec(database, "PRAGMA synchronous = OFF", nullptr, nullptr, nullptr);
  sqlite3_set_authorizer(database, refuseSynchronous, nullptr);
  return code;
}

TEST_F(DiskFaults, WithoutSynchronousWritingPowerCutsLoseSaves) {
  findingsAreFailures_ = false;
  const AtEveryOpening unsynchronous(forceUnsynchronous);
  cutThePowerAtEveryCall(5);
  tally_.print("Power cut with PRAGMA synchronous = OFF (must find something)");
  EXPECT_GT(tally_.found, 20);
}

TEST_F(DiskFaults, ADiskThatLiesAboutSyncsLosesSaves) {
  findingsAreFailures_ = false;
  disk_.lieAboutSyncs(true);
  cutThePowerAtEveryCall(5);
  tally_.print("Power cut with a disk that lies about syncs (must find something)");
  EXPECT_GT(tally_.found, 20);
}

}  // namespace
}  // namespace spanwright::test
