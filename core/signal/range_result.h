// SPDX-License-Identifier: GPL-3.0-or-later
//
// A computed value, or the named reason why there is none.
#pragma once

#include <string_view>
#include <variant>

namespace spanwright {

/// Why there is no expected value.
enum class RangeResult {
  belowRange,     ///< the applied value is under what the subject can take
  aboveRange,     ///< over it
  belowFunction,  ///< outside the sensor function's own range (for instance RTD under -200 degC)
  aboveFunction,
  notMonotonic,  ///< the sensor function has no single answer there (type B near 21 degC)
  wrongUnit,     ///< the applied or observed unit is not one this subject takes
  notANumber,
  notAState  ///< a discrete output is commanded 0 (off) or 1 (on), nothing between
};
/// "below the input range" and so on, a clause for sentences.
std::string_view rangeText(RangeResult result);

using Expected = std::variant<double, RangeResult>;

}  // namespace spanwright
