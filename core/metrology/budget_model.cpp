// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/budget_model.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <cassert>
#include <cmath>
#include <numeric>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/metrology/derivatives.h"
#include "core/metrology/second_order.h"

namespace spanwright {
namespace {

constexpr double kShownTo = 1e-6;   ///< relative accuracy of u_c that numerical derivatives must allow
constexpr double kDominance = 0.3;  ///< all other contributions, as a share of a dominant one

std::optional<BudgetFault> faultOf(const ModelInput& input, std::size_t index) {
  if (!std::isfinite(input.value)) {
    return BudgetFault{index, "the value of \"" + input.name + "\" is not a finite number",
                       "give its best estimate"};
  }
  if (!std::isfinite(input.standardUncertainty) || input.standardUncertainty < 0.0) {
    return BudgetFault{index, "the standard uncertainty of \"" + input.name + "\" is negative or not finite",
                       "give a number from zero up"};
  }
  if (!(input.degreesOfFreedom > 0.0)) {
    return BudgetFault{index, "the degrees of freedom of \"" + input.name + "\" are not above zero",
                       "give a positive number, or leave them out when they are infinite"};
  }
  return std::nullopt;
}

std::optional<BudgetFault> faultOf(const BudgetModel& model) {
  if (model.inputs.empty()) {
    return BudgetFault{std::nullopt, "the budget has no input", "add at least one"};
  }
  for (std::size_t i = 0; i < model.inputs.size(); ++i) {
    if (auto fault = faultOf(model.inputs[i], i)) {
      return fault;
    }
  }
  std::set<std::pair<std::size_t, std::size_t>> seen;
  for (const Correlation& each : model.correlations) {
    assert(each.first < model.inputs.size() && each.second < model.inputs.size());
    std::string pair = "the correlation of \"";
    pair.append(model.inputs[each.first].name).append("\" and \"");
    pair.append(model.inputs[each.second].name).append("\" ");
    if (!(std::abs(each.coefficient) <= 1.0)) {
      return BudgetFault{each.first, pair + "is not between -1 and 1",
                         "give a coefficient, not a covariance"};
    }
    if (each.first == each.second) {
      return BudgetFault{each.first, pair + "is of an input with itself", "name two inputs"};
    }
    if (!seen.insert(std::minmax(each.first, each.second)).second) {
      return BudgetFault{each.first, pair + "is given twice", "keep one of them"};
    }
    for (const std::size_t i : {each.first, each.second}) {
      if (model.inputs[i].standardUncertainty == 0.0) {
        return BudgetFault{i, pair + "concerns an input taken as exact",
                           "take the correlation out, or give both inputs an uncertainty"};
      }
    }
  }
  if (!correlationRoot(model)) {
    return BudgetFault{std::nullopt,
                       "the correlations cannot all be true together (their matrix is not positive "
                       "semidefinite)",
                       "check the coefficients and their signs, and give them with more digits"};
  }
  return std::nullopt;
}

std::optional<BudgetFault> faultOf(const CoverageRule& rule) {
  const double probability = coverageProbability(rule);
  if (!(probability > 0.0 && probability < 1.0)) {
    return BudgetFault{std::nullopt, "the coverage probability is not between 0 and 1", "write 95 % as 0.95"};
  }
  if (rule.method == CoverageMethod::given && !(rule.factor > 0.0 && std::isfinite(rule.factor))) {
    return BudgetFault{std::nullopt, "the coverage factor is not above zero", "give a factor such as 2"};
  }
  return std::nullopt;
}

std::variant<std::vector<ModelLine>, BudgetFault> linesOf(const BudgetModel& model,
                                                          const MeasurementModel& measurement,
                                                          const std::vector<double>& values) {
  std::vector<ModelLine> lines;
  for (std::size_t i = 0; i < model.inputs.size(); ++i) {
    const ModelInput& input = model.inputs[i];
    Derivative slope;
    if (!measurement.sensitivities.empty()) {
      slope.value = measurement.sensitivities[i];
    } else {
      std::vector<double> at = values;
      const auto along = [&](double x) {
        at[i] = x;
        return measurement.function(at);
      };
      double scale = input.standardUncertainty;
      if (!(scale > 0.0)) {
        scale = input.value != 0.0 ? 1e-3 * std::abs(input.value) : 1e-3;
      }
      const auto found = derivative(along, input.value, scale);
      if (!found) {
        return BudgetFault{i,
                           "the model has no derivative with respect to \"" + input.name + "\" at its value",
                           "check the value: the model must be smooth on both sides of it"};
      }
      slope = *found;
    }
    if (!std::isfinite(slope.value)) {
      return BudgetFault{i, "the sensitivity to \"" + input.name + "\" is not a finite number",
                         "check the line"};
    }
    lines.push_back({input.name, input.value, input.standardUncertainty, input.degreesOfFreedom, slope.value,
                     slope.error, slope.jump, std::abs(slope.value) * input.standardUncertainty});
  }
  return lines;
}

double signedContribution(const ModelLine& line) {
  return line.sensitivity * line.standardUncertainty;
}

/// GUM 5.2.2 eq. 16, group by group: correlated inputs together, independent ones on their own.
std::vector<double> groupVariances(const BudgetModel& model, const std::vector<ModelLine>& lines) {
  const std::vector<std::size_t> groups = correlatedGroups(model);
  std::vector<double> variances(lines.size(), 0.0);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    variances[groups[i]] += lines[i].contribution * lines[i].contribution;
  }
  for (const Correlation& each : model.correlations) {
    variances[groups[each.first]] += 2.0 * each.coefficient * signedContribution(lines[each.first]) *
                                     signedContribution(lines[each.second]);
  }
  return variances;
}

double effectiveDegrees(const BudgetModel& model, const std::vector<double>& variances, double combined) {
  const std::vector<std::size_t> groups = correlatedGroups(model);
  std::vector<double> degrees(variances.size(), std::numeric_limits<double>::infinity());
  for (std::size_t i = 0; i < groups.size(); ++i) {
    degrees[groups[i]] = std::min(degrees[groups[i]], model.inputs[i].degreesOfFreedom);
  }
  double inverse = 0.0;
  for (std::size_t g = 0; g < variances.size(); ++g) {
    const double share = variances[g] / combined / combined;
    inverse += share * share / degrees[g];
  }
  return inverse > 0.0 ? 1.0 / inverse : std::numeric_limits<double>::infinity();
}

std::optional<std::size_t> dominantLine(const std::vector<ModelLine>& lines) {
  const auto largest = std::max_element(
      lines.begin(), lines.end(),
      [](const ModelLine& a, const ModelLine& b) { return a.contribution < b.contribution; });
  double others = 0.0;
  for (const ModelLine& line : lines) {
    if (&line != &*largest) {
      others = std::hypot(others, line.contribution);
    }
  }
  if (largest->contribution > 0.0 && others <= kDominance * largest->contribution) {
    return static_cast<std::size_t>(largest - lines.begin());
  }
  return std::nullopt;
}

std::optional<BudgetFault> cover(const BudgetModel& model, const CoverageRule& rule, ModelBudget& budget) {
  budget.probability = coverageProbability(rule);
  budget.usedDegreesOfFreedom = budget.degreesOfFreedom;
  switch (rule.method) {
    case CoverageMethod::given:
      budget.coverageFactor = rule.factor;
      break;
    case CoverageMethod::dominantRectangular: {
      const bool rectangularRules = budget.dominant && model.correlations.empty() &&
                                    model.inputs[*budget.dominant].shape == InputShape::rectangular;
      if (!rectangularRules) {
        return BudgetFault{std::nullopt,
                           "no rectangular line governs this budget: all others together must be at most "
                           "0.3 of it",
                           "leave dominant_rectangular out"};
      }
      budget.coverageFactor = budget.probability * std::sqrt(3.0);
      break;
    }
    case CoverageMethod::student:
      if (rule.truncate && std::isfinite(budget.degreesOfFreedom)) {
        // A whole number stays one in spite of rounding.
        budget.usedDegreesOfFreedom = std::floor(budget.degreesOfFreedom * (1.0 + 1e-12));
        if (budget.usedDegreesOfFreedom < 1.0) {
          return BudgetFault{std::nullopt,
                             "the effective degrees of freedom are below one and cannot be cut to a whole "
                             "number",
                             "use them as computed, or find out more about the largest line"};
        }
      }
      budget.coverageFactor = studentFactor(budget.probability, budget.usedDegreesOfFreedom);
      break;
  }
  budget.expanded = budget.coverageFactor * budget.combined;
  if (!std::isfinite(budget.expanded)) {
    return BudgetFault{std::nullopt, "the expanded uncertainty is larger than a number can be",
                       "find out more about the line with the fewest degrees of freedom"};
  }
  return std::nullopt;
}

std::optional<BudgetFault> tooRough(const std::vector<ModelLine>& lines, double combined) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const double error = lines[i].sensitivityError * lines[i].standardUncertainty;
    const bool matters = lines[i].standardUncertainty > 0.0;
    if (matters && std::max(error, lines[i].jump) > kShownTo * combined) {
      return BudgetFault{
          i,
          "the model is not smooth enough at its inputs to tell the sensitivity to \"" + lines[i].name + "\"",
          "write the model without jumps and corners there, or give sensitivities instead"};
    }
  }
  return std::nullopt;
}

