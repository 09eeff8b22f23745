// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/pool.h"

#include <algorithm>
#include <boost/math/special_functions/digamma.hpp>
#include <boost/math/special_functions/polygamma.hpp>
#include <boost/math/special_functions/trigamma.hpp>
#include <cmath>
#include <limits>

namespace spanwright {

namespace {

constexpr std::size_t kFewest = 3;

double betweenVariance(const std::vector<RateEstimate>& estimates) {
  double sumW = 0.0;
  double sumW2 = 0.0;
  double sumWRate = 0.0;
  for (const RateEstimate& estimate : estimates) {
    const double weight = 1.0 / estimate.variance;
    sumW += weight;
    sumW2 += weight * weight;
    sumWRate += weight * estimate.rate;
  }
  const double fixedMean = sumWRate / sumW;
  double q = 0.0;
  for (const RateEstimate& estimate : estimates) {
    q += (estimate.rate - fixedMean) * (estimate.rate - fixedMean) / estimate.variance;
  }
  const auto spare = static_cast<double>(estimates.size() - 1);
  return std::max(0.0, (q - spare) / (sumW - sumW2 / sumW));
}

/// The x with trigamma(x) = y, y > 0: Newton's method on 1 / trigamma, which is convex and close to a line
/// (Smyth 2004, appendix).
double trigammaInverse(double y) {
  double x = 0.5 + 1.0 / y;
  for (int i = 0; i < 60; ++i) {
    const double value = boost::math::trigamma(x);
    const double step = value * (1.0 - value / y) / boost::math::polygamma(2, x);
    x += step;
    if (std::abs(step) <= 1e-12 * x)
      break;
  }
  return x;
}

}  // namespace

std::optional<PooledRates> poolRates(const std::vector<RateEstimate>& estimates) {
  if (estimates.size() < kFewest)
    return std::nullopt;
  for (const RateEstimate& estimate : estimates) {
    const double weight = 1.0 / estimate.variance;
    if (!std::isfinite(estimate.rate) || !(estimate.variance > 0.0) || !std::isfinite(weight * weight) ||
        !(weight > 0.0)) {
      return std::nullopt;
    }
  }
  PooledRates pooled;
  pooled.betweenVariance = betweenVariance(estimates);
  double sumW = 0.0;
  double sumWRate = 0.0;
  for (const RateEstimate& estimate : estimates) {
    const double weight = 1.0 / (estimate.variance + pooled.betweenVariance);
    sumW += weight;
    sumWRate += weight * estimate.rate;
  }
  pooled.mean = sumWRate / sumW;
  pooled.meanVariance = 1.0 / sumW;
  for (const RateEstimate& estimate : estimates) {
    const double own = pooled.betweenVariance / (pooled.betweenVariance + estimate.variance);
    pooled.shrunk.push_back(pooled.mean + own * (estimate.rate - pooled.mean));
    pooled.shrunkVariance.push_back(own * estimate.variance +
                                    (1.0 - own) * (1.0 - own) * pooled.meanVariance);
  }
  return pooled;
}

std::optional<PooledScatter> poolScatter(const std::vector<ScatterEstimate>& estimates) {
  double sum = 0.0;
  double degrees = 0.0;
  std::size_t counted = 0;
  for (const ScatterEstimate& estimate : estimates) {
    if (!std::isfinite(estimate.variance) || estimate.variance < 0.0)
      return std::nullopt;
    if (estimate.degreesOfFreedom <= 0)
      continue;
    sum += estimate.degreesOfFreedom * estimate.variance;
    degrees += estimate.degreesOfFreedom;
    ++counted;
  }
  if (counted < kFewest || !(sum > 0.0) || !std::isfinite(sum))
    return std::nullopt;
  const double least = 1e-6 * sum / degrees;

  // log s^2 = log s0^2 + log F(d, d0): its mean and variance over the group give s0^2 and d0.
  std::vector<double> logs;
  double meanTrigamma = 0.0;
  double mean = 0.0;
  for (const ScatterEstimate& estimate : estimates) {
    if (estimate.degreesOfFreedom <= 0)
      continue;
    const double half = estimate.degreesOfFreedom / 2.0;
    logs.push_back(std::log(std::max(estimate.variance, least)) - boost::math::digamma(half) +
                   std::log(half));
    mean += logs.back() / static_cast<double>(counted);
    meanTrigamma += boost::math::trigamma(half) / static_cast<double>(counted);
  }
  double spread = 0.0;
  for (const double value : logs)
    spread += (value - mean) * (value - mean) / static_cast<double>(counted - 1);

  PooledScatter pooled;
  const double excess = spread - meanTrigamma;
  if (excess > 0.0) {
    const double half = trigammaInverse(excess);
    pooled.degreesOfFreedom = 2.0 * half;
    pooled.variance = std::exp(mean + boost::math::digamma(half) - std::log(half));
  } else {
    pooled.degreesOfFreedom = std::numeric_limits<double>::infinity();
    pooled.variance = sum / degrees;  // all alike: the plain pooled variance is the best estimate
  }
  for (const ScatterEstimate& estimate : estimates) {
    const double own =
        estimate.degreesOfFreedom <= 0
            ? 0.0
            : estimate.degreesOfFreedom / (estimate.degreesOfFreedom + pooled.degreesOfFreedom);
    pooled.shrunk.push_back(pooled.variance + own * (estimate.variance - pooled.variance));
  }
  return pooled;
}

}  // namespace spanwright
