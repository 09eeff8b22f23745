// SPDX-License-Identifier: GPL-3.0-or-later
//
// A plan's question held against the register.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/tasks/plan.h"

namespace spanwright {

/// InputError with everything in the question that cannot be.
void refuseFaulty(const Register& site, const PlanQuestion& question);

/// Who can be sent: technicians with hours, by the register or as the question supposes, and when they are
/// away.
std::vector<PlanTechnician> techniciansOf(const Register& site, const PlanQuestion& question);

/// What a supposition says for `name`; empty when it says nothing.
std::vector<DaySpan> daysOf(const std::map<std::string, std::vector<DaySpan>>& map, const std::string& name);

}  // namespace spanwright
