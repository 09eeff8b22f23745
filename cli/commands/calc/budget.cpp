// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <ostream>
#include <utility>
#include <variant>
#include <vector>

#include "cli/commands/calc/calculations.h"
#include "cli/common.h"
#include "cli/table.h"
#include "core/metrology/budget_model.h"
#include "core/metrology/monte_carlo.h"
#include "core/units/number.h"
#include "importers/budget_file.h"

namespace spanwright {
namespace {

/// Digits after the point that show `uncertainty` to `digits` significant digits.
int decimalsTo(double uncertainty, int digits) {
  return std::max(0, digits - 1 - static_cast<int>(std::floor(std::log10(uncertainty))));
}

std::string withUnit(const std::string& number, const std::string& unit) {
  return unit.empty() ? number : number + " " + unit;
}

std::string degreesText(double degrees) {
  return std::isfinite(degrees) ? formatShortest(std::round(10.0 * degrees) / 10.0) : "infinite";
}

std::string percentText(double probability) {
  return formatShortest(std::round(1e4 * probability) / 100.0);
}

struct Outcome {
  ModelBudget budget;
  std::optional<MonteCarloResult> simulated;
};

class BudgetCalculation : public Calculation {
 public:
  std::string name() const override { return "budget"; }
  std::string description() const override { return "uncertainty of a result from a budget file"; }

  void declare(CLI::App& app) override {
    app.add_option("BUDGET", file_, "the budget file (TOML)")->required();
    auto* simulate = app.add_flag("--monte-carlo", simulate_, "check by a Monte Carlo method (JCGM 101)");
    app.add_option("--seed", options_.seed, "of the random numbers (default 1)")->needs(simulate);
    app.add_option("--digits", options_.digits, "significant digits of u that matter, 1 to 4 (default 2)")
        ->check(CLI::Range(1, 4))
        ->needs(simulate);
    app.add_option("--trials", options_.maximumTrials, "at most so many trials (default 10000000)")
        ->check(CLI::Range(std::size_t{200'000}, std::size_t{1'000'000'000}))
        ->needs(simulate);
  }

  int execute(const Surroundings& surroundings, bool json) override {
    const BudgetFile file = readBudgetFile(file_);
    std::vector<Outcome> outcomes;
    for (const BudgetResult& result : file.results) {
      Outcome outcome{
          orRefuse(evaluate(file.model, result.measurement, file.coverage, file.secondOrder), file, result),
          std::nullopt};
      if (simulate_) {
        outcome.simulated = orRefuse(
            monteCarlo(file.model, result.measurement.function, outcome.budget, options_), file, result);
      }
      outcomes.push_back(std::move(outcome));
    }
    json ? printDocument(surroundings, file, outcomes) : printTables(surroundings, file, outcomes);
    return kDone;
  }

 private:
  template <typename T>
  static T orRefuse(std::variant<T, BudgetFault> answer, const BudgetFile& file, const BudgetResult& result) {
    if (const auto* fault = std::get_if<BudgetFault>(&answer)) {
      throw InputError({file.problem(*fault, result)});
    }
    return std::get<T>(std::move(answer));
  }

  static Json lineJson(const BudgetFile& file, const ModelBudget& budget, std::size_t i) {
    const ModelLine& line = budget.lines[i];
    return {{"name", line.name},
            {"value", line.value},
            {"unit", file.units[i]},
            {"distribution", text(file.model.inputs[i].shape)},
            {"standard_uncertainty", line.standardUncertainty},
            {"degrees_of_freedom", orNull(line.degreesOfFreedom)},
            {"sensitivity", line.sensitivity},
            {"contribution", line.contribution}};
  }

  Json simulatedJson(const MonteCarloResult& result) const {
    return {{"trials", result.trials},
            {"seed", options_.seed},
            {"digits", options_.digits},
            {"stabilised", result.stabilised},
            {"value", result.value},
            {"standard_uncertainty", result.standardUncertainty},
            {"probability", result.probability},
            {"symmetric_interval", {result.symmetric.low, result.symmetric.high}},
            {"shortest_interval", {result.shortest.low, result.shortest.high}},
            {"numerical_tolerance", result.tolerance},
            {"difference_low", result.differenceLow},
            {"difference_high", result.differenceHigh},
            {"validated", result.validated}};
  }

  Json resultJson(const BudgetFile& file, std::size_t which, const Outcome& outcome) const {
    const ModelBudget& budget = outcome.budget;
    Json document = {{"name", file.results[which].name},
                     {"unit", file.results[which].unit},
                     {"value", budget.value},
                     {"combined", budget.combined},
                     {"degrees_of_freedom", orNull(budget.degreesOfFreedom)},
                     {"used_degrees_of_freedom", orNull(budget.usedDegreesOfFreedom)},
                     {"probability", budget.probability},
                     {"coverage_factor", budget.coverageFactor},
                     {"expanded", budget.expanded}};
    Json lines = Json::array();
    for (std::size_t i = 0; i < budget.lines.size(); ++i) {
      lines.push_back(lineJson(file, budget, i));
    }
    document["lines"] = std::move(lines);
    if (file.secondOrder) {
      document["first_order"] = budget.firstOrder;
      Json terms = Json::array();
      for (const SecondOrderTerm& term : budget.secondOrder) {
        terms.push_back({{"inputs", {budget.lines[term.first].name, budget.lines[term.second].name}},
                         {"variance", term.variance}});
      }
      document["second_order"] = std::move(terms);
    }
    if (outcome.simulated) {
      document["monte_carlo"] = simulatedJson(*outcome.simulated);
    }
    return document;
  }

