// SPDX-License-Identifier: GPL-3.0-or-later
//
// Moving and zooming a chart along its time, and what of a long history is handed to the chart.
#include "gui/charts/plot_view.h"

#include <QChart>
#include <QLineSeries>
#include <QTest>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "gui/charts/chart_look.h"
#include "gui/charts/drift_chart.h"
#include "gui/charts/thin.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

/// So many readings over ten years.
DriftItem history(int readings) {
  DriftItem item;
  item.channel = "TT-1";
  item.point = "50";
  item.unit = Unit::celsius;
  item.limits = {-0.5, 0.5};
  item.origin = *parseMoment("2016-01-01");
  item.segments.resize(1);
  for (int i = 0; i < readings; ++i) {
    item.segments[0].readings.push_back({10.0 * i / readings, 0.3 * std::sin(i * 0.37), false});
  }
  return item;
}

class Plots : public GuiTest {
 protected:
  void show(int readings) {
    DriftChart made = makeDriftChart(history(readings), *parseDate("2026-01-01"), chartLook());
    plot.showChart(made.chart, std::move(made.notes), made.spoken);
    plot.resize(800, 400);
    plot.show();
    QCoreApplication::processEvents();
  }
  double first() const { return plot.timesShown()->first; }
  double last() const { return plot.timesShown()->second; }
  double days() const { return last() - first(); }
  void wheel(int notches, double x) {
    const QPointF at(x, 150.0);
    QWheelEvent event(at, plot.viewport()->mapToGlobal(at), {}, {0, 120 * notches}, Qt::NoButton,
                      Qt::NoModifier, Qt::NoScrollPhase, false);
    QCoreApplication::sendEvent(plot.viewport(), &event);
  }
  double dayAt(double x) const { return plot.chart()->mapToValue({x, 0.0}).x(); }

  PlotView plot;
};

TEST_F(Plots, TheWheelZoomsAroundThePointerAndHomeShowsAllAgain) {
  show(20);
  const double whole = days();
  const double before = dayAt(500.0);
  wheel(3, 500.0);
  EXPECT_NEAR(days(), whole / std::pow(1.25, 3), 1e-6);
  QCoreApplication::processEvents();
  EXPECT_NEAR(dayAt(500.0), before, 0.01 * whole) << "what was under the pointer stays there";
  QTest::keyClick(&plot, Qt::Key_Home);
  EXPECT_DOUBLE_EQ(days(), whole);
}

TEST_F(Plots, DraggingMovesTheTimeUnderThePointerAlongAndStopsAtTheEnds) {
  show(20);
  const double wholeFirst = first();
  wheel(4, 400.0);
  QCoreApplication::processEvents();
  const double held = dayAt(400.0);
  const auto drag = [this](int to) {
    QTest::mousePress(plot.viewport(), Qt::LeftButton, {}, {400, 150});
    QTest::mouseMove(plot.viewport(), {to, 150});
    QMouseEvent move(QEvent::MouseMove, QPointF(to, 150), plot.viewport()->mapToGlobal(QPointF(to, 150)),
                     Qt::NoButton, Qt::LeftButton, Qt::NoModifier);
    QCoreApplication::sendEvent(plot.viewport(), &move);
    QTest::mouseRelease(plot.viewport(), Qt::LeftButton, {}, {to, 150});
    QCoreApplication::processEvents();
  };
  const double width = days();
  drag(450);
  EXPECT_NEAR(dayAt(450.0), held, 0.01 * width);
  EXPECT_NEAR(days(), width, 1e-6);
  for (int i = 0; i < 10; ++i) {
    drag(790);
  }
  EXPECT_DOUBLE_EQ(first(), wholeFirst);
  EXPECT_NEAR(days(), width, 1e-6);
}

