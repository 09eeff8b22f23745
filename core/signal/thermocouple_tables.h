// SPDX-License-Identifier: GPL-3.0-or-later
//
// The coefficients behind core/signal/thermocouple.h; nobody else needs them.
#pragma once

#include <span>

#include "core/signal/setup.h"

namespace spanwright {

/// One polynomial of a reference function, valid from `low` to `high` degC.
struct CoupleSegment {
  double low = 0.0;
  double high = 0.0;
  std::span<const double> coefficients;  ///< mV/degC^i, i = 0..
};

/// The pieces of the type's reference function, ascending, each beginning where the one before ends.
std::span<const CoupleSegment> coupleSegments(ThermocoupleType type);

/// Type K above 0 degC adds a0 exp(a1 (t - a2)^2), mV.
inline constexpr double kTypeKA0 = 0.118597600000E+00;
inline constexpr double kTypeKA1 = -0.118343200000E-03;
inline constexpr double kTypeKA2 = 0.126968600000E+03;

}  // namespace spanwright
