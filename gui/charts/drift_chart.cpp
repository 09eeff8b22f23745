// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/drift_chart.h"

#include <QAreaSeries>
#include <QCategoryAxis>
#include <QCoreApplication>
#include <QLegendMarker>
#include <QLineSeries>
#include <QPainter>

#include <algorithm>
#include <cmath>

#include "gui/charts/time_axis.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kBandSteps = 48;
constexpr double kMarkerSize = 9.0;
constexpr double kTipSize = 27.0;
constexpr float kStepFill = 0.55F;
constexpr float kLegendFill = 0.45F;
constexpr double kRoom = 0.12;  // free room above and below, as a part of the range

struct Frame {
  double first = 0.0, last = 0.0;  // chart days
  double low = 0.0, high = 0.0;    // error

  void takeIn(double error) {
    if (std::isfinite(error)) {
      low = std::min(low, error);
      high = std::max(high, error);
    }
  }
};

class Drawing {
  Q_DECLARE_TR_FUNCTIONS(spanwright::Drawing)
 public:
  Drawing(const DriftItem& item, Date today, const ChartLook& look, const std::vector<LaterBreak>& later)
      : item_(item), today_(today), look_(look), later_(later) {}

  DriftChart make() {
    out_.chart = plainChart(title(), look_);
    measure();
    addSteps();
    addBand();
    addFit();
    addLimits();
    addBreaks();
    addArrows();
    addForecast();
    addSegments();
    addAxes();
    tidyLegend();
    std::stable_sort(out_.notes.begin(), out_.notes.end(),
                     [](const PlotNote& a, const PlotNote& b) { return a.x < b.x; });
    out_.spoken = spoken();
    return out_;
  }

 private:
  QString title() const {
    return tr("%1, %2: error at %3")
        .arg(fromCore(item_.channel), wordInside(item_.subject),
             followedPointWord(item_.point, item_.pointPercent));
  }

  double day(double years) const { return chartDay(item_.origin, years); }
  double years(Date date) const { return yearsBetween(item_.origin, Moment(date)); }

  void measure() {
    frame_.first = day(item_.segments.front().readings.front().time);
    frame_.last = chartDay(today_);
    for (const Segment& segment : item_.segments) {
      for (const DriftReading& reading : segment.readings) {
        frame_.takeIn(reading.error);
        frame_.first = std::min(frame_.first, day(reading.time));
        frame_.last = std::max(frame_.last, day(reading.time));
      }
    }
    frame_.takeIn(item_.limits.low);
    frame_.takeIn(item_.limits.high);
    const double room = kRoom * (frame_.high - frame_.low);
    errors_ = makeErrorAxis(frame_.low - room, frame_.high + room, 8);
    const double past = frame_.last - frame_.first;
    // The forecast is shown when it falls within as much time again as the record covers (at least two
    // years).
    const double horizon = frame_.last + std::max(past, 731.0);
    double wanted = frame_.last + 0.15 * std::max(past, 365.0);
    if (item_.bandOutOn && chartDay(*item_.bandOutOn) <= horizon) {
      wanted =
          std::max(wanted, chartDay(*item_.bandOutOn) + 0.06 * (chartDay(*item_.bandOutOn) - frame_.first));
    }
    frame_.first -= 0.03 * (wanted - frame_.first);
    frame_.last = wanted;
  }

  QLineSeries* addLine(const QString& id, const QString& name, const QPen& pen) {
    auto* line = new QLineSeries;
    line->setObjectName(id);
    line->setName(name);
    line->setPen(pen);
    out_.chart->addSeries(line);
    return line;
  }

