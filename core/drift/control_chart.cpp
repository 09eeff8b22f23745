// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/control_chart.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

namespace spanwright {
namespace {

/// Mean and standard deviation of the range of two values of a normal distribution, in its sigma.
const double kRangeMean = 2.0 * std::numbers::inv_sqrtpi;
const double kRangeSigma = std::sqrt(2.0 - 4.0 * std::numbers::inv_pi);

void check(const std::vector<double>& values, const ChartSettings& settings) {
  if (!std::all_of(values.begin(), values.end(), [](double value) { return std::isfinite(value); })) {
    throw std::invalid_argument("a value of a control chart is not finite");
  }
  if ((settings.mean && !std::isfinite(*settings.mean)) ||
      (settings.sigma && !(*settings.sigma > 0.0 && std::isfinite(*settings.sigma)))) {
    throw std::invalid_argument("a known mean is finite, a known sigma above 0");
  }
  if (!(settings.limitFactor > 0.0 && std::isfinite(settings.limitFactor))) {
    throw std::invalid_argument("the limits lie at a factor above 0 of sigma");
  }
  if (!(settings.weight > 0.0 && settings.weight <= 1.0)) {
    throw std::invalid_argument("the weight of the moving average is above 0 and at most 1");
  }
  if (settings.baseline > values.size()) {
    throw std::invalid_argument("the baseline is longer than the values");
  }
}

double meanOf(const std::vector<double>& values, std::size_t count) {
  const double first = values.front();
  double sum = 0.0;  // of what is left of the first value: the digits that differ, not those shared
  for (std::size_t i = 0; i < count; ++i) {
    sum += values[i] - first;
  }
  return first + sum / static_cast<double>(count);
}

double spreadOf(const std::vector<double>& values, std::size_t count, SpreadBasis basis) {
  double sum = 0.0;
  if (basis == SpreadBasis::movingRange) {
    for (std::size_t i = 1; i < count; ++i) {
      sum += std::abs(values[i] - values[i - 1]);
    }
    return sum / static_cast<double>(count - 1) / kRangeMean;
  }
  const double mean = meanOf(values, count);
  for (std::size_t i = 0; i < count; ++i) {
    sum += (values[i] - mean) * (values[i] - mean);
  }
  return std::sqrt(sum / static_cast<double>(count - 1));
}

bool outside(double value, const ChartLimits& limits) {
  return value < limits.low || value > limits.high;
}

void addPoints(ControlChart& chart, const std::vector<double>& values, const ChartSettings& settings) {
  const double keep = 1.0 - settings.weight;
  chart.points.reserve(values.size());
  double average = chart.mean;
  double kept = 1.0;  // (1 - lambda)^2t
  for (std::size_t i = 0; i < values.size(); ++i) {
    ChartPoint point;
    point.value = values[i];
    point.valueBeyond = outside(point.value, chart.limits);
    if (i > 0) {
      point.movingRange = std::abs(values[i] - values[i - 1]);
      point.rangeBeyond = *point.movingRange > chart.rangeLimit;
    }
    average = settings.weight * values[i] + keep * average;
    kept *= keep * keep;
    point.average = average;
    const double half = settings.limitFactor * chart.sigma *
                        std::sqrt(settings.weight / (2.0 - settings.weight) * (1.0 - kept));
    point.averageLimits = {chart.mean - half, chart.mean + half};
    point.averageBeyond = outside(average, point.averageLimits);
    chart.points.push_back(point);
  }
}

}  // namespace

std::variant<ControlChart, ChartGap> controlChart(const std::vector<double>& values,
                                                  const ChartSettings& settings) {
  check(values, settings);
  ControlChart chart;
  chart.estimated = !settings.mean || !settings.sigma;
  const std::size_t count = settings.baseline > 0 ? settings.baseline : values.size();
  if (chart.estimated && count < kLeastForLimits) {
    return ChartGap::tooFew;
  }
  chart.provisional = chart.estimated && count < kEnoughForLimits;
  chart.mean = settings.mean ? *settings.mean : meanOf(values, count);
  chart.sigma = settings.sigma ? *settings.sigma : spreadOf(values, count, settings.spread);
  if (!(chart.sigma > 0.0)) {
    return ChartGap::noSpread;
  }
  chart.limits = {chart.mean - settings.limitFactor * chart.sigma,
                  chart.mean + settings.limitFactor * chart.sigma};
  chart.rangeLimit = (kRangeMean + settings.limitFactor * kRangeSigma) * chart.sigma;
  addPoints(chart, values, settings);
  return chart;
}

}  // namespace spanwright
