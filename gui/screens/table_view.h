// SPDX-License-Identifier: GPL-3.0-or-later
//
// The look of every table that is read rather than typed into.
#pragma once

#include <QTableView>

namespace spanwright {

class TableView : public QTableView {
  Q_OBJECT
 public:
  explicit TableView(const QString& accessibleName, QWidget* parent = nullptr);
  /// As wide as its content (within reason), the last column takes the rest.
  void fitToContent();
  /// Its heading and some rows.
  QSize minimumSizeHint() const override;

 signals:
  /// Enter, or a double click.
  void chosen(const QModelIndex& index);

 protected:
  void keyPressEvent(QKeyEvent* event) override;
};

}  // namespace spanwright
