// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/pool.h"

#include <algorithm>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/tools/roots.hpp>
#include <cmath>
#include <cstdint>
#include <limits>

namespace spanwright {

namespace {

constexpr std::size_t kFewest = 3;
constexpr double kAlike = 0.6;       ///< of the prior of psi, see the header
constexpr double kMostUnlike = 3.0;  ///< psi is not looked for beyond
constexpr int kScatterLooks = 40;
constexpr double kPriorWidth = 10.0;  ///< of the prior of tau2, in harmonic means of the variances

/// Mean and likelihood of rates at one variance between subjects.
struct AtSpread {
  double mean = 0.0;
  double sumW = 0.0;
  double logLikelihood = 0.0;  ///< restricted, but for a constant
  double score = 0.0;          ///< its derivative by tau2, doubled
};
AtSpread atSpread(const std::vector<RateEstimate>& estimates, double tau2) {
  AtSpread at;
  double sumW2 = 0.0;
  double logs = 0.0;
  for (const RateEstimate& estimate : estimates) {
    const double weight = 1.0 / (estimate.variance + tau2);
    at.sumW += weight;
    sumW2 += weight * weight;
    at.mean += weight * estimate.rate;
    logs -= std::log(weight);
  }
  at.mean /= at.sumW;
  double q = 0.0;
  double q2 = 0.0;
  for (const RateEstimate& estimate : estimates) {
    const double weight = 1.0 / (estimate.variance + tau2);
    const double away = weight * (estimate.rate - at.mean);
    q += away * (estimate.rate - at.mean);
    q2 += away * away;
  }
  at.logLikelihood = -0.5 * (logs + std::log(at.sumW) + q);
  at.score = q2 - at.sumW + sumW2 / at.sumW;
  return at;
}

double harmonicMean(const std::vector<RateEstimate>& estimates) {
  double sum = 0.0;
  for (const RateEstimate& estimate : estimates)
    sum += 1.0 / estimate.variance;
  return static_cast<double>(estimates.size()) / sum;
}

/// As far as tau2 can reasonably reach: all that the rates differ by, many times over.
double mostSpread(const std::vector<RateEstimate>& estimates, double least) {
  const auto [low, high] =
      std::minmax_element(estimates.begin(), estimates.end(),
                          [](const RateEstimate& a, const RateEstimate& b) { return a.rate < b.rate; });
  return std::max((high->rate - low->rate) * (high->rate - low->rate), least) * 1e3;
}

constexpr int kLooks = 80;

/// Where the restricted likelihood is largest; it may have more than one hill, so all of it is looked at
/// first.
double betweenVariance(const std::vector<RateEstimate>& estimates) {
  const double least = harmonicMean(estimates) * 1e-6;
  const double most = mostSpread(estimates, harmonicMean(estimates));
  const auto spreadAt = [&](int look) {
    return look < 0 ? 0.0 : least * std::pow(most / least, static_cast<double>(look) / kLooks);
  };
  int best = -1;
  double bestLikelihood = atSpread(estimates, 0.0).logLikelihood;
  for (int look = 0; look <= kLooks; ++look) {
    const double likelihood = atSpread(estimates, spreadAt(look)).logLikelihood;
    if (likelihood > bestLikelihood) {
      best = look;
      bestLikelihood = likelihood;
    }
  }
  const auto score = [&](double tau2) { return atSpread(estimates, tau2).score; };
  const double low = spreadAt(best - 1);
  const double high = spreadAt(std::min(best + 1, kLooks));
  if (best < 0 && !(score(0.0) > 0.0))
    return 0.0;
  if (!(score(low) > 0.0) || !(score(high) < 0.0))
    return spreadAt(best);
  std::uintmax_t rounds = 200;
  const auto bracket = boost::math::tools::toms748_solve(
      score, low, high, boost::math::tools::eps_tolerance<double>(50), rounds);
  return 0.5 * (bracket.first + bracket.second);
}

struct Node {
  double tau2 = 0.0;
  double weight = 0.0;
};

/// Nodes and weights of the posterior of tau2, in x = log(tau2 / v'), where the prior's density is
/// tau / (1 + tau2 / A2).
std::vector<Node> posterior(const std::vector<RateEstimate>& estimates) {
  const double typical = harmonicMean(estimates);
  const double wide = kPriorWidth * typical;
  const auto density = [&](double x) {
    const double tau2 = typical * std::exp(x);
    return atSpread(estimates, tau2).logLikelihood + 0.5 * x - std::log1p(tau2 / wide);
  };
  constexpr double kLow = -12.0;
  const double high = std::log(mostSpread(estimates, typical) / typical);
  double mode = kLow;
  double best = density(kLow);
  const auto look = [&](double from, double to) {
    for (int i = 0; i <= kLooks; ++i) {
      const double x = from + (to - from) * i / kLooks;
      const double value = density(x);
      if (value > best) {
        best = value;
        mode = x;
      }
    }
  };
  look(kLow, high);
  const double coarse = (high - kLow) / kLooks;
  look(mode - coarse, mode + coarse);
  // The larger the group, the narrower the hill: its width is about sqrt(2 / k).
  const double step = std::min(0.25, std::sqrt(2.0 / static_cast<double>(estimates.size())) / 3.0);
  std::vector<Node> nodes;
  double sum = 0.0;
  for (int i = -100; i <= 48; ++i) {
    const double x = mode + step * i;
    nodes.push_back({typical * std::exp(x), std::exp(density(x) - best)});
    sum += nodes.back().weight;
  }
  // Further down the likelihood stands still and the density falls as tau does: what is left is a geometric
  // series, all of it as good as at no spread.
  nodes.push_back({0.0, nodes.front().weight / std::expm1(0.5 * step)});
  sum += nodes.back().weight;
  for (Node& node : nodes)
    node.weight /= sum;
  return nodes;
}

void average(const std::vector<RateEstimate>& estimates, PooledRates& pooled) {
  const std::size_t count = estimates.size();
  // About the mean at the maximum, so that the mean of squares loses no digits.
  const double about = pooled.mean;
  std::vector<double> first(count, 0.0);
  std::vector<double> second(count, 0.0);
  double otherFirst = 0.0;
  double otherSecond = 0.0;
  for (const Node& node : posterior(estimates)) {
    const AtSpread at = atSpread(estimates, node.tau2);
    const double mean = at.mean - about;
    for (std::size_t i = 0; i < count; ++i) {
      const double v = estimates[i].variance;
      const double own = node.tau2 / (node.tau2 + v);
      const double value = mean + own * (estimates[i].rate - at.mean);
      first[i] += node.weight * value;
      second[i] += node.weight * (value * value + own * v + (1.0 - own) * (1.0 - own) / at.sumW);
    }
    otherFirst += node.weight * mean;
    otherSecond += node.weight * (mean * mean + node.tau2 + 1.0 / at.sumW);
  }
  for (std::size_t i = 0; i < count; ++i) {
    pooled.shrunk.push_back(about + first[i]);
    pooled.shrunkVariance.push_back(second[i] - first[i] * first[i]);
  }
  pooled.otherMean = about + otherFirst;
  pooled.otherVariance = otherSecond - otherFirst * otherFirst;
}

/// Scatter of a group at one spread: the best variance and what the likelihood of all s^2 is there.
struct AtHeterogeneity {
  double variance = 0.0;
  double logLikelihood = 0.0;  ///< with the prior, but for a constant
};

/// s^2 of d degrees of freedom about s0^2 with d0: s^2 / s0^2 is of the F distribution; d0 infinite: of chi^2
/// / d.
double logDensity(double ratio, double d, double d0) {
  if (std::isinf(d0))
    return 0.5 * d * std::log(0.5 * d * ratio) - boost::math::lgamma(0.5 * d) - 0.5 * d * ratio;
  const double r = d * ratio / d0;
  return boost::math::lgamma(0.5 * (d + d0)) - boost::math::lgamma(0.5 * d) - boost::math::lgamma(0.5 * d0) +
         0.5 * d * std::log(r) - 0.5 * (d + d0) * std::log1p(r);
}

/// s0^2 where the likelihood is largest at d0: the zero of its derivative by log s0^2, which falls
/// throughout, by Newton's method from `start`.
double bestVariance(const std::vector<ScatterEstimate>& told, double d0, double start) {
  double variance = start;
  for (int i = 0; i < 100 && std::isfinite(d0); ++i) {
    double slope = 0.0;
    double bend = 0.0;
    for (const ScatterEstimate& estimate : told) {
      const double d = estimate.degreesOfFreedom;
      const double ratio = estimate.variance / variance;
      const double whole = d0 + d * ratio;
      slope += d * ((d + d0) * ratio / whole - 1.0);
      bend += d * (d + d0) * ratio * d0 / (whole * whole);
    }
    const double step = std::clamp(slope / bend, -1.0, 1.0);
    variance *= std::exp(step);
    if (std::abs(step) <= 1e-13)
      break;
  }
  return variance;
}

AtHeterogeneity atHeterogeneity(const std::vector<ScatterEstimate>& told, double psi, double start) {
  const double d0 = psi > 0.0 ? 2.0 / (psi * psi) : std::numeric_limits<double>::infinity();
  AtHeterogeneity at{bestVariance(told, d0, start), -0.5 * psi * psi / (kAlike * kAlike)};
  for (const ScatterEstimate& estimate : told)
    at.logLikelihood += logDensity(estimate.variance / at.variance, estimate.degreesOfFreedom, d0);
  return at;
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
  const AtSpread at = atSpread(estimates, pooled.betweenVariance);
  pooled.mean = at.mean;
  pooled.meanVariance = 1.0 / at.sumW;
  average(estimates, pooled);
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

  std::vector<ScatterEstimate> told;
  for (const ScatterEstimate& estimate : estimates) {
    if (estimate.degreesOfFreedom > 0)
      told.push_back({std::max(estimate.variance, least), estimate.degreesOfFreedom});
  }
  const double plain = sum / degrees;
  std::vector<double> logs;
  double variance = plain;
  for (int look = 0; look <= kScatterLooks; ++look) {
    const AtHeterogeneity at = atHeterogeneity(told, kMostUnlike * look / kScatterLooks, variance);
    logs.push_back(at.logLikelihood);
    variance = at.variance;
  }
  const double best = *std::max_element(logs.begin(), logs.end());
  double weights = 0.0;
  double square = 0.0;
  for (int look = 0; look <= kScatterLooks; ++look) {
    const double psi = kMostUnlike * look / kScatterLooks;
    // The trapezoidal rule; where the likelihood ends nothing is left of it.
    const double weight = (look == 0 ? 0.5 : 1.0) * std::exp(logs[static_cast<std::size_t>(look)] - best);
    weights += weight;
    square += weight * psi * psi;
  }

  PooledScatter pooled;
  pooled.degreesOfFreedom = 2.0 * weights / square;
  pooled.variance = bestVariance(told, pooled.degreesOfFreedom, plain);
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
