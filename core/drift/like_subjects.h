// SPDX-License-Identifier: GPL-3.0-or-later
//
// Bands for subjects with few calibrations: what a subject's own readings say, and what those of like
// subjects add.
#pragma once

#include <optional>
#include <vector>

#include "core/drift/band.h"
#include "core/drift/segments.h"

namespace spanwright {

/// What one history says, ready to be drawn towards others. Variances are in units of s^2, the variance of
/// one reading; `rateVariance` is infinite when no segment holds two times.
struct DriftBasis {
  double rate = 0.0;
  double rateVariance = 0.0;      ///< 1 / Sxx
  double residualVariance = 0.0;  ///< s^2; 0 without degrees of freedom
  int degreesOfFreedom = 0;       ///< of s^2, 0 when there are none
  // The last segment, for prediction, as in core/drift/band.h.
  double anchor = 0.0;
  double level = 0.0;
  double lastTime = 0.0;
  double ofReading = 1.0;
  double growth = 0.0;

  bool tellsRate() const;
};

/// Least squares with one rate and an intercept for each segment, where readings of a segment at times t, t'
/// since its first one have the covariance s^2 (1_{t = t'} + growth min(t, t')); growth 0 is
/// core/drift/fit.h's fit. `level`, `anchor` and `ofReading` are of the best linear prediction of the next
/// reading given the rate: with growth it leans on the last readings most. Nothing without segments, with an
/// empty one or with a number that is not finite.
std::optional<DriftBasis> driftBasis(const std::vector<Segment>& segments, double growth = 0.0);

/// The band of a history on its own; nothing without degrees of freedom.
std::optional<DriftBand> ownBand(const DriftBasis& basis);

/// The group as a whole.
struct GroupDrift {
  int size = 0;  ///< subjects whose rates were pooled
  double rateMean = 0.0;
  double rateMeanStandardError = 0.0;
  double rateSpread =
      0.0;  ///< standard deviation of true rates between subjects (restricted maximum likelihood)
  double scatter = 0.0;  ///< pooled standard deviation of a reading
  double scatterDegreesOfFreedom =
      0.0;  ///< what it counts beside a subject's own; infinite: all scatter alike
};

/// One subject drawn towards its group.
struct PooledDrift {
  DriftBand band;
  double rateStandardError = 0.0;  ///< of the rate in `band`
  /// What the others say of its scatter: beside its own it counts as `priorDegreesOfFreedom` readings.
  double priorVariance = 0.0;
  double priorDegreesOfFreedom = 0.0;
  /// How probable a scatter / a rate so far from the others' is for a subject like them; nothing when it has
  /// none.
  std::optional<double> scatterPValue;
  std::optional<double> ratePValue;
  bool scatterApart =
      false;  ///< scatters so far above the group's that it is left out of it and keeps its own
};

struct LikeSubjects {
  GroupDrift group;
  std::vector<PooledDrift> subjects;  ///< one per basis, same order
};

/// Pools scatter, then rates (core/drift/pool.h), and gives each subject the predictive band
///     V(t) = s^2 (g + q (t - last)) + v (t - anchor)^2,  s^2 = (d0 s0^2 + d s^2) / (d0 + d),
/// with v the posterior variance of its rate and t of d0 + d degrees of freedom, where d0 is the group's less
/// what is unknown of s0^2 itself, which the others tell. Subjects that scatter far above the group's median
/// do not take part in telling s0^2 and d0 and are judged against those that do; one apart (kApart) is pooled
/// in its rate only and keeps its own scatter. Rates are judged against the group without the one judged (in
/// groups of more than kLeaveOutUpTo: with it, one of so many changes nothing). Nothing when fewer than three
/// tell a rate, or a scatter. `leastVariance`: s^2 of a subject is not taken below this (what rounding
/// leaves); one per basis.
inline constexpr double kApart = 2e-4;
inline constexpr std::size_t kLeaveOutUpTo = 50;
std::optional<LikeSubjects> poolDrift(const std::vector<DriftBasis>& subjects,
                                      const std::vector<double>& leastVariance);

}  // namespace spanwright
