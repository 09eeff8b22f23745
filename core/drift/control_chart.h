// SPDX-License-Identifier: GPL-3.0-or-later
//
// Control charts of single values: Shewhart's of individuals with moving ranges, and the exponentially
// weighted moving average (NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 and 6.3.2.4).
#pragma once

#include <cstddef>
#include <optional>
#include <variant>
#include <vector>

namespace spanwright {

/// How sigma is estimated.
enum class SpreadBasis {
  movingRange,       ///< mean moving range of two over d2 = 2/sqrt(pi) (1.128, e-Handbook 6.3.2.2)
  standardDeviation  ///< of the values, n - 1
};

struct ChartSettings {
  /// Known mean and spread; what is nothing is estimated from the baseline.
  std::optional<double> mean, sigma;
  SpreadBasis spread = SpreadBasis::movingRange;
  /// How many of the first values the estimates come from; 0: all of them.
  std::size_t baseline = 0;
  double limitFactor = 3.0;  ///< half-width of the limits in sigma, both charts
  double weight = 0.2;       ///< lambda of the moving average, above 0, at most 1
};

/// Estimates from fewer values than this give no limits. Twenty and more are usual; fewer than that are
/// allowed and told as provisional, since a standard is calibrated once a year (common practice, no source).
inline constexpr std::size_t kLeastForLimits = 5;
inline constexpr std::size_t kEnoughForLimits = 20;

struct ChartLimits {
  double low = 0.0;
  double high = 0.0;
};

/// One value on its charts; all in the unit of the values.
struct ChartPoint {
  double value = 0.0;
  std::optional<double> movingRange;  ///< |value - the one before|; nothing for the first
  double average = 0.0;               ///< z_t = lambda value + (1 - lambda) z_{t-1}, z_0 the mean
  /// mean +/- L sigma sqrt(lambda / (2 - lambda) (1 - (1 - lambda)^2t)): exact, not those it settles to.
  ChartLimits averageLimits;
  bool valueBeyond = false;
  bool rangeBeyond = false;
  bool averageBeyond = false;
  bool beyond() const { return valueBeyond || rangeBeyond || averageBeyond; }
};

struct ControlChart {
  double mean = 0.0;
  double sigma = 0.0;
  bool estimated = false;    ///< mean or sigma
  bool provisional = false;  ///< estimated from fewer than kEnoughForLimits values
  ChartLimits limits;        ///< of single values: mean +/- L sigma
  /// Of moving ranges: (d2 + L d3) sigma with d2 = 2/sqrt(pi), d3 = sqrt(2 - 4/pi), so that 3 gives the usual
  /// D4 = 3.267 times the mean range; the lower one is 0.
  double rangeLimit = 0.0;
  std::vector<ChartPoint> points;
};

enum class ChartGap {
  tooFew,   ///< for limits to be estimated
  noSpread  ///< every value of the baseline is the same, so nothing tells what is usual
};

/// `values` in the order of time, all finite. std::invalid_argument for a value or setting that cannot be.
std::variant<ControlChart, ChartGap> controlChart(const std::vector<double>& values,
                                                  const ChartSettings& settings = {});

}  // namespace spanwright
