// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every calibration of the sample sites rests on certificates valid on its day, and its stored numbers are
// those recomputed from what was typed.
#include "core/tasks/trace.h"

#include <gtest/gtest.h>

#include "core/tasks/standards.h"
#include "tests/sample_sites/sample.h"

namespace spanwright::test {
namespace {

class Traces : public testing::TestWithParam<const char*> {};

TEST_P(Traces, HaveNoGapAndAgree) {
  const Store& store = sampleRecord(GetParam()).store;
  std::int64_t traced = 0, budgets = 0;
  for (const Channel& channel : store.site().channels) {
    for (const CalibrationSummary& summary : store.calibrations(channel.tag)) {
      const CalibrationTrace trace = traceCalibration(store, summary.id);
      EXPECT_TRUE(trace.gaps.empty()) << channel.tag << ": " << trace.gaps.front();
      EXPECT_TRUE(trace.agrees()) << channel.tag << " " << formatMoment(summary.performed);
      for (const TracedReading& reading : trace.readings) {
        budgets += reading.budget ? 1 : 0;
      }
      ++traced;
    }
  }
  EXPECT_EQ(traced, store.calibrationCount());
  EXPECT_GT(budgets, traced);
}

INSTANTIATE_TEST_SUITE_P(Sites, Traces, testing::Values("larkmead", "tiny"));

TEST(StandardsOfLarkmead, TheChartNamesTheCertificateThatFoundTheFault) {
  const CsvRow fault = truth("larkmead", "faulty-standard").at(0);
  const Standard& standard = *sampleRecord("larkmead").store.site().standard(fault.at("serial"));
  int beyond = 0;
  for (const ChartedValue& value : certificateCharts(standard, *parseDate("2026-11-25"))) {
    if (value.unit != Unit::milliampere || value.nominal == 0.0) {
      continue;
    }
    const auto& chart = std::get<ControlChart>(value.chart);
    for (std::size_t i = 0; i < chart.points.size(); ++i) {
      EXPECT_EQ(chart.points[i].valueBeyond,
                formatDate(value.certificates[i]->issued) == fault.at("found_on"))
          << value.nominal << " " << value.certificates[i]->number;
      beyond += chart.points[i].valueBeyond ? 1 : 0;
    }
  }
  EXPECT_EQ(beyond, 6);
}

}  // namespace
}  // namespace spanwright::test