TEST_F(Plots, KeysMoveAndZoom) {
  show(20);
  const double whole = days();
  QTest::keyClick(&plot, Qt::Key_Plus);
  QTest::keyClick(&plot, Qt::Key_Plus);
  const double width = days();
  EXPECT_LT(width, whole);
  const double before = first();
  QTest::keyClick(&plot, Qt::Key_Right);
  EXPECT_NEAR(first(), before + width / 8.0, 1e-6);
  QTest::keyClick(&plot, Qt::Key_Left);
  EXPECT_NEAR(first(), before, 1e-6);
  QTest::keyClick(&plot, Qt::Key_Minus);
  QTest::keyClick(&plot, Qt::Key_Minus);
  QTest::keyClick(&plot, Qt::Key_Minus);
  EXPECT_DOUBLE_EQ(days(), whole) << "never more than there is";
  for (int i = 0; i < 40; ++i) {
    QTest::keyClick(&plot, Qt::Key_Plus);
  }
  EXPECT_NEAR(days(), 92.0, 1e-6) << "months are the finest labels";
}

TEST_F(Plots, AChartWithoutTimeStaysAsItIs) {
  plot.showSentence("nothing yet");
  EXPECT_FALSE(plot.timesShown().has_value());
  wheel(1, 100.0);
  QTest::keyClick(&plot, Qt::Key_Left);
  EXPECT_EQ(plot.sentence().toStdString(), "nothing yet");
}

TEST_F(Plots, ALongHistoryIsThinnedToWhatIsInViewAndAShortOneIsNot) {
  show(100);
  const auto points = [this](const char* name) {
    for (const QAbstractSeries* series : plot.chart()->series()) {
      if (series->objectName() == QLatin1String(name)) {
        return static_cast<const QXYSeries*>(series)->count();
      }
    }
    return -1;
  };
  EXPECT_EQ(points("segment-0"), 100);
  EXPECT_EQ(points("found"), 100);
  show(10000);
  EXPECT_LT(points("segment-0"), 4 * 800);
  EXPECT_GT(points("segment-0"), 800);
  EXPECT_LT(points("found"), 10000);
  for (int i = 0; i < 40; ++i) {
    QTest::keyClick(&plot, Qt::Key_Plus);
  }
  const int inView = static_cast<int>(10000 * 92.0 / 3652.5);
  EXPECT_NEAR(points("segment-0"), inView, 5);
  EXPECT_NEAR(points("found"), inView, 0.1 * inView) << "nearly every mark can be told apart there";
}

TEST(Thinning, KeepsTheOutlineOfALineAndOnePointBeyondEachEnd) {
  QList<QPointF> points;
  for (int i = 0; i < 1000; ++i) {
    points << QPointF(i, i == 555 ? 9.0 : i == 556 ? -9.0 : std::sin(i));
  }
  const QList<QPointF> thinned = thinnedLine(points, 100.0, 899.5, 50.0);
  EXPECT_EQ(thinned.first().x(), 99.0);
  EXPECT_EQ(thinned.last().x(), 900.0);
  EXPECT_LE(thinned.size(), 4 * 18);
  EXPECT_TRUE(thinned.contains(QPointF(555, 9.0)));
  EXPECT_TRUE(thinned.contains(QPointF(556, -9.0)));
  EXPECT_TRUE(std::is_sorted(thinned.begin(), thinned.end(),
                             [](const QPointF& a, const QPointF& b) { return a.x() < b.x(); }));
  EXPECT_EQ(thinnedLine(points, 100.0, 200.5, 0.5), points.mid(99, 103)) << "where there is room all stay";
  EXPECT_TRUE(thinnedLine({}, 0.0, 1.0, 1.0).isEmpty());
}

TEST(Thinning, KeepsOneMarkInEachSquare) {
  const QList<QPointF> points{{0.0, 0.0}, {0.5, 0.5}, {1.0, 50.0}, {60.0, 0.0}, {60.1, 0.1}, {200.0, 0.0}};
  EXPECT_EQ(thinnedMarks(points, 0.0, 100.0, 1.0, 1.0),
            (QList<QPointF>{{0.0, 0.0}, {1.0, 50.0}, {60.0, 0.0}, {200.0, 0.0}}));
}

}  // namespace
}  // namespace spanwright