  void addBand() {
    if (item_.fitted.empty()) {
      return;
    }
    const double from = item_.fitted.back().readings.front().time;
    const double until = yearsAt(frame_.last);
    auto* low = new QLineSeries(out_.chart);
    auto* high = new QLineSeries(out_.chart);
    for (int step = 0; step <= kBandSteps; ++step) {
      const auto at = predictAt(item_, from + (until - from) * step / kBandSteps);
      if (!at || !at->low || !at->high) {
        break;
      }
      low->append(day(at->time), *at->low);
      high->append(day(at->time), *at->high);
    }
    if (low->count() == 0) {
      delete low;
      delete high;
      return;
    }
    auto* band = new QAreaSeries(high, low);
    band->setObjectName(QStringLiteral("band"));
    band->setName(tr("95 % band"));
    band->setBrush(look_.band);
    band->setPen(QPen(look_.found, 0.8));
    out_.chart->addSeries(band);
  }

  double yearsAt(double chartX) const { return (chartX - chartDay(item_.origin)) / 365.25; }

  void addFit() {
    for (std::size_t s = 0; s < item_.fitted.size(); ++s) {
      const Segment& segment = item_.fitted[s];
      const bool last = s + 1 == item_.fitted.size();
      const double end = last ? yearsAt(frame_.last) : segment.readings.back().time;
      QList<QPointF> ends;
      for (const double time : {segment.readings.front().time, end}) {
        if (const auto value = lineAt(s, last, time)) {
          ends << QPointF(day(time), *value);
        }
      }
      if (!ends.isEmpty()) {
        addLine(QStringLiteral("fit-%1").arg(s), tr("Fit"), look_.fitPen())->append(ends);
      }
    }
  }

  std::optional<double> lineAt(std::size_t segment, bool last, double time) const {
    if (last) {
      const auto at = predictAt(item_, time);
      return at ? std::optional(at->value) : std::nullopt;
    }
    return item_.fit ? std::optional(item_.fit->intercepts[segment] + item_.fit->rate * time) : std::nullopt;
  }

  /// From what was found to what was left at the same visit: the jump a person made.
  void addArrows() {
    for (const bool up : {true, false}) {
      QList<QPointF> heads;
      for (std::size_t s = 1; s < item_.segments.size(); ++s) {
        const DriftReading& found = item_.segments[s - 1].readings.back();
        const DriftReading& left = item_.segments[s].readings.front();
        const BreakCause cause = item_.segments[s].cause;
        const bool byHand = cause == BreakCause::adjustment || cause == BreakCause::repair;
        if (!byHand || !left.asLeft || found.time != left.time || found.error == left.error ||
            (left.error > found.error) != up) {
          continue;
        }
        const double x = day(left.time);
        auto* shaft = addLine(QStringLiteral("arrow-%1").arg(s), tr("Adjusted"), QPen(look_.left, 1.8));
        shaft->append(x, found.error);
        shaft->append(x, left.error);
        heads << QPointF(x, left.error);
      }
      if (!heads.isEmpty()) {
        auto* tips = addLine(up ? QStringLiteral("tips-up") : QStringLiteral("tips-down"), tr("Adjusted"),
                             QPen(Qt::NoPen));
        tips->append(heads);
        tips->setMarkerSize(scaled(kTipSize));
        tips->setLightMarker(arrowTip(up));
      }
    }
  }

