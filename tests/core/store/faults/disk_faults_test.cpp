// SPDX-License-Identifier: GPL-3.0-or-later
//
// A fault at every call to the disk in turn, while a record is worked on: what was acknowledged is there
// afterwards, and nothing is there by half.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <iterator>
#include <optional>

#include "core/record/problem.h"
#include "core/store/backup.h"
#include "core/store/sqlite_connection.h"
#include "tests/core/store/faults/fault_disk.h"
#include "tests/core/store/faults/work.h"

namespace spanwright::test {
namespace {

namespace fs = std::filesystem;
using Kind = DiskFault::Kind;

constexpr int kSaves = 2 * kSavesOfRound;  // the record is closed and opened again after the first round
#ifdef __SANITIZE_ADDRESS__
// Everything takes ten times as long: one call in five, others every time.
constexpr int kStep = 5;
constexpr int kCrashesPerCut = 2;
#else
constexpr int kStep = 1;
constexpr int kCrashesPerCut = 4;
#endif
constexpr int kPagesOfLog = 12;  // SQLite copies the log into the file at 1000; small work must get there too

std::uint64_t seedOfThisRun() {
  const char* const given = std::getenv("SPANWRIGHT_TEST_SEED");
  return given != nullptr ? std::strtoull(given, nullptr, 10) : std::random_device{}();
}

int copyLogOften(sqlite3* database, char**, const struct sqlite3_api_routines*) {
  return sqlite3_wal_autocheckpoint(database, kPagesOfLog);
}

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

/// Calls `each` for every connection opened while it lives.
class AtEveryOpening {
 public:
  using Each = int (*)(sqlite3*, char**, const struct sqlite3_api_routines*);
  explicit AtEveryOpening(Each each) : each_(reinterpret_cast<void (*)()>(each)) {
    sqlite3_auto_extension(each_);
  }
  AtEveryOpening(const AtEveryOpening&) = delete;
  AtEveryOpening& operator=(const AtEveryOpening&) = delete;
  ~AtEveryOpening() { sqlite3_cancel_auto_extension(each_); }

 private:
  void (*each_)();
};

/// What was done, for the counts that are printed.
struct Tally {
  std::array<int, kDiskCalls> faults{};
  int opened = 0;
  std::int64_t saves = 0;
  int found = 0;

  void print(const char* what) const {
    std::string faultsText;
    int all = 0;
    for (std::size_t i = 0; i < kDiskCalls; ++i) {
      all += faults.at(i);
      if (faults.at(i) > 0) {
        faultsText += fmt::format(" {} {}", text(static_cast<DiskCall>(i)), faults.at(i));
      }
    }
    std::puts(fmt::format("{}: {} faults at{}; records opened afterwards {}, saves checked {}, findings {}",
                          what, all, faultsText, opened, saves, found)
                  .c_str());
  }
};

class DiskFaults : public testing::Test {
 protected:
  DiskFaults() : seed_(seedOfThisRun()), random_(seed_) {
    std::puts(fmt::format("seed {} (set SPANWRIGHT_TEST_SEED to repeat)", seed_).c_str());
    makeRecord(folder_ / "new.spanwright");
    Store store = openRecord(copyOf("new.spanwright", "model"));
    states_.push_back(textOf(store));
    for (int number = 0; number < kSaves; ++number) {
      doSave(store, numbered(number));
      states_.push_back(textOf(store));
    }
  }

  /// With the journal, whose hash stands for every row there is.
  static std::string textOf(const Store& store) { return everything(store) + journalEnd(store); }
  fs::path copyOf(const std::string& name, const std::string& intoFolder) const {
    const fs::path folder = emptied(intoFolder);
    fs::copy_file(folder_ / name, folder / "site.spanwright");
    return folder / "site.spanwright";
  }
  fs::path emptied(const std::string& name) const {
    fs::remove_all(folder_ / name);
    fs::create_directory(folder_ / name);
    return folder_ / name;
  }

  /// A finding of the test, or of the test of the test.
  void found(const std::string& what) {
    ++tally_.found;
    if (findingsAreFailures_) {
      ADD_FAILURE() << what;
    }
  }

