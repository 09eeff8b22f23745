// SPDX-License-Identifier: GPL-3.0-or-later
//
// One maker per calculation, so that each class stays in its own file.
#pragma once

#include <memory>

#include "cli/commands/calc/calc.h"

namespace spanwright {

std::unique_ptr<Calculation> thermocoupleCalculation();
std::unique_ptr<Calculation> rtdCalculation();
std::unique_ptr<Calculation> scaleCalculation();
std::unique_ptr<Calculation> convertCalculation();
std::unique_ptr<Calculation> levelCalculation();
std::unique_ptr<Calculation> fitCalculation();
std::unique_ptr<Calculation> budgetCalculation();
std::unique_ptr<Calculation> riskCalculation();
std::unique_ptr<Calculation> intervalCalculation();
std::unique_ptr<Calculation> runCalculation();

}  // namespace spanwright
