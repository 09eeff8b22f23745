// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/risk.h"

#include <algorithm>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <vector>

namespace spanwright {

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kRootTwo = 1.41421356237309504880;
// Beyond this many standard deviations a normal density is below the smallest double.
constexpr double kFar = 39.0;

double below(double z) {
  return 0.5 * std::erfc(-z / kRootTwo);
}

double above(double z) {
  return 0.5 * std::erfc(z / kRootTwo);
}

// P(low < z < high) of a standard normal, from the side where the tails are small.
double between(double low, double high) {
  if (!(low < high)) {
    return 0.0;
  }
  if (low > 0.0) {
    return above(low) - above(high);
  }
  if (high < 0.0) {
    return below(high) - below(low);
  }
  return 1.0 - below(low) - above(high);
}

double density(double z) {
  return 0.39894228040143267794 * std::exp(-0.5 * z * z);
}

void require(const std::optional<std::string>& fault) {
  if (fault) {
    throw std::invalid_argument(*fault);
  }
}

// Integrates over panels between the places where the integrand bends: at the limits, and around the
// acceptance limits and the population's mean on the scale of their own widths.
class Integral {
 public:
  Integral(const ErrorLimits& limits, const ErrorLimits& acceptance, const Population& population, double u)
      : acceptance_(acceptance), population_(population), u_(u) {
    constexpr double kSteps[] = {0.0, 1.5, 4.0, 8.0, 16.0};
    for (const double sign : {-1.0, 1.0}) {
      for (const double step : kSteps) {
        edges_.push_back(population.mean + sign * step * population.sd);
        for (const double limit : {acceptance.low, acceptance.high, limits.low, limits.high}) {
          edges_.push_back(limit + sign * step * u);
        }
      }
    }
    edges_.erase(
        std::remove_if(edges_.begin(), edges_.end(), [](double edge) { return !std::isfinite(edge); }),
        edges_.end());
    std::sort(edges_.begin(), edges_.end());
  }

  // Population density times the chance to be accepted (or rejected), over [low, high].
  double over(double low, double high, bool accepted) const {
    low = std::max(low, population_.mean - kFar * population_.sd);
    high = std::min(high, population_.mean + kFar * population_.sd);
    if (!(low < high)) {
      return 0.0;
    }
    const auto integrand = [&](double x) {
      const double z = (x - population_.mean) / population_.sd;
      const double down = (acceptance_.low - x) / u_, up = (acceptance_.high - x) / u_;
      const double chance = accepted ? between(down, up) : below(down) + above(up);
      return density(z) / population_.sd * chance;
    };
    double sum = 0.0, from = low;
    const auto panel = [&](double to) {
      if (to > from) {
        // The error it goes by is that of the 15-point rule, whose square is nearer to that of the 31 points.
        sum += boost::math::quadrature::gauss_kronrod<double, 31>::integrate(integrand, from, to, 10, 1e-8);
        from = to;
      }
    };
    for (const double edge : edges_) {
      panel(std::clamp(edge, low, high));
    }
    panel(high);
    return sum;
  }

 private:
  ErrorLimits acceptance_;
  Population population_;
  double u_;
  std::vector<double> edges_;
};

}  // namespace

std::optional<std::string> riskFault(const ErrorLimits& limits, double standardUncertainty) {
  if (std::isnan(limits.low) || std::isnan(limits.high) || limits.low == kInfinite ||
      limits.high == -kInfinite) {
    return "the tolerance's limits are not numbers";
  }
  if (limits.low == -kInfinite && limits.high == kInfinite) {
    return "a tolerance needs a limit on one side at least";
  }
  if (!(limits.low < limits.high)) {
    return "the tolerance leaves nothing: its upper limit must be above its lower one";
  }
  if (!std::isfinite(standardUncertainty) || !(standardUncertainty > 0.0)) {
    return "the uncertainty must be a finite number above 0";
  }
  return std::nullopt;
}

