// SPDX-License-Identifier: GPL-3.0-or-later
//
// One common drift rate with its own intercept for each segment, by least squares.
#pragma once

#include <optional>
#include <vector>

#include "core/drift/band.h"
#include "core/drift/segments.h"

namespace spanwright {

struct DriftFit {
  double rate = 0.0;                            ///< reading units per year
  std::optional<double> rateStandardError;      ///< nothing without degrees of freedom
  std::vector<double> intercepts;               ///< error at time 0, one per segment (same order)
  std::vector<double> interceptStandardErrors;  ///< empty without degrees of freedom
  std::optional<double> residualSd;
  int degreesOfFreedom = 0;          ///< N - S - 1
  std::optional<double> rSquared;    ///< within segments
  std::optional<double> robustRate;  ///< Theil-Sen: median of slopes of all within-segment pairs
  int readings = 0;                  ///< N
  // What prediction needs of the last segment and the whole.
  double sxx = 0.0;
  int lastCount = 0;
  double lastMeanTime = 0.0;
  double lastMeanError = 0.0;
  double lastTime = 0.0;     ///< of its last reading
  bool throughZero = false;  ///< intercepts were not fitted but are zero
};

/// Fits the segments. Nothing when no segment holds two readings at different times (no rate can be told), or
/// when a time or error is not a finite number or too large to be squared: a number that is not one has no
/// fit. rate = sum_s sum_i (t - mean_s t)(e - mean_s e) / Sxx; s^2 = RSS / (N - S - 1). Equals R's lm(error ~
/// time + factor(segment)). Sums are taken of centred values, residuals directly: the certified values of
/// NIST StRD Norris are met to 12 digits or more. Segments are expected to hold at least one reading each;
/// their order in time matters only for the last, which prediction continues.
std::optional<DriftFit> fitDrift(const std::vector<Segment>& segments);

/// The same with every intercept fixed at zero: rate = sum t e / sum t^2 over all readings, s^2 = RSS / (N -
/// 1); for a subject whose error is known to be zero at time 0. Intercepts and their standard errors are
/// zeros; R squared is 1 - RSS / sum e^2, about zero rather than the mean (as R's lm(error ~ 0 + time)); the
/// robust rate is the median of e / t. Nothing when no reading is away from time 0, or as above. Meets NIST
/// StRD NoInt1 to 13 digits.
std::optional<DriftFit> fitDriftThroughZero(const std::vector<Segment>& segments);

/// The fit as a band (core/drift/band.h).
DriftBand bandOf(const DriftFit& fit);

/// Prediction of the next single reading in the last segment at `time`, two-sided `confidence` (0..1):
/// mean_S e + rate (t - mean_S t) +/- t_q s sqrt(1 + 1/n_S + (t - mean_S t)^2 / Sxx);
/// through zero: rate t +/- t_q s sqrt(1 + t^2 / Sxx).
/// The band holds for independent, equally scattered readings; its coverage is checked by simulation in the
/// tests.
Prediction predict(const DriftFit& fit, double time, double confidence = 0.95);

/// Significance of the rate: t = rate / standard error, and how probable a |t| at least so large is
/// (Student's distribution, two-sided) when there is no drift. Nothing without degrees of freedom or scatter.
struct RateTest {
  double t = 0.0;
  double pValue = 1.0;
};
std::optional<RateTest> rateTest(const DriftFit& fit);

/// Two-sided confidence limits of the rate, nothing without degrees of freedom.
struct Interval {
  double low = 0.0;
  double high = 0.0;
};
std::optional<Interval> rateLimits(const DriftFit& fit, double confidence = 0.95);

}  // namespace spanwright
