// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/drift_chart.h"

#include <QAreaSeries>
#include <QCategoryAxis>
#include <QLegend>
#include <QLegendMarker>
#include <QLineSeries>
#include <QXYSeries>
#include <cmath>

#include "core/drift/like_subjects.h"
#include "core/tasks/status.h"
#include "gui/charts/plot_view.h"
#include "gui/charts/time_axis.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

template <typename T>
const T* seriesNamed(const QChart& chart, const QString& name) {
  for (const QAbstractSeries* each : chart.series()) {
    if (each->objectName() == name) {
      return qobject_cast<const T*>(each);
    }
  }
  return nullptr;
}

int countStarting(const QChart& chart, const QString& start) {
  int count = 0;
  for (const QAbstractSeries* each : chart.series()) {
    count += each->objectName().startsWith(start) ? 1 : 0;
  }
  return count;
}

/// Two segments with an adjustment between, as core/drift gives them.
DriftItem twoSegments() {
  DriftItem item;
  item.channel = "TT-1";
  item.point = "50";
  item.pointPercent = 50.0;
  item.unit = Unit::celsius;
  item.origin = *parseMoment("2020-01-01");
  item.segments = {
      {BreakCause::start, 0.0, {{0.0, 0.01, false}, {1.0, 0.06, false}, {2.0, 0.11, false}}},
      {BreakCause::adjustment, 2.0, {{2.0, 0.00, true}, {3.0, 0.04, false}, {4.0, 0.11, false}}}};
  item.fitted = item.segments;
  item.calibrations = 5;
  item.fit = fitDrift(item.fitted);
  item.band = ownBand(driftBasis(item.fitted).value());
  item.basis = BandBasis::own;
  item.limits = {-0.25, 0.25};
  item.bandOutOn = parseDate("2026-03-01");
  return item;
}

class DriftCharts : public GuiTest {
 protected:
  /// Every segment is a line of its own with exactly its readings, and no line holds anything else.
  static void expectSegments(const QChart& chart, const DriftItem& item) {
    ASSERT_EQ(countStarting(chart, "segment-"), static_cast<int>(item.segments.size()));
    int found = 0;
    int left = 0;
    for (std::size_t s = 0; s < item.segments.size(); ++s) {
      const auto* line = seriesNamed<QLineSeries>(chart, QStringLiteral("segment-%1").arg(s));
      ASSERT_NE(line, nullptr);
      const auto& readings = item.segments[s].readings;
      ASSERT_EQ(line->count(), static_cast<int>(readings.size())) << "segment " << s;
      for (std::size_t r = 0; r < readings.size(); ++r) {
        EXPECT_DOUBLE_EQ(line->at(static_cast<int>(r)).y(), readings[r].error);
        EXPECT_NEAR(line->at(static_cast<int>(r)).x(), chartDay(item.origin) + readings[r].time * 365.25,
                    1e-6);
        (readings[r].asLeft ? left : found) += 1;
      }
    }
    const auto* foundMarks = seriesNamed<QXYSeries>(chart, "found");
    const auto* leftMarks = seriesNamed<QXYSeries>(chart, "left");
    EXPECT_EQ(foundMarks == nullptr ? 0 : foundMarks->count(), found);
    EXPECT_EQ(leftMarks == nullptr ? 0 : leftMarks->count(), left);
    EXPECT_EQ(countStarting(chart, "break-"), static_cast<int>(item.segments.size()) - 1);
  }
};

TEST_F(DriftCharts, DrawEachSegmentByItselfAndNeverJoinAcrossABreak) {
  const DriftItem item = twoSegments();
  const DriftChart made = makeDriftChart(item, *parseDate("2025-01-01"), chartLook());
  const std::unique_ptr<QChart> chart(made.chart);
  expectSegments(*chart, item);
  // Marks are joined by nothing.
  for (const char* marks : {"found", "left"}) {
    EXPECT_EQ(seriesNamed<QXYSeries>(*chart, marks)->pen().style(), Qt::NoPen);
  }
  // No line of more than two points reaches over the break.
  const double breakDay = chartDay(item.origin, 2.0);
  for (const QAbstractSeries* each : chart->series()) {
    const auto* line = qobject_cast<const QLineSeries*>(each);
    if (line == nullptr || line->count() <= 2 || line->pen().style() == Qt::NoPen) {
      continue;
    }
    bool before = false;
    bool after = false;
    for (const QPointF& point : line->points()) {
      before |= point.x() < breakDay - 1.0;
      after |= point.x() > breakDay + 1.0;
    }
    EXPECT_FALSE(before && after) << line->objectName().toStdString();
  }
  // As found and as left differ in shape, not in colour alone.
  EXPECT_EQ(qAlpha(seriesNamed<QXYSeries>(*chart, "found")->lightMarker().pixel(1, 1)), 0) << "round";
  EXPECT_GT(qAlpha(seriesNamed<QXYSeries>(*chart, "left")->lightMarker().pixel(1, 1)), 0) << "square";
}

