// SPDX-License-Identifier: GPL-3.0-or-later
//
// Round sheets laid out on pages, with room to write on.
#pragma once

#include <QSizeF>
#include <vector>

#include "core/certificate/round_sheet.h"
#include "gui/certificate/page_items.h"

namespace spanwright {

/// Each sheet begins on a page of its own and is counted for itself; `paper` in tenths of a point.
std::vector<Page> layOutRoundSheets(const std::vector<RoundSheet>& sheets, QSizeF paper);

}  // namespace spanwright
