// SPDX-License-Identifier: GPL-3.0-or-later
//
// The state of standards, and what is decided about them, in words and signs.
#pragma once

#include <QIcon>
#include <QString>
#include <optional>

#include "core/tasks/standards.h"
#include "gui/words/marks.h"

namespace spanwright {

QString word(StandardState state);  ///< "valid", "runs out soon", "out of service" ...
QString word(StandardAct act);      ///< "out of service", "back in service", "use allowed"
Mark markOf(StandardState state);
Tone toneOf(StandardState state);
QIcon iconOf(StandardState state);
/// "12 days left", "last day today", "ran out 3 days ago"; a dash without a day.
QString shownDaysLeft(const std::optional<Date>& lastDay, int daysLeft);

}  // namespace spanwright