  /// Opens the record past the faulty disk: it must hold the first `done` saves, and of the next none or all
  /// (when `orNext`).
  void check(const fs::path& file, int done, bool orNext, const std::string& when) {
    disk_.standAside(true);
    ++tally_.opened;
    tally_.saves += done;
    const Examined now = examine(file);
    const auto holds = [&](int saves) {
      return now.says + now.end == states_.at(static_cast<std::size_t>(saves));
    };
    if (!now.wrong.empty()) {
      found(fmt::format("{}: {}", when, now.wrong));
    } else if (!holds(done) && !(orNext && done < kSaves && holds(done + 1))) {
      found(fmt::format("{}: {} saves were acknowledged, the record holds {}", when, done,
                        stateOf(now.says + now.end)));
    }
    disk_.standAside(false);
  }
  std::string stateOf(const std::string& now) const {
    const auto which = std::find(states_.begin(), states_.end(), now);
    return which == states_.end() ? "something else" : fmt::format("{}", which - states_.begin());
  }

  /// As a power cut now would leave it.
  void checkCrash(int done, bool orNext, const std::string& when) {
    const fs::path folder = emptied("crashed");
    disk_.leaveCrashIn(folder, random_);
    check(folder / "site.spanwright", done, orNext, when);
  }

  /// `work` done, or what the store said; anything else that is thrown fails the test.
  static std::optional<std::string> trouble(const std::function<void()>& work) {
    try {
      work();
      return std::nullopt;
    } catch (const StorageError& error) {
      return error.what();
    }
  }

  /// Does all the work on a disk with this fault. `failed` is told how many saves are done and what the store
  /// said, and says whether to try again. Returns how many are done.
  using Failed = std::function<bool(Store* store, int done, const std::string& said)>;
  int workWith(const fs::path& file, DiskFault fault, const Failed& failed) {
    disk_.begin(fault);
    int done = 0;
    for (const int until : {kSavesOfRound, kSaves}) {
      std::optional<Store> store;
      while (!store) {
        const auto said = trouble([&] { store.emplace(openRecord(file)); });
        if (said && !failed(nullptr, done, *said)) {
          return done;
        }
      }
      while (done < until) {
        const auto said = trouble([&] { doSave(*store, numbered(done)); });
        if (!said) {
          ++done;
        } else if (!failed(&*store, done, *said)) {
          return done;
        }
      }
    }
    return done;
  }

  void noteFault() { ++tally_.faults.at(static_cast<std::size_t>(disk_.struckAt())); }

  std::int64_t firstCall() { return std::uniform_int_distribution<std::int64_t>(1, kStep)(random_); }

  /// Cuts the power at every call, or at one in `step`, until a run gets through.
  void cutThePowerAtEveryCall(int step = kStep) {
    for (std::int64_t at = firstCall();; at += step) {
      const fs::path file = copyOf("new.spanwright", "live");
      const int done =
          workWith(file, {Kind::powerCut, at}, [this](Store* store, int before, const std::string& said) {
            expectSaid(said, "the disk reported an error|cannot be opened");
            if (store != nullptr && before + 1 < kSaves && isFreeStanding(before + 1)) {
              EXPECT_TRUE(trouble([&] { doSave(*store, numbered(before + 1)); }))
                  << "a save was acknowledged after the power was cut";
            }
            return false;
          });
      if (!disk_.struck()) {
        ASSERT_EQ(done, kSaves);
        break;
      }
      noteFault();
      for (int i = 0; i < kCrashesPerCut; ++i) {
        checkCrash(done, true,
                   fmt::format("power cut at call {} ({}), seed {}", at, text(disk_.struckAt()), seed_));
      }
    }
  }

  /// Saves that need none before them.
  static bool isFreeStanding(int number) {
    const Save save = numbered(number).save;
    return save == Save::beginDraft || save == Save::importHistory || save == Save::addSetup ||
           save == Save::fitSensor || save == Save::addStandardCertificate;
  }

  /// One of the clauses, parted by "|".
  static void expectSaid(const std::string& said, const std::string& clauses) {
    EXPECT_TRUE(said.ends_with('.') && said.find("; ") != std::string::npos) << said;
    EXPECT_THAT(said, testing::ContainsRegex(clauses));
  }

  const Folder folder_{quickFolder()};
  FaultDisk disk_;
  const AtEveryOpening often_{copyLogOften};
  std::uint64_t seed_;
  std::mt19937_64 random_;
  std::vector<std::string> states_;  ///< after 0, 1, 2 ... saves
  bool findingsAreFailures_ = true;
  Tally tally_;
};

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

// Tests of the tests: what they look for they find.

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
