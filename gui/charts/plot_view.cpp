// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/plot_view.h"

#include <QChart>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QToolTip>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "gui/charts/chart_look.h"
#include "gui/charts/thin.h"
#include "gui/charts/time_axis.h"
#include "gui/settings/text_size.h"

namespace spanwright {
namespace {

constexpr double kReach = 6.0;       // how near the pointer must come to a line, in pixels
constexpr double kLeastDays = 92.0;  // the labels of the axis are months
constexpr double kStep = 0.125;      // of what is in view, moved by a key
constexpr double kZoom = 1.25;
constexpr int kLabels = 8;
constexpr qsizetype kLong = 1500;  // points that the chart itself draws fast enough

}  // namespace

PlotView::PlotView(QWidget* parent) : QChartView(parent) {
  setRenderHint(QPainter::Antialiasing);
  setFrameShape(QFrame::StyledPanel);
  setFocusPolicy(Qt::StrongFocus);
  setMinimumSize(scaled(QSize(220, 210)));  // room for the error axis beside title, dates and legend
  showSentence({});
}

void PlotView::showChart(QChart* next, std::vector<PlotNote> notes, const QString& spoken) {
  QChart* before = chart();
  notes_ = std::move(notes);
  sentence_.clear();
  setChart(next);
  delete before;
  setBackgroundBrush(next->backgroundBrush());
  setAccessibleName(next->title());
  setAccessibleDescription(spoken);
  takeTimes();
}

void PlotView::takeTimes() {
  times_ = nullptr;
  long_.clear();
  dragged_.reset();
  for (QAbstractAxis* axis : chart()->axes(Qt::Horizontal)) {
    if (axis->objectName() == QLatin1String(kTimeAxisName)) {
      times_ = qobject_cast<QCategoryAxis*>(axis);
    }
  }
  if (times_ == nullptr) {
    return;
  }
  first_ = wholeFirst_ = times_->min();
  last_ = wholeLast_ = times_->max();
  for (QAbstractSeries* series : chart()->series()) {
    auto* points = qobject_cast<QXYSeries*>(series);
    if (points != nullptr && points->count() > kLong) {
      long_.push_back({points, points->points()});
    }
  }
  thinOut();
}

std::optional<std::pair<double, double>> PlotView::timesShown() const {
  return times_ == nullptr ? std::nullopt : std::optional(std::pair(first_, last_));
}

void PlotView::showTimesFrom(double first, double wanted) {
  const double whole = wholeLast_ - wholeFirst_;
  const double days = std::clamp(wanted, std::min(kLeastDays, whole), whole);
  const double from = std::clamp(first, wholeFirst_, wholeLast_ - days);
  if (times_ == nullptr || (from == first_ && from + days == last_)) {
    return;
  }
  first_ = from;
  last_ = from + days;
  thinOut();
  showTimes(*times_, first_, last_, kLabels);
  viewport()->update();  // the notes move along
}

void PlotView::move(double shareOfWidth) {
  showTimesFrom(first_ + shareOfWidth * width(), width());
}

void PlotView::zoom(double factor, double aroundShare) {
  const double days =
      std::clamp(width() / factor, std::min(kLeastDays, wholeLast_ - wholeFirst_), wholeLast_ - wholeFirst_);
  showTimesFrom(first_ + aroundShare * (width() - days), days);
}

void PlotView::thinOut() {
  const QSizeF size = chart()->plotArea().size();
  const auto heights = chart()->axes(Qt::Vertical);
  if (heights.isEmpty()) {
    return;
  }
  const auto* height = qobject_cast<QCategoryAxis*>(heights.constFirst());
  const double span = height != nullptr ? height->max() - height->min() : 1.0;
  for (const Long& each : long_) {
    // A line keeps its outline in every column of pixels, marks one in each little square.
    const bool marks = each.series->pen().style() == Qt::NoPen;
    each.series->replace(
        marks ? thinnedMarks(each.all, first_, last_, width() / size.width(), span / size.height())
              : thinnedLine(each.all, first_, last_, width() / size.width()));
  }
}

void PlotView::keyPressEvent(QKeyEvent* event) {
  if (times_ != nullptr && (event->modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier)) == 0) {
    switch (event->key()) {
      case Qt::Key_Left:
        move(-kStep);
        return;
      case Qt::Key_Right:
        move(kStep);
        return;
      case Qt::Key_Plus:
        zoom(kZoom, 0.5);
        return;
      case Qt::Key_Minus:
        zoom(1.0 / kZoom, 0.5);
        return;
      case Qt::Key_Home:
        showTimesFrom(wholeFirst_, wholeLast_ - wholeFirst_);
        return;
      default:
        break;
    }
  }
  QChartView::keyPressEvent(event);
}

