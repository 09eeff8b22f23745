// SPDX-License-Identifier: GPL-3.0-or-later
//
// Many readings in one change. SPANWRIGHT_READINGS asks for more than the usual hundred thousand.
// Times are printed as elapsed / of the processor, which differ on a busy machine or a slow disk.
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <iostream>

#include "core/store/sqlite_connection.h"
#include "samples.h"

namespace spanwright {
namespace {

/// Time since it was made, elapsed and of the processor.
class Stopwatch {
 public:
  void print(const char* what, double amount = 1.0) const {
    const double elapsed = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
    const double processor = static_cast<double>(std::clock() - clock_) / CLOCKS_PER_SEC;
    std::cout << what << ": " << elapsed << " s / " << processor << " s";
    if (amount > 1.0) {
      std::cout << ", per second " << amount / elapsed << " / " << amount / processor;
    }
    std::cout << '\n';
  }

 private:
  std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
  std::clock_t clock_ = std::clock();
};

TEST(Amount, AHundredThousandReadings) {
  const char* const asked = std::getenv("SPANWRIGHT_READINGS");
  const std::int64_t calibrations = (asked != nullptr ? std::atoll(asked) : 100'000) / 10;
  const test::Folder folder;
  const auto file = folder / "site.record";
  Store store = Store::create(file, test::sampleRegister());
  Calibration calibration = test::plainCalibration("AI-001", "2000-01-01", 10);
  const auto all = static_cast<double>(calibrations * 10);
  const Stopwatch inserting;
  {
    Store::Transaction transaction(store);
    for (std::int64_t i = 0; i < calibrations; ++i) {
      calibration.channel = i % 2 == 0 ? "AI-001" : "TT-101";
      calibration.performed += boost::posix_time::hours(1);
      store.add(calibration);
    }
    transaction.commit();
  }
  inserting.print("inserting readings", all);
  EXPECT_EQ(store.calibrationCount(), calibrations);
  EXPECT_EQ(store.readingCount(), calibrations * 10);
  Connection raw(file, Connection::Access::readOnly);
  EXPECT_EQ(raw.integer("SELECT count(*) FROM reading"), calibrations * 10);

  const Stopwatch opening;
  const Store again = Store::open(file);
  opening.print("opening and checking");
  const Stopwatch reading;
  std::int64_t readings = 0;
  again.forEachCalibration([&](const Calibration& c) {
    readings += std::ssize(c.asFound);
    return true;
  });
  reading.print("reading all", all);
  EXPECT_EQ(readings, calibrations * 10);
  const Stopwatch latest;
  EXPECT_EQ(again.latestPassing().size(), 2U);
  latest.print("latest passing");
}

}  // namespace
}  // namespace spanwright