TEST_F(DriftCharts, DrawTheFitTheBandAndTheLimitsOfTheReport) {
  const DriftItem item = twoSegments();
  const DriftChart made = makeDriftChart(item, *parseDate("2025-01-01"), chartLook());
  const std::unique_ptr<QChart> chart(made.chart);
  ASSERT_EQ(countStarting(*chart, "fit-"), 2);
  const auto* fit = seriesNamed<QLineSeries>(*chart, "fit-1");
  for (const QPointF& point : fit->points()) {
    const double years = (point.x() - chartDay(item.origin)) / 365.25;
    EXPECT_NEAR(point.y(), predictAt(item, years)->value, 1e-9);
  }
  const auto* band = seriesNamed<QAreaSeries>(*chart, "band");
  ASSERT_NE(band, nullptr);
  for (const QPointF& point : band->upperSeries()->points()) {
    EXPECT_NEAR(point.y(), *predictAt(item, (point.x() - chartDay(item.origin)) / 365.25)->high, 1e-9);
  }
  EXPECT_DOUBLE_EQ(seriesNamed<QLineSeries>(*chart, "limit-low")->at(0).y(), -0.25);
  EXPECT_DOUBLE_EQ(seriesNamed<QLineSeries>(*chart, "limit-high")->at(0).y(), 0.25);
  ASSERT_EQ(made.notes.size(), 2U);
  EXPECT_EQ(made.notes[0].text.toStdString(), "adjustment");
  EXPECT_DOUBLE_EQ(made.notes[0].x, chartDay(item.origin, 2.0));
  EXPECT_TRUE(made.notes[1].text.contains("1 Mar 2026"));
  EXPECT_DOUBLE_EQ(seriesNamed<QLineSeries>(*chart, "forecast")->at(0).x(),
                   chartDay(*parseDate("2026-03-01")));
}

TEST_F(DriftCharts, TheLegendShowsTheFillOfTheBandAndNoNumberIsCutShort) {
  const DriftChart made = makeDriftChart(twoSegments(), *parseDate("2025-01-01"), chartLook());
  PlotView view;
  view.resize(600, 300);
  view.showChart(made.chart, {}, {});
  view.show();
  const QImage drawn = view.grab().toImage();
  QList<QLegendMarker*> markers;
  for (QAbstractSeries* each : made.chart->series()) {
    if (each->objectName() == QStringLiteral("band")) {
      markers = made.chart->legend()->markers(each);
    }
  }
  ASSERT_EQ(markers.size(), 1);
  EXPECT_TRUE(markers.first()->isVisible());
  // The fill's colour over the paper, below the plot where the legend is.
  const ChartLook look = chartLook();
  const QColor fill = markers.first()->brush().color();
  const auto over = [&](int paint, int paper) {
    return paper + (paint - paper) * static_cast<double>(fill.alphaF());
  };
  int filled = 0;
  for (int y = qRound(made.chart->plotArea().bottom()) + 1; y < drawn.height(); ++y) {
    for (int x = 0; x < drawn.width(); ++x) {
      const QColor at = drawn.pixelColor(x, y);
      filled += std::abs(at.red() - over(fill.red(), look.paper.red())) < 3.0 &&
                        std::abs(at.green() - over(fill.green(), look.paper.green())) < 3.0 &&
                        std::abs(at.blue() - over(fill.blue(), look.paper.blue())) < 3.0
                    ? 1
                    : 0;
    }
  }
  EXPECT_GT(std::abs(over(fill.red(), look.paper.red()) - look.paper.red()), 40.0);
  EXPECT_GE(filled, 16);  // a patch of four by four pixels at least
  const auto axes = made.chart->axes(Qt::Vertical);
  ASSERT_EQ(axes.size(), 1);
  EXPECT_FALSE(axes.first()->truncateLabels());
  EXPECT_GE(view.minimumHeight(), 200);
}

