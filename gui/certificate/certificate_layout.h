// SPDX-License-Identifier: GPL-3.0-or-later
//
// A whole certificate laid out on pages, the same whether it is then drawn to a PDF or a picture.
#pragma once

#include <QSizeF>
#include <vector>

#include "core/certificate/certificate.h"
#include "gui/certificate/page_items.h"

namespace spanwright {

/// `paper` in tenths of a point.
std::vector<Page> layOutCertificate(const Certificate& certificate, QSizeF paper);

}  // namespace spanwright
