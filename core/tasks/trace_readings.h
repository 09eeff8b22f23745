// SPDX-License-Identifier: GPL-3.0-or-later
//
// The readings of a calibration traced and judged again from what was typed; internal to trace.
#pragma once

#include "core/tasks/trace.h"
#include "core/tasks/visit.h"

namespace spanwright {

/// Every reading of a phase. `verdict` becomes what the readings together give now.
std::vector<TracedReading> tracedReadings(const VisitSheet& sheet, const std::vector<Reading>& readings,
                                          Phase phase, const std::vector<const Standard*>& standards,
                                          Verdict& verdict);

}  // namespace spanwright
