// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random numbers that come out the same everywhere: the standard fixes the sequence of std::mt19937_64 but
// not that of its distributions, so the transforms are our own.
#pragma once

#include <cstdint>
#include <optional>
#include <random>

namespace spanwright {

/// Draws from the distributions of JCGM 101:2008 6.4. The same seed gives the same draws on every platform,
/// to the rounding of its log, sqrt and pow.
class Draws {
 public:
  explicit Draws(std::uint64_t seed) : engine_(seed) {}

  /// Uniform on (0, 1), both ends excluded.
  double uniform();
  /// Mean 0, standard deviation 1 (polar method, Marsaglia and Bray 1964).
  double normal();
  /// Student's t with `degreesOfFreedom` above zero: normal over the root of a chi-squared over its degrees.
  double student(double degreesOfFreedom);
  /// Uniform on (-1, 1); symmetric triangular there; U-shaped (arcsine) there: the cosine of a random angle.
  double rectangular() { return 2.0 * uniform() - 1.0; }
  double triangular() { return uniform() - uniform(); }
  double arcsine();

 private:
  /// Gamma with shape at least 1, scale 1 (Marsaglia and Tsang 2000); smaller shapes by their usual boost.
  double gamma(double shape);
  struct InDisc {
    double x, y, squared;
  };
  InDisc inDisc();

  std::mt19937_64 engine_;
  std::optional<double> spare_;
};

}  // namespace spanwright
