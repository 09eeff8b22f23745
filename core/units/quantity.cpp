// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/quantity.h"

#include "core/units/text.h"

namespace spanwright {

namespace {

bool isDigit(char c) {
  return c >= '0' && c <= '9';
}

/// How much of `text` belongs to the number: sign, digits and decimal signs, and an exponent only when digits
/// follow its letter, so that a unit may begin with an e.
std::size_t numberLength(std::string_view text) {
  std::size_t at = 0;
  if (text.starts_with('+') || text.starts_with('-'))
    at = 1;
  else if (text.starts_with(kMinusSign))
    at = kMinusSign.size();
  while (at < text.size() && (isDigit(text[at]) || text[at] == '.' || text[at] == ','))
    ++at;
  if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
    std::size_t digits = at + 1;
    if (digits < text.size() && (text[digits] == '+' || text[digits] == '-'))
      ++digits;
    if (digits < text.size() && isDigit(text[digits])) {
      at = digits;
      while (at < text.size() && isDigit(text[at]))
        ++at;
    }
  }
  return at;
}

}  // namespace

std::optional<TypedQuantity> parseQuantity(std::string_view text, DecimalSign sign) {
  const std::string_view body = trimmed(text);
  const std::size_t length = numberLength(body);
  const std::optional<ParsedNumber> number = parseNumber(body.substr(0, length), sign);
  if (!number)
    return std::nullopt;
  TypedQuantity quantity{number->value, std::nullopt, number->decimals, std::string(text)};
  const std::string_view unitText = trimmed(body.substr(length));
  if (!unitText.empty()) {
    quantity.unit = parseUnit(unitText);
    if (!quantity.unit)
      return std::nullopt;
  }
  return quantity;
}

namespace {

std::string withUnit(std::string number, Unit unit) {
  if (!symbol(unit).empty()) {
    number += ' ';
    number += symbol(unit);
  }
  return number;
}

}  // namespace

std::string formatQuantity(double value, int decimals, Unit unit) {
  return withUnit(formatFixed(value, decimals), unit);
}

std::string formatQuantity(double value, Unit unit) {
  constexpr int kDigits = 6;
  return withUnit(formatSignificant(value, kDigits), unit);
}

}  // namespace spanwright
