// SPDX-License-Identifier: GPL-3.0-or-later
//
// Plain text as a two-dimensional code that a phone reads (ISO/IEC 18004), by libqrencode.
#pragma once

#include <QPainterPath>
#include <QRectF>
#include <string>

namespace spanwright {

/// Modules that must stay blank on every side of a code.
inline constexpr int kQuietModules = 4;

struct QrCode {
  int modules = 0;   ///< on a side, without the blank ones
  std::string dark;  ///< row by row, one character for each module, '1' where it is dark
};
/// UTF-8 with medium error correction, in the smallest code that holds it. The text must not be empty nor
/// longer than a code can hold (some two thousand bytes).
QrCode qrCode(const std::string& text);

/// The dark modules within a square box, its blank margin included in the box.
QPainterPath qrPath(const QrCode& code, const QRectF& box);

}  // namespace spanwright