std::optional<BudgetFault> addSecondOrder(const BudgetModel& model, const ModelFunction& function,
                                          ModelBudget& budget) {
  if (!model.correlations.empty()) {
    return BudgetFault{std::nullopt, "second-order terms hold for independent inputs only",
                       "leave second_order out, or the correlations"};
  }
  auto terms = secondOrderTerms(function, budget.lines);
  if (auto* fault = std::get_if<BudgetFault>(&terms)) {
    return std::move(*fault);
  }
  budget.secondOrder = std::get<std::vector<SecondOrderTerm>>(std::move(terms));
  double variance = budget.firstOrder * budget.firstOrder;
  for (const SecondOrderTerm& term : budget.secondOrder) {
    variance += term.variance;
  }
  if (!(variance > 0.0) || !std::isfinite(variance)) {
    return BudgetFault{std::nullopt, "the second-order terms leave no variance: the series is of no use here",
                       "leave second_order out and use --monte-carlo"};
  }
  budget.combined = std::sqrt(variance);
  return std::nullopt;
}

}  // namespace

std::string_view text(InputShape shape) {
  switch (shape) {
    case InputShape::normal:
      return "normal";
    case InputShape::student:
      return "t";
    case InputShape::rectangular:
      return "rectangular";
    case InputShape::triangular:
      return "triangular";
    case InputShape::arcsine:
      return "U-shaped";
  }
  return "";
}

