// SPDX-License-Identifier: GPL-3.0-or-later
//
// How far a reading may be from what was expected.
#pragma once

#include <optional>
#include <string>

#include "core/units/quantity.h"

namespace spanwright {

/// One side of a tolerance, all terms not negative, added together.
struct ToleranceSide {
  double absolute = 0.0;          ///< in reading units
  double percentOfReading = 0.0;  ///< of |expected reading|
  double percentOfSpan = 0.0;     ///< of |reading span|
  double counts = 0.0;            ///< converted through the setup; only where the reading has counts
  friend bool operator==(const ToleranceSide&, const ToleranceSide&) = default;
};

/// plus/minus limits; symmetric when both sides are equal.
struct Tolerance {
  ToleranceSide plus;
  ToleranceSide minus;
  friend bool operator==(const Tolerance&, const Tolerance&) = default;
};

/// Lowest and highest acceptable reading error at one point, in reading units: low <= 0 <= high normally;
/// an open side is infinite (a state that only has to stay under a limit).
struct ErrorLimits {
  double low = 0.0;
  double high = 0.0;
};

/// Limits at `expectedReading`. `countsPerReadingUnit` is counts for one reading unit (1 for a reading in
/// counts, 0 when the reading has none: a counts term is then refused beforehand by toleranceFault).
ErrorLimits errorLimits(const Tolerance& tolerance, double expectedReading, double readingSpanWidth,
                        double countsPerReadingUnit);

/// What makes a tolerance unusable (a negative or non-finite term, all terms zero), or nothing.
std::optional<std::string> toleranceFault(const Tolerance& tolerance);

/// "±(0.1 % of span + 0.2 degC)" in one line.
std::string describe(const Tolerance& tolerance, Unit readingUnit);

}  // namespace spanwright
