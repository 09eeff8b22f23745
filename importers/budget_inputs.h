// SPDX-License-Identifier: GPL-3.0-or-later
//
// One [[input]] of a budget file.
#pragma once

#include <string>
#include <vector>

#include "core/metrology/budget_model.h"
#include "importers/toml_reader.h"

namespace spanwright {

struct BudgetInput {
  ModelInput input;
  std::string unit;
  double sensitivity = 1.0;
  std::vector<double> readings;
  toml::source_position at;
};

/// Reads one input, reporting every mistake; `formula`: its name must do for one, its value is needed, and it
/// has no sensitivity.
BudgetInput readBudgetInput(TomlTable& table, bool formula);

}  // namespace spanwright