TEST_F(DriftCharts, AnArrowGoesFromWhatWasFoundToWhatWasLeft) {
  DriftItem item = twoSegments();
  item.segments.push_back({BreakCause::adjustment, 4.0, {{4.0, 0.02, true}, {5.0, 0.03, false}}});
  item.segments.push_back({BreakCause::newSetup, 6.0, {{6.0, 0.09, true}}});
  const DriftChart made = makeDriftChart(item, *parseDate("2025-01-01"), chartLook());
  const std::unique_ptr<QChart> chart(made.chart);
  expectSegments(*chart, item);
  ASSERT_EQ(countStarting(*chart, "arrow-"), 2);  // none to a new setup: nobody moved that
  const auto* first = seriesNamed<QLineSeries>(*chart, "arrow-1");
  ASSERT_EQ(first->count(), 2);
  EXPECT_DOUBLE_EQ(first->at(0).y(), 0.11);
  EXPECT_DOUBLE_EQ(first->at(1).y(), 0.00);
  EXPECT_DOUBLE_EQ(first->at(0).x(), chartDay(item.origin, 2.0));
  EXPECT_DOUBLE_EQ(first->at(1).x(), first->at(0).x());
  const auto* down = seriesNamed<QLineSeries>(*chart, "tips-down");
  ASSERT_NE(down, nullptr);
  EXPECT_EQ(down->count(), 2);
  EXPECT_FALSE(down->lightMarker().isNull());
  EXPECT_EQ(seriesNamed<QLineSeries>(*chart, "tips-up"), nullptr);
}

TEST_F(DriftCharts, AStepNobodyWroteDownIsShownBetweenItsVisits) {
  DriftItem item = twoSegments();
  DriftFinding step;
  step.kind = FindingKind::step;
  step.after = parseDate("2023-01-01");
  step.before = parseDate("2024-01-01");
  step.amount = 0.05;
  step.words = "the error jumped between two visits";
  item.findings = {step};
  const DriftChart made = makeDriftChart(item, *parseDate("2025-01-01"), chartLook());
  const std::unique_ptr<QChart> chart(made.chart);
  const auto* area = seriesNamed<QAreaSeries>(*chart, "step");
  ASSERT_NE(area, nullptr);
  EXPECT_DOUBLE_EQ(area->lowerSeries()->at(0).x(), chartDay(*step.after));
  EXPECT_DOUBLE_EQ(area->lowerSeries()->at(1).x(), chartDay(*step.before));
  EXPECT_TRUE(made.spoken.contains(QStringLiteral("The error jumped between two visits.")));
}

TEST_F(DriftCharts, ABandFromLikeSubjectsIsDrawnWithoutAFitOfItsOwn) {
  DriftItem item = twoSegments();
  item.segments = {{BreakCause::start, 0.0, {{0.0, 0.01, false}}}};
  item.fitted = item.segments;
  item.fit.reset();
  item.basis = BandBasis::likeSubjects;
  const DriftChart made = makeDriftChart(item, *parseDate("2025-01-01"), chartLook());
  const std::unique_ptr<QChart> chart(made.chart);
  ASSERT_NE(seriesNamed<QAreaSeries>(*chart, "band"), nullptr);
  EXPECT_EQ(countStarting(*chart, "fit-"), 1);
}

TEST_F(DriftCharts, MarkABreakThatHasNoReadingsYet) {
  const DriftItem item = twoSegments();
  const DriftChart made = makeDriftChart(item, *parseDate("2025-01-01"), chartLook(),
                                         {{*parseMoment("2024-09-07T07:00:00"), BreakCause::newSetup}});
  const std::unique_ptr<QChart> chart(made.chart);
  expectSegments(*chart, item);
  const auto* line = seriesNamed<QLineSeries>(*chart, "later-break-0");
  ASSERT_NE(line, nullptr);
  EXPECT_DOUBLE_EQ(line->at(0).x(), chartDay(*parseMoment("2024-09-07T07:00:00")));
  ASSERT_EQ(made.notes.size(), 3U);
  EXPECT_EQ(made.notes[1].text.toStdString(), "new setup");
}

