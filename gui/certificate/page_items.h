// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands on a laid-out page. Lengths everywhere in the drawing of certificates are tenths of a point
// (1/720 inch), so that fonts, which take whole pixels, keep a tenth of a point.
#pragma once

#include <QColor>
#include <QFont>
#include <QPainterPath>
#include <QPointF>
#include <QSizeF>
#include <QString>
#include <vector>

class QPainter;

namespace spanwright {

inline constexpr int kUnitsPerInch = 720;

struct TextItem {
  QPointF baseline;  ///< left end
  QFont font;
  QString text;
  QColor color;
};
struct PathItem {
  QPainterPath path;
  double width = 5.0;
  QColor color;
  bool filled = false;
  bool dashed = false;
};
struct Page {
  std::vector<PathItem> paths;
  std::vector<TextItem> texts;
};

/// Draws one page; the painter's units must be those above.
void paintPage(QPainter& painter, const Page& page);

}  // namespace spanwright
