// SPDX-License-Identifier: GPL-3.0-or-later
//
// Labels laid out on the places of a sheet of blank labels.
#pragma once

#include <QSizeF>
#include <optional>
#include <string>
#include <vector>

#include "core/certificate/label.h"
#include "gui/certificate/page_items.h"

namespace spanwright {

/// A sheet of blank labels, in millimetres; as it is printed on such sheets' packets.
struct LabelSheet {
  double width = 70.0, height = 30.0;  ///< of one label
  double left = 0.0, top = 13.5;       ///< from the paper's edges to the first label
  double gapAcross = 0.0, gapDown = 0.0;
  int firstFree = 1;  ///< place of the first label still on the sheet, counted along the rows
};

/// How many labels stand on one sheet of this paper (tenths of a point); 0 when not even one does.
int labelsOnSheet(const LabelSheet& sheet, QSizeF paper);
/// What keeps the labels from being printed there so that they can be read, a clause; nothing when they can.
std::optional<std::string> labelSheetFault(const std::vector<ChannelLabel>& labels, const LabelSheet& sheet,
                                           QSizeF paper);
/// From the first free place on, row by row, on as many sheets as it takes. There must be no labelSheetFault.
std::vector<Page> layOutLabels(const std::vector<ChannelLabel>& labels, const LabelSheet& sheet,
                               QSizeF paper);

}  // namespace spanwright
