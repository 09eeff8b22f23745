// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the next as-found value will be, as a function of time: a line and the band about it. One form for a
// fit of its own, for one drawn towards like subjects, and for one whose scatter grows with time.
#pragma once

#include <optional>
#include <vector>

namespace spanwright {

/// The next single reading of the last segment at time t is distributed as
///     level + rate (t - anchor) + sqrt(V(t)) T,
///     V(t) = s^2 (g + q max(0, t - lastTime)) + v (t - anchor)^2,
/// with T of Student's distribution with `degreesOfFreedom` (infinite: normal), s = `scatter`, g =
/// `ofReading`, q = `growth` and v = `rateVariance`. For least squares alone g = 1 + 1/n_S, q = 0 and v = s^2
/// / Sxx (core/drift/fit.h). Where V is as the posterior of rate and intercept gives it, see
/// core/drift/like_subjects.h.
struct DriftBand {
  double rate = 0.0;    ///< reading units per year
  double anchor = 0.0;  ///< years: where the line does not depend on the rate
  double level = 0.0;   ///< the line at `anchor`
  double lastTime = 0.0;
  std::optional<double> scatter;  ///< of one reading; nothing: the line is known, no band
  double ofReading = 1.0;
  double growth = 0.0;        ///< variance that one year adds, as a fraction of scatter^2
  double rateVariance = 0.0;  ///< of the rate
  double degreesOfFreedom = 0.0;
};

struct Prediction {
  double time = 0.0;
  double value = 0.0;
  std::optional<double> low, high;  ///< nothing without degrees of freedom
};

/// Line and two-sided band of `confidence` (0..1) at `time` (years, as in the band).
Prediction predictAt(const DriftBand& band, double time, double confidence = 0.95);

/// How probable it is that the next reading, taken at `time`, lies in [low, high] (limits may be infinite);
/// nothing without scatter.
std::optional<double> probabilityWithin(const DriftBand& band, double time, double low, double high);

/// First times, at or after `from` and before `until`, at which the line / the band leaves limits [low,
/// high]; nothing when that does not happen before `until`. `from` itself when it is already outside. On the
/// limit is inside (as in simple acceptance), so the time returned is the crossing. Limits may be infinite.
std::optional<double> lineLeaves(const DriftBand& band, double low, double high, double from, double until);
std::optional<double> bandLeaves(const DriftBand& band, double low, double high, double from, double until,
                                 double confidence = 0.95);

}  // namespace spanwright
