// SPDX-License-Identifier: GPL-3.0-or-later
//
// Disks that fill up and programs that die.
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <csignal>
#include <fstream>

#include "samples.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;

/// While it lives no file of this program grows beyond `bytes`: the nearest to a full disk without one.
class SmallDisk {
 public:
  explicit SmallDisk(rlim_t bytes) {
    getrlimit(RLIMIT_FSIZE, &before_);
    handler_ = std::signal(SIGXFSZ, SIG_IGN);
    const rlimit small{bytes, before_.rlim_max};
    setrlimit(RLIMIT_FSIZE, &small);
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  ~SmallDisk() {
    setrlimit(RLIMIT_FSIZE, &before_);
    std::signal(SIGXFSZ, handler_);
  }

 private:
  rlimit before_{};
  void (*handler_)(int) = nullptr;
};

/// Runs `work` in a program of its own, which ends by `kill -9`.
template <class Work>
void inAProgramThatIsKilled(Work work) {
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    try {
      work();
    } catch (...) {
      _exit(3);
    }
    kill(getpid(), SIGKILL);
  }
  int status = 0;
  ASSERT_EQ(waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL) << "the program ended before it was killed";
}

std::string all(const Store& store) {
  std::string text = test::everything(store.site());
  store.forEachCalibration([&text](const Calibration& c) {
    text += test::everything(c);
    return true;
  });
  for (const Draft& draft : store.drafts()) {
    text += test::everything(draft);
  }
  return text;
}

TEST(Faults, AFullDiskAtAnyMomentLeavesTheRecordAsItWas) {
  const test::Folder folder;
  const auto file = folder / "site.record";
  const test::FixedClock clock("2026-11-20T10:00:00");
  {
    Store store = Store::create(file, test::sampleRegister(), clock);
    store.add(test::plainCalibration("AI-001", "2026-01-01", 50));
  }
  const auto pristine = folder / "pristine";
  fs::copy_file(file, pristine);
  const std::string before = all(Store::open(pristine, Store::Mode::readOnly));
  int failed = 0;
  bool saved = false;
  // The log takes all that is written, so the disk is full after ever more pages of it.
  for (rlim_t bytes = 0; !saved && bytes < 4'000'000; bytes += 2500) {
    fs::copy_file(pristine, file, fs::copy_options::overwrite_existing);
    Store store = Store::open(file, Store::Mode::readWrite, clock);
    std::string said;
    {
      const SmallDisk disk(bytes);
      try {
        Store::Transaction transaction(store);
        store.add(test::plainCalibration("TT-101", "2026-01-02", 100));
        store.issueCertificate(2);
        transaction.commit();
        saved = true;
      } catch (const StorageError& error) {
        said = error.what();
      }
    }
    if (!saved) {
      ++failed;
      test::expectSentence(said, file);
      EXPECT_NE(said.find("disk"), std::string::npos) << said;
      ASSERT_EQ(all(store), before) << bytes;
      store.add(test::plainCalibration("TT-101", "2026-01-02", 100));  // and it can go on
      ASSERT_EQ(store.calibrationCount(), 2);
    }
    ASSERT_NO_THROW(Store::open(file)) << bytes;
  }
  EXPECT_TRUE(saved);
  EXPECT_GT(failed, 5);
}

TEST(Faults, CreatingOnAFullDiskLeavesNothing) {
  const test::Folder folder;
  const auto file = folder / "site.record";
  int failed = 0;
  for (rlim_t bytes = 0; bytes < 4'000'000; bytes += 20'000) {
    std::string said;
    {
      const SmallDisk disk(bytes);
      try {
        Store::create(file, test::sampleRegister());
      } catch (const StorageError& error) {
        said = error.what();
      }
    }
    if (said.empty()) {
      break;
    }
    ++failed;
    test::expectSentence(said, file);
    ASSERT_TRUE(folder.names().empty()) << bytes;
  }
  EXPECT_GT(failed, 3);
  EXPECT_EQ(folder.names(), std::vector<std::string>{"site.record"});
}

TEST(Faults, ADraftSurvivesAKilledProgram) {
  const test::Folder folder;
  const auto file = folder / "site.record";
  { Store::create(file, test::sampleRegister()); }
  inAProgramThatIsKilled([&] {
    Store store = Store::open(file);
    Draft draft;
    draft.channel = "AI-001";
    draft.person = "zora";
    const auto id = store.saveDraft(draft);
    store.saveDraftValue(id, {Phase::asFound, 1, "4.000 mA", "0.1", ""});
    store.saveDraftValue(id, {Phase::asFound, 2, "", "37.6", ""});
  });
  const auto drafts = Store::open(file).drafts();
  ASSERT_EQ(drafts.size(), 1U);
  ASSERT_EQ(drafts[0].values.size(), 2U);
  EXPECT_EQ(drafts[0].values[1].indicatedText, "37.6");
}

TEST(Faults, AnUnfinishedTransactionOfAKilledProgramIsGone) {
  const test::Folder folder;
  const auto file = folder / "site.record";
  { Store::create(file, test::sampleRegister()).add(test::plainCalibration("AI-001", "2026-01-01")); }
  inAProgramThatIsKilled([&] {
    Store store = Store::open(file);
    store.add(test::plainCalibration("AI-001", "2026-02-01"));
    auto* const transaction = new Store::Transaction(store);  // never ended
    for (int i = 0; i < 2000; ++i) {
      store.add(test::plainCalibration("AI-001", "2026-03-01", 20));
    }
    static_cast<void>(transaction);
    kill(getpid(), SIGKILL);
  });
  Store store = Store::open(file);
  EXPECT_EQ(store.calibrationCount(), 2);
  EXPECT_EQ(store.add(test::plainCalibration("AI-001", "2026-04-01")), 3);
}

TEST(Faults, AKilledImportLeavesNoTemporaryFiles) {
  const test::Folder folder;
  const auto file = folder / "site.record";
  { Store::create(file, test::sampleRegister()); }
  setenv("SQLITE_TMPDIR", folder.path().c_str(), 1);
  inAProgramThatIsKilled([&] {
    Store store = Store::open(file);
    for (int i = 0; i < 20'000; ++i) {
      store.stage({std::to_string(i), i, std::string(1000, 'p')});
    }
  });
  unsetenv("SQLITE_TMPDIR");
  for (const std::string& name : folder.names()) {
    EXPECT_TRUE(name.starts_with("site.record")) << name;
  }
  EXPECT_EQ(Store::open(file).stagedCount(), 0);
}

}  // namespace
}  // namespace spanwright
