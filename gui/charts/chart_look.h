// SPDX-License-Identifier: GPL-3.0-or-later
//
// Colours and strokes of all charts, in every look. What a line is, is told by its stroke or marker as well.
#pragma once

#include <QColor>
#include <QFont>
#include <QPen>

#include "gui/settings/text_size.h"

class QAbstractAxis;
class QChart;
class QCategoryAxis;

namespace spanwright {

struct ChartLook {
  QColor paper, ink, grid, found, left, limit, fit, band, pause, forecast;
  QFont font;

  QPen limitPen() const { return {limit, scaled(1.6), Qt::DashLine}; }
  QPen fitPen() const { return {fit, scaled(1.8), Qt::SolidLine}; }
  QPen breakPen() const { return {pause, scaled(1.2), Qt::DotLine}; }
  QPen forecastPen() const { return {forecast, scaled(1.6), Qt::DashDotLine}; }
};

/// For the palette in force.
ChartLook chartLook();
/// A chart with the look's paper, title font and legend, no series yet.
QChart* plainChart(const QString& title, const ChartLook& look);
/// A range around [low, high] that ends on round ticks, labelled with the digits they need in the person's
/// locale.
QCategoryAxis* makeErrorAxis(double low, double high, int ticksAbout);
void dress(QAbstractAxis* axis, const QString& title, const ChartLook& look);

}  // namespace spanwright
