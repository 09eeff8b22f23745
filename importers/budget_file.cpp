// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/budget_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <memory>
#include <span>
#include <utility>

#include "core/metrology/formula.h"
#include "importers/budget_inputs.h"
#include "importers/toml_reader.h"

namespace spanwright {
namespace {

constexpr Bounds kCoefficient{-1.0, 1.0};

/// Where in the file a character of the key's text stands; where the text begins when it runs over several
/// lines or holds escapes.
toml::source_position placeIn(const TomlTable& table, std::string_view key, const std::string& text,
                              std::size_t position) {
  toml::source_position at = table.at(key);
  if (text.find_first_of("\n\\\"\t") == std::string::npos) {
    at.column += static_cast<toml::source_index>(position + 1);
  }
  return at;
}

MeasurementModel sumModel(const BudgetModel& model, const std::vector<BudgetInput>& inputs,
                          std::optional<double> stated) {
  MeasurementModel measurement;
  double sum = 0.0;
  for (const BudgetInput& input : inputs) {
    measurement.sensitivities.push_back(input.sensitivity);
    sum += input.sensitivity * input.input.value;
  }
  std::vector<double> about;
  for (const ModelInput& input : model.inputs) {
    about.push_back(input.value);
  }
  measurement.function = [slopes = measurement.sensitivities, about,
                          value = stated.value_or(sum)](std::span<const double> at) {
    double moved = 0.0;
    for (std::size_t i = 0; i < at.size(); ++i) {
      moved += slopes[i] * (at[i] - about[i]);
    }
    return value + moved;
  };
  return measurement;
}

/// Parses the result's formula; marks the inputs it uses.
void readFormula(TomlTable& table, BudgetResult& result, const std::vector<BudgetInput>& inputs,
                 std::vector<bool>& used) {
  std::vector<std::string> names;
  for (const BudgetInput& input : inputs) {
    if (!usableName(input.input.name)) {
      used.assign(used.size(), true);
      return;  // reported with the input; the formula cannot be read without it
    }
    names.push_back(input.input.name);
  }
  auto parsed = Formula::parse(result.formula, names);
  if (const auto* fault = std::get_if<FormulaFault>(&parsed)) {
    table.problems().add(placeIn(table, "formula", result.formula, fault->position),
                         fmt::format("formula of {} {}", table.name(), fault->what),
                         "write it with the names of the inputs, + - * / ^ and the functions listed in "
                         "sample_sites/README.md");
    used.assign(used.size(), true);  // not known: no second complaint
    return;
  }
  const auto formula = std::make_shared<const Formula>(std::get<Formula>(std::move(parsed)));
  for (std::size_t i = 0; i < names.size(); ++i) {
    used[i] = used[i] || formula->uses(i);
  }
  result.measurement.function = [formula](std::span<const double> values) { return (*formula)(values); };
}

BudgetResult resultHead(TomlTable& table) {
  BudgetResult result;
  result.name = table.needText("name");
  result.unit = table.text("unit");
  result.formula = table.text("formula");
  result.where = table.problems().where(table.at(table.has("formula") ? "formula" : "name"));
  if (table.has("formula") && table.has("value")) {
    table.problem("value", "stands beside formula", "leave one of them out");
  }
  return result;
}

CoverageRule readCoverage(TomlTable& file) {
  CoverageRule rule;
  auto table = file.table("coverage");
  if (!table) {
    return rule;
  }
  table->rename("[coverage]");
  rule.probability = table->maybeNumber("probability", {0.0, 1.0, true});
  if (rule.probability == 1.0) {
    table->problem("probability", "is 1", "no factor covers everything; write 95 % as 0.95");
  }
  rule.truncate = table->yes("truncate_degrees_of_freedom", false);
  const bool dominant = table->yes("dominant_rectangular", false);
  if (const auto factor = table->maybeNumber("factor", kPositive)) {
    rule.method = CoverageMethod::given;
    rule.factor = *factor;
  }
  if (dominant) {
    rule.method = CoverageMethod::dominantRectangular;
  }
  if ((dominant || rule.truncate) && table->has("factor")) {
    table->problem("factor", "stands beside another rule for the coverage factor", "keep one of them");
  }
  table->finish();
  return rule;
}

using Pairs = std::vector<std::pair<std::size_t, std::size_t>>;

/// The inputs a correlation names, all pairs of them.
Pairs pairsOf(TomlTable& table, const std::vector<BudgetInput>& inputs) {
  std::vector<std::size_t> members;
  const auto names = table.placedTexts("between");
  for (const auto& name : names) {
    const auto found = std::find_if(inputs.begin(), inputs.end(),
                                    [&](const BudgetInput& input) { return input.input.name == name.value; });
    if (found == inputs.end()) {
      table.problems().add(name.at, "there is no input " + inQuotes(name.value), "name inputs of this file");
    } else {
      members.push_back(static_cast<std::size_t>(found - inputs.begin()));
    }
  }
  if (names.size() < 2) {
    table.problem("between", "names fewer than two inputs", "list at least two");
  }
  Pairs pairs;
  for (std::size_t i = 0; i < members.size(); ++i) {
    for (std::size_t j = i + 1; j < members.size(); ++j) {
      pairs.emplace_back(members[i], members[j]);
    }
  }
  return pairs;
}

std::optional<double> fromReadings(const TomlTable& table, const BudgetInput& first,
                                   const BudgetInput& second) {
  if (first.readings.size() < 2 || first.readings.size() != second.readings.size()) {
    table.problem("from_readings",
                  fmt::format("needs as many readings of {} as of {}", inQuotes(first.input.name),
                              inQuotes(second.input.name)),
                  "give both the readings of the same moments, or a coefficient instead");
    return std::nullopt;
  }
  const auto coefficient = readingsCorrelation(first.readings, second.readings);
  if (!coefficient) {
    table.problem("from_readings",
                  fmt::format("concerns {} and {}, of which one did not vary", inQuotes(first.input.name),
                              inQuotes(second.input.name)),
                  "take it out of the list");
  }
  return coefficient;
}

void readCorrelations(TomlTable& file, const std::vector<BudgetInput>& inputs, BudgetModel& model) {
  for (TomlTable& table : file.tables("correlation", "[[correlation]]")) {
    const Pairs pairs = pairsOf(table, inputs);
    const bool derived = table.yes("from_readings", false);
    const auto coefficient = table.maybeNumber("coefficient", kCoefficient);
    if (derived == table.has("coefficient")) {
      table.problem("coefficient", derived ? "stands beside from_readings" : "is missing",
                    "give either a coefficient or from_readings = true");
    }
    for (const auto& [first, second] : pairs) {
      const auto value = derived ? fromReadings(table, inputs[first], inputs[second]) : coefficient;
      if (value) {
        model.correlations.push_back({first, second, *value});
      }
    }
    table.finish();
  }
}

std::vector<BudgetInput> readInputs(TomlTable& root, bool formulas) {
  std::vector<BudgetInput> inputs;
  NameSet names("input");
  for (TomlTable& table : root.tables("input", "[[input]]")) {
    inputs.push_back(readBudgetInput(table, formulas));
    names.add(inputs.back().input.name, table.at("name"), root.problems());
  }
  if (inputs.empty()) {
    root.problem("input", "is missing", "describe each input quantity under [[input]]");
  }
  return inputs;
}

void reportUnused(const BudgetFile& budget, const std::vector<BudgetInput>& inputs,
                  const std::vector<bool>& used, ProblemList& problems) {
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    if (!used[i]) {
      problems.add(inputs[i].at, "input " + inQuotes(budget.model.inputs[i].name) + " is used by no formula",
                   "use it, or take it out");
    }
  }
}

}  // namespace