  /// A head that ends where the as-left marker begins.
  QImage arrowTip(bool up) const {
    const double scale = scaled(3.0);  // drawn finer than shown
    const int side = static_cast<int>(kTipSize * scale);
    QImage image(side, side, QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(scale, scale);
    painter.translate(kTipSize / 2.0, kTipSize / 2.0);
    painter.scale(1.0, up ? 1.0 : -1.0);
    painter.setPen(Qt::NoPen);
    painter.setBrush(look_.left);
    painter.drawPolygon(QPolygonF({{0.0, 0.5 * kMarkerSize}, {-4.5, kTipSize / 2.0}, {4.5, kTipSize / 2.0}}));
    return image;
  }

  /// Where the error jumped and nobody wrote down why: the time between the two visits.
  void addSteps() {
    int number = 0;
    for (const DriftFinding& finding : item_.findings) {
      if (finding.kind != FindingKind::step || !finding.after || !finding.before) {
        continue;
      }
      const double from = chartDay(*finding.after);
      const double until = chartDay(*finding.before);
      auto* low = new QLineSeries(out_.chart);
      auto* high = new QLineSeries(out_.chart);
      for (const double x : {from, until}) {
        low->append(x, errors_->min());
        high->append(x, errors_->max());
      }
      auto* between = new QAreaSeries(high, low);
      between->setObjectName(number == 0 ? QStringLiteral("step") : QStringLiteral("step-%1").arg(number));
      between->setName(tr("Step found"));
      QColor fill = look_.pause;
      fill.setAlphaF(kStepFill);
      between->setBrush(QBrush(fill, Qt::BDiagPattern));
      between->setPen(Qt::NoPen);
      out_.chart->addSeries(between);
      out_.notes.push_back({(from + until) / 2.0,
                            tr("step %1 %2").arg(shownRate(finding.amount), shownUnit(item_.unit)),
                            look_.pause});
      ++number;
    }
  }

  void addLimits() {
    const auto add = [this](const char* id, double limit) {
      if (std::isfinite(limit)) {
        auto* line = addLine(QLatin1String(id), tr("Tolerance"), look_.limitPen());
        line->append(frame_.first, limit);
        line->append(frame_.last, limit);
      }
    };
    add("limit-low", item_.limits.low);
    add("limit-high", item_.limits.high);
  }

  void addVertical(const QString& id, const QString& name, const QPen& pen, double x) {
    auto* line = addLine(id, name, pen);
    line->append(x, errors_->min());
    line->append(x, errors_->max());
  }

  void addBreaks() {
    for (std::size_t s = 1; s < item_.segments.size(); ++s) {
      const double x = day(item_.segments[s].startTime);
      addVertical(QStringLiteral("break-%1").arg(s), tr("Break"), look_.breakPen(), x);
      out_.notes.push_back({x, word(item_.segments[s].cause), look_.pause});
    }
    for (std::size_t b = 0; b < later_.size(); ++b) {
      const double x = chartDay(later_[b].at);
      addVertical(QStringLiteral("later-break-%1").arg(b), tr("Break"), look_.breakPen(), x);
      out_.notes.push_back({x, word(later_[b].cause), look_.pause});
    }
  }

  void addForecast() {
    if (!item_.bandOutOn || chartDay(*item_.bandOutOn) > frame_.last) {
      return;
    }
    const double x = chartDay(*item_.bandOutOn);
    addVertical(QStringLiteral("forecast"), tr("Forecast"), look_.forecastPen(), x);
    const QString told = *item_.bandOutOn <= today_
                             ? tr("band outside tolerance today")
                             : tr("band leaves tolerance %1").arg(shownDate(*item_.bandOutOn));
    out_.notes.push_back({x, told, look_.forecast});
  }

  /// Marks without a line. A scatter series would make an item of its own for each reading, which is too slow
  /// for thousands of them.
  QLineSeries* makeMarkers(const char* id, const QString& name, bool round, const QColor& colour) {
    auto* markers = new QLineSeries;
    markers->setObjectName(QLatin1String(id));
    markers->setName(name);
    markers->setPen(QPen(Qt::NoPen));
    markers->setMarkerSize(scaled(kMarkerSize));
    markers->setLightMarker(markerImage(round, colour));
    return markers;
  }

  QImage markerImage(bool round, const QColor& colour) const {
    constexpr int kScale = 3;  // drawn finer than shown
    QImage image(static_cast<int>(kMarkerSize) * kScale, static_cast<int>(kMarkerSize) * kScale,
                 QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(kScale, kScale);
    painter.setPen(QPen(look_.paper, 1.0));
    painter.setBrush(colour);
    const QRectF inside(0.5, 0.5, kMarkerSize - 1.0, kMarkerSize - 1.0);
    round ? painter.drawEllipse(inside) : painter.drawRect(inside);
    return image;
  }

  void addSegments() {
    auto* found = makeMarkers("found", tr("As found"), true, look_.found);
    auto* left = makeMarkers("left", tr("As left"), false, look_.left);
    // Point by point each would be laid out anew.
    QList<QPointF> foundAt, leftAt;
    for (std::size_t s = 0; s < item_.segments.size(); ++s) {
      auto* line = addLine(QStringLiteral("segment-%1").arg(s), tr("One segment"), QPen(look_.found, 1.0));
      QList<QPointF> along;
      for (const DriftReading& reading : item_.segments[s].readings) {
        along << QPointF(day(reading.time), reading.error);
        (reading.asLeft ? leftAt : foundAt) << along.last();
      }
      line->append(along);
    }
    found->append(foundAt);
    left->append(leftAt);
    for (auto* markers : {found, left}) {
      if (markers->count() > 0) {
        out_.chart->addSeries(markers);
      } else {
        delete markers;
      }
    }
  }

  void addAxes() {
    auto* x = makeTimeAxis(frame_.first, frame_.last, 8);
    dress(x, tr("Date"), look_);
    dress(errors_, headed(tr("Error"), item_.unit), look_);
    out_.chart->addAxis(x, Qt::AlignBottom);
    out_.chart->addAxis(errors_, Qt::AlignLeft);
    for (QAbstractSeries* series : out_.chart->series()) {
      series->attachAxis(x);
      series->attachAxis(errors_);
    }
  }

  /// One entry for each meaning, not for each line; what has its name beside it on the chart needs none.
  void tidyLegend() {
    QStringList told{tr("One segment"), tr("Break"), tr("Adjusted"), tr("Forecast"), tr("Step found")};
    for (QLegendMarker* marker : out_.chart->legend()->markers()) {
      marker->setVisible(!told.contains(marker->series()->name()));
      told << marker->series()->name();
      if (marker->type() == QLegendMarker::LegendMarkerTypeArea &&
          marker->series()->objectName() == QLatin1String("band")) {
        // A marker that follows its series is drawn hollow for an area; and the band's own thin colour is not
        // seen on a patch this small.
        marker->setShape(QLegend::MarkerShapeRectangle);
        QColor fill = look_.band;
        fill.setAlphaF(kLegendFill);
        marker->setBrush(fill);
        marker->setPen(QPen(look_.found, 1.0));
      }
    }
  }

  QString spoken() const {
    const int segments = static_cast<int>(item_.segments.size());
    int readings = 0;
    for (const Segment& segment : item_.segments) {
      readings += static_cast<int>(segment.readings.size());
    }
    QString text = tr("%1 in %2")
                       .arg(counted(readings, tr("1 reading"), tr("%1 readings")),
                            counted(segments, tr("1 segment"), tr("%1 segments")));
    if (!item_.fit && !item_.band) {
      text += item_.fitted.empty() ? tr("; none yet under the setup and sensor in force")
                                   : tr("; too few in one segment to tell a drift");
      return asSentence(text);
    }
    text += tr("; drift %1 %2 per year")
                .arg(shownRate(item_.band ? item_.band->rate : item_.fit->rate), shownUnit(item_.unit));
    if (!item_.band || !item_.band->scatter) {
      text += tr("; too few to tell a band");
    } else if (!item_.bandOutOn) {
      text += tr("; the 95 % band stays inside the tolerance for ten years");
    } else if (*item_.bandOutOn <= today_) {
      text += tr("; the 95 % band is already outside the tolerance");
    } else {
      text += tr("; the 95 % band leaves the tolerance on %1").arg(shownDate(*item_.bandOutOn));
    }
    QStringList sentences{asSentence(text), fromCore(basisSentence(item_))};
    for (const DriftFinding& finding : item_.findings) {
      sentences << asSentence(fromCore(finding.words));
    }
    sentences.removeAll(QString());
    return sentences.join(u' ');
  }

  const DriftItem& item_;
  Date today_;
  const ChartLook& look_;
  const std::vector<LaterBreak>& later_;
  Frame frame_;
  QCategoryAxis* errors_ = nullptr;  // the chart takes it
  DriftChart out_;
};

}  // namespace

DriftChart makeDriftChart(const DriftItem& item, Date today, const ChartLook& look,
                          const std::vector<LaterBreak>& later) {
  return Drawing(item, today, look, later).make();
}

}  // namespace spanwright
