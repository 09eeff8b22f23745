// SPDX-License-Identifier: GPL-3.0-or-later
#include <atomic>
#include <thread>

#include "samples.h"

namespace spanwright {
namespace {

using namespace std::chrono_literals;

class Transactions : public testing::Test {
 protected:
  const test::Folder folder;
  const std::filesystem::path file = folder / "site.record";
  Store store = Store::create(file, test::sampleRegister());
  const Calibration first = test::plainCalibration("AI-001", "2026-01-01");
  const Calibration second = test::plainCalibration("AI-001", "2026-02-01");
};

TEST_F(Transactions, CommittedTogetherOrNotAtAll) {
  {
    const Store::Transaction transaction(store);
    store.add(first);
    store.issueCertificate(1);
    Draft draft;
    draft.channel = "AI-001";
    store.saveDraft(draft);
    EXPECT_EQ(store.calibrationCount(), 1);
    EXPECT_EQ(Store::open(file, Store::Mode::readOnly).calibrationCount(), 0);  // not to others
  }
  EXPECT_EQ(store.calibrationCount(), 0);
  EXPECT_TRUE(store.drafts().empty());
  {
    Store::Transaction transaction(store);
    EXPECT_EQ(store.add(first), 1);
    store.add(second);
    transaction.commit();
  }
  EXPECT_EQ(Store::open(file).calibrationCount(), 2);
}

TEST_F(Transactions, AThrowInBetweenUndoesEverything) {
  EXPECT_THROW(
      {
        const Store::Transaction transaction(store);
        store.add(first);
        throw std::runtime_error("the window was closed");
      },
      std::runtime_error);
  EXPECT_EQ(store.calibrationCount(), 0);
  EXPECT_EQ(store.add(second), 1);
}

TEST_F(Transactions, ARefusedPartLeavesTheRestOfTheTransaction) {
  Store::Transaction transaction(store);
  store.add(first);
  Calibration bad = second;
  bad.standards.push_back({"no such", ""});  // found out after its first standard was written
  test::inputRefusal([&] { store.add(bad); });
  store.add(second);
  transaction.commit();
  EXPECT_EQ(store.calibrationCount(), 2);
  EXPECT_EQ(store.readingCount(), 10);
  EXPECT_EQ(store.calibrationsUsing("LC-2201").size(), 2U);
  EXPECT_EQ(Store::open(file).calibrationCount(), 2);
}

TEST_F(Transactions, AWriterWaitsForTheOther) {
  Store other = Store::open(file);
  auto held = std::make_unique<Store::Transaction>(store);
  store.add(first);
  std::atomic<bool> released = false;
  std::atomic<bool> waited = false;
  std::thread waiting([&] {
    EXPECT_EQ(other.add(second), 2);  // the first one's number is taken by then
    waited = released.load();
  });
  std::this_thread::sleep_for(300ms);
  released = true;
  held->commit();
  waiting.join();
  EXPECT_TRUE(waited);
  EXPECT_EQ(store.calibrationCount(), 2);
}

TEST_F(Transactions, TwoWritersAtOnceLoseNothing) {
  Store other = Store::open(file);
  const auto work = [](Store& into, const Calibration& calibration) {
    for (int i = 0; i < 40; ++i) {
      into.add(calibration);
    }
  };
  std::thread thread([&] { work(other, second); });
  work(store, first);
  thread.join();
  EXPECT_EQ(store.calibrationCount(), 80);
  EXPECT_EQ(store.readingCount(), 400);
  EXPECT_EQ(Store::open(file).calibrations("AI-001").back().performed, second.performed);
}

TEST_F(Transactions, AReaderInTheMiddleSeesOneMomentOfTheRecord) {
  for (int i = 0; i < 10; ++i) {
    store.add(first);
  }
  const Store reader = Store::open(file, Store::Mode::readOnly);
  int seen = 0;
  reader.forEachCalibration([&](const Calibration&) {
    store.add(second);
    ++seen;
    return true;
  });
  EXPECT_EQ(seen, 10);
  EXPECT_EQ(reader.calibrationCount(), 20);
}

}  // namespace
}  // namespace spanwright
