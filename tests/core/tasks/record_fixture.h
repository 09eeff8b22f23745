// SPDX-License-Identifier: GPL-3.0-or-later
//
// The small invented site in a record of its own, with visits taken in as a history.
#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/store/store.h"
#include "tests/core/tasks/visit_fixture.h"

namespace spanwright::test {

class RecordTest : public testing::Test {
 protected:
  void SetUp() override {
    const auto* info = testing::UnitTest::GetInstance()->current_test_info();
    folder_ = std::filesystem::temp_directory_path() /
              ("spanwright-record-" + std::to_string(::getpid()) + "-" + info->name());
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override {
    store_.reset();
    std::filesystem::remove_all(folder_);
  }

  /// Change `site_` before the first visit.
  Store& store() {
    if (!store_) {
      site_.index();
      store_ = std::make_unique<Store>(Store::create(folder_ / "record.spanwright", site_));
    }
    return *store_;
  }
  CalibrationId add(const ProposedVisit& visit) {
    const CheckedVisit checked = checkVisit(store().site(), visit, moment("2027-01-01T12:00"), true);
    for (const Problem& each : checked.problems) {
      ADD_FAILURE() << sentence(each);
    }
    return checked.calibration ? store().add(*checked.calibration) : 0;
  }

  Register site_ = visitSite();

 private:
  std::filesystem::path folder_;
  std::unique_ptr<Store> store_;
};

/// A visit to a channel with these readings, as found and, when given, as left after an adjustment.
inline ProposedVisit visitTo(std::string channel, const std::string& when,
                             const std::vector<const char*>& found, const std::vector<const char*>& left = {},
                             std::vector<std::string> standards = {"LC-2201"}) {
  ProposedVisit visit = goodVisit();
  visit.channel = std::move(channel);
  visit.performed = moment(when);
  visit.standards = std::move(standards);
  visit.asFound.clear();
  for (const char* reading : found) {
    visit.asFound.push_back(typed(reading));
  }
  for (const char* reading : left) {
    visit.asLeft.push_back(typed(reading));
  }
  visit.adjustment.adjusted = !left.empty();
  return visit;
}

}  // namespace spanwright::test
