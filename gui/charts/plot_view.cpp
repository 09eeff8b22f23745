// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/plot_view.h"

#include <QChart>
#include <QHelpEvent>
#include <QPainter>
#include <QToolTip>
#include <cmath>

#include "gui/charts/chart_look.h"
#include "gui/settings/text_size.h"

namespace spanwright {
namespace {

constexpr double kReach = 6.0;  // how near the pointer must come to a line, in pixels

}  // namespace

PlotView::PlotView(QWidget* parent) : QChartView(parent) {
  setRenderHint(QPainter::Antialiasing);
  setFrameShape(QFrame::StyledPanel);
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
