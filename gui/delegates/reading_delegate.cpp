// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/delegates/reading_delegate.h"

#include <QKeyEvent>
#include <QLineEdit>

namespace spanwright {

QWidget* ReadingDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                       const QModelIndex& index) const {
  auto* editor = new QLineEdit(parent);
  editor->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  editor->setAccessibleName(index.data(Qt::AccessibleTextRole).toString());
  open_ = editor;
  return editor;
}

void ReadingDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
  static_cast<QLineEdit*>(editor)->setText(index.data(Qt::EditRole).toString());
}

void ReadingDelegate::setModelData(QWidget* editor, QAbstractItemModel* model,
                                   const QModelIndex& index) const {
  model->setData(index, static_cast<QLineEdit*>(editor)->text(), Qt::EditRole);
}

void ReadingDelegate::commit(QWidget* editor) {
  emit commitData(editor);
  emit closeEditor(editor, NoHint);
}

QLineEdit* ReadingDelegate::editor() const {
  return open_;
}

void ReadingDelegate::commitOpenEditor() {
  if (open_ != nullptr && !open_->isHidden()) {  // one that was closed is hidden until it is deleted
    commit(open_);
  }
}

bool ReadingDelegate::eventFilter(QObject* watched, QEvent* event) {
  auto* editor = qobject_cast<QLineEdit*>(watched);
  if (editor == nullptr || event->type() != QEvent::KeyPress) {
    return QStyledItemDelegate::eventFilter(watched, event);
  }
  // At once, not queued as the base class does: the next digit may already be on its way to the next cell.
  switch (static_cast<QKeyEvent*>(event)->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
      commit(editor);
      emit enterPressed();
      return true;
    case Qt::Key_Up:
    case Qt::Key_Down:
      commit(editor);
      emit movePressed(static_cast<QKeyEvent*>(event)->key() == Qt::Key_Up ? -1 : 1);
      return true;
    default:
      return QStyledItemDelegate::eventFilter(watched, event);
  }
}

}  // namespace spanwright
