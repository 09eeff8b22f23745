// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/chart_look.h"

#include <QApplication>
#include <QCategoryAxis>
#include <QChart>
#include <QLegend>
#include <QPalette>
#include <algorithm>
#include <cmath>

#include "gui/settings/look.h"
#include "gui/words/words.h"

namespace spanwright {

ChartLook chartLook() {
  const QPalette palette = QApplication::palette();
  ChartLook look;
  look.paper = palette.color(QPalette::Base);
  look.ink = palette.color(QPalette::Text);
  look.grid = palette.color(QPalette::Mid);
  look.grid.setAlphaF(0.55F);
  look.found = toneColour(Tone::accent);
  look.left = toneColour(Tone::good);
  look.limit = toneColour(Tone::bad);
  look.fit = toneColour(Tone::plain);
  look.band = look.found;
  look.band.setAlphaF(0.16F);
  look.pause = toneColour(Tone::quiet);
  look.forecast = toneColour(Tone::attention);
  look.font = QApplication::font();
  return look;
}

QChart* plainChart(const QString& title, const ChartLook& look) {
  auto* chart = new QChart;
  chart->setTitle(title);
  QFont bold = look.font;
  bold.setBold(true);
  chart->setTitleFont(bold);
  chart->setTitleBrush(look.ink);
  chart->setBackgroundBrush(look.paper);
  chart->setBackgroundRoundness(0.0);
  chart->setMargins({6, 4, 10, 4});
  chart->legend()->setAlignment(Qt::AlignBottom);
  chart->legend()->setMarkerShape(QLegend::MarkerShapeFromSeries);
  chart->legend()->setFont(look.font);
  chart->legend()->setLabelColor(look.ink);
  return chart;
}

QCategoryAxis* makeErrorAxis(double low, double high, int ticksAbout) {
  const double width = high > low ? high - low : 1.0;
  const double rough = width / ticksAbout;
  const double power = std::pow(10.0, std::floor(std::log10(rough)));
  double step = 10.0 * power;
  for (const double factor : {1.0, 2.0, 5.0}) {
    if (factor * power >= rough) {
      step = factor * power;
      break;
    }
  }
  const int first = static_cast<int>(std::floor(low / step));
  const int last = std::max(first + 1, static_cast<int>(std::ceil(high / step)));
  auto* axis = new QCategoryAxis;
  axis->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
  axis->setTruncateLabels(false);  // a number cut short is no number
  axis->setRange(first * step, last * step);
  for (int tick = first; tick <= last; ++tick) {
    axis->append(shownValue(tick * step, step), tick * step);
  }
  return axis;
}

void dress(QAbstractAxis* axis, const QString& title, const ChartLook& look) {
  axis->setTitleText(title);
  axis->setTitleFont(look.font);
  axis->setTitleBrush(look.ink);
  axis->setLabelsFont(look.font);
  axis->setLabelsBrush(look.ink);
  axis->setGridLinePen(QPen(look.grid, 1.0));
  axis->setLinePen(QPen(look.ink, 1.0));
}

}  // namespace spanwright
