// SPDX-License-Identifier: GPL-3.0-or-later
//
// The entry sheet's table. A visit is typed without the mouse: digits and one Enter for each value.
#pragma once

#include <QTableView>

namespace spanwright {

class ReadingDelegate;
class SheetModel;

class SheetView : public QTableView {
  Q_OBJECT
 public:
  explicit SheetView(SheetModel* model, QWidget* parent = nullptr);
  /// The first as-found cell still to be typed.
  void goToStart();
  void goTo(const QModelIndex& cell);
  /// Puts an open editor's text into the sheet.
  void commitOpenEditor();
  /// Opens the cell of this row's reading to type why it is skipped.
  void startSkip();
  /// Takes the last step back or makes it again, and goes to its cell.
  void undo();
  void redo();
  /// Puts in what stands in the line above and goes on.
  void repeatAbove();

 signals:
  void cellChanged();
  void lastValueTyped();
  /// One sentence of what was done, or why it was not.
  void told(const QString& sentence, bool done);
  /// Typing was tried while the sheet is not open for values.
  void refused();

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
  void focusInEvent(QFocusEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void goToNext();
  void paste();
  void showStep(const QModelIndex& cell, const QString& done, const QString& nothing);
  void fitColumns();
  /// What the column's texts take.
  int needed(int column) const;

  SheetModel* sheet_;
  ReadingDelegate* readings_;
};

}  // namespace spanwright
