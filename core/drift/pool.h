// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rates of like subjects seen together: the group's mean and spread, and each rate drawn towards the mean by
// its own uncertainty (empirical Bayes, DerSimonian and Laird 1986 for the between-subject variance).
#pragma once

#include <optional>
#include <vector>

namespace spanwright {

struct RateEstimate {
  double rate = 0.0;
  double variance = 0.0;  ///< of the estimate, positive
};
struct PooledRates {
  double mean = 0.0;
  double betweenVariance = 0.0;
  std::vector<double> shrunk;          ///< one per input, same order
  std::vector<double> shrunkVariance;  ///< posterior variance of each
};
/// Nothing for fewer than three estimates: the group is too small to say anything.
std::optional<PooledRates> poolRates(const std::vector<RateEstimate>& estimates);

}  // namespace spanwright
