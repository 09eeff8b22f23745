// SPDX-License-Identifier: GPL-3.0-or-later
//
// A stored reading under its plan's decision rule.
#pragma once

#include "core/metrology/ruling.h"
#include "core/record/calibration.h"
#include "core/record/register.h"

namespace spanwright {

RuledError ruledError(const Reading& reading);

/// The ruling on a reading that was not skipped, again from what is stored.
Ruling rulingOn(const DecisionRule& rule, const Reading& reading);

/// The rule by which a calibration was judged: the plan's, when the register holds the plan in the revision
/// of the calibration, else nullptr.
const DecisionRule* ruleOf(const Plan* plan, const Calibration& calibration);

}  // namespace spanwright