TEST_F(DriftCharts, ManageWithoutAFitAndWithOpenLimits) {
  DriftItem item = twoSegments();
  item.fit.reset();
  item.band.reset();
  item.fitted.clear();
  item.bandOutOn.reset();
  item.limits = {-std::numeric_limits<double>::infinity(), 0.25};
  const DriftChart made = makeDriftChart(item, *parseDate("2025-01-01"), chartLook());
  const std::unique_ptr<QChart> chart(made.chart);
  expectSegments(*chart, item);
  EXPECT_EQ(seriesNamed<QLineSeries>(*chart, "limit-low"), nullptr);
  EXPECT_EQ(countStarting(*chart, "fit-"), 0);
  const auto axes = chart->axes(Qt::Vertical);
  ASSERT_EQ(axes.size(), 1);
  const auto* y = qobject_cast<QCategoryAxis*>(axes.front());
  EXPECT_TRUE(std::isfinite(y->min()) && std::isfinite(y->max()) && y->max() > y->min());
}

TEST_F(DriftCharts, OneReadingAloneIsStillDrawn) {
  DriftItem item = twoSegments();
  item.segments = {{BreakCause::start, 0.0, {{0.0, 0.01, false}}}};
  item.fitted = item.segments;
  item.fit.reset();
  item.band.reset();
  item.bandOutOn.reset();
  const DriftChart made = makeDriftChart(item, *parseDate("2020-01-01"), chartLook());
  const std::unique_ptr<QChart> chart(made.chart);
  expectSegments(*chart, item);
}

TEST_F(DriftCharts, ShowTheReportOfARealRecord) {
  makeRecord({visitTo("TT-1", "2022-11-20T09:00:00", 0.00), visitTo("TT-1", "2023-11-20T09:00:00", 0.08),
              visitTo("TT-1", "2024-11-20T09:00:00", 0.16, 0.01),
              visitTo("TT-1", "2025-11-20T09:00:00", 0.10)});
  const Store store = Store::open(recordFile().toStdString(), Store::Mode::readOnly);
  const auto report = driftReport(store, "TT-1", *parseDate("2026-11-25"));
  ASSERT_EQ(report.size(), 5U);
  for (const DriftItem& item : report) {
    ASSERT_EQ(item.segments.size(), 2U) << item.point;
    const DriftChart made = makeDriftChart(item, *parseDate("2026-11-25"), chartLook());
    const std::unique_ptr<QChart> chart(made.chart);
    expectSegments(*chart, item);
  }
}

TEST(TimeAxis, LabelsStandOnTheFirstOfJanuaryOverYears) {
  const std::unique_ptr<QCategoryAxis> axis(
      makeTimeAxis(chartDay(*parseDate("2019-05-01")), chartDay(*parseDate("2026-02-01")), 8));
  const QStringList labels = axis->categoriesLabels();
  EXPECT_EQ(labels.first().toStdString(), "2020");
  EXPECT_EQ(labels.last().toStdString(), "2026");
  EXPECT_DOUBLE_EQ(axis->endValue("2024"), chartDay(*parseDate("2024-01-01")));
}

TEST(TimeAxis, GoesDownToMonthsOnShortSpansAndUpToDecades) {
  const std::unique_ptr<QCategoryAxis> months(
      makeTimeAxis(chartDay(*parseDate("2025-01-15")), chartDay(*parseDate("2025-06-15")), 8));
  EXPECT_EQ(months->categoriesLabels().join(' ').toStdString(),
            "Feb 2025 Mar 2025 Apr 2025 May 2025 Jun 2025");
  const std::unique_ptr<QCategoryAxis> decades(
      makeTimeAxis(chartDay(*parseDate("1950-01-01")), chartDay(*parseDate("2050-01-01")), 12));
  EXPECT_LE(decades->categoriesLabels().size(), 12);
}

TEST(ErrorAxis, EndsOnRoundTicksWithTheDigitsTheyNeed) {
  const std::unique_ptr<QCategoryAxis> axis(makeErrorAxis(-0.465, 0.465, 8));
  EXPECT_DOUBLE_EQ(axis->min(), -0.6);
  EXPECT_EQ(axis->categoriesLabels().join(' ').toStdString(), "-0.6 -0.4 -0.2 0.0 0.2 0.4 0.6");
  const std::unique_ptr<QCategoryAxis> flat(makeErrorAxis(0.0, 0.0, 6));
  EXPECT_LT(flat->min(), flat->max());
}

}  // namespace
}  // namespace spanwright
