// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether the scatter about the drift line grows with time: beside reading noise the error may wander like a
// random walk, and then a band of constant width is too narrow.
#pragma once

#include <optional>
#include <vector>

#include "core/drift/segments.h"

namespace spanwright {

/// The alternative: e = intercept_s + rate t + W_s(t) + noise, W_s a Wiener process that starts anew with
/// each segment and gains `ratio` x (noise variance) of variance per year.
struct ScatterGrowth {
  double ratio = 0.0;  ///< per year, by restricted maximum likelihood; 0: none seen
  /// How probable a scatter that seems to grow at least so much is when it does not: exact for normal noise,
  /// whatever the number of readings and their times.
  double pValue = 1.0;
  int degreesOfFreedom = 0;
};

/// The error contrasts that are free of intercepts and rate are, after a rotation, independent with variances
/// sigma^2 (1 + ratio mu_i); `ratio` maximises their likelihood (restricted likelihood; D. A. Harville, J.
/// Am. Stat. Assoc. 72 (1977) 320). The test is the locally best invariant one, sum mu_i u_i^2 / sum u_i^2
/// (M. L. King, G. H. Hillier, J. R. Stat. Soc. B 47 (1985) 98), its tail by the characteristic function (J.
/// P. Imhof, Biometrika 48 (1961) 419); the references are from memory, the results are checked in the tests
/// against simulation and an outside optimiser. Nothing with fewer than kLeastForGrowth degrees of freedom,
/// without scatter, or with a number that is not finite. Of a long history the last kMostForGrowth readings
/// are looked at.
inline constexpr int kLeastForGrowth = 4;
inline constexpr std::size_t kMostForGrowth = 60;
std::optional<ScatterGrowth> scatterGrowth(const std::vector<Segment>& segments);

/// The band is widened by the growth seen when its p-value is below this: erring to the wide side costs one
/// steady history in a hundred a wider band.
inline constexpr double kWidenBelow = 0.01;

}  // namespace spanwright
