// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

#include "core/metrology/budget_model.h"

namespace spanwright {

std::optional<double> readingsCorrelation(std::span<const double> first, std::span<const double> second) {
  assert(first.size() == second.size() && first.size() >= 2);
  const double meanFirst = summarise(first).mean;
  const double meanSecond = summarise(second).mean;
  double squaresFirst = 0.0;
  double squaresSecond = 0.0;
  double products = 0.0;
  for (std::size_t i = 0; i < first.size(); ++i) {
    squaresFirst += (first[i] - meanFirst) * (first[i] - meanFirst);
    squaresSecond += (second[i] - meanSecond) * (second[i] - meanSecond);
    products += (first[i] - meanFirst) * (second[i] - meanSecond);
  }
  const double scale = std::sqrt(squaresFirst) * std::sqrt(squaresSecond);
  if (!(scale > 0.0)) {
    return std::nullopt;
  }
  return std::clamp(products / scale, -1.0, 1.0);  // rounding only: Cauchy-Schwarz holds
}

std::optional<std::vector<std::vector<double>>> correlationRoot(const BudgetModel& model) {
  constexpr double kSlack = 1e-9;
  const std::size_t n = model.inputs.size();
  std::vector<std::vector<double>> matrix(n, std::vector<double>(n, 0.0));
  for (std::size_t i = 0; i < n; ++i) {
    matrix[i][i] = 1.0;
  }
  for (const Correlation& each : model.correlations) {
    matrix[each.first][each.second] = matrix[each.second][each.first] = each.coefficient;
  }
  std::vector<std::vector<double>> root(n, std::vector<double>(n, 0.0));
  for (std::size_t j = 0; j < n; ++j) {
    double pivot = matrix[j][j];
    for (std::size_t k = 0; k < j; ++k) {
      pivot -= root[j][k] * root[j][k];
    }
    if (pivot < -kSlack) {
      return std::nullopt;
    }
    const bool dependent = pivot <= kSlack;
    root[j][j] = dependent ? 0.0 : std::sqrt(pivot);
    for (std::size_t i = j + 1; i < n; ++i) {
      double rest = matrix[i][j];
      for (std::size_t k = 0; k < j; ++k) {
        rest -= root[i][k] * root[j][k];
      }
      // An input that follows wholly from earlier ones leaves nothing to agree or disagree about.
      if (dependent && std::abs(rest) > std::sqrt(kSlack)) {
        return std::nullopt;
      }
      root[i][j] = dependent ? 0.0 : rest / root[j][j];
    }
  }
  return root;
}

std::vector<std::size_t> correlatedGroups(const BudgetModel& model) {
  std::vector<std::size_t> group(model.inputs.size());
  std::iota(group.begin(), group.end(), std::size_t{0});
  for (const Correlation& each : model.correlations) {
    if (each.coefficient != 0.0) {
      const std::size_t kept = group[each.first];
      const std::size_t joined = group[each.second];
      std::replace(group.begin(), group.end(), joined, kept);
    }
  }
  return group;
}

double resultCorrelation(const BudgetModel& model, const ModelBudget& first, const ModelBudget& second) {
  assert(first.lines.size() == model.inputs.size() && second.lines.size() == model.inputs.size());
  const auto part = [](const ModelBudget& budget, std::size_t i) {
    return budget.lines[i].sensitivity * budget.lines[i].standardUncertainty / budget.firstOrder;
  };
  double sum = 0.0;
  for (std::size_t i = 0; i < model.inputs.size(); ++i) {
    sum += part(first, i) * part(second, i);
  }
  for (const Correlation& each : model.correlations) {
    sum += each.coefficient * (part(first, each.first) * part(second, each.second) +
                               part(first, each.second) * part(second, each.first));
  }
  return std::clamp(sum, -1.0, 1.0);  // rounding only
}

}  // namespace spanwright
