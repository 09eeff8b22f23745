// SPDX-License-Identifier: GPL-3.0-or-later
//
// Many readings in one change. SPANWRIGHT_READINGS asks for more than the usual hundred thousand.
#include <chrono>
#include <cstdlib>
#include <iostream>

#include "core/store/sqlite_connection.h"
#include "samples.h"

namespace spanwright {
namespace {

double secondsSince(std::chrono::steady_clock::time_point begin) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

TEST(Amount, AHundredThousandReadings) {
  const char* const asked = std::getenv("SPANWRIGHT_READINGS");
  const std::int64_t calibrations = (asked != nullptr ? std::atoll(asked) : 100'000) / 10;
  const test::Folder folder;
  const auto file = folder / "site.record";
  Store store = Store::create(file, test::sampleRegister());
  Calibration calibration = test::plainCalibration("AI-001", "2000-01-01", 10);
  auto begin = std::chrono::steady_clock::now();
  {
    Store::Transaction transaction(store);
    for (std::int64_t i = 0; i < calibrations; ++i) {
      calibration.channel = i % 2 == 0 ? "AI-001" : "TT-101";
      calibration.performed += boost::posix_time::hours(1);
      store.add(calibration);
    }
    transaction.commit();
  }
  const double insert = secondsSince(begin);
  std::cout << "readings inserted per second: " << static_cast<double>(calibrations) * 10 / insert << '\n';
  EXPECT_EQ(store.calibrationCount(), calibrations);
  EXPECT_EQ(store.readingCount(), calibrations * 10);
  Connection raw(file, Connection::Access::readOnly);
  EXPECT_EQ(raw.integer("SELECT count(*) FROM reading"), calibrations * 10);

  begin = std::chrono::steady_clock::now();
  const Store again = Store::open(file);
  std::cout << "seconds to open and check: " << secondsSince(begin) << '\n';
  begin = std::chrono::steady_clock::now();
  std::int64_t readings = 0;
  again.forEachCalibration([&](const Calibration& c) {
    readings += std::ssize(c.asFound);
    return true;
  });
  std::cout << "readings read per second: " << static_cast<double>(readings) / secondsSince(begin) << '\n';
  EXPECT_EQ(readings, calibrations * 10);
  begin = std::chrono::steady_clock::now();
  EXPECT_EQ(again.latestPassing().size(), 2U);
  std::cout << "seconds for the latest passing: " << secondsSince(begin) << '\n';
}

}  // namespace
}  // namespace spanwright
