// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads a free uncertainty budget (TOML). The form is explained by the examples in sample_sites/budgets and
// in sample_sites/README.md.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/metrology/budget_model.h"
#include "core/record/problem.h"

namespace spanwright {

/// One result to be computed from the inputs.
struct BudgetResult {
  std::string name;
  std::string unit;
  std::string formula;  ///< as written; empty for a sum of sensitivity x value
  MeasurementModel measurement;
  Where where;
};

struct BudgetFile {
  std::string title;
  BudgetModel model;
  std::vector<std::string> units;     ///< of the inputs, as written
  std::vector<Where> inputPlaces;     ///< where each input begins
  std::vector<BudgetResult> results;  ///< at least one; the others are under [[also]]
  CoverageRule coverage;
  bool secondOrder = false;

  /// The fault as a mistake in the file: at its input, or at the result.
  Problem problem(const BudgetFault& fault, const BudgetResult& result) const;
};

/// Throws InputError with every mistake found, StorageError when unreadable. Formulas are parsed here; what
/// only shows when they are evaluated (no value, no derivative) is left to evaluate().
BudgetFile readBudgetFile(const std::filesystem::path& file);

}  // namespace spanwright
