// SPDX-License-Identifier: GPL-3.0-or-later
//
// Of thousands of points those that can be told apart on the screen. What is drawn looks the same.
#pragma once

#include <QList>
#include <QPointF>

namespace spanwright {

/// Of a line from left to right the part from `first` to `last` and one point beyond at either side; in every
/// `column` of x its first, lowest, highest and last point. `points` rise in x.
QList<QPointF> thinnedLine(const QList<QPointF>& points, double first, double last, double column);

/// Of marks that are several pixels wide one in each square of three pixels; `pixelX` and `pixelY` are what a
/// pixel means. `points` rise in x.
QList<QPointF> thinnedMarks(const QList<QPointF>& points, double first, double last, double pixelX,
                            double pixelY);

}  // namespace spanwright
