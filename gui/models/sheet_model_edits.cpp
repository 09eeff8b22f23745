// SPDX-License-Identifier: GPL-3.0-or-later
//
// How what is typed gets into the entry sheet, and out again.
#include <QRegularExpression>

#include "gui/models/sheet_model.h"

namespace spanwright {

bool SheetModel::editable(const QModelIndex& index) const {
  return (flags(index) & Qt::ItemIsEditable) != 0;
}

QString SheetModel::typedAt(const QModelIndex& index) const {
  const Phase phase = phaseOf(index.column());
  return isReading(index.column()) ? entry_.typed(phase, index.row())
                                   : entry_.typedApplied(phase, index.row());
}

/// What is prefilled and left as it was is not typed.
QString SheetModel::normalised(const QModelIndex& index, const QString& text) const {
  const QString trimmed = text.trimmed();
  return isApplied(index.column()) && trimmed == nominalText(index.row()) ? QString() : trimmed;
}

CellEdit::Place SheetModel::placeOf(const QModelIndex& index) const {
  return {phaseOf(index.column()), index.row(), index.column(), isApplied(index.column())};
}

bool SheetModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || !editable(index)) {
    return false;
  }
  const QString text = normalised(index, value.toString());
  if (text != typedAt(index)) {
    edits_.push(new CellEdit(entry_, placeOf(index), text));
  }
  return true;
}

bool SheetModel::askOnce(const QModelIndex& index) {
  if (!index.isValid() || !isReading(index.column()) ||
      !entry_.askOnce(phaseOf(index.column()), index.row())) {
    return false;
  }
  emit dataChanged(index, index);
  return true;
}

QModelIndex SheetModel::cellOfStep(int step) const {
  const QUndoCommand* command = step < 0 || step >= edits_.count() ? nullptr : edits_.command(step);
  if (command != nullptr && command->childCount() > 0) {
    command = command->child(0);
  }
  const auto* edit = dynamic_cast<const CellEdit*>(command);
  return edit == nullptr ? QModelIndex() : index(edit->place().row, edit->place().column);
}

QModelIndex SheetModel::undo() {
  const QModelIndex cell = cellOfStep(edits_.index() - 1);
  edits_.undo();
  return cell;
}

QModelIndex SheetModel::redo() {
  const QModelIndex cell = cellOfStep(edits_.index());
  edits_.redo();
  return cell;
}

QString SheetModel::paste(const QModelIndex& first, const QString& text) {
  if (!first.isValid() || (!isReading(first.column()) && !isApplied(first.column()))) {
    return tr("Values go into the applied, as-found and as-left columns.");
  }
  if (text.contains(u'\t')) {
    return tr("Several columns cannot be pasted at once; copy one column of values.");
  }
  QStringList lines = text.split(QRegularExpression(QStringLiteral("\r\n|\r|\n")));
  while (!lines.isEmpty() && lines.last().trimmed().isEmpty()) {
    lines.removeLast();  // a spreadsheet ends the last line too
  }
  if (lines.isEmpty()) {
    return tr("There is nothing to paste; copy a column of values first.");
  }
  if (first.row() + lines.size() > rowCount()) {
    return tr("%1 values do not fit into the %2 lines from here down; begin further up, or copy fewer.")
        .arg(lines.size())
        .arg(rowCount() - first.row());
  }
  auto* whole = new QUndoCommand;
  for (int i = 0; i < lines.size(); ++i) {
    const QModelIndex cell = index(first.row() + i, first.column());
    const QString value = normalised(cell, lines[i]);
    if (lines[i].trimmed().isEmpty() || value == typedAt(cell)) {
      continue;
    }
    if (!editable(cell)) {
      delete whole;
      return tr("Nothing can be typed at %1; paste the values above and below it by themselves.")
          .arg(shown(cell.row(), kPoint));
    }
    new CellEdit(entry_, placeOf(cell), value, whole);
  }
  if (whole->childCount() == 0) {
    delete whole;  // all of it stands there already
  } else {
    edits_.push(whole);
  }
  return {};
}

QString SheetModel::repeatAbove(const QModelIndex& at) {
  const QModelIndex above = at.isValid() ? at.siblingAtRow(at.row() - 1) : QModelIndex();
  const bool any = above.isValid() && (isReading(at.column()) || isApplied(at.column()));
  const QString text = any ? typedAt(above) : QString();
  if (text.isEmpty()) {
    return tr("There is no value in the line above to repeat.");
  }
  setData(at, text, Qt::EditRole);
  return {};
}

}  // namespace spanwright
