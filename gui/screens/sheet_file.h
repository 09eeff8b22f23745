// SPDX-License-Identifier: GPL-3.0-or-later
//
// A round sheet into a file, to be printed and taken along.
#pragma once

#include <QString>
#include <functional>

#include "core/certificate/round_sheet.h"

class QWidget;

namespace spanwright {

/// Asks where to, with this name proposed; empty when the person thought better of it.
QString askSheetFile(QWidget* parent, const QString& name);

struct SheetFile {
  bool written = false;
  QString sentence;  ///< of what was done, or why it could not be
};
/// Writes what `make` gives, on the paper chosen for certificates. Nothing half-written is left.
SheetFile writeSheet(const std::function<RoundSheet()>& make, const QString& file);

}  // namespace spanwright
