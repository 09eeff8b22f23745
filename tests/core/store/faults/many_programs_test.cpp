// SPDX-License-Identifier: GPL-3.0-or-later
//
// Several programs write to one record at the same time.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <chrono>
#include <cstdio>
#include <set>
#include <sstream>

#include "tests/core/store/faults/work.h"
#include "tests/core/store/faults/worker.h"

namespace spanwright::test {
namespace {

constexpr int kPrograms = 8;
constexpr int kVisits = 50;

TEST(ManyPrograms, EightEnteringVisitsAtOnceAllGetThrough) {
  const Folder folder;  // on the real disk: its syncs are what the others wait for
  const auto file = folder / "shared.spanwright";
  makeRecord(file);
  const auto begin = std::chrono::steady_clock::now();
  std::vector<Worker> programs;
  programs.reserve(kPrograms);
  for (int i = 0; i < kPrograms; ++i) {
    programs.emplace_back("visits", file, i * kVisits, kVisits);
  }
  std::set<CalibrationId> ids;
  int longest = 0;
  for (Worker& program : programs) {
    const Worker::End end = program.wait();
    EXPECT_EQ(end.status, 0);
    EXPECT_EQ(std::ssize(end.lines), kVisits);
    for (const std::string& line : end.lines) {
      std::istringstream words(line);
      int number = 0;
      CalibrationId id = 0;
      int milliseconds = 0;
      words >> number >> id >> milliseconds;
      longest = std::max(longest, milliseconds);
      EXPECT_TRUE(ids.insert(id).second) << "number " << id << " was given twice";
      EXPECT_EQ(looseVisit(openRecord(file, Store::Mode::readOnly), number), id);
    }
  }
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  EXPECT_EQ(examine(file).wrong, "");
  EXPECT_EQ(std::ssize(ids), kPrograms * kVisits);
  EXPECT_EQ(openRecord(file).calibrationCount(), kPrograms * kVisits);
  std::puts(fmt::format("{} programs at once: {} visits entered in {:.1f} s, the slowest in {} ms", kPrograms,
                        ids.size(), took.count(), longest)
                .c_str());
}

}  // namespace
}  // namespace spanwright::test
