// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <fstream>

#include "samples.h"

namespace spanwright {
namespace {

class StagingTest : public testing::Test {
 protected:
  const test::Folder folder;
  const std::filesystem::path file = folder / "site.record";
  Store store = Store::create(file, test::sampleRegister());
};

long residentKilobytes() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    if (line.starts_with("VmRSS:")) {
      return std::stol(line.substr(6));
    }
  }
  return 0;
}

TEST_F(StagingTest, RowsComeByKeyThenOrder) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::vector<std::pair<std::string, std::int64_t>> rows;
  for (int i = 0; i < 500; ++i) {
    rows.emplace_back("visit " + std::to_string(random() % 40), i);
  }
  std::shuffle(rows.begin(), rows.end(), random);
  for (const auto& [key, order] : rows) {
    store.stage({key, order, key + "/" + std::to_string(order)});
  }
  std::sort(rows.begin(), rows.end());
  EXPECT_EQ(store.stagedCount(), 500);
  for (int pass = 0; pass < 2; ++pass) {
    std::size_t at = 0;
    store.forEachStaged([&](const StagedRow& row) {
      EXPECT_EQ(row.key, rows[at].first);
      EXPECT_EQ(row.order, rows[at].second);
      EXPECT_EQ(row.payload, row.key + "/" + std::to_string(row.order));
      ++at;
      return true;
    });
    EXPECT_EQ(at, rows.size());
  }
}

TEST_F(StagingTest, StopsWhenToldAndVanishesWhenCleared) {
  for (int i = 0; i < 10; ++i) {
    store.stage({"k", i, ""});
  }
  int seen = 0;
  store.forEachStaged([&](const StagedRow&) { return ++seen < 3; });
  EXPECT_EQ(seen, 3);
  store.clearStaging();
  EXPECT_EQ(store.stagedCount(), 0);
  store.forEachStaged([&](const StagedRow&) { return ++seen < 100; });
  EXPECT_EQ(seen, 3);
  store.stage({"k", 1, "again"});
  EXPECT_EQ(store.stagedCount(), 1);
  EXPECT_EQ(Store::open(file).stagedCount(), 0);  // nobody else's business
}

TEST_F(StagingTest, IsReadWhileTheRecordIsWritten) {
  for (int i = 0; i < 50; ++i) {
    store.stage({std::to_string(i), i, "2026-01-01"});
  }
  Store::Transaction transaction(store);
  store.forEachStaged([&](const StagedRow& row) {
    store.add(test::plainCalibration("AI-001", row.payload));
    return true;
  });
  transaction.commit();
  EXPECT_EQ(store.calibrationCount(), 50);
}

TEST_F(StagingTest, MemoryStaysBounded) {
#ifdef __SANITIZE_ADDRESS__
  GTEST_SKIP() << "the sanitizer keeps what was freed";
#endif
  const long before = residentKilobytes();
  const std::string payload(500, 'p');
  for (int i = 0; i < 200'000; ++i) {  // about 100 MB
    store.stage({std::to_string(i * 7919 % 200'000), i, payload});
  }
  std::int64_t seen = 0;
  store.forEachStaged([&](const StagedRow&) { return ++seen > 0; });
  EXPECT_EQ(seen, 200'000);
  EXPECT_LT(residentKilobytes() - before, 60'000);
}

}  // namespace
}  // namespace spanwright
