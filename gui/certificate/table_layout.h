// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tables that size their columns to what stands in them and break across pages under repeated headings.
#pragma once

#include <QString>
#include <vector>

#include "gui/certificate/page_flow.h"

namespace spanwright {

struct GridColumn {
  QString heading;
  QString unit;         ///< on the heading's last line; empty for words
  bool number = false;  ///< flush right and not broken while there is room
};
struct GridRow {
  std::vector<QString> cells;  ///< one for each column
  bool strong = false;         ///< set bold
};
struct Grid {
  QString title;
  std::vector<GridColumn> columns;
  std::vector<GridRow> rows;
};

/// Column widths that add up to `width`, and the type size they are for.
struct ColumnFit {
  std::vector<double> widths;
  int size = 0;
};
ColumnFit fitColumns(const Grid& grid, double width);

/// Room that must be left for the table where it begins, so that its section's heading can be kept with it.
double openingHeight(const PageFlow& flow, const Grid& grid);

void placeGrid(PageFlow& flow, const Grid& grid);

}  // namespace spanwright
