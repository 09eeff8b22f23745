// SPDX-License-Identifier: GPL-3.0-or-later
//
// How much a single reading decides a drift fit.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/drift/fit.h"
#include "core/drift/segments.h"

namespace spanwright {

/// What leaving one reading out of core/drift/fit.h's fit does. With p = S + 1 coefficients, e the residual
/// and h = 1/n_s + (t - mean_s t)^2 / Sxx the leverage:
///   the rate falls by (t - mean_s t) e / (Sxx (1 - h));
///   Cook's distance is e^2 h / (p s^2 (1 - h)^2) (R. D. Cook, Technometrics 19 (1977) 15).
struct PointInfluence {
  std::size_t segment = 0;
  std::size_t reading = 0;  ///< within the segment
  double time = 0.0;        ///< years
  bool asLeft = false;
  double leverage = 0.0;
  double rateWithout = 0.0;  ///< the rate fitted to all others
  double cookDistance = 0.0;
};

/// One entry per reading that can be left out (alone in its segment it decides only its own intercept; one
/// without which no rate is left is passed over), in the order of the segments. Empty without degrees of
/// freedom or scatter.
std::vector<PointInfluence> influences(const std::vector<Segment>& segments, const DriftFit& fit);

/// The one whose absence moves the rate most; nothing when there is none.
std::optional<PointInfluence> mostInfluential(const std::vector<Segment>& segments, const DriftFit& fit);

}  // namespace spanwright