Problem BudgetFile::problem(const BudgetFault& fault, const BudgetResult& result) const {
  return {fault.input ? inputPlaces.at(*fault.input) : result.where, fault.what, fault.todo};
}

BudgetFile readBudgetFile(const std::filesystem::path& file) {
  const toml::table parsed = parseTomlFile(file);
  ProblemList problems(file.string());
  TomlTable root(parsed, "the budget file", problems, toml::source_position{1, 1});
  BudgetFile budget;
  budget.title = root.text("title");
  budget.secondOrder = root.yes("second_order", false);
  budget.coverage = readCoverage(root);

  auto main = root.needTable("result");
  std::vector<TomlTable> tables;
  if (main) {
    main->rename("[result]");
    tables.push_back(std::move(*main));
  }
  for (TomlTable& table : root.tables("also", "[[also]]")) {
    tables.push_back(std::move(table));
  }
  const bool formulas = !tables.empty() && tables.front().has("formula");
  const std::vector<BudgetInput> inputs = readInputs(root, formulas);
  for (const BudgetInput& input : inputs) {
    budget.model.inputs.push_back(input.input);
    budget.units.push_back(input.unit);
    budget.inputPlaces.push_back(problems.where(input.at));
  }
  readCorrelations(root, inputs, budget.model);

  std::vector<bool> used(inputs.size(), !formulas);
  NameSet names("result");
  for (TomlTable& table : tables) {
    budget.results.push_back(resultHead(table));
    BudgetResult& result = budget.results.back();
    names.add(result.name, table.at("name"), problems);
    const auto stated = table.maybeNumber("value");
    if (table.has("formula")) {
      readFormula(table, result, inputs, used);
    } else if (&table == &tables.front()) {
      result.measurement = sumModel(budget.model, inputs, stated);
    } else {
      table.problem("formula", "is missing", "further results are formulas of the inputs");
    }
    table.finish();
  }
  if (!formulas && tables.size() > 1) {
    tables.front().problem("formula", "is missing", "a budget of several results needs a formula for each");
  }
  reportUnused(budget, inputs, used, problems);
  root.finish();
  problems.throwIfAny();
  return budget;
}

}  // namespace spanwright
