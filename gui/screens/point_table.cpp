// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/point_table.h"

#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QKeyEvent>
#include <algorithm>

#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kRows = 12;
constexpr int kColumns = 5;
constexpr int kNominal = 2;

}  // namespace

PointTable::PointTable(QWidget* parent) : QTableWidget(0, kColumns, parent) {
  setAccessibleName(tr("Points of the certificate"));
  setHorizontalHeaderLabels({tr("Unit"), tr("Resolution"), tr("Nominal"), tr("Error"), tr("Uncertainty")});
  horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
  setSelectionMode(ContiguousSelection);
  setTabKeyNavigation(false);
  setEditTriggers(AnyKeyPressed | DoubleClicked | EditKeyPressed);
  growTo(kRows);
  setCurrentCell(0, 0);
  connect(this, &QTableWidget::cellChanged, this, [this](int row, int) {
    if (row + 1 == rowCount()) {
      growTo(rowCount() + 1);
    }
  });
}

void PointTable::growTo(int rows) {
  const QSignalBlocker quiet(this);
  const int before = rowCount();
  setRowCount(std::max(rows, before));
  for (int row = before; row < rowCount(); ++row) {
    for (int column = 0; column < kColumns; ++column) {
      setItem(row, column, new QTableWidgetItem);
    }
  }
}

std::vector<TypedPoint> PointTable::points() const {
  std::vector<TypedPoint> all;
  for (int row = 0; row < rowCount(); ++row) {
    const auto cell = [this, row](int column) { return toCore(item(row, column)->text()); };
    all.push_back({cell(0), cell(1), cell(2), cell(3), cell(4)});
  }
  return all;
}

void PointTable::write(int row, const TypedPoint& point) {
  int column = 0;
  for (const std::string* each :
       {&point.unit, &point.resolution, &point.nominal, &point.error, &point.uncertainty}) {
    item(row, column++)->setText(fromCore(*each));
  }
}

void PointTable::setPoints(const std::vector<TypedPoint>& points) {
  growTo(static_cast<int>(points.size()) + 1);
  const QSignalBlocker quiet(this);  // there is an empty line at the end already
  for (int row = 0; row < rowCount(); ++row) {
    const auto at = static_cast<std::size_t>(row);
    write(row, at < points.size() ? points[at] : TypedPoint());
  }
  setCurrentCell(0, 0);
}

void PointTable::paste(const QString& text) {
  const auto pasted = pastedPoints(toCore(text));
  int row = std::max(0, currentRow());
  growTo(row + static_cast<int>(pasted.size()) + 1);
  for (const TypedPoint& point : pasted) {
    write(row++, point);
  }
  setCurrentCell(row, 0);
}

void PointTable::goOn() {
  const bool end = currentColumn() + 1 >= columnCount();
  setCurrentCell(std::min(currentRow() + (end ? 1 : 0), rowCount() - 1),
                 end ? kNominal : currentColumn() + 1);
}

void PointTable::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {  // also from a cell being edited
    goOn();
    return;
  }
  if (event->matches(QKeySequence::Paste)) {
    paste(QApplication::clipboard()->text());
    return;
  }
  if (event->key() == Qt::Key_Delete) {
    for (QTableWidgetItem* each : selectedItems()) {
      each->setText({});
    }
    return;
  }
  QTableWidget::keyPressEvent(event);
}

}  // namespace spanwright
