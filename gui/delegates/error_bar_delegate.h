// SPDX-License-Identifier: GPL-3.0-or-later
//
// The verdict of one value: a sign, a word, and the error drawn against its tolerance. The two ticks are the
// limits.
#pragma once

#include <QStyledItemDelegate>

namespace spanwright {

class ErrorBarDelegate : public QStyledItemDelegate {
  Q_OBJECT
 public:
  using QStyledItemDelegate::QStyledItemDelegate;
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}  // namespace spanwright
