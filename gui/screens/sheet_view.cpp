// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/sheet_view.h"

#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <algorithm>
#include <array>

#include "gui/delegates/error_bar_delegate.h"
#include "gui/delegates/reading_delegate.h"
#include "gui/models/sheet_model.h"
#include "gui/settings/text_size.h"

namespace spanwright {
namespace {

constexpr int kRowHeight = 30;
constexpr int kHeadHeight = 42;
constexpr int kAir = 14;  // beside a text
// Least widths at the usual font, and how what is left over is shared.
struct Width {
  int least;
  int share;
};
constexpr std::array<Width, SheetModel::kColumnCount> kWidths{{
    {118, 2},
    {72, 1},
    {76, 1},
    {64, 1},
    {84, 1},
    {58, 1},
    {112, 5},
    {72, 1},
    {80, 1},
    {58, 1},
    {112, 5},
}};

}  // namespace

SheetView::SheetView(SheetModel* model, QWidget* parent)
    : QTableView(parent), sheet_(model), readings_(new ReadingDelegate(this)) {
  setModel(model);
  setAccessibleName(tr("Entry sheet"));
  setItemDelegate(readings_);
  auto* bars = new ErrorBarDelegate(this);
  setItemDelegateForColumn(SheetModel::kFoundVerdict, bars);
  setItemDelegateForColumn(SheetModel::kLeftVerdict, bars);
  setSelectionMode(SingleSelection);
  setEditTriggers(AnyKeyPressed | EditKeyPressed | DoubleClicked);
  setTabKeyNavigation(false);
  setAlternatingRowColors(true);
  setWordWrap(false);
  setCornerButtonEnabled(false);
  setHorizontalScrollMode(ScrollPerPixel);
  verticalHeader()->hide();
  verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  verticalHeader()->setDefaultSectionSize(scaled(kRowHeight));
  horizontalHeader()->setHighlightSections(false);
  horizontalHeader()->setFixedHeight(scaled(kHeadHeight));
  connect(sheet_, &QAbstractItemModel::modelReset, this, &SheetView::fitColumns);
  connect(sheet_, &QAbstractItemModel::dataChanged, this, [this] {
    for (int column = 0; column < SheetModel::kColumnCount; ++column) {
      if (needed(column) > columnWidth(column)) {
        return fitColumns();
      }
    }
  });
  connect(readings_, &ReadingDelegate::enterPressed, this, &SheetView::goToNext);
  connect(readings_, &ReadingDelegate::movePressed, this, [this](int rows) {
    goTo(currentIndex().sibling(currentIndex().row() + rows, currentIndex().column()));
  });
}

void SheetView::goTo(const QModelIndex& cell) {
  if (cell.isValid()) {
    setCurrentIndex(cell);
    setFocus();
  }
}

void SheetView::goToStart() {
  for (const int column : {SheetModel::kFound, SheetModel::kLeft}) {
    for (int row = 0; row < sheet_->rowCount(); ++row) {
      if (sheet_->index(row, column).data(Qt::EditRole).toString().isEmpty()) {
        goTo(sheet_->index(row, column));
        return;
      }
    }
  }
  goTo(sheet_->index(0, SheetModel::kFound));
}

void SheetView::commitOpenEditor() {
  readings_->commitOpenEditor();
}

void SheetView::goToNext() {
  const QModelIndex now = currentIndex();
  if (!now.isValid()) {
    goToStart();
    return;
  }
  if (sheet_->askOnce(now)) {
    emit cellChanged();  // the question; the next Enter keeps the value
    return;
  }
  if (SheetModel::isApplied(now.column())) {
    goTo(now.siblingAtColumn(now.column() == SheetModel::kApplied ? SheetModel::kFound : SheetModel::kLeft));
    return;
  }
  const int column =
      SheetModel::phaseOf(now.column()) == Phase::asLeft ? SheetModel::kLeft : SheetModel::kFound;
  if (now.row() + 1 < sheet_->rowCount()) {
    goTo(sheet_->index(now.row() + 1, column));
  } else if (column == SheetModel::kFound) {
    goTo(sheet_->index(0, SheetModel::kLeft));
  } else {
    emit lastValueTyped();
  }
}

void SheetView::startSkip() {
  commitOpenEditor();
  QModelIndex cell = currentIndex();
  if (!cell.isValid()) {
    return;
  }
  if (!SheetModel::isReading(cell.column())) {
    cell = cell.siblingAtColumn(SheetModel::phaseOf(cell.column()) == Phase::asLeft ? SheetModel::kLeft
                                                                                    : SheetModel::kFound);
  }
  if ((cell.flags() & Qt::ItemIsEditable) == 0) {
    emit refused();
    return;
  }
  goTo(cell);
  edit(cell);
  if (QLineEdit* editor = readings_->editor()) {
    const QString start = tr("skip:") + u' ';
    if (!editor->text().startsWith(start)) {
      editor->setText(start);
    }
    editor->end(false);
  }
}

void SheetView::showStep(const QModelIndex& cell, const QString& done, const QString& nothing) {
  if (!cell.isValid()) {
    emit told(nothing, false);
    return;
  }
  goTo(cell);
  const QString now = cell.data(Qt::DisplayRole).toString();
  const QString point = cell.siblingAtColumn(SheetModel::kPoint).data().toString();
  emit told(done.arg(point, now.isEmpty() ? tr("empty") : now), true);
}

void SheetView::undo() {
  commitOpenEditor();
  showStep(sheet_->undo(), tr("Taken back: %1 is now %2. Ctrl+Shift+Z does it again."),
           tr("There is nothing to take back."));
}

void SheetView::redo() {
  commitOpenEditor();
  showStep(sheet_->redo(), tr("Done again: %1 is now %2."), tr("There is nothing to do again."));
}

void SheetView::repeatAbove() {
  commitOpenEditor();
  if (sheet_->rowCount() > 0 && (currentIndex().flags() & Qt::ItemIsEditable) == 0) {
    emit refused();
    return;
  }
  const QString why = sheet_->repeatAbove(currentIndex());
  if (why.isEmpty()) {
    goToNext();
  } else {
    emit told(why, false);
  }
}

void SheetView::paste() {
  const QModelIndex first = currentIndex();
  if (first.isValid() && (first.flags() & Qt::ItemIsEditable) == 0) {
    emit refused();
    return;
  }
  const QString why = sheet_->paste(first, QApplication::clipboard()->text());
  emit told(why.isEmpty() ? tr("The column is pasted; Ctrl+Z takes it back as a whole.") : why,
            why.isEmpty());
}

void SheetView::keyPressEvent(QKeyEvent* event) {
  if (event->matches(QKeySequence::Paste)) {
    paste();
    return;
  }
  const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
  if (enter && event->modifiers() == Qt::NoModifier) {
    goToNext();
    return;
  }
  if (enter && event->modifiers() == Qt::KeypadModifier) {
    goToNext();
    return;
  }
  const bool wipe = event->key() == Qt::Key_Delete || event->key() == Qt::Key_Backspace;
  if (wipe && currentIndex().isValid()) {
    model()->setData(currentIndex(), QString(), Qt::EditRole);
    return;
  }
  const bool types = !event->text().isEmpty() && event->text().at(0).isPrint();
  if (types && !(currentIndex().flags() & Qt::ItemIsEditable)) {
    emit refused();
    return;
  }
  QTableView::keyPressEvent(event);
}

void SheetView::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
  QTableView::currentChanged(current, previous);
  emit cellChanged();
}

