// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/linear_program.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <random>

namespace spanwright {

namespace {

constexpr double kSlack = 1e-12;

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    sum += a[i] * b[i];
  }
  return sum;
}

std::size_t largest(const std::vector<double>& values) {
  std::size_t at = 0;
  for (std::size_t i = 1; i < values.size(); ++i) {
    if (std::abs(values[i]) > std::abs(values[at])) {
      at = i;
    }
  }
  return at;
}

// Coefficients of no more than 1.
HalfSpace scaled(HalfSpace constraint) {
  const double size = std::abs(constraint.coefficients[largest(constraint.coefficients)]);
  if (size > 0.0) {
    for (double& coefficient : constraint.coefficients) {
      coefficient /= size;
    }
    constraint.bound /= size;
  }
  return constraint;
}

// The x on the edge of `on` in terms of the others: x[gone] = (bound - sum of the others) / coefficient.
struct Edge {
  const HalfSpace& on;
  std::size_t gone;

  HalfSpace reduced(const HalfSpace& constraint) const {
    const double share = constraint.coefficients[gone] / on.coefficients[gone];
    HalfSpace result{{}, constraint.bound - share * on.bound};
    for (std::size_t k = 0; k < constraint.coefficients.size(); ++k) {
      if (k != gone) {
        const double coefficient = constraint.coefficients[k] - share * on.coefficients[k];
        // What is left of two equal numbers is rounding, and would make a wild slope of a parallel line.
        result.coefficients.push_back(std::abs(coefficient) <= kSlack ? 0.0 : coefficient);
      }
    }
    return result;
  }
};

std::vector<double> bestCorner(const std::vector<double>& objective, const std::vector<VariableRange>& box) {
  std::vector<double> x;
  for (std::size_t k = 0; k < box.size(); ++k) {
    x.push_back(objective[k] > 0.0   ? box[k].low
                : objective[k] < 0.0 ? box[k].high
                                     : std::clamp(0.0, box[k].low, box[k].high));
  }
  return x;
}

std::optional<std::vector<double>> solve(const std::vector<double>& objective,
                                         const std::vector<HalfSpace>& constraints,
                                         const std::vector<VariableRange>& box);

// The best x on the edge of constraints[last] that keeps the ones before it.
std::optional<std::vector<double>> solveOn(const std::vector<double>& objective,
                                           const std::vector<HalfSpace>& constraints, std::size_t last,
                                           const std::vector<VariableRange>& box) {
  const HalfSpace& on = constraints[last];
  const std::size_t gone = largest(on.coefficients), dimensions = box.size();
  if (std::abs(on.coefficients[gone]) == 0.0) {
    return std::nullopt;  // 0 <= a negative number
  }
  const Edge edge{on, gone};
  std::vector<HalfSpace> reduced;
  for (std::size_t i = 0; i < last; ++i) {
    reduced.push_back(edge.reduced(constraints[i]));
  }
  std::vector<double> unit(dimensions, 0.0);
  unit[gone] = 1.0;
  reduced.push_back(edge.reduced({unit, box[gone].high}));
  unit[gone] = -1.0;
  reduced.push_back(edge.reduced({unit, -box[gone].low}));
  std::vector<double> remainingObjective = edge.reduced({objective, 0.0}).coefficients;
  std::vector<VariableRange> remainingBox = box;
  remainingBox.erase(remainingBox.begin() + static_cast<std::ptrdiff_t>(gone));
  auto x = solve(remainingObjective, reduced, remainingBox);
  if (x) {
    x->insert(x->begin() + static_cast<std::ptrdiff_t>(gone), 0.0);
    (*x)[gone] = (on.bound - dot(on.coefficients, *x)) / on.coefficients[gone];
  }
  return x;
}

std::optional<std::vector<double>> solve(const std::vector<double>& objective,
                                         const std::vector<HalfSpace>& constraints,
                                         const std::vector<VariableRange>& box) {
  if (box.empty()) {
    // Every variable is spoken for: what is left are plain comparisons.
    const bool holds = std::all_of(constraints.begin(), constraints.end(),
                                   [](const HalfSpace& c) { return c.bound >= -kSlack; });
    return holds ? std::optional(std::vector<double>()) : std::nullopt;
  }
  std::vector<double> x = bestCorner(objective, box);
  std::vector<HalfSpace> kept;
  kept.reserve(constraints.size());
  for (const HalfSpace& constraint : constraints) {
    kept.push_back(scaled(constraint));
  }
  for (std::size_t i = 0; i < kept.size(); ++i) {
    if (dot(kept[i].coefficients, x) <= kept[i].bound + kSlack) {
      continue;
    }
    auto next = solveOn(objective, kept, i, box);
    if (!next) {
      return std::nullopt;
    }
    x = std::move(*next);
  }
  return x;
}

}  // namespace

std::optional<std::vector<double>> leastOf(const std::vector<double>& objective,
                                           const std::vector<HalfSpace>& constraints,
                                           const std::vector<VariableRange>& box) {
  assert(objective.size() == box.size());
  for (const VariableRange& range : box) {
    assert(std::isfinite(range.low) && std::isfinite(range.high));
    if (range.low > range.high) {
      return std::nullopt;
    }
  }
  std::vector<HalfSpace> shuffled;
  for (const HalfSpace& constraint : constraints) {
    assert(constraint.coefficients.size() == objective.size() && std::isfinite(constraint.bound));
    shuffled.push_back(scaled(constraint));
  }
  // A random order makes the expected work proportional to the number of constraints; a fixed seed makes the
  // same input give the same answer.
  std::mt19937 random(1);
  std::shuffle(shuffled.begin(), shuffled.end(), random);
  return solve(objective, shuffled, box);
}

}  // namespace spanwright
