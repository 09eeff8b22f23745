// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which part of the visit's page a problem is about, when it stands at no reading. Core tells such a problem
// by its words alone; the tests hold these words against core's.
#pragma once

#include <QString>
#include <optional>

#include "gui/screens/visit_header.h"

namespace spanwright {

/// A part of the header; nothing when it is about something else.
std::optional<VisitPart> partAbout(const QString& what);
/// About what was done to the channel, below the sheet.
bool aboutWhatWasDone(const QString& what);

}  // namespace spanwright
