// SPDX-License-Identifier: GPL-3.0-or-later
//
// Why there is no verdict, in words.
#pragma once

#include <QString>

#include "core/tasks/point_uncertainty.h"

namespace spanwright {

/// The end of a sentence that says a reading is not judged, with its full stop.
QString notJudgedClause(const NotJudged& why);

}  // namespace spanwright
