// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/certificate/page_items.h"

#include <QPainter>
#include <QPen>

namespace spanwright {

void paintPage(QPainter& painter, const Page& page) {
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setRenderHint(QPainter::TextAntialiasing);
  for (const PathItem& item : page.paths) {
    QPen pen(item.color, item.width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin);
    if (item.dashed) {
      pen.setDashPattern({6.0, 4.0});
    }
    painter.setPen(pen);
    painter.setBrush(item.filled ? QBrush(item.color) : QBrush(Qt::NoBrush));
    painter.drawPath(item.path);
  }
  for (const TextItem& item : page.texts) {
    painter.setPen(item.color);
    painter.setFont(item.font);
    painter.drawText(item.baseline, item.text);
  }
}

}  // namespace spanwright
