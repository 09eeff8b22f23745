// SPDX-License-Identifier: GPL-3.0-or-later
//
// A decision rule in the sentences of a certificate.
#pragma once

#include <string>

#include "core/metrology/decision.h"

namespace spanwright {

/// The rule with its parameters: ILAC-G8:09/2019 clause 4, JCGM 106:2012 clause 8.
std::string ruleText(const DecisionRule& rule);

/// The level of risk that goes with it (ISO/IEC 17025:2017 7.8.6.1).
std::string riskText(const DecisionRule& rule);

}  // namespace spanwright
