// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/monte_carlo.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <optional>
#include <span>
#include <tuple>
#include <utility>
#include <vector>

#include "core/metrology/draws.h"

namespace spanwright {
namespace {

constexpr std::size_t kFewestBlocks = 10;

bool drawnAsStudent(const ModelInput& input) {
  return (input.shape == InputShape::normal || input.shape == InputShape::student) &&
         std::isfinite(input.degreesOfFreedom);
}

/// Draws whole sets of inputs.
class Sampler {
 public:
  Sampler(const BudgetModel& model, std::uint64_t seed)
      : model_(model), draws_(seed), correlated_(model.inputs.size(), false) {
    for (const Correlation& each : model.correlations) {
      correlated_[each.first] = correlated_[each.second] = true;
    }
    if (!model.correlations.empty()) {
      root_ = *correlationRoot(model);
    }
    independent_.resize(model.inputs.size());
  }

  std::optional<BudgetFault> fault() const {
    for (std::size_t i = 0; i < model_.inputs.size(); ++i) {
      const ModelInput& input = model_.inputs[i];
      const bool bell = input.shape == InputShape::normal || input.shape == InputShape::student;
      if (correlated_[i] && !bell) {
        return BudgetFault{i,
                           "\"" + input.name + "\" is correlated and " + std::string(text(input.shape)) +
                               "; correlated inputs can be drawn as normal ones only",
                           "leave --monte-carlo out, or state the common cause as an input of its own"};
      }
      if (!correlated_[i] && input.standardUncertainty > 0.0 && drawnAsStudent(input) &&
          input.degreesOfFreedom <= 2.0) {
        return BudgetFault{i,
                           "\"" + input.name +
                               "\" has two degrees of freedom or fewer, and a t distribution then has no "
                               "standard deviation to simulate",
                           "take at least four readings, use a pooled standard deviation, or leave "
                           "--monte-carlo out"};
      }
    }
    return std::nullopt;
  }

  void next(std::vector<double>& values) {
    const std::size_t n = model_.inputs.size();
    for (std::size_t i = 0; i < n; ++i) {
      independent_[i] = correlated_[i] ? draws_.normal() : 0.0;
    }
    for (std::size_t i = 0; i < n; ++i) {
      const ModelInput& input = model_.inputs[i];
      values[i] = input.value;
      if (input.standardUncertainty > 0.0) {
        values[i] += input.standardUncertainty * (correlated_[i] ? joint(i) : alone(input));
      }
    }
  }

 private:
  double joint(std::size_t i) const {
    double sum = 0.0;
    for (std::size_t j = 0; j <= i; ++j) {
      sum += root_[i][j] * independent_[j];
    }
    return sum;
  }
  /// One draw in units of the standard uncertainty.
  double alone(const ModelInput& input) {
    switch (input.shape) {
      case InputShape::rectangular:
        return std::sqrt(3.0) * draws_.rectangular();
      case InputShape::triangular:
        return std::sqrt(6.0) * draws_.triangular();
      case InputShape::arcsine:
        return std::sqrt(2.0) * draws_.arcsine();
      case InputShape::normal:
      case InputShape::student:
        break;
    }
    return drawnAsStudent(input) ? draws_.student(input.degreesOfFreedom) : draws_.normal();
  }

