// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/table_view.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <algorithm>

#include "gui/settings/text_size.h"

namespace spanwright {
namespace {

constexpr int kRowHeight = 28;
constexpr int kWidest = 290;
constexpr int kAir = 10;
constexpr int kRowsMeasured = 200;  // of a long list, for the width of its columns

}  // namespace

TableView::TableView(const QString& accessibleName, QWidget* parent) : QTableView(parent) {
  setAccessibleName(accessibleName);
  setSelectionBehavior(SelectRows);
  setSelectionMode(SingleSelection);
  setEditTriggers(NoEditTriggers);
  setAlternatingRowColors(true);
  setTabKeyNavigation(false);
  setShowGrid(false);
  setWordWrap(false);
  setHorizontalScrollMode(ScrollPerPixel);
  verticalHeader()->hide();
  verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  verticalHeader()->setDefaultSectionSize(scaled(kRowHeight));
  horizontalHeader()->setHighlightSections(false);
  horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  horizontalHeader()->setStretchLastSection(true);
  horizontalHeader()->setFixedHeight(scaled(kRowHeight));
  horizontalHeader()->setResizeContentsPrecision(kRowsMeasured);
  connect(this, &QTableView::doubleClicked, this, &TableView::chosen);
}

void TableView::fitToContent() {
  resizeColumnsToContents();
  for (int column = 0; column + 1 < model()->columnCount(); ++column) {
    setColumnWidth(column, std::min(columnWidth(column) + kAir, scaled(kWidest)));
  }
}

QSize TableView::minimumSizeHint() const {
  constexpr int kRows = 3;
  return QTableView::minimumSizeHint().expandedTo({0, scaled((1 + kRows) * kRowHeight)});
}

void TableView::keyPressEvent(QKeyEvent* event) {
  const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
  if (enter && currentIndex().isValid()) {
    emit chosen(currentIndex());
    return;
  }
  QTableView::keyPressEvent(event);
}

}  // namespace spanwright
