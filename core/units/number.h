// SPDX-License-Identifier: GPL-3.0-or-later
//
// Text to number and number to text, the only place in the program where that happens outside the window.
// Never by locale: std::from_chars and std::to_chars underneath.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace spanwright {

/// What a source uses between whole and fraction. `either` takes one point or one comma, and refuses a text
/// that holds both or more than one ("1,234.5", "1.234.567"): it is never guessed which was meant.
enum class DecimalSign { point, comma, either };

struct ParsedNumber {
  double value = 0.0;
  /// Digits typed after the decimal sign, less the exponent: "4.020" has 3, "1.5e-3" has 4, "1.5e3" none.
  /// Tells the resolution of what was read.
  int decimals = 0;
};

/// The number in `text` (surrounding blanks allowed, leading "+" and U+2212 minus understood, exponents
/// allowed), or nothing when the whole text is not one finite number: "", "nan", "inf", "4..2" and "1e999"
/// are refused.
std::optional<ParsedNumber> parseNumber(std::string_view text, DecimalSign sign = DecimalSign::point);

/// Shortest text that reads back as exactly `value`, with a decimal point, without exponent for |value| in
/// 1e-6..1e15. For files, JSON and the terminal. What is not finite becomes "inf", "-inf" or "nan", which
/// parseNumber refuses.
std::string formatShortest(double value);

/// `value` with exactly `decimals` digits after the point; a rounded zero never prints as "-0".
std::string formatFixed(double value, int decimals);

/// `value` to `digits` (1..17) significant digits, without exponent for |value| from 1e-6 to below 1e10, for
/// tables people read. Zero is "0".
std::string formatSignificant(double value, int digits);

/// How many decimals show the step `step` in full: 0.1 -> 1, 0.25 -> 2, 7.814 -> 0 (a step above one needs
/// none).
int decimalsFor(double step);

}  // namespace spanwright