  void printDocument(const Surroundings& surroundings, const BudgetFile& file,
                     const std::vector<Outcome>& outcomes) const {
    Json document = resultJson(file, 0, outcomes.front());
    if (!file.title.empty()) {
      document["title"] = file.title;
    }
    if (outcomes.size() > 1) {
      Json also = Json::array();
      Json correlations = Json::array();
      for (std::size_t i = 0; i < outcomes.size(); ++i) {
        if (i > 0) {
          also.push_back(resultJson(file, i, outcomes[i]));
        }
        for (std::size_t j = i + 1; j < outcomes.size(); ++j) {
          correlations.push_back(
              {{"results", {file.results[i].name, file.results[j].name}},
               {"coefficient", resultCorrelation(file.model, outcomes[i].budget, outcomes[j].budget)}});
        }
      }
      document["also"] = std::move(also);
      document["result_correlations"] = std::move(correlations);
    }
    printJson(surroundings, document);
  }

  static void printLines(const Surroundings& surroundings, const BudgetFile& file, const ModelBudget& budget,
                         const std::string& unit) {
    Table table({{"input"},
                 {"value", kRight},
                 {"unit"},
                 {"distribution"},
                 {"std. uncertainty", kRight},
                 {"degrees", kRight},
                 {"sensitivity", kRight},
                 {unit.empty() ? "contribution" : "contribution (" + unit + ")", kRight}});
    for (std::size_t i = 0; i < budget.lines.size(); ++i) {
      const ModelLine& line = budget.lines[i];
      const bool exact = line.standardUncertainty == 0.0;
      table.add({line.name, formatShortest(line.value), file.units[i],
                 exact ? "exact" : std::string(text(file.model.inputs[i].shape)),
                 exact ? "" : formatSignificant(line.standardUncertainty, 3),
                 exact ? "" : degreesText(line.degreesOfFreedom), formatSignificant(line.sensitivity, 4),
                 exact ? "" : formatSignificant(line.contribution, 3)});
    }
    table.print(surroundings.out);
  }

  void printSimulated(const Surroundings& surroundings, const MonteCarloResult& result,
                      const std::string& unit) const {
    const int decimals = decimalsTo(result.standardUncertainty, options_.digits + 1);
    const auto shown = [&](double value) { return withUnit(formatFixed(value, decimals), unit); };
    surroundings.out << fmt::format(
        "Monte Carlo, {} trials, seed {}: {}, standard uncertainty {}\n"
        "  {} % interval, symmetric {} to {}, shortest {} to {}\n",
        result.trials, options_.seed, shown(result.value), shown(result.standardUncertainty),
        percentText(result.probability), shown(result.symmetric.low), shown(result.symmetric.high),
        shown(result.shortest.low), shown(result.shortest.high));
    if (!result.stabilised) {
      surroundings.out << fmt::format(
          "  Not steady to {} significant digits: allow more --trials or ask for fewer --digits.\n",
          options_.digits);
    }
    surroundings.out << fmt::format(
        "  Ends of the budget's interval differ by {} and {}; {} is allowed: the budget is {}.\n",
        withUnit(formatSignificant(result.differenceLow, 2), unit),
        withUnit(formatSignificant(result.differenceHigh, 2), unit),
        withUnit(formatSignificant(result.tolerance, 2), unit),
        result.validated ? "validated" : "not validated; use the simulated interval");
  }

  void printTables(const Surroundings& surroundings, const BudgetFile& file,
                   const std::vector<Outcome>& outcomes) const {
    if (!file.title.empty()) {
      surroundings.out << file.title << "\n\n";
    }
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
      const ModelBudget& budget = outcomes[i].budget;
      const std::string& unit = file.results[i].unit;
      printLines(surroundings, file, budget, unit);
      const int decimals = decimalsTo(budget.combined, 2);
      surroundings.out << fmt::format(
          "{} = {}\n"
          "combined standard uncertainty {}, effective degrees of freedom {}\n"
          "expanded uncertainty {} (k = {}{})\n",
          file.results[i].name, withUnit(formatFixed(budget.value, decimals), unit),
          withUnit(formatFixed(budget.combined, decimals), unit), degreesText(budget.degreesOfFreedom),
          withUnit(formatFixed(budget.expanded, decimals), unit), formatFixed(budget.coverageFactor, 2),
          file.coverage.method == CoverageMethod::given
              ? ", as stated"
              : fmt::format(", {} %", percentText(budget.probability)));
      if (file.secondOrder) {
        surroundings.out << fmt::format("of first order alone {}\n",
                                        withUnit(formatFixed(budget.firstOrder, decimals), unit));
      }
      if (outcomes[i].simulated) {
        printSimulated(surroundings, *outcomes[i].simulated, unit);
      }
      for (std::size_t j = 0; j < i; ++j) {
        surroundings.out << fmt::format(
            "correlation with {}: {}\n", file.results[j].name,
            formatFixed(resultCorrelation(file.model, outcomes[j].budget, budget), 3));
      }
      surroundings.out << (i + 1 < outcomes.size() ? "\n" : "");
    }
  }

  std::string file_;
  bool simulate_ = false;
  MonteCarloOptions options_;
};

}  // namespace

std::unique_ptr<Calculation> budgetCalculation() {
  return std::make_unique<BudgetCalculation>();
}

}  // namespace spanwright
