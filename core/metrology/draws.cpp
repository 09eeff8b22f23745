// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/draws.h"

#include <cassert>
#include <cmath>

namespace spanwright {

double Draws::uniform() {
  return (static_cast<double>(engine_() >> 11U) + 0.5) * 0x1p-53;
}

Draws::InDisc Draws::inDisc() {
  for (;;) {
    const double x = rectangular();
    const double y = rectangular();
    const double squared = x * x + y * y;
    if (squared > 0.0 && squared < 1.0) {
      return {x, y, squared};
    }
  }
}

double Draws::normal() {
  if (spare_) {
    const double kept = *spare_;
    spare_.reset();
    return kept;
  }
  const InDisc point = inDisc();
  const double factor = std::sqrt(-2.0 * std::log(point.squared) / point.squared);
  spare_ = point.y * factor;
  return point.x * factor;
}

double Draws::arcsine() {
  const InDisc point = inDisc();
  return point.x / std::sqrt(point.squared);
}

double Draws::gamma(double shape) {
  if (shape < 1.0) {
    const double more = gamma(shape + 1.0);
    return more * std::pow(uniform(), 1.0 / shape);
  }
  const double d = shape - 1.0 / 3.0;
  const double c = 1.0 / std::sqrt(9.0 * d);
  for (;;) {
    const double z = normal();
    const double v = (1.0 + c * z) * (1.0 + c * z) * (1.0 + c * z);
    if (v > 0.0 && std::log(uniform()) < 0.5 * z * z + d - d * v + d * std::log(v)) {
      return d * v;
    }
  }
}

double Draws::student(double degreesOfFreedom) {
  assert(degreesOfFreedom > 0.0);
  const double z = normal();
  return z / std::sqrt(2.0 * gamma(degreesOfFreedom / 2.0) / degreesOfFreedom);
}

}  // namespace spanwright