void SheetView::focusInEvent(QFocusEvent* event) {
  QTableView::focusInEvent(event);
  if (!currentIndex().isValid() && sheet_->rowCount() > 0) {
    setCurrentIndex(sheet_->index(0, SheetModel::kFound));
  }
}

void SheetView::resizeEvent(QResizeEvent* event) {
  QTableView::resizeEvent(event);
  fitColumns();
}

int SheetView::needed(int column) const {
  int width = scaled(kWidths[static_cast<std::size_t>(column)].least);
  if (SheetModel::isVerdict(column)) {
    return width;  // its delegate draws in what there is
  }
  const auto take = [&](const QString& text) {
    width = std::max(width, fontMetrics().horizontalAdvance(text) + scaled(kAir));
  };
  if (SheetModel::isError(column) && sheet_->rowCount() > 0) {
    take(sheet_->smallError());
  }
  for (int row = 0; row < sheet_->rowCount(); ++row) {
    take(sheet_->index(row, column).data().toString());
  }
  return width;
}

void SheetView::fitColumns() {
  int least = 0;
  int shares = 0;
  std::array<int, kWidths.size()> widths{};
  for (int column = 0; column < SheetModel::kColumnCount; ++column) {
    const auto at = static_cast<std::size_t>(column);
    widths[at] = needed(column);
    least += widths[at];
    shares += kWidths[at].share;
  }
  const int spare = std::max(0, viewport()->width() - least);
  int left = spare;
  for (int column = 0; column < SheetModel::kColumnCount; ++column) {
    const auto at = static_cast<std::size_t>(column);
    const bool last = column + 1 == SheetModel::kColumnCount;
    const int more = last ? left : spare * kWidths[at].share / shares;
    left -= more;
    horizontalHeader()->resizeSection(column, widths[at] + more);
  }
}

}  // namespace spanwright
