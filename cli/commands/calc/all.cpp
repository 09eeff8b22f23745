// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands/calc/calc.h"
#include "cli/commands/calc/calculations.h"

namespace spanwright {

std::vector<std::unique_ptr<Calculation>> allCalculations() {
  std::vector<std::unique_ptr<Calculation>> calculations;
  calculations.push_back(thermocoupleCalculation());
  calculations.push_back(rtdCalculation());
  calculations.push_back(scaleCalculation());
  calculations.push_back(convertCalculation());
  calculations.push_back(levelCalculation());
  calculations.push_back(fitCalculation());
  calculations.push_back(budgetCalculation());
  calculations.push_back(riskCalculation());
  calculations.push_back(intervalCalculation());
  calculations.push_back(runCalculation());
  return calculations;
}

}  // namespace spanwright
