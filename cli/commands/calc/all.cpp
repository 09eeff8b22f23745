// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands/calc/calc.h"
#include "cli/commands/calc/calculations.h"

namespace spanwright {

std::vector<std::unique_ptr<Calculation>> allCalculations() {
  std::vector<std::unique_ptr<Calculation>> calculations;
  return calculations;
}

}  // namespace spanwright
