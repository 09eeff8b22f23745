// SPDX-License-Identifier: GPL-3.0-or-later
//
// Proposed readings put on the lines of the sheet they are for, and judged there.
#pragma once

#include <vector>

#include "core/tasks/visit.h"

namespace spanwright {

struct PlacedReadings {
  std::vector<Reading> readings;  ///< those understood, in the sheet's order, without uncertainty
  std::vector<Problem> problems;  ///< `where` as the reading brought it; what and todo complete
};

/// Finds each reading's point (by sequence, key, applied value, or the order of the plan), once each, and
/// judges it. Unless `historic`, points without a reading or a reason are a problem, as long as the phase has
/// any reading.
PlacedReadings placeReadings(const VisitSheet& sheet, const std::vector<ProposedReading>& proposed,
                             Phase phase, DecimalSign sign, bool historic);

}  // namespace spanwright
