// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/standard_chart.h"

#include <QCategoryAxis>
#include <QLegendMarker>
#include <QLineSeries>
#include <QScatterSeries>
#include <algorithm>
#include <cmath>

#include "gui/charts/time_axis.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr double kMarkerSize = 9.0;
constexpr double kBeyondSize = 13.0;
constexpr double kRoom = 0.12;    // free room above and below, as a part of the range
constexpr double kMargin = 0.05;  // before the first and after the last certificate, as a part of the time

class Drawing {
  Q_DECLARE_TR_FUNCTIONS(spanwright::Drawing)
 public:
  Drawing(const Standard& standard, const ChartedValue& value, const ChartLook& look)
      : standard_(standard), value_(value), look_(look), limits_(std::get_if<ControlChart>(&value.chart)) {}

  StandardChart make() {
    out_.chart = plainChart(
        tr("%1: error at %2 by its certificates").arg(fromCore(standard_.serial), valueWord(value_)), look_);
    measure();
    if (limits_ != nullptr) {
      addLevel("mean", tr("Mean"), look_.fitPen(), limits_->mean);
      addLevel("limit-low", tr("Limits"), look_.limitPen(), limits_->limits.low);
      addLevel("limit-high", tr("Limits"), look_.limitPen(), limits_->limits.high);
      addAverage();
    }
    addErrors();
    addBeyond();
    addAxes();
    if (limits_ != nullptr) {
      hideSecondLimit();
    }
    out_.spoken = spoken();
    return out_;
  }

 private:
  double x(std::size_t i) const { return chartDay(value_.certificates[i]->issued); }

  void takeIn(double error) {
    low_ = std::min(low_, error);
    high_ = std::max(high_, error);
  }

  void measure() {
    low_ = high_ = value_.errors.front();
    for (const double error : value_.errors) {
      takeIn(error);
    }
    if (limits_ != nullptr) {
      takeIn(limits_->limits.low);
      takeIn(limits_->limits.high);
      for (const ChartPoint& point : limits_->points) {
        takeIn(point.average);
      }
    }
    if (!(high_ > low_)) {  // one certificate, or the same error in each
      const double half = low_ == 0.0 ? 1.0 : std::abs(low_) / 2.0;
      low_ -= half;
      high_ += half;
    }
    first_ = x(0);
    last_ = x(value_.errors.size() - 1);
    const double air = std::max(30.0, kMargin * (last_ - first_));
    first_ -= air;
    last_ += air;
  }

  QLineSeries* addLine(const char* id, const QString& name, const QPen& pen) {
    auto* line = new QLineSeries;
    line->setObjectName(QLatin1String(id));
    line->setName(name);
    line->setPen(pen);
    out_.chart->addSeries(line);
    return line;
  }

  void addLevel(const char* id, const QString& name, const QPen& pen, double level) {
    auto* line = addLine(id, name, pen);
    line->append(first_, level);
    line->append(last_, level);
  }

  void addAverage() {
    auto* line = addLine("average", tr("Weighted average"), QPen(look_.left, 1.6, Qt::DashDotLine));
    for (std::size_t i = 0; i < limits_->points.size(); ++i) {
      line->append(x(i), limits_->points[i].average);
    }
  }

  QScatterSeries* addMarkers(const char* id, const QString& name, QScatterSeries::MarkerShape shape,
                             double size, const QColor& colour) {
    auto* markers = new QScatterSeries;
    markers->setObjectName(QLatin1String(id));
    markers->setName(name);
    markers->setMarkerShape(shape);
    markers->setMarkerSize(scaled(size));
    markers->setColor(colour);
    markers->setBorderColor(look_.paper);
    out_.chart->addSeries(markers);
    return markers;
  }

  void addErrors() {
    auto* line = addLine("errors-line", tr("Error"), QPen(look_.found, 1.0));
    auto* markers =
        addMarkers("errors", tr("Error"), QScatterSeries::MarkerShapeCircle, kMarkerSize, look_.found);
    for (std::size_t i = 0; i < value_.errors.size(); ++i) {
      line->append(x(i), value_.errors[i]);
      markers->append(x(i), value_.errors[i]);
    }
    out_.chart->legend()->markers(line).first()->setVisible(false);
  }

