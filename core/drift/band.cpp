// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/band.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/roots.hpp>
#include <cassert>
#include <cmath>
#include <cstdint>

namespace spanwright {

namespace {

// Beyond so many degrees of freedom Student's distribution is the normal one to 1e-10.
constexpr double kNormalFrom = 1e10;
// The band's edge may bend either way, so it is looked at in steps before the crossing is searched.
constexpr int kSteps = 240;

double factorOf(const DriftBand& band, double confidence) {
  assert(confidence > 0.0 && confidence < 1.0);
  const double tail = (1.0 - confidence) / 2.0;
  if (band.degreesOfFreedom >= kNormalFrom)
    return boost::math::quantile(boost::math::complement(boost::math::normal(), tail));
  return boost::math::quantile(boost::math::complement(boost::math::students_t(band.degreesOfFreedom), tail));
}

double below(const DriftBand& band, double standardised) {
  if (band.degreesOfFreedom >= kNormalFrom)
    return boost::math::cdf(boost::math::normal(), standardised);
  return boost::math::cdf(boost::math::students_t(band.degreesOfFreedom), standardised);
}

bool hasBand(const DriftBand& band) {
  return band.scatter && band.degreesOfFreedom > 0.0;
}

double lineAt(const DriftBand& band, double time) {
  return band.level + band.rate * (time - band.anchor);
}

double sdAt(const DriftBand& band, double time) {
  const double away = time - band.anchor;
  const double s2 = *band.scatter * *band.scatter;
  return std::sqrt(s2 * (band.ofReading + band.growth * std::max(0.0, time - band.lastTime)) +
                   band.rateVariance * away * away);
}

/// Where `above` (positive: outside) first becomes positive in (from, until); it is not positive at `from`.
template <class Function>
std::optional<double> crossing(const Function& above, double from, double until) {
  double inside = from;
  for (int step = 1; step <= kSteps; ++step) {
    const double at = step == kSteps ? until : from + (until - from) * step / kSteps;
    if (!(above(at) > 0.0)) {
      inside = at;
      continue;
    }
    // Exactly on the limit it may dip below first: look for a point truly inside, ever nearer to the start.
    double start = inside;
    for (double width = at - inside; !(above(start) < 0.0); width /= 2.0) {
      if (inside + width == inside)
        return inside;
      start = inside + width;
    }
    std::uintmax_t rounds = 200;
    return boost::math::tools::toms748_solve(above, start, at, boost::math::tools::eps_tolerance<double>(50),
                                             rounds)
        .second;
  }
  return std::nullopt;
}

}  // namespace

Prediction predictAt(const DriftBand& band, double time, double confidence) {
  Prediction prediction{time, lineAt(band, time), std::nullopt, std::nullopt};
  if (hasBand(band)) {
    const double half = factorOf(band, confidence) * sdAt(band, time);
    prediction.low = prediction.value - half;
    prediction.high = prediction.value + half;
  }
  return prediction;
}

std::optional<double> probabilityWithin(const DriftBand& band, double time, double low, double high) {
  assert(low <= high);
  if (!hasBand(band))
    return std::nullopt;
  const double value = lineAt(band, time);
  const double sd = sdAt(band, time);
  if (!(sd > 0.0))
    return low <= value && value <= high ? 1.0 : 0.0;
  const double under = std::isinf(low) ? 0.0 : below(band, (low - value) / sd);
  const double over = std::isinf(high) ? 0.0 : below(band, -(high - value) / sd);
  return std::clamp(1.0 - under - over, 0.0, 1.0);
}

std::optional<double> lineLeaves(const DriftBand& band, double low, double high, double from, double until) {
  assert(low <= high);
  if (!(from < until))
    return std::nullopt;
  const double now = lineAt(band, from);
  if (now < low || now > high)
    return from;
  if (band.rate == 0.0)
    return std::nullopt;
  const double at = band.anchor + ((band.rate > 0.0 ? high : low) - band.level) / band.rate;
  if (!(at < until))
    return std::nullopt;
  return std::max(at, from);
}

std::optional<double> bandLeaves(const DriftBand& band, double low, double high, double from, double until,
                                 double confidence) {
  assert(low <= high);
  if (!hasBand(band) || !(from < until))
    return std::nullopt;
  const double factor = factorOf(band, confidence);
  const auto overHigh = [&](double time) { return lineAt(band, time) + factor * sdAt(band, time) - high; };
  const auto underLow = [&](double time) { return low - (lineAt(band, time) - factor * sdAt(band, time)); };
  if (overHigh(from) > 0.0 || underLow(from) > 0.0)
    return from;
  const std::optional<double> up = std::isinf(high) ? std::nullopt : crossing(overHigh, from, until);
  const double still = up.value_or(until);
  const std::optional<double> down =
      std::isinf(low) || !(from < still) ? std::nullopt : crossing(underLow, from, still);
  return down ? down : up;
}

}  // namespace spanwright
