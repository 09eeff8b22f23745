// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/derivatives.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace spanwright {
namespace {

constexpr std::size_t kLevels = 9;
constexpr double kEpsilon = std::numeric_limits<double>::epsilon();

double jumpAt(const std::function<double(double)>& function, double x, double slope, double scale) {
  const double here = function(x);
  const auto unexplained = [&](double step) {
    const double moved = x + step;
    return function(moved) - here - slope * (moved - x);
  };
  double smallest = std::numeric_limits<double>::infinity();
  for (int power = 12; power <= 14; ++power) {
    double largest = 0.0;
    for (const double sign : {-1.0, 1.0}) {
      const double step = sign * std::ldexp(scale, -power);
      // Curvature goes with the square of the step and drops out; a jump does not change, a corner halves.
      largest = std::max(largest, std::abs(unexplained(step) - 4.0 * unexplained(step / 2.0)) / 3.0);
    }
    smallest = std::isfinite(largest) ? std::min(smallest, largest) : smallest;
  }
  return smallest;
}

}  // namespace

std::optional<Derivative> extrapolate(const std::function<double(double)>& difference,
                                      const std::function<double(double)>& rounding, double firstStep) {
  std::array<double, kLevels> before{}, now{};
  std::optional<Derivative> best;
  std::size_t depth = 0;  // entries of the previous row
  for (std::size_t level = 0; level < kLevels; ++level) {
    const double step = std::ldexp(firstStep, -static_cast<int>(level));
    now[0] = difference(step);
    if (!std::isfinite(now[0])) {
      depth = 0;  // begin again nearer to the point
      best.reset();
      continue;
    }
    for (std::size_t j = 1; j <= depth; ++j) {
      const double factor = std::ldexp(1.0, 2 * static_cast<int>(j));
      now[j] = now[j - 1] + (now[j - 1] - before[j - 1]) / (factor - 1.0);
      const double cutOff = std::max(std::abs(now[j] - now[j - 1]), std::abs(now[j] - before[j - 1]));
      const double error = std::max(cutOff, rounding(step));
      if (!best || error < best->error) {
        best = Derivative{now[j], error, 0.0};
      }
    }
    depth = std::min(depth + 1, kLevels - 1);
    before = now;
  }
  return best;
}

std::optional<Derivative> derivative(const std::function<double(double)>& function, double x, double scale) {
  constexpr int kSmallest = -2;
  constexpr int kLargest = 12;
  std::optional<Derivative> found;
  for (int power = kSmallest; power <= kLargest; ++power) {
    double size = std::abs(function(x));
    const auto difference = [&](double step) {
      // The steps that are really taken: x + step is rounded to a double.
      const double above = x + step;
      const double below = x - step;
      const double high = function(above);
      const double low = function(below);
      size = std::max({size, std::abs(high), std::abs(low)});
      return above > below ? (high - low) / (above - below) : std::numeric_limits<double>::quiet_NaN();
    };
    const auto rounding = [&](double step) { return 2.0 * kEpsilon * size / step; };
    const auto next = extrapolate(difference, rounding, scale * std::pow(8.0, power));
    if (!next) {
      if (found) {
        break;  // beyond where the function has values
      }
      continue;
    }
    if (found && std::abs(next->value - found->value) > 4.0 * found->error + next->error) {
      break;  // the larger step sees another part of the function
    }
    if (!found || next->error < found->error) {
      found = next;
    }
  }
  if (found) {
    found->jump = jumpAt(function, x, found->value, scale);
  }
  return found;
}

}  // namespace spanwright
