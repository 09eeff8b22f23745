// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/reliability.h"

#include <algorithm>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/tools/roots.hpp>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <stdexcept>

namespace spanwright {

namespace {

using Outcomes = std::vector<ToleranceOutcome>;

double logLikelihood(const Outcomes& outcomes, double rate) {
  double sum = 0.0;
  for (const ToleranceOutcome& outcome : outcomes) {
    const double exposure = rate * outcome.intervalDays;
    sum += outcome.inTolerance ? -exposure : std::log(-std::expm1(-exposure));
  }
  return sum;
}

// Its derivative times the rate: falls from the count of out to minus infinity.
double score(const Outcomes& outcomes, double rate) {
  double sum = 0.0;
  for (const ToleranceOutcome& outcome : outcomes) {
    const double exposure = rate * outcome.intervalDays;
    sum += outcome.inTolerance ? -exposure : exposure / std::expm1(exposure);
  }
  return sum;
}

// Where `function` of the rate crosses 0, on the logarithm of the rate, going from `from` by the factor
// `step` until the sign changes.
template <typename Function>
double crossing(const Function& function, double from, double step) {
  const auto ofLog = [&](double logRate) { return function(std::exp(logRate)); };
  const double stride = std::log(step);
  double a = std::log(from), fa = ofLog(a);
  double b = a + stride, fb = ofLog(b);
  while ((fa > 0.0) == (fb > 0.0) && fb != 0.0) {
    a = b;
    fa = fb;
    b += stride;
    fb = ofLog(b);
  }
  if (fb == 0.0) {
    return std::exp(b);
  }
  if (b < a) {
    std::swap(a, b);
    std::swap(fa, fb);
  }
  std::uintmax_t rounds = 200;
  const auto root = boost::math::tools::toms748_solve(ofLog, a, b, fa, fb,
                                                      boost::math::tools::eps_tolerance<double>(52), rounds);
  return std::exp(root.first + (root.second - root.first) / 2.0);
}

}  // namespace

std::optional<std::string> outcomesFault(const std::vector<ToleranceOutcome>& outcomes, double confidence) {
  if (outcomes.empty()) {
    return "there are no outcomes";
  }
  // From a thousandth of a second to a million years, which keeps every sum within a double.
  for (const ToleranceOutcome& outcome : outcomes) {
    if (!(outcome.intervalDays >= 1e-8 && outcome.intervalDays <= 3.7e8)) {
      return "an interval must be a number of days above 0 (and below a million years)";
    }
  }
  if (!(confidence > 0.0 && confidence < 1.0)) {
    return "the confidence is a probability above 0 and below 1";
  }
  return std::nullopt;
}

ReliabilityFit fitReliability(const std::vector<ToleranceOutcome>& outcomes, double confidence) {
  if (const auto fault = outcomesFault(outcomes, confidence)) {
    throw std::invalid_argument(*fault);
  }
  ReliabilityFit fit;
  fit.confidence = confidence;
  fit.outcomes = static_cast<int>(outcomes.size());
  fit.out = static_cast<int>(std::count_if(outcomes.begin(), outcomes.end(),
                                           [](const ToleranceOutcome& o) { return !o.inTolerance; }));
  double total = 0.0;
  for (const ToleranceOutcome& outcome : outcomes) {
    total += outcome.intervalDays;
  }
  const double alone = std::log1p(-confidence);  // of what was seen, at a one-sided limit
  if (fit.out == 0) {
    fit.mix = OutcomeMix::allIn;
    fit.rate = 0.0;
    fit.rateHigh = -alone / total;
    return fit;
  }
  const double start = 1.0 / total;
  if (fit.out == fit.outcomes) {
    fit.mix = OutcomeMix::allOut;
    const auto excess = [&](double rate) { return logLikelihood(outcomes, rate) - alone; };
    fit.rateLow = crossing(excess, start, excess(start) > 0.0 ? 0.5 : 2.0);
    return fit;
  }
  const auto slope = [&](double rate) { return score(outcomes, rate); };
  fit.rate = crossing(slope, start, slope(start) > 0.0 ? 2.0 : 0.5);
  const double drop =
      boost::math::quantile(boost::math::chi_squared_distribution<double>(1.0), confidence) / 2.0;
  const double lowest = logLikelihood(outcomes, *fit.rate) - drop;
  const auto excess = [&](double rate) { return logLikelihood(outcomes, rate) - lowest; };
  fit.rateLow = crossing(excess, *fit.rate, 0.5);
  fit.rateHigh = crossing(excess, *fit.rate, 2.0);
  return fit;
}

double reliabilityAt(double rate, double days) {
  return std::exp(-rate * days);
}

std::optional<double> intervalForTarget(std::optional<double> rate, double target) {
  assert(target > 0.0 && target < 1.0);
  if (!rate || !(*rate > 0.0)) {
    return std::nullopt;
  }
  return -std::log(target) / *rate;
}

double intervalFromPair(double observedInterval, double observedReliability, double target, double shape) {
  assert(observedInterval > 0.0 && shape > 0.0 && observedReliability > 0.0 && observedReliability < 1.0 &&
         target > 0.0 && target < 1.0);
  return observedInterval * std::pow(std::log(target) / std::log(observedReliability), 1.0 / shape);
}

std::string_view text(OutcomeMix mix) {
  switch (mix) {
    case OutcomeMix::mixed:
      return "mixed";
    case OutcomeMix::allIn:
      return "all_in";
    case OutcomeMix::allOut:
      return "all_out";
  }
  return "";
}

}  // namespace spanwright