std::optional<std::string> populationFault(const Population& population) {
  if (!std::isfinite(population.mean)) {
    return "the mean of the subjects' errors must be a finite number";
  }
  if (!std::isfinite(population.sd) || !(population.sd > 0.0)) {
    return "the spread of the subjects' errors must be a finite number above 0";
  }
  return std::nullopt;
}

double conformanceProbability(const ErrorLimits& limits, double error, double standardUncertainty) {
  require(riskFault(limits, standardUncertainty));
  if (!std::isfinite(error)) {
    throw std::invalid_argument("the error must be a finite number");
  }
  return between((limits.low - error) / standardUncertainty, (limits.high - error) / standardUncertainty);
}

double nonConformanceProbability(const ErrorLimits& limits, double error, double standardUncertainty) {
  require(riskFault(limits, standardUncertainty));
  if (!std::isfinite(error)) {
    throw std::invalid_argument("the error must be a finite number");
  }
  return below((limits.low - error) / standardUncertainty) +
         above((limits.high - error) / standardUncertainty);
}

GlobalRisk globalRisk(const ErrorLimits& limits, const ErrorLimits& acceptance, const Population& population,
                      double standardUncertainty) {
  require(riskFault(limits, standardUncertainty));
  require(populationFault(population));
  if (std::isnan(acceptance.low) || std::isnan(acceptance.high)) {
    throw std::invalid_argument("the acceptance limits are not numbers");
  }
  GlobalRisk risk;
  risk.inTolerance = between((limits.low - population.mean) / population.sd,
                             (limits.high - population.mean) / population.sd);
  if (!(acceptance.low < acceptance.high)) {
    risk.falseReject = risk.inTolerance;
    return risk;
  }
  const Integral integral(limits, acceptance, population, standardUncertainty);
  risk.falseAccept =
      integral.over(-kInfinite, limits.low, true) + integral.over(limits.high, kInfinite, true);
  risk.falseReject = integral.over(limits.low, limits.high, false);
  return risk;
}

double worstFalseAccept(const ErrorLimits& limits, const ErrorLimits& acceptance,
                        double standardUncertainty) {
  require(riskFault(limits, standardUncertainty));
  if (!std::isfinite(limits.low) || !std::isfinite(limits.high)) {
    throw std::invalid_argument("the worst spread is looked for between two limits");
  }
  const double centre = limits.low + (limits.high - limits.low) / 2.0;
  const auto risk = [&](double logSd) {
    return -globalRisk(limits, acceptance, {centre, std::exp(logSd)}, standardUncertainty).falseAccept;
  };
  // One hill over the logarithm of the spread: find it on a coarse walk, then climb.
  const double from = std::log(standardUncertainty / 1000.0),
               to = std::log(1000.0 * std::max(limits.high - limits.low, standardUncertainty));
  const int steps = std::max(8, static_cast<int>(std::ceil((to - from) / 0.5)));
  const double width = (to - from) / steps;
  int best = 0;
  double least = kInfinite;
  for (int i = 0; i <= steps; ++i) {
    if (const double value = risk(from + i * width); value < least) {
      least = value;
      best = i;
    }
  }
  const double at = from + best * width;
  const auto found = boost::math::tools::brent_find_minima(risk, at - width, at + width, 26);
  return std::max(-found.second, -least);
}

Estimate estimateWithin(const Population& population, double error, double standardUncertainty) {
  require(riskFault({-kInfinite, 0.0}, standardUncertainty));
  require(populationFault(population));
  if (!std::isfinite(error)) {
    throw std::invalid_argument("the error must be a finite number");
  }
  const double both = std::hypot(population.sd, standardUncertainty);
  const double weight = (population.sd / both) * (population.sd / both);
  return {population.mean + weight * (error - population.mean), population.sd * standardUncertainty / both};
}

}  // namespace spanwright
