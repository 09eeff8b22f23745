// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/number.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <system_error>

#include "core/units/text.h"

namespace spanwright {

namespace {

bool isDigit(char c) {
  return c >= '0' && c <= '9';
}

bool isDecimalSign(char c, DecimalSign sign) {
  return (c == '.' && sign != DecimalSign::comma) || (c == ',' && sign != DecimalSign::point);
}

/// Long enough for any double in fixed form (309 digits before the point, 1074 after it, sign, point).
using Buffer = std::array<char, 1500>;

template <typename... Format>
std::string written(double value, Format... format) {
  Buffer buffer;
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, format...);
  assert(end.ec == std::errc());
  return {buffer.data(), end.ptr};
}

}  // namespace

// std::from_chars alone takes "inf", "nan" and hexadecimal, and stops quietly at the first character it does
// not know. So the grammar is checked here, and from_chars only turns checked digits into the nearest double.
std::optional<ParsedNumber> parseNumber(std::string_view text, DecimalSign sign) {
  text = trimmed(text);
  std::string clean;
  if (text.starts_with('-')) {
    clean = "-";
    text.remove_prefix(1);
  } else if (text.starts_with(kMinusSign)) {
    clean = "-";
    text.remove_prefix(kMinusSign.size());
  } else if (text.starts_with('+')) {
    text.remove_prefix(1);
  }

  std::size_t at = 0;
  const auto takeDigits = [&] {
    const std::size_t from = at;
    while (at < text.size() && isDigit(text[at]))
      clean += text[at++];
    return at - from;
  };
  std::size_t digits = takeDigits();
  std::size_t fraction = 0;
  if (at < text.size() && isDecimalSign(text[at], sign)) {
    ++at;
    clean += '.';
    fraction = takeDigits();
    digits += fraction;
  }
  if (digits == 0)
    return std::nullopt;
  int exponent = 0;
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    const std::size_t exponentAt = clean.size() + 1;
    clean += 'e';
    ++at;
    if (at < text.size() && (text[at] == '+' || text[at] == '-')) {
      if (text[at] == '-')
        clean += '-';
      ++at;
    }
    if (takeDigits() == 0)
      return std::nullopt;
    // An exponent too long for an int belongs to no finite number but zero, whose decimals do not matter.
    std::from_chars(clean.data() + exponentAt, clean.data() + clean.size(), exponent);
    exponent = std::clamp(exponent, -1000, 1000);
  }
  if (at != text.size())
    return std::nullopt;

  ParsedNumber number;
  const auto read = std::from_chars(clean.data(), clean.data() + clean.size(), number.value);
  if (read.ec != std::errc() || read.ptr != clean.data() + clean.size() || !std::isfinite(number.value))
    return std::nullopt;
  number.decimals = std::max(0, static_cast<int>(std::min<std::size_t>(fraction, 1000)) - exponent);
  return number;
}

std::string formatShortest(double value) {
  if (value == 0.0)
    return "0";
  const double size = std::abs(value);
  if (size >= 1e-6 && size < 1e15)
    return written(value, std::chars_format::fixed);
  return written(value);
}

std::string formatFixed(double value, int decimals) {
  assert(decimals >= 0);
  std::string text = written(value, std::chars_format::fixed, std::clamp(decimals, 0, 1000));
  if (text.starts_with('-') && text.find_first_of("123456789infa") == std::string::npos)
    text.erase(0, 1);
  return text;
}

std::string formatSignificant(double value, int digits) {
  assert(digits >= 1);
  if (value == 0.0)
    return "0";
  digits = std::clamp(digits, 1, 17);
  std::string scientific = written(value, std::chars_format::scientific, digits - 1);
  const std::size_t mark = scientific.find('e');
  if (mark == std::string::npos)
    return scientific;  // inf, nan
  int exponent = 0;
  const char* from = scientific.data() + mark + (scientific[mark + 1] == '+' ? 2 : 1);
  std::from_chars(from, scientific.data() + scientific.size(), exponent);
  if (exponent < -6 || exponent > 9)
    return scientific;
  // The rounding is done once, in the scientific text; writing its value anew only moves the point.
  double rounded = 0.0;
  std::from_chars(scientific.data(), scientific.data() + scientific.size(), rounded);
  return formatFixed(rounded, std::max(0, digits - 1 - exponent));
}

int decimalsFor(double step) {
  constexpr int kWhenUnknown = 3;
  step = std::abs(step);
  if (!std::isfinite(step) || step < 1e-12)
    return kWhenUnknown;
  if (step >= 1.0)
    return 0;
  const int leading = static_cast<int>(std::ceil(-std::log10(step) - 1e-12));
  for (int decimals = leading; decimals <= leading + 2; ++decimals) {
    const double scaled = step * std::pow(10.0, decimals);
    if (std::abs(scaled - std::round(scaled)) <= 1e-9 * scaled)
      return decimals;
  }
  return leading + 1;
}

}  // namespace spanwright