double coverageProbability(const CoverageRule& rule) {
  return rule.probability.value_or(std::erf(std::sqrt(2.0)));
}

double studentFactor(double probability, double degreesOfFreedom) {
  using boost::math::complement;
  using boost::math::quantile;
  using namespace boost::math::policies;
  if (!(probability > 0.0 && probability < 1.0)) {
    throw std::invalid_argument("the coverage probability must be between 0 and 1");
  }
  if (!(degreesOfFreedom > 0.0)) {
    throw std::invalid_argument("the degrees of freedom must be above zero");
  }
  const double tail = (1.0 - probability) / 2.0;
  // Above this the t quantile equals the normal one to all digits a double has.
  if (degreesOfFreedom > 1e16) {
    return quantile(complement(boost::math::normal_distribution<double>(), tail));
  }
  using Quiet = policy<overflow_error<ignore_error>>;
  return quantile(complement(boost::math::students_t_distribution<double, Quiet>(degreesOfFreedom), tail));
}

double degreesOfFreedomFrom(double relativeUncertainty) {
  assert(relativeUncertainty > 0.0);
  return 0.5 / (relativeUncertainty * relativeUncertainty);
}

ReadingsSummary summarise(std::span<const double> readings) {
  assert(readings.size() >= 2);
  const auto n = static_cast<double>(readings.size());
  ReadingsSummary result;
  // From the first reading on, so that readings alike in their leading digits lose none of the others.
  double sum = 0.0;
  for (const double reading : readings) {
    sum += reading - readings.front();
  }
  result.mean = readings.front() + sum / n;
  double squares = 0.0;
  for (const double reading : readings) {
    squares += (reading - result.mean) * (reading - result.mean);
  }
  result.degreesOfFreedom = n - 1.0;
  result.standardUncertainty = std::sqrt(squares / (n - 1.0) / n);
  return result;
}

std::variant<ModelBudget, BudgetFault> evaluate(const BudgetModel& model, const MeasurementModel& measurement,
                                                const CoverageRule& coverage, bool secondOrder) {
  assert(measurement.sensitivities.empty() || measurement.sensitivities.size() == model.inputs.size());
  if (auto fault = faultOf(model)) {
    return *std::move(fault);
  }
  if (auto fault = faultOf(coverage)) {
    return *std::move(fault);
  }
  std::vector<double> values;
  values.reserve(model.inputs.size());
  for (const ModelInput& input : model.inputs) {
    values.push_back(input.value);
  }
  ModelBudget budget;
  budget.value = measurement.function(values);
  if (!std::isfinite(budget.value)) {
    return BudgetFault{std::nullopt, "the model has no value at its inputs' values",
                       "check for a division by zero, a root of a negative number, a wrong sign"};
  }
  auto lines = linesOf(model, measurement, values);
  if (auto* fault = std::get_if<BudgetFault>(&lines)) {
    return std::move(*fault);
  }
  budget.lines = std::get<std::vector<ModelLine>>(std::move(lines));
  const std::vector<double> variances = groupVariances(model, budget.lines);
  double size = 0.0;
  for (const ModelLine& line : budget.lines) {
    size = std::hypot(size, line.contribution);
  }
  const double variance = std::accumulate(variances.begin(), variances.end(), 0.0);
  if (!std::isfinite(variance) || !(variance > 1e-14 * size * size)) {
    return BudgetFault{std::nullopt, "nothing contributes to the uncertainty, or all of it cancels",
                       "give at least one input an uncertainty, and check the correlations"};
  }
  budget.firstOrder = budget.combined = std::sqrt(variance);
  if (auto fault = tooRough(budget.lines, budget.firstOrder)) {
    return *std::move(fault);
  }
  if (secondOrder) {
    if (auto fault = addSecondOrder(model, measurement.function, budget)) {
      return *std::move(fault);
    }
  }
  budget.degreesOfFreedom = effectiveDegrees(model, variances, budget.combined);
  budget.dominant = dominantLine(budget.lines);
  if (auto fault = cover(model, coverage, budget)) {
    return *std::move(fault);
  }
  return budget;
}

}  // namespace spanwright
