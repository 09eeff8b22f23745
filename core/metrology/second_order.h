// SPDX-License-Identifier: GPL-3.0-or-later
//
// The terms of the NOTE to GUM 5.1.2.
#pragma once

#include <span>
#include <variant>
#include <vector>

#include "core/metrology/budget_model.h"

namespace spanwright {

/// Second-order terms of independent inputs, one per pair i <= j (both orders of a pair added together), only
/// those not zero. `lines` carry values, uncertainties and sensitivities.
std::variant<std::vector<SecondOrderTerm>, BudgetFault> secondOrderTerms(const ModelFunction& function,
                                                                         std::span<const ModelLine> lines);

}  // namespace spanwright
