// SPDX-License-Identifier: GPL-3.0-or-later
//
// A record that is worked on while its disk fails at a call of the test's choice, and what must be true of it
// afterwards.
#pragma once

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <optional>

#include "core/record/problem.h"
#include "tests/core/store/faults/fault_disk.h"
#include "tests/core/store/faults/work.h"

namespace spanwright::test {

inline constexpr int kSaves =
    2 * kSavesOfRound;  // the record is closed and opened again after the first round
#ifdef __SANITIZE_ADDRESS__
// Everything takes ten times as long: one call in five, others every time.
inline constexpr int kStep = 5;
inline constexpr int kCrashesPerCut = 2;
#else
inline constexpr int kStep = 1;
inline constexpr int kCrashesPerCut = 4;
#endif
inline constexpr int kPagesOfLog =
    12;  // SQLite copies the log into the file at 1000; small work must get there too

inline std::uint64_t seedOfThisRun() {
  const char* const given = std::getenv("SPANWRIGHT_TEST_SEED");
  return given != nullptr ? std::strtoull(given, nullptr, 10) : std::random_device{}();
}

inline int copyLogOften(sqlite3* database, char**, const struct sqlite3_api_routines*) {
  return sqlite3_wal_autocheckpoint(database, kPagesOfLog);
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
  std::filesystem::path copyOf(const std::string& name, const std::string& intoFolder) const {
    const std::filesystem::path folder = emptied(intoFolder);
    std::filesystem::copy_file(folder_ / name, folder / "site.spanwright");
    return folder / "site.spanwright";
  }
  std::filesystem::path emptied(const std::string& name) const {
    std::filesystem::remove_all(folder_ / name);
    std::filesystem::create_directory(folder_ / name);
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
  void check(const std::filesystem::path& file, int done, bool orNext, const std::string& when) {
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
    const std::filesystem::path folder = emptied("crashed");
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
  int workWith(const std::filesystem::path& file, DiskFault fault, const Failed& failed) {
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
      const std::filesystem::path file = copyOf("new.spanwright", "live");
      const int done = workWith(file, {DiskFault::Kind::powerCut, at},
                                [this](Store* store, int before, const std::string& said) {
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

}  // namespace spanwright::test
