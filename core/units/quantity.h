// SPDX-License-Identifier: GPL-3.0-or-later
//
// A number with its unit, a span between two numbers, and what people type for them.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/units/number.h"
#include "core/units/unit.h"

namespace spanwright {

struct Quantity {
  double value = 0.0;
  Unit unit = Unit::none;
  friend bool operator==(const Quantity&, const Quantity&) = default;
};

/// From `low` (0 %) to `high` (100 %) in `unit`. High may be below low (a reversed range); equal is invalid.
struct Span {
  double low = 0.0;
  double high = 0.0;
  Unit unit = Unit::none;
  double width() const { return high - low; }
  friend bool operator==(const Span&, const Span&) = default;
};

/// What somebody typed or a cell held: the number, the unit if one was given, and the text as it was.
struct TypedQuantity {
  double value = 0.0;
  std::optional<Unit> unit;
  int decimals = 0;
  std::string text;
};

/// Reads "4.02", "4,02", "4.02 mA", "4,02mA", "-12.5 °C". Nothing when the number or the unit is not
/// understood.
std::optional<TypedQuantity> parseQuantity(std::string_view text, DecimalSign sign = DecimalSign::either);

/// "4.02 mA" from value, decimals and unit.
std::string formatQuantity(double value, int decimals, Unit unit);
/// The same with six significant digits, for sentences.
std::string formatQuantity(double value, Unit unit);

// Quantities that must not be mixed up carry their unit in their type.
struct Celsius {
  double value = 0.0;
};
struct Millivolts {
  double value = 0.0;
};
struct Ohms {
  double value = 0.0;
};

}  // namespace spanwright
