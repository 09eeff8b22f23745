// SPDX-License-Identifier: GPL-3.0-or-later
//
// The Theil-Sen rate, which one wild reading cannot move.
#pragma once

#include <optional>
#include <vector>

#include "core/drift/segments.h"

namespace spanwright {

/// Median of the slopes of all pairs of readings in the same segment at different times, the mean of the two
/// middle ones for an even number of pairs (P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379). Nothing without
/// such a pair. Values must be finite. Up to two million pairs are sorted out exactly; beyond that the median
/// is found by halving the range of slopes and counting pairs below, without ever holding them all, to the
/// last few digits.
std::optional<double> robustRate(const std::vector<Segment>& segments);

/// How probable it is that robust and least-squares rate of a quiet history with these times differ by at
/// least `apart` standard errors of the latter, when the scatter is known with `degreesOfFreedom` apart from
/// it: the share among kRobustDraws simulated ones with normal noise (always the same draws). Calculated for
/// |apart| of at least 1; 1 below.
inline constexpr int kRobustDraws = 20'000;
double robustDisagreement(const std::vector<Segment>& segments, double apart, double degreesOfFreedom);

/// robustRate by counting, whatever the number of pairs. Open for tests, which compare the two ways.
std::optional<double> robustRateByCounting(const std::vector<Segment>& segments);

}  // namespace spanwright
