// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/delegates/error_bar_delegate.h"

#include <QApplication>
#include <QPainter>
#include <algorithm>

#include "gui/models/sheet_model.h"
#include "gui/settings/text_size.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kMarkSize = 14;
constexpr int kMargin = 5;
constexpr int kLeastBar = 30;
constexpr int kUsualBar = 70;
constexpr int kRowHeight = 28;
constexpr double kLimitAt =
    0.72;  // where along the half width the limit stands; the rest shows how far beyond

void paintBar(QPainter& painter, const QRectF& box, double fraction, const QColor& colour,
              const QColor& line) {
  const double middle = box.center().x();
  const double unit = box.width() / 2.0 * kLimitAt;
  const double end = std::clamp(middle + fraction * unit, box.left(), box.right());
  painter.setPen(QPen(line, 1.0));
  painter.drawLine(QPointF(box.left(), box.center().y()), QPointF(box.right(), box.center().y()));
  painter.fillRect(
      QRectF(std::min(middle, end), box.center().y() - scaled(4.0), std::abs(end - middle), scaled(8.0)),
      colour);
  painter.drawLine(QPointF(middle, box.top() + 4.0), QPointF(middle, box.bottom() - 4.0));
  painter.setPen(QPen(line, 1.6));
  for (const double side : {-1.0, 1.0}) {
    painter.drawLine(QPointF(middle + side * unit, box.top()), QPointF(middle + side * unit, box.bottom()));
  }
}

}  // namespace

void ErrorBarDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                             const QModelIndex& index) const {
  QStyleOptionViewItem plain = option;
  initStyleOption(&plain, index);
  const QString text = plain.text;
  plain.text.clear();
  plain.icon = {};
  QApplication::style()->drawControl(QStyle::CE_ItemViewItem, &plain, painter, plain.widget);
  if (text.isEmpty()) {
    return;
  }
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  const bool selected = (option.state & QStyle::State_Selected) != 0;
  const QColor ink = selected ? option.palette.color(QPalette::HighlightedText)
                              : toneColour(static_cast<Tone>(index.data(SheetModel::kToneRole).toInt()));
  const int mark = scaled(kMarkSize);
  QRect box = option.rect.adjusted(kMargin, 0, -kMargin, 0);
  paintMark(*painter, QRectF(box.left(), box.center().y() - mark / 2.0 + 0.5, mark, mark),
            static_cast<Mark>(index.data(SheetModel::kMarkRole).toInt()), ink);
  box.setLeft(box.left() + mark + kMargin);
  painter->setPen(ink);
  const QVariant fraction = index.data(SheetModel::kFractionRole);
  painter->drawText(box, static_cast<int>(Qt::AlignVCenter | Qt::AlignLeft),
                    option.fontMetrics.elidedText(text, Qt::ElideRight, box.width()));
  if (fraction.isValid()) {
    // Bars of a column begin together: verdicts that have one are about as long.
    const int wordWidth = std::max({option.fontMetrics.horizontalAdvance(text),
                                    option.fontMetrics.horizontalAdvance(word(Verdict::pass)),
                                    option.fontMetrics.horizontalAdvance(word(Verdict::fail))});
    box.setLeft(box.left() + wordWidth + kMargin);
    // Beside a long word there is no room for a bar that tells anything.
    if (box.width() >= kLeastBar) {
      const QColor line = selected ? ink : toneColour(Tone::quiet);
      paintBar(*painter, QRectF(box).adjusted(0, 6, 0, -6), fraction.toDouble(), ink, line);
    }
  }
  painter->restore();
}

QSize ErrorBarDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const {
  return {option.fontMetrics.horizontalAdvance(tr("not judged")) + scaled(kMarkSize + kUsualBar),
          scaled(kRowHeight)};
}

}  // namespace spanwright