void PlotView::mousePressEvent(QMouseEvent* event) {
  QChartView::mousePressEvent(event);
  if (times_ != nullptr && event->button() == Qt::LeftButton) {
    dragged_ = event->position().x();
    viewport()->setCursor(Qt::ClosedHandCursor);
    event->accept();
  }
}

void PlotView::mouseMoveEvent(QMouseEvent* event) {
  if (!dragged_) {
    QChartView::mouseMoveEvent(event);
    return;
  }
  const double x = event->position().x();
  move((*dragged_ - x) / std::max(1.0, chart()->plotArea().width()));
  dragged_ = x;
}

void PlotView::mouseReleaseEvent(QMouseEvent* event) {
  QChartView::mouseReleaseEvent(event);
  if (event->button() == Qt::LeftButton && dragged_) {
    dragged_.reset();
    viewport()->unsetCursor();
  }
}

void PlotView::wheelEvent(QWheelEvent* event) {
  constexpr double kNotch = 120.0;
  if (times_ == nullptr) {
    QChartView::wheelEvent(event);
    return;
  }
  const QRectF plot = chart()->plotArea();
  const double share = (event->position().x() - plot.left()) / std::max(1.0, plot.width());
  zoom(std::pow(kZoom, event->angleDelta().y() / kNotch), std::clamp(share, 0.0, 1.0));
  event->accept();
}

void PlotView::resizeEvent(QResizeEvent* event) {
  QChartView::resizeEvent(event);
  thinOut();
}

void PlotView::showSentence(const QString& sentence) {
  const ChartLook look = chartLook();
  QChart* chart = plainChart({}, look);
  chart->legend()->hide();
  showChart(chart, {}, sentence);
  sentence_ = sentence;
  viewport()->update();
}

bool PlotView::viewportEvent(QEvent* event) {
  if (event->type() == QEvent::ToolTip) {
    const auto* help = static_cast<QHelpEvent*>(event);
    for (const PlotNote& note : notes_) {
      if (std::abs(chart()->mapToPosition({note.x, 0.0}).x() - mapToScene(help->pos()).x()) < kReach) {
        QToolTip::showText(help->globalPos(), note.text, this);
        return true;
      }
    }
  }
  return QChartView::viewportEvent(event);
}

void PlotView::drawForeground(QPainter* painter, const QRectF& rect) {
  QChartView::drawForeground(painter, rect);
  const ChartLook look = chartLook();
  painter->setFont(look.font);
  if (!sentence_.isEmpty()) {
    painter->setPen(look.pause);
    painter->drawText(sceneRect().adjusted(24, 24, -24, -24),
                      static_cast<int>(Qt::AlignCenter | Qt::TextWordWrap), sentence_);
    return;
  }
  const QRectF plot = chart()->plotArea();
  const double height = QFontMetricsF(look.font).height();
  double taken = plot.left() - height;  // right edge of the last text written
  for (const PlotNote& note : notes_) {
    const double x = chart()->mapToPosition({note.x, 0.0}).x();
    if (x < plot.left() || x > plot.right() || x - height < taken) {
      continue;
    }
    painter->save();
    painter->setPen(note.colour);
    painter->translate(x - 3.0, plot.top() + 6.0);
    painter->rotate(-90.0);
    const double length =
        std::min(QFontMetricsF(look.font).horizontalAdvance(note.text) + 8.0, plot.height() - 12.0);
    const QRectF box(-length, -height, length, height);
    QColor paper = look.paper;
    paper.setAlphaF(0.8F);
    painter->fillRect(box, paper);
    painter->drawText(box.adjusted(4.0, 0.0, -4.0, 0.0), static_cast<int>(Qt::AlignRight | Qt::AlignVCenter),
                      QFontMetricsF(look.font).elidedText(note.text, Qt::ElideRight, length - 8.0));
    painter->restore();
    taken = x;
  }
}

}  // namespace spanwright
