// SPDX-License-Identifier: GPL-3.0-or-later
//
// A program that works on a record is killed at any moment, again and again: the record opens, nothing in it
// is damaged, and every save that was acknowledged is there.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <numeric>
#include <thread>

#include "tests/core/store/faults/work.h"
#include "tests/core/store/faults/worker.h"

namespace spanwright::test {
namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;
using std::chrono::duration;

constexpr int kSavesOfRun = 4 * kSavesOfRound;  // at most, when nobody kills it
constexpr int kRunsOfRecord = 12;               // then a new one, so that opening stays quick
constexpr double kUsualSeconds = 10.0;          // for kills when their number is not given

double fromEnvironment(const char* name, double otherwise) {
  const char* const given = std::getenv(name);
  return given != nullptr ? std::strtod(given, nullptr) : otherwise;
}

/// What each round leaves in a record after each of its saves, as a program shows that nobody kills.
class Model {
 public:
  explicit Model(const fs::path& file) : store_(makeRecord(file)) {}
  /// After `saves` of the round's saves.
  const std::string& after(int round, int saves) {
    while (std::ssize(rounds_) <= round) {
      const int next = static_cast<int>(rounds_.size());
      auto& states = rounds_.emplace_back(1, contentOfRound(store_, next));
      for (int i = 0; i < kSavesOfRound; ++i) {
        doSave(store_, {next, static_cast<Save>(i)});
        states.push_back(contentOfRound(store_, next));
      }
    }
    return rounds_[static_cast<std::size_t>(round)].at(static_cast<std::size_t>(saves));
  }

 private:
  Store store_;
  std::vector<std::vector<std::string>> rounds_;
};

/// One record through several kills, and how many saves of each round are in it.
class KilledRecord {
 public:
  KilledRecord(const fs::path& folder, Model& model) : folder_(folder), model_(model) {
    fs::remove_all(folder_);
    fs::create_directories(folder_);
    makeRecord(file());
  }
  fs::path file() const { return folder_ / "site.spanwright"; }
  int nextSave() const { return static_cast<int>(saves_.size()) * kSavesOfRound; }

  /// Takes what a run said, then opens a copy of what the kill left and looks for every save. The record
  /// itself stays as the kill left it, for the next program to open.
  void check(const Worker::End& end) {
    const int first = nextSave();
    const int acknowledged = static_cast<int>(end.lines.size());
    for (int i = 0; i < acknowledged; ++i) {
      ASSERT_EQ(end.lines[static_cast<std::size_t>(i)], std::to_string(first + i));
    }
    for (int left = acknowledged; left >= 0; left -= kSavesOfRound) {
      saves_.push_back(std::min(left, kSavesOfRound));
    }
    const fs::path copy = folder_ / "copy";
    fs::remove_all(copy);
    fs::create_directory(copy);
    for (const char* const suffix : {"", "-wal", "-shm"}) {
      if (const fs::path part = file().string() + suffix; fs::exists(part)) {
        fs::copy_file(part, copy / part.filename());
      }
    }
    const Examined now = examine(copy / file().filename());
    ASSERT_EQ(now.wrong, "");
    const Store store = openRecord(copy / file().filename(), Store::Mode::readOnly);
    for (int round = 0; round < std::ssize(saves_); ++round) {
      int& saves = saves_[static_cast<std::size_t>(round)];
      const std::string content = contentOfRound(store, round);
      // The save under way when it was killed is there whole or not at all.
      const bool last = round + 1 == std::ssize(saves_);
      if (last && saves < kSavesOfRound && content != model_.after(round, saves)) {
        ++saves;
        ++unacknowledged;
      }
      ASSERT_EQ(content, model_.after(round, saves)) << "round " << round << " after " << saves << " saves";
    }
    ASSERT_EQ(store.calibrationCount(), expectedCalibrations());
    checked += std::accumulate(saves_.begin(), saves_.end(), std::int64_t{0});
  }

  std::int64_t checked = 0;
  int unacknowledged = 0;  ///< saves found that were whole before they could be acknowledged

 private:
  std::int64_t expectedCalibrations() const {
    std::int64_t count = 0;
    for (const int saves : saves_) {
      count += saves > static_cast<int>(Save::enterVisit) ? 1 : 0;
      count += saves > static_cast<int>(Save::importHistory) ? 3 : 0;
    }
    return count;
  }

  fs::path folder_;
  Model& model_;
  std::vector<int> saves_;  ///< of each round, in the record
};

TEST(Killed, ARecordKeepsEverySaveThatWasAcknowledged) {
  const double kills = fromEnvironment("SPANWRIGHT_TEST_KILLS", 0);
  const auto seed = static_cast<std::uint64_t>(
      fromEnvironment("SPANWRIGHT_TEST_SEED", static_cast<double>(std::random_device{}())));
  std::mt19937_64 random(seed);
  const Folder folder{quickFolder()};
  Model model(folder / "model.spanwright");
  duration<double> wholeRun{};
  {
    KilledRecord record(folder / "unkilled", model);
    const auto begin = Clock::now();
    const Worker::End end = Worker("rounds", record.file(), 0, kSavesOfRun).wait();
    wholeRun = Clock::now() - begin;
    ASSERT_EQ(end.status, 0);
    ASSERT_EQ(std::ssize(end.lines), kSavesOfRun);
    record.check(end);
    ASSERT_EQ(record.checked, kSavesOfRun);
  }
  std::map<int, int> whileAt;  // the save under way, -1 while opening
  int done = 0, early = 0, unacknowledged = 0;
  std::int64_t checked = 0, acknowledged = 0;
  const auto begin = Clock::now();
  const auto enough = [&] {
    return kills > 0 ? done >= kills : Clock::now() - begin > duration<double>(kUsualSeconds);
  };
  while (!enough()) {
    KilledRecord record(folder / "record", model);
    for (int run = 0; run < kRunsOfRecord && !enough(); ++run) {
      Worker worker("rounds", record.file(), record.nextSave(), kSavesOfRun);
      std::this_thread::sleep_for(std::uniform_real_distribution<>(0, 1)(random) * wholeRun);
      worker.kill();
      const Worker::End end = worker.wait();
      end.killed ? ++done : ++early;
      ASSERT_TRUE(end.killed || end.status == 0) << "the program failed on its own, seed " << seed;
      const int saved = static_cast<int>(end.lines.size());
      if (end.killed) {
        ++whileAt[saved == 0 ? -1 : saved % kSavesOfRound];
      }
      acknowledged += saved;
      record.check(end);
      if (testing::Test::HasFatalFailure()) {
        FAIL() << "after " << done << " kills, seed " << seed;
      }
    }
    checked += record.checked;
    unacknowledged += record.unacknowledged;
  }
  std::puts(
      fmt::format("{} kills in {:.1f} s (seed {}; {} more ended by themselves first): {} saves "
                  "acknowledged, {} found again over all checks, {} whole before they were acknowledged",
                  done, duration<double>(Clock::now() - begin).count(), seed, early, acknowledged, checked,
                  unacknowledged)
          .c_str());
  std::string where = "killed while:";
  for (const auto& [save, count] : whileAt) {
    where += fmt::format(" {} {};", save < 0 ? "opening or at the first save" : text(static_cast<Save>(save)),
                         count);
  }
  std::puts(where.c_str());
  EXPECT_GT(done, 5);
  EXPECT_GT(acknowledged, done);
}

}  // namespace
}  // namespace spanwright::test
