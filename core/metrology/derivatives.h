// SPDX-License-Identifier: GPL-3.0-or-later
//
// Derivatives of a smooth function known only by its values.
#pragma once

#include <functional>
#include <optional>

namespace spanwright {

/// A derivative and an estimate of how far it may be off (cut-off of the extrapolation and rounding).
struct Derivative {
  double value = 0.0;
  double error = 0.0;
  /// The smallest change of the function close to x that the slope does not explain, in the function's unit:
  /// next to nothing where it is smooth, the rounding of its values, or the height of a jump.
  double jump = 0.0;
};

/// df/dx at `x`: central differences extrapolated to step zero (Ridders 1982: steps halved, errors in h^2,
/// h^4, ... removed, best entry of the tableau kept). Begun with a 64th of `scale` (a length over which the
/// function is worth looking at: the input's standard uncertainty; above zero); larger first steps, by
/// eights, take over only while they agree with what was found and have less rounding. Where the function is
/// smooth over the scale the relative error is usually below 1e-11; the estimate is on the cautious side.
/// Nothing where the function has no value on both sides of x, however near.
std::optional<Derivative> derivative(const std::function<double(double)>& function, double x, double scale);

/// The limit of `difference(h)` for h to 0, from h = `firstStep` halved, for a difference quotient whose
/// error goes with h^2; `rounding(h)` estimates its rounding error. Nothing when it has no value near zero.
std::optional<Derivative> extrapolate(const std::function<double(double)>& difference,
                                      const std::function<double(double)>& rounding, double firstStep);

}  // namespace spanwright
