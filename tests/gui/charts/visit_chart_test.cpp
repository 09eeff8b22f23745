// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/visit_chart.h"

#include <QLineSeries>
#include <QScatterSeries>
#include <memory>

#include "gui/models/visit_entry.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

class VisitCharts : public GuiTest {};

TEST_F(VisitCharts, DrawEveryReadingThatWasTakenAndNoSkippedOne) {
  makeRecord();
  Store store = Store::open(recordFile().toStdString(), Store::Mode::readWrite, clock_);
  VisitEntry entry(store, clock_);
  ASSERT_EQ(entry.open("TT-1", Subject::channel, clock_.localNow()).toStdString(), "");
  entry.setTyped(Phase::asFound, 0, "0.10");
  entry.setTyped(Phase::asFound, 1, "skip: stuck");
  entry.setTyped(Phase::asFound, 2, "50.20");
  VisitLine line;
  std::vector<std::pair<double, ErrorLimits>> limits;
  for (int row = 0; row < entry.rowCount(); ++row) {
    if (const auto* reading = std::get_if<Reading>(&entry.outcome(Phase::asFound, row))) {
      line.found.push_back(reading);
    }
    limits.emplace_back(entry.point(row).percent, entry.expected(row)->limits);
  }
  const std::unique_ptr<QChart> chart(
      makeVisitChart("title", entry.sheet().points, {line}, limits, chartLook()));
  const QScatterSeries* found = nullptr;
  const QLineSeries* high = nullptr;
  for (const QAbstractSeries* each : chart->series()) {
    found = each->objectName() == "found-0" ? qobject_cast<const QScatterSeries*>(each) : found;
    high = each->objectName() == "limit-high" ? qobject_cast<const QLineSeries*>(each) : high;
  }
  ASSERT_NE(found, nullptr);
  ASSERT_EQ(found->count(), 2);
  EXPECT_DOUBLE_EQ(found->at(0).x(), 0.0);
  EXPECT_NEAR(found->at(0).y(), 0.10, 1e-9);
  EXPECT_DOUBLE_EQ(found->at(1).x(), 50.0);
  EXPECT_NEAR(found->at(1).y(), 0.20, 1e-9);
  ASSERT_NE(high, nullptr);
  EXPECT_NEAR(high->at(0).y(), 0.25, 1e-9);  // 0.25 % of a span of 100 degC
}

TEST_F(VisitCharts, AnEmptySheetHasAxesAndNoReadings) {
  const std::unique_ptr<QChart> chart(makeVisitChart("title", {}, {VisitLine{}}, {}, chartLook()));
  EXPECT_TRUE(chart->series().isEmpty());
  EXPECT_EQ(chart->axes().size(), 2);
}

}  // namespace
}  // namespace spanwright
