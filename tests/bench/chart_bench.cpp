// SPDX-License-Identifier: GPL-3.0-or-later
#include <QChart>
#include <QChartView>
#include <QLineSeries>
#include <QPainter>
#include <QScatterSeries>
#include <QTest>
#include <QValueAxis>
#include <QWheelEvent>
#include <cmath>
#include <functional>

#include "gui/charts/drift_chart.h"
#include "gui/charts/plot_view.h"
#include "tests/bench/desktop_figures.h"
#include "tests/bench/large_record.h"

namespace spanwright {
namespace {

/// Ten thousand readings over ten years in three segments.
DriftItem longHistory() {
  constexpr int kReadings = 10'000;
  DriftItem item;
  item.channel = "TT-000001";
  item.point = "50";
  item.pointPercent = 50.0;
  item.unit = Unit::celsius;
  item.limits = {-0.5, 0.5};
  item.origin = Moment(*parseDate("2016-11-25"));
  for (int i = 0; i < kReadings; ++i) {
    if (i % (kReadings / 3 + 1) == 0) {
      Segment segment;
      segment.cause = i == 0 ? BreakCause::start : BreakCause::adjustment;
      segment.startTime = 10.0 * i / kReadings;
      item.segments.push_back(segment);
    }
    item.segments.back().readings.push_back({10.0 * i / kReadings,
                                             0.3 * std::sin(i * 0.37) + 0.1 * std::sin(i * 0.001),
                                             item.segments.back().readings.empty() && i > 0});
  }
  item.fitted = {item.segments.back()};
  item.fit = fitDrift(item.fitted);
  return item;
}

Figures painterFrames(const DriftItem& item, QSize size) {
  QImage image(size, QImage::Format_RGB32);
  Figures figures;
  for (int frame = 0; frame < 15; ++frame) {
    const Stopwatch watch;
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    QPolygonF line;
    for (const Segment& segment : item.segments) {
      for (const DriftReading& reading : segment.readings) {
        line << QPointF(reading.time * size.width() / 10.0 + frame,
                        size.height() * (0.5 - 0.9 * reading.error));
      }
    }
    painter.setPen(QPen(Qt::blue, 1.0));
    painter.drawPolyline(line);
    painter.setBrush(Qt::blue);
    for (const QPointF& point : line) {
      painter.drawEllipse(point, 4.0, 4.0);
    }
    figures.take(watch);
  }
  return figures;
}

Figures chartFrames(const DriftItem& item, QSize size) {
  auto* line = new QLineSeries;
  auto* marks = new QScatterSeries;
  QList<QPointF> points;
  for (const Segment& segment : item.segments) {
    for (const DriftReading& reading : segment.readings) {
      points << QPointF(reading.time, reading.error);
    }
  }
  line->replace(points);
  marks->replace(points);
  auto* chart = new QChart;
  chart->addSeries(line);
  chart->addSeries(marks);
  chart->createDefaultAxes();
  QChartView view(chart);
  view.setRenderHint(QPainter::Antialiasing);
  view.resize(size);
  view.show();
  settle();
  Figures figures;
  for (int frame = 0; frame < 5; ++frame) {
    const Stopwatch watch;
    chart->axes(Qt::Horizontal).constFirst()->setRange(0.01 * frame, 10.0 + 0.01 * frame);
    QApplication::processEvents();
    view.viewport()->repaint();
    figures.take(watch);
  }
  return figures;
}

}  // namespace

void measureCharts() {
  const DriftItem item = longHistory();
  PlotView plot;
  plot.resize(900, 520);
  plot.show();
  const Stopwatch making;
  DriftChart made = makeDriftChart(item, largeRecordDay(), chartLook());
  plot.showChart(made.chart, std::move(made.notes), made.spoken);
  settle();
  plot.viewport()->repaint();
  fmt::print("{:<44} {:.0f} ms\n", "chart of 10,000 readings made and painted", making.ms());
  const Figures bare = chartFrames(item, plot.size());
  const Figures painter = painterFrames(item, plot.size());
  PaintCounter painted(plot.viewport());
  const auto note = [&](Figures& into, const std::function<void()>& act) {
    painted.count = 0;
    const Stopwatch watch;
    act();
    if (untilPainted(painted)) {  // at the ends nothing moves
      into.take(watch);
    }
  };
  const auto wheel = [&](int notches) {
    QWheelEvent event(QPointF(450, 260), plot.viewport()->mapToGlobal(QPointF(450, 260)), {},
                      {0, 120 * notches}, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
    QApplication::sendEvent(plot.viewport(), &event);
  };
  Figures zoomed, panned, keyed;
  const auto drag = [&](Figures& into, int frames) {
    // There and back, so that it does not run into an end.
    QTest::mousePress(plot.viewport(), Qt::LeftButton, {}, {600, 260});
    for (int i = 0; i < frames; ++i) {
      note(into, [&] {
        const QPoint to(600 - (i < frames / 2 ? 6 * i : 6 * (frames - i)), 260);
        QMouseEvent move(QEvent::MouseMove, to, plot.viewport()->mapToGlobal(to), Qt::NoButton,
                         Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(plot.viewport(), &move);
      });
    }
    QTest::mouseRelease(plot.viewport(), Qt::LeftButton, {}, {600, 260});
  };
  note(zoomed, [&] { wheel(1); });
  drag(panned, 40);
  print("a frame panned, nearly all 10,000 in view", panned, 33, "bare QChart", bare);
  print("the same beside a painter drawing all of them", panned, 33, "QPainter", painter);
  Figures close;
  for (int i = 0; i < 8; ++i) {
    note(zoomed, [&] { wheel(1); });
  }
  drag(close, 40);
  print("a frame panned, zoomed in", close, 33, "bare QChart", bare);
  plot.setFocus();
  for (int i = 0; i < 10; ++i) {
    note(keyed, [&] { QTest::keyClick(&plot, i % 2 == 0 ? Qt::Key_Left : Qt::Key_Right); });
  }
  for (int i = 0; i < 8; ++i) {
    note(zoomed, [&] { wheel(-1); });
  }
  print("a frame panned by keys", keyed, 33, "bare QChart", bare);
  print("a frame zoomed", zoomed, 33, "bare QChart", bare);
}

}  // namespace spanwright
