// SPDX-License-Identifier: GPL-3.0-or-later
//
// The editor of the entry sheet: one Enter commits and asks for the next cell; up and down commit and move.
#pragma once

#include <QPointer>
#include <QStyledItemDelegate>

class QLineEdit;

namespace spanwright {

class ReadingDelegate : public QStyledItemDelegate {
  Q_OBJECT
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                        const QModelIndex& index) const override;
  void setEditorData(QWidget* editor, const QModelIndex& index) const override;
  void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override;
  /// Puts what is in an open editor into the model; used before the whole sheet is checked.
  void commitOpenEditor();
  /// The editor opened last; nullptr once it is gone.
  QLineEdit* editor() const;

 signals:
  void enterPressed();
  void movePressed(int rows);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void commit(QWidget* editor);

  mutable QPointer<QLineEdit> open_;
};

}  // namespace spanwright
