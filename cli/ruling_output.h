// SPDX-License-Identifier: GPL-3.0-or-later
//
// How commands print what a decision rule says of one reading.
#pragma once

#include <string>

#include "cli/common.h"
#include "core/record/ruled_reading.h"

namespace spanwright {

/// Adds "answer", "guard_band", "ratio" and, where there is no answer, "reason" to a point that was not
/// skipped. `rule` may be nullptr: not known any more.
void addRuling(Json& point, const DecisionRule* rule, const Reading& reading);

/// The verdict with what a guarded rule has to add: "fail (conditional pass)", "not judged (the decision rule
/// needs an uncertainty, and there is none)".
std::string ruledVerdict(const DecisionRule* rule, const Reading& reading);

}  // namespace spanwright
