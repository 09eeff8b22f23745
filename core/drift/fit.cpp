// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/fit.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cassert>
#include <cmath>
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
  fit.lastTime = segments.back().readings.back().time;

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
  fit.lastTime = segments.back().readings.empty() ? 0.0 : segments.back().readings.back().time;

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

DriftBand bandOf(const DriftFit& fit) {
  DriftBand band;
  band.rate = fit.rate;
  band.anchor = fit.lastMeanTime;
  band.level = fit.lastMeanError;
  band.lastTime = fit.lastTime;
  band.scatter = fit.residualSd;
  band.ofReading = 1.0 + (fit.throughZero ? 0.0 : 1.0 / fit.lastCount);
  band.rateVariance = fit.rateStandardError ? *fit.rateStandardError * *fit.rateStandardError : 0.0;
  band.degreesOfFreedom = std::max(0, fit.degreesOfFreedom);
  return band;
}

Prediction predict(const DriftFit& fit, double time, double confidence) {
  return predictAt(bandOf(fit), time, confidence);
}

std::optional<RateTest> rateTest(const DriftFit& fit) {
  if (!fit.rateStandardError || !(*fit.rateStandardError > 0.0))
    return std::nullopt;
  const double t = fit.rate / *fit.rateStandardError;
  const boost::math::students_t student(fit.degreesOfFreedom);
  return RateTest{t, 2.0 * boost::math::cdf(boost::math::complement(student, std::abs(t)))};
}

std::optional<Interval> rateLimits(const DriftFit& fit, double confidence) {
  if (!fit.rateStandardError)
    return std::nullopt;
  const double half = studentFactor(fit.degreesOfFreedom, confidence) * *fit.rateStandardError;
  return Interval{fit.rate - half, fit.rate + half};
}

}  // namespace spanwright
