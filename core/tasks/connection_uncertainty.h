// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the way between standard and terminals adds to a reading's uncertainty, where the plan states it: the
// reference junction of a couple, and leads.
#pragma once

#include <optional>
#include <vector>

#include "core/metrology/uncertainty.h"
#include "core/tasks/visit.h"

namespace spanwright {

/// Lines of the budget in the reading unit.
///
/// Reference junction: for a thermocouple input fed with mV, and for a bare couple whose mV are measured. A
/// standard that simulates or shows temperatures compensates for its own junction, which its certificate in
/// degrees covers: it needs no line. `inVolts` says whether a standard vouches for the value in volts; a
/// value typed in volts counts too.
///
/// Leads: for an RTD input and for a bare RTD whose resistance is measured, however the value was told: also
/// a simulated temperature reaches the terminals as a resistance, by way of the leads.
///
/// Neither for the loop: there junction and leads are part of what is calibrated. Brought to the reading
/// through the model's slope (half the change for plus and minus one standard uncertainty; one side only at
/// the end of what the model takes). Nothing when the model has no slope there.
std::optional<std::vector<BudgetLine>> connectionLines(const VisitSheet& sheet, const Reading& reading,
                                                       bool inVolts);

}  // namespace spanwright
