// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/fit.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/roots.hpp>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <utility>

#include "core/drift/robust_rate.h"

namespace spanwright {

namespace {

/// Neumaier's compensated sum: what rounding drops from the running sum is added back at the end.
class Sum {
 public:
  void add(double value) {
    const double next = sum_ + value;
    dropped_ += std::abs(sum_) >= std::abs(value) ? (sum_ - next) + value : (value - next) + sum_;
    sum_ = next;
  }
  double value() const { return sum_ + dropped_; }

 private:
  double sum_ = 0.0;
  double dropped_ = 0.0;
};

struct Centre {
  double time = 0.0;
  double error = 0.0;
};

Centre centreOf(const Segment& segment) {
  // About the first reading first: times counted from a far origin would otherwise lose digits in the
  // division.
  const DriftReading& anchor = segment.readings.front();
  Sum times;
  Sum errors;
  for (const DriftReading& reading : segment.readings) {
    times.add(reading.time - anchor.time);
    errors.add(reading.error - anchor.error);
  }
  const auto count = static_cast<double>(segment.readings.size());
  return {anchor.time + times.value() / count, anchor.error + errors.value() / count};
}

bool usable(const std::vector<Segment>& segments) {
  bool twoTimes = false;
  for (const Segment& segment : segments) {
    if (segment.readings.empty())
      return false;
    for (const DriftReading& reading : segment.readings) {
      if (!std::isfinite(reading.time) || !std::isfinite(reading.error))
        return false;
      twoTimes = twoTimes || reading.time != segment.readings.front().time;
    }
  }
  return twoTimes;
}

double studentFactor(int degreesOfFreedom, double confidence) {
  assert(confidence > 0.0 && confidence < 1.0);
  const boost::math::students_t_distribution<double> student(degreesOfFreedom);
  return boost::math::quantile(boost::math::complement(student, (1.0 - confidence) / 2.0));
}

double lineAt(const DriftFit& fit, double time) {
  return fit.lastMeanError + fit.rate * (time - fit.lastMeanTime);
}

double halfWidthAt(const DriftFit& fit, double factor, double time) {
  const double away = time - fit.lastMeanTime;
  const double ofMean = fit.throughZero ? 0.0 : 1.0 / fit.lastCount;
  return factor * *fit.residualSd * std::sqrt(1.0 + ofMean + away * away / fit.sxx);
}

/// Where `above` (positive: outside) first becomes positive in [from, until); it is not positive at `from`
/// and convex, so it is negative on one stretch at most and crosses zero outwards at most once.
template <class Function>
std::optional<double> crossing(const Function& above, double from, double until) {
  if (!(above(until) > 0.0))
    return std::nullopt;
  // Starting exactly on the limit it may dip below first: look for a point inside, ever nearer to the start.
  double inside = from;
  double step = until - from;
  while (!(above(inside) < 0.0)) {
    if (from + step == from) {
      return from;
    }
    inside = from + step;
    step /= 2.0;
  }
  std::uintmax_t rounds = 200;
  const auto bracket = boost::math::tools::toms748_solve(
      above, inside, until, boost::math::tools::eps_tolerance<double>(50), rounds);
  return bracket.second;
}

struct Sums {
  double sxx = 0.0;
  double sxy = 0.0;
  double syy = 0.0;
};

Sums sumsAbout(const std::vector<Segment>& segments, const std::vector<Centre>& centres) {
  Sum sxx;
  Sum sxy;
  Sum syy;
  for (std::size_t s = 0; s < segments.size(); ++s) {
    for (const DriftReading& reading : segments[s].readings) {
      const double time = reading.time - centres[s].time;
      const double error = reading.error - centres[s].error;
      sxx.add(time * time);
      sxy.add(time * error);
      syy.add(error * error);
    }
  }
  return {sxx.value(), sxy.value(), syy.value()};
}

double residualSum(const std::vector<Segment>& segments, const std::vector<Centre>& centres, double rate) {
  Sum squares;
  for (std::size_t s = 0; s < segments.size(); ++s) {
    for (const DriftReading& reading : segments[s].readings) {
      const double residual = (reading.error - centres[s].error) - rate * (reading.time - centres[s].time);
      squares.add(residual * residual);
    }
  }
  return squares.value();
}

void addScatter(DriftFit& fit, const std::vector<Segment>& segments, const std::vector<Centre>& centres,
                double rss) {
  const double sd = std::sqrt(rss / fit.degreesOfFreedom);
  fit.residualSd = sd;
  fit.rateStandardError = sd / std::sqrt(fit.sxx);
  for (std::size_t s = 0; s < segments.size(); ++s) {
    const auto count = static_cast<double>(segments[s].readings.size());
    fit.interceptStandardErrors.push_back(
        sd * std::sqrt(1.0 / count + centres[s].time * centres[s].time / fit.sxx));
  }
}

/// Median of e / t; needs a reading away from time 0.
double medianSlopeFromZero(const std::vector<Segment>& segments) {
  std::vector<double> slopes;
  for (const Segment& segment : segments)
    for (const DriftReading& reading : segment.readings)
      if (reading.time != 0.0)
        slopes.push_back(reading.error / reading.time);
  std::sort(slopes.begin(), slopes.end());
  const std::size_t middle = slopes.size() / 2;
  return slopes.size() % 2 == 1 ? slopes[middle] : 0.5 * (slopes[middle - 1] + slopes[middle]);
}

bool allFinite(const std::vector<Segment>& segments) {
  for (const Segment& segment : segments)
    for (const DriftReading& reading : segment.readings)
      if (!std::isfinite(reading.time) || !std::isfinite(reading.error))
        return false;
  return true;
}

}  // namespace

std::optional<DriftFit> fitDrift(const std::vector<Segment>& segments) {
  if (!usable(segments))
    return std::nullopt;
  std::vector<Centre> centres;
  centres.reserve(segments.size());
  for (const Segment& segment : segments)
    centres.push_back(centreOf(segment));

  const Sums sums = sumsAbout(segments, centres);
  // Times may differ by less than can be squared; errors may be too large to be.
  if (!(sums.sxx > 0.0) || !std::isfinite(sums.sxx) || !std::isfinite(sums.syy))
    return std::nullopt;

  DriftFit fit;
  fit.sxx = sums.sxx;
  fit.rate = sums.sxy / sums.sxx;
  for (std::size_t s = 0; s < segments.size(); ++s) {
    fit.readings += static_cast<int>(segments[s].readings.size());
    fit.intercepts.push_back(centres[s].error - fit.rate * centres[s].time);
  }
  fit.degreesOfFreedom = fit.readings - static_cast<int>(segments.size()) - 1;
  fit.lastCount = static_cast<int>(segments.back().readings.size());
  fit.lastMeanTime = centres.back().time;
  fit.lastMeanError = centres.back().error;

  const double rss = residualSum(segments, centres, fit.rate);
  if (!std::isfinite(fit.rate) || !std::isfinite(rss))
    return std::nullopt;
  if (fit.degreesOfFreedom > 0)
    addScatter(fit, segments, centres, rss);
  if (sums.syy > 0.0)
    fit.rSquared = 1.0 - rss / sums.syy;
  fit.robustRate = robustRate(segments);
  return fit;
}

std::optional<DriftFit> fitDriftThroughZero(const std::vector<Segment>& segments) {
  if (segments.empty() || !allFinite(segments))
    return std::nullopt;
  const std::vector<Centre> zeros(segments.size());
  const Sums sums = sumsAbout(segments, zeros);
  if (!(sums.sxx > 0.0) || !std::isfinite(sums.sxx) || !std::isfinite(sums.syy))
    return std::nullopt;

  DriftFit fit;
  fit.throughZero = true;
  fit.sxx = sums.sxx;
  fit.rate = sums.sxy / sums.sxx;
  for (const Segment& segment : segments)
    fit.readings += static_cast<int>(segment.readings.size());
  fit.intercepts.assign(segments.size(), 0.0);
  fit.degreesOfFreedom = fit.readings - 1;
  fit.lastCount = static_cast<int>(segments.back().readings.size());

  const double rss = residualSum(segments, zeros, fit.rate);
  if (!std::isfinite(fit.rate) || !std::isfinite(rss))
    return std::nullopt;
  if (fit.degreesOfFreedom > 0) {
    fit.residualSd = std::sqrt(rss / fit.degreesOfFreedom);
    fit.rateStandardError = *fit.residualSd / std::sqrt(fit.sxx);
    fit.interceptStandardErrors.assign(segments.size(), 0.0);
  }
  if (sums.syy > 0.0)
    fit.rSquared = 1.0 - rss / sums.syy;
  fit.robustRate = medianSlopeFromZero(segments);
  return fit;
}

Prediction predict(const DriftFit& fit, double time, double confidence) {
  Prediction prediction{time, lineAt(fit, time), std::nullopt, std::nullopt};
  if (!fit.residualSd)
    return prediction;
  const double half = halfWidthAt(fit, studentFactor(fit.degreesOfFreedom, confidence), time);
  prediction.low = prediction.value - half;
  prediction.high = prediction.value + half;
  return prediction;
}

std::optional<Interval> rateLimits(const DriftFit& fit, double confidence) {
  if (!fit.rateStandardError)
    return std::nullopt;
  const double half = studentFactor(fit.degreesOfFreedom, confidence) * *fit.rateStandardError;
  return Interval{fit.rate - half, fit.rate + half};
}

std::optional<double> lineLeaves(const DriftFit& fit, double low, double high, double from, double until) {
  assert(low <= high);
  if (!(from < until))
    return std::nullopt;
  const double now = lineAt(fit, from);
  if (now < low || now > high)
    return from;
  if (fit.rate == 0.0)
    return std::nullopt;
  const double at = fit.lastMeanTime + ((fit.rate > 0.0 ? high : low) - fit.lastMeanError) / fit.rate;
  if (!(at < until))
    return std::nullopt;
  return std::max(at, from);
}

std::optional<double> bandLeaves(const DriftFit& fit, double low, double high, double from, double until,
                                 double confidence) {
  assert(low <= high);
  if (!fit.residualSd || !(from < until))
    return std::nullopt;
  const double factor = studentFactor(fit.degreesOfFreedom, confidence);
  // Both edges are convex seen from inside the limits.
  const auto overHigh = [&](double time) {
    return lineAt(fit, time) + halfWidthAt(fit, factor, time) - high;
  };
  const auto underLow = [&](double time) {
    return low - (lineAt(fit, time) - halfWidthAt(fit, factor, time));
  };
  if (overHigh(from) > 0.0 || underLow(from) > 0.0)
    return from;
  const std::optional<double> up = crossing(overHigh, from, until);
  const std::optional<double> down = crossing(underLow, from, up.value_or(until));
  return down ? down : up;
}

}  // namespace spanwright
