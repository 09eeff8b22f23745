// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/wear.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <set>

namespace spanwright {

namespace {

using Windows = std::vector<FailureWindow>;

constexpr double kLeastShape = 0.05;
constexpr double kMostShape = 50.0;

double logLikelihood(const Windows& windows, double rate) {
  double sum = 0.0;
  for (const FailureWindow& w : windows) {
    sum -= w.count * rate * w.after;
    if (w.until) {
      sum += w.count * std::log(-std::expm1(-rate * (*w.until - w.after)));
    }
  }
  return sum;
}

// Its derivative times the rate, which falls with the rate.
double score(const Windows& windows, double rate) {
  double sum = 0.0;
  for (const FailureWindow& w : windows) {
    sum -= w.count * rate * w.after;
    if (w.until) {
      const double exposure = rate * (*w.until - w.after);
      sum += w.count * (exposure > 0.0 ? exposure / std::expm1(exposure) : 1.0);
    }
  }
  return sum;
}

// The rate of the exponential model; needs a failure and a survivor of some age.
double bestRate(const Windows& windows) {
  const auto slope = [&](double logRate) { return score(windows, std::exp(logRate)); };
  double low = 0.0, high = 0.0;
  while (slope(low) < 0.0) {
    low -= 1.0;
  }
  while (slope(high) > 0.0) {
    high += 1.0;
  }
  if (low == high) {
    return std::exp(low);
  }
  std::uintmax_t rounds = 200;
  const auto root = boost::math::tools::toms748_solve(slope, low, high,
                                                      boost::math::tools::eps_tolerance<double>(52), rounds);
  return std::exp((root.first + root.second) / 2.0);
}

// A Weibull age raised to the shape is an exponential one.
Windows raised(const Windows& windows, double shape, double unit) {
  Windows out = windows;
  for (FailureWindow& w : out) {
    w.after = std::pow(w.after / unit, shape);
    if (w.until) {
      w.until = std::pow(*w.until / unit, shape);
    }
  }
  return out;
}

bool hasMaximum(const Windows& windows) {
  const bool failed = std::any_of(windows.begin(), windows.end(),
                                  [](const FailureWindow& w) { return w.until && w.count > 0; });
  const bool aged =
      std::any_of(windows.begin(), windows.end(), [](const FailureWindow& w) { return w.after > 0.0; });
  std::set<double> ages;  // one age for all says nothing about how the rate changes with it
  for (const FailureWindow& w : windows) {
    ages.insert({w.after, w.until.value_or(w.after)});
  }
  ages.erase(0.0);
  return failed && aged && ages.size() > 1;
}

}  // namespace

std::optional<WearFit> fitWear(const std::vector<FailureWindow>& windows) {
  double unit = 0.0;
  for (const FailureWindow& w : windows) {
    assert(w.after >= 0.0 && (!w.until || *w.until > w.after) && w.count >= 0);
    unit = std::max(unit, w.until.value_or(w.after));
  }
  if (!hasMaximum(windows)) {
    return std::nullopt;
  }
  WearFit fit;
  const Windows plain = raised(windows, 1.0, unit);
  fit.constantRate = bestRate(plain) / unit;
  fit.constantLogLikelihood = logLikelihood(windows, fit.constantRate);
  const auto worse = [&](double logShape) {
    const Windows at = raised(windows, std::exp(logShape), unit);
    return -logLikelihood(at, bestRate(at));
  };
  const double least = std::log(kLeastShape), most = std::log(kMostShape);
  const auto [logShape, value] = boost::math::tools::brent_find_minima(worse, least, most, 52);
  if (logShape < least + 0.01 || logShape > most - 0.01 || !std::isfinite(value)) {
    return std::nullopt;
  }
  fit.shape = std::exp(logShape);
  fit.scale = unit * std::pow(bestRate(raised(windows, fit.shape, unit)), -1.0 / fit.shape);
  fit.logLikelihood = -value;
  const double ratio = std::max(0.0, 2.0 * (fit.logLikelihood - fit.constantLogLikelihood));
  fit.probability =
      boost::math::cdf(boost::math::complement(boost::math::chi_squared_distribution<double>(1.0), ratio));
  return fit;
}

}  // namespace spanwright
