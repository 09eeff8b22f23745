// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/visit_chart.h"

#include <QCategoryAxis>
#include <QLegendMarker>
#include <QLineSeries>
#include <QScatterSeries>
#include <QValueAxis>
#include <algorithm>
#include <cmath>

#include "gui/settings/text_size.h"
#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

bool byPercent(const std::vector<TestPoint>& points) {
  // States and loss of communication have no place on a scale; levels alone are told by their names.
  const bool anyValue = std::any_of(points.begin(), points.end(),
                                    [](const TestPoint& p) { return p.role == PointRole::value; });
  return points.empty() || (anyValue && std::none_of(points.begin(), points.end(), [](const TestPoint& p) {
                              return p.role == PointRole::stateOn || p.role == PointRole::stateOff ||
                                     p.role == PointRole::lossOfSignal;
                            }));
}

struct Reach {
  double low = 0.0, high = 0.0;
  void takeIn(double error) {
    if (std::isfinite(error)) {
      low = std::min(low, error);
      high = std::max(high, error);
    }
  }
};

void addVisit(QChart* chart, const std::vector<TestPoint>& points, const QString& id, const QString& name,
              const std::vector<const Reading*>& readings, QScatterSeries::MarkerShape shape,
              const QColor& colour, const ChartLook& look, Reach& reach) {
  auto* line = new QLineSeries;
  auto* markers = new QScatterSeries;
  for (const Reading* reading : readings) {
    if (reading->skipped()) {
      continue;
    }
    if (reading->point.role == PointRole::value) {  // levels are single findings, not a run
      line->append(visitChartX(points, reading->point), reading->error());
    }
    markers->append(visitChartX(points, reading->point), reading->error());
    reach.takeIn(reading->error());
  }
  line->setObjectName(id + QStringLiteral("-line"));
  line->setPen(QPen(colour, 1.4));
  markers->setObjectName(id);
  markers->setName(name);
  markers->setMarkerShape(shape);
  markers->setMarkerSize(scaled(9.0));
  markers->setColor(colour);
  markers->setBorderColor(look.paper);
  chart->addSeries(line);
  chart->addSeries(markers);
  chart->legend()->markers(line).first()->setVisible(false);
}

void addPredicted(QChart* chart, const std::vector<PredictedMark>& predicted, const ChartLook& look,
                  Reach& reach) {
  if (predicted.empty()) {
    return;
  }
  auto* marks = new QScatterSeries;
  marks->setObjectName(QStringLiteral("predicted"));
  marks->setName(tr("predicted"));
  marks->setMarkerShape(QScatterSeries::MarkerShapeRectangle);
  marks->setMarkerSize(scaled(9.0));
  for (const PredictedMark& mark : predicted) {
    marks->append(mark.x, mark.error);
    reach.takeIn(mark.error);
  }
  marks->setBrush(Qt::NoBrush);
  marks->setPen(QPen(look.left, 1.5));
  chart->addSeries(marks);
}

void addLimit(QChart* chart, const char* id, const std::vector<std::pair<double, ErrorLimits>>& limits,
              bool high, double halfStep, const ChartLook& look, Reach& reach) {
  auto* line = new QLineSeries;
  line->setObjectName(QLatin1String(id));
  line->setName(tr("Tolerance"));
  line->setPen(look.limitPen());
  for (const auto& [x, limit] : limits) {
    const double value = high ? limit.high : limit.low;
    if (std::isfinite(value)) {
      line->append(x - halfStep, value);
      line->append(x + halfStep, value);
      reach.takeIn(value);
    }
  }
  if (line->count() == 0) {
    delete line;
    return;
  }
  chart->addSeries(line);
  chart->legend()->markers(line).first()->setVisible(!high);
}

QAbstractAxis* makeInputAxis(const std::vector<TestPoint>& points, const ChartLook& look) {
  if (byPercent(points)) {
    auto* axis = new QValueAxis;
    double low = 0.0;
    double high = 100.0;
    for (const TestPoint& point : points) {
      low = std::min(low, point.percent);
      high = std::max(high, point.percent);
    }
    axis->setRange(low - 4.0, high + 4.0);
    axis->setTickType(QValueAxis::TicksDynamic);
    axis->setTickAnchor(0.0);
    axis->setTickInterval(25.0);
    axis->setLabelFormat(QStringLiteral("%.0f"));
    dress(axis, tr("Input [% of span]"), look);
    return axis;
  }
  auto* axis = new QCategoryAxis;
  axis->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
  axis->setRange(0.5, static_cast<double>(points.size()) + 0.5);
  for (const TestPoint& point : points) {
    axis->append(pointWord(point), visitChartX(points, point));
  }
  axis->setLabelsAngle(-90);  // names of any length, none over another
  axis->setTruncateLabels(false);
  dress(axis, {}, look);
  return axis;
}

}  // namespace

double visitChartX(const std::vector<TestPoint>& points, const TestPoint& point) {
  return byPercent(points) ? point.percent : static_cast<double>(point.sequence);
}

QChart* makeVisitChart(const QString& title, const std::vector<TestPoint>& points,
                       const std::vector<VisitLine>& visits,
                       const std::vector<std::pair<double, ErrorLimits>>& limits, const ChartLook& look,
                       const std::vector<PredictedMark>& predicted) {
  QChart* chart = plainChart(title, look);
  Reach reach;
  // Named points stand apart, so each has its own piece of limit.
  const double halfStep = byPercent(points) ? 0.0 : 0.4;
  addLimit(chart, "limit-low", limits, false, halfStep, look, reach);
  addLimit(chart, "limit-high", limits, true, halfStep, look, reach);
  for (std::size_t v = 0; v < visits.size(); ++v) {
    QColor found = look.found;
    QColor left = look.left;
    // Older visits step back.
    const float strength = std::max(0.3F, 1.0F - 0.22F * static_cast<float>(v));
    found.setAlphaF(strength);
    left.setAlphaF(strength);
    const QString number = QString::number(v);
    const QString before = visits[v].name.isEmpty() ? QString() : visits[v].name + u' ';
    if (!visits[v].found.empty()) {
      addVisit(chart, points, QStringLiteral("found-") + number, before + word(Phase::asFound),
               visits[v].found, QScatterSeries::MarkerShapeCircle, found, look, reach);
    }
    if (!visits[v].left.empty()) {
      addVisit(chart, points, QStringLiteral("left-") + number, before + word(Phase::asLeft), visits[v].left,
               QScatterSeries::MarkerShapeRectangle, left, look, reach);
    }
  }
  addPredicted(chart, predicted, look, reach);
  // Beside the sheet there is room for three names; the limits' dashes are told by the axis and the sheet.
  if (visits.size() == 1 && !visits[0].left.empty() && !predicted.empty()) {
    for (QAbstractSeries* series : chart->series()) {
      if (series->objectName() == QLatin1String("limit-low")) {
        chart->legend()->markers(series).first()->setVisible(false);
      }
    }
  }
  auto* x = makeInputAxis(points, look);
  const double room = reach.high > reach.low ? 0.15 * (reach.high - reach.low) : 1.0;
  auto* y = makeErrorAxis(reach.low - room, reach.high + room, 6);
  dress(y, headed(tr("Error"), points.empty() ? Unit::none : points.front().readingUnit), look);
  chart->addAxis(x, Qt::AlignBottom);
  chart->addAxis(y, Qt::AlignLeft);
  for (QAbstractSeries* series : chart->series()) {
    series->attachAxis(x);
    series->attachAxis(y);
  }
  return chart;
}

}  // namespace spanwright