  void addBeyond() {
    if (!isBeyond(value_)) {
      return;
    }
    auto* markers = addMarkers("beyond", tr("Beyond the limits"), QScatterSeries::MarkerShapeRectangle,
                               kBeyondSize, look_.limit);
    for (std::size_t i = 0; i < limits_->points.size(); ++i) {
      if (limits_->points[i].beyond()) {
        markers->append(x(i), value_.errors[i]);
        out_.notes.push_back({x(i), beyondWord(limits_->points[i]), look_.limit});
      }
    }
  }

  static QString beyondWord(const ChartPoint& point) {
    QStringList what;
    if (point.valueBeyond) {
      what << tr("error");
    }
    if (point.rangeBeyond) {
      what << tr("change");
    }
    if (point.averageBeyond) {
      what << tr("average");
    }
    return tr("%1 beyond").arg(what.join(QStringLiteral(", ")));
  }

  void addAxes() {
    const double room = kRoom * (high_ - low_);
    auto* errors = makeErrorAxis(low_ - room, high_ + room, 6);
    auto* time = makeTimeAxis(first_, last_, 8);
    dress(time, tr("Issued"), look_);
    dress(errors, headed(tr("Error"), value_.unit), look_);
    out_.chart->addAxis(time, Qt::AlignBottom);
    out_.chart->addAxis(errors, Qt::AlignLeft);
    for (QAbstractSeries* series : out_.chart->series()) {
      series->attachAxis(time);
      series->attachAxis(errors);
    }
  }

  void hideSecondLimit() {
    for (QLegendMarker* marker : out_.chart->legend()->markers()) {
      if (marker->series()->objectName() == QLatin1String("limit-high")) {
        marker->setVisible(false);
      }
    }
  }

  QString spoken() const {
    const int many = static_cast<int>(value_.errors.size());
    const QString certificates = counted(many, tr("1 certificate"), tr("%1 certificates"));
    if (limits_ == nullptr) {
      return std::get<ChartGap>(value_.chart) == ChartGap::tooFew
                 ? tr("%1; limits need %2.").arg(certificates).arg(kLeastForLimits)
                 : tr("%1; every error is the same, so nothing tells what is usual.").arg(certificates);
    }
    const auto beyond = std::count_if(limits_->points.begin(), limits_->points.end(),
                                      [](const ChartPoint& point) { return point.beyond(); });
    const double step = limits_->sigma / 10.0;
    QString text =
        tr("%1; mean %2, limits %3 to %4 %5; %6")
            .arg(certificates, shownError(limits_->mean, step), shownError(limits_->limits.low, step),
                 shownError(limits_->limits.high, step), shownUnit(value_.unit),
                 beyond == 0 ? tr("nothing beyond them")
                             : counted(static_cast<int>(beyond), tr("1 beyond"), tr("%1 beyond")));
    if (limits_->provisional) {
      text += tr("; provisional below %1 certificates").arg(kEnoughForLimits);
    }
    return asSentence(text);
  }

  const Standard& standard_;
  const ChartedValue& value_;
  const ChartLook& look_;
  const ControlChart* limits_;
  double first_ = 0.0, last_ = 0.0, low_ = 0.0, high_ = 0.0;
  StandardChart out_;
};

}  // namespace

StandardChart makeStandardChart(const Standard& standard, const ChartedValue& value, const ChartLook& look) {
  return Drawing(standard, value, look).make();
}

bool isBeyond(const ChartedValue& value) {
  const auto* limits = std::get_if<ControlChart>(&value.chart);
  return limits != nullptr && std::any_of(limits->points.begin(), limits->points.end(),
                                          [](const ChartPoint& point) { return point.beyond(); });
}

QString valueWord(const ChartedValue& value) {
  return QStringLiteral("%1 %2").arg(shownShort(value.nominal), shownUnit(value.unit));
}

}  // namespace spanwright