  const BudgetModel& model_;
  Draws draws_;
  std::vector<bool> correlated_;
  std::vector<std::vector<double>> root_;
  std::vector<double> independent_;
};

struct Summary {
  double mean = 0.0;
  double deviation = 0.0;
  CoverageInterval symmetric;
};

/// JCGM 101 7.6. `about`: any number near the mean, against cancellation.
std::pair<double, double> meanAndDeviation(std::span<const double> values, double about) {
  const auto n = static_cast<double>(values.size());
  double sum = 0.0;
  for (const double value : values) {
    sum += value - about;
  }
  const double mean = about + sum / n;
  double squares = 0.0;
  for (const double value : values) {
    squares += (value - mean) * (value - mean);
  }
  return {mean, std::sqrt(squares / (n - 1.0))};
}

/// Places, from 0 among the sorted values, of an interval's ends: 7.7.2 counts q = pM (rounded) steps from
/// the low end to the high one, and for the symmetric interval begins at r = (M - q)/2, counted from 1.
struct Places {
  std::size_t low = 0;
  std::size_t span = 0;
};
Places symmetricPlaces(std::size_t trials, double probability) {
  const auto span = static_cast<std::size_t>(std::llround(probability * static_cast<double>(trials)));
  const std::size_t steps = std::min(span, trials - 1);
  const std::size_t begin = std::max<std::size_t>((trials - steps + 1) / 2, 1);
  return {begin - 1, steps};
}

Summary summaryOf(std::vector<double>& block, double about, double probability) {
  Summary summary;
  std::tie(summary.mean, summary.deviation) = meanAndDeviation(block, about);
  const Places places = symmetricPlaces(block.size(), probability);
  const auto low = block.begin() + static_cast<std::ptrdiff_t>(places.low);
  const auto high = low + static_cast<std::ptrdiff_t>(places.span);
  std::nth_element(block.begin(), low, block.end());
  std::nth_element(low + 1, high, block.end());
  summary.symmetric = {*low, *high};
  return summary;
}

/// Standard deviation of all draws, from those of their blocks of `perBlock`.
double deviationOf(const std::vector<Summary>& blocks, std::size_t perBlock) {
  const auto size = static_cast<double>(perBlock);
  const auto count = static_cast<double>(blocks.size());
  double mean = 0.0;
  for (const Summary& each : blocks) {
    mean += each.mean / count;
  }
  double squares = 0.0;
  for (const Summary& each : blocks) {
    squares +=
        (size - 1.0) * each.deviation * each.deviation + size * (each.mean - mean) * (each.mean - mean);
  }
  return std::sqrt(squares / (size * count - 1.0));
}

/// Twice the standard deviation of the average of the blocks' figures, the largest of the four (7.9.4 g, h).
double unsteadiness(const std::vector<Summary>& blocks) {
  const auto figures = [](const Summary& each) {
    return std::array{each.mean, each.deviation, each.symmetric.low, each.symmetric.high};
  };
  double worst = 0.0;
  for (std::size_t k = 0; k < 4; ++k) {
    std::vector<double> column;
    column.reserve(blocks.size());
    for (const Summary& each : blocks) {
      column.push_back(figures(each)[k]);
    }
    const double deviation = meanAndDeviation(column, column.front()).second;
    worst = std::max(worst, 2.0 * deviation / std::sqrt(static_cast<double>(column.size())));
  }
  return worst;
}

CoverageInterval shortest(const std::vector<double>& sorted, std::size_t span) {
  std::size_t best = 0;
  for (std::size_t r = 0; r + span < sorted.size(); ++r) {
    if (sorted[r + span] - sorted[r] < sorted[best + span] - sorted[best]) {
      best = r;
    }
  }
  return {sorted[best], sorted[best + span]};
}

void conclude(std::vector<double>& all, const ModelBudget& gum, const MonteCarloOptions& options,
              MonteCarloResult& result) {
  std::sort(all.begin(), all.end());
  std::tie(result.value, result.standardUncertainty) = meanAndDeviation(all, gum.value);
  const Places places = symmetricPlaces(all.size(), gum.probability);
  result.trials = all.size();
  result.probability = gum.probability;
  result.symmetric = {all[places.low], all[places.low + places.span]};
  result.shortest = shortest(all, places.span);
  result.tolerance = numericalTolerance(result.standardUncertainty, options.digits);
  result.differenceLow = std::abs(gum.value - gum.expanded - result.symmetric.low);
  result.differenceHigh = std::abs(gum.value + gum.expanded - result.symmetric.high);
  result.validated = result.stabilised && result.differenceLow <= result.tolerance &&
                     result.differenceHigh <= result.tolerance;
}

}  // namespace

double numericalTolerance(double standardUncertainty, int digits) {
  assert(standardUncertainty > 0.0 && std::isfinite(standardUncertainty) && digits >= 1);
  int exponent = static_cast<int>(std::floor(std::log10(standardUncertainty))) - digits + 1;
  // Rounding may carry into another digit: 9.96 to two digits is 10 x 10^0.
  if (std::round(standardUncertainty / std::pow(10.0, exponent)) >= std::pow(10.0, digits)) {
    ++exponent;
  }
  return 0.5 * std::pow(10.0, exponent);
}

std::variant<MonteCarloResult, BudgetFault> monteCarlo(const BudgetModel& model,
                                                       const ModelFunction& function, const ModelBudget& gum,
                                                       const MonteCarloOptions& options) {
  assert(options.digits >= 1 && options.maximumTrials >= 200'000);
  Sampler sampler(model, options.seed);
  if (auto fault = sampler.fault()) {
    return *std::move(fault);
  }
  const double wanted = std::ceil(100.0 / (1.0 - gum.probability));
  const auto perBlock =
      static_cast<std::size_t>(std::clamp(wanted, 1e4, static_cast<double>(options.maximumTrials) / 20.0));
  std::vector<double> all, block(perBlock), values(model.inputs.size());
  std::vector<Summary> blocks;
  MonteCarloResult result;
  while (!result.stabilised && all.size() + perBlock <= options.maximumTrials) {
    for (double& one : block) {
      sampler.next(values);
      one = function(values);
      if (!std::isfinite(one)) {
        return BudgetFault{std::nullopt, "the model has no value for some of the values its inputs can take",
                           "narrow the distributions, or leave --monte-carlo out"};
      }
    }
    all.insert(all.end(), block.begin(), block.end());
    blocks.push_back(summaryOf(block, gum.value, gum.probability));
    if (blocks.size() >= kFewestBlocks) {
      const double deviation = deviationOf(blocks, perBlock);
      result.stabilised =
          deviation > 0.0 && unsteadiness(blocks) <= numericalTolerance(deviation, options.digits) / 5.0;
    }
  }
  if (!(deviationOf(blocks, perBlock) > 0.0)) {
    return BudgetFault{std::nullopt, "the model gives the same result for all values its inputs can take",
                       "check the formula"};
  }
  conclude(all, gum, options, result);
  return result;
}

}  // namespace spanwright
