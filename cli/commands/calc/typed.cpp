// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands/calc/typed.h"

#include <fmt/format.h>

#include <vector>

#include "core/record/problem.h"

namespace spanwright {

namespace {

std::vector<std::string> splitAtColons(const std::string& text) {
  std::vector<std::string> parts(1);
  for (const char c : text) {
    if (c == ':') {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

}  // namespace

double typedNumber(const std::string& option, const std::string& text) {
  const auto number = parseNumber(text, DecimalSign::either);
  if (!number) {
    throw InputError(fmt::format("{}: \"{}\" is not a number", option, text), "write it as 12.5");
  }
  return number->value;
}

TypedQuantity typedQuantity(const std::string& option, const std::string& text) {
  const auto quantity = parseQuantity(text);
  if (!quantity) {
    throw InputError(fmt::format("{}: \"{}\" is not a number with a unit understood here", option, text),
                     "write it as 12.5 or 12.5mA");
  }
  return *quantity;
}

Unit typedUnit(const std::string& option, const std::string& text) {
  const auto unit = parseUnit(text);
  if (!unit) {
    throw InputError(fmt::format("{}: the unit \"{}\" is not understood", option, text),
                     "write it as mA, V, degC, kPa, inH2O, m3/h or the like");
  }
  return *unit;
}

Span typedSpan(const std::string& option, const std::string& text, Unit otherwise) {
  const std::vector<std::string> parts = splitAtColons(text);
  const bool unitMayMiss = otherwise != Unit::none;
  if (parts.size() != 3 && !(unitMayMiss && parts.size() == 2)) {
    throw InputError(fmt::format("{}: \"{}\" is not a range", option, text),
                     unitMayMiss ? "write it as 0:32000" : "write it as 4:20:mA");
  }
  Span span{typedNumber(option, parts[0]), typedNumber(option, parts[1]), otherwise};
  if (parts.size() == 3) {
    span.unit = typedUnit(option, parts[2]);
  }
  return span;
}

double valueOrRefuse(const std::string& option, const Expected& expected, const std::string& todo) {
  if (const auto* reason = std::get_if<RangeResult>(&expected)) {
    throw InputError(fmt::format("{}: the value is {}", option, rangeText(*reason)), todo);
  }
  return std::get<double>(expected);
}

std::string shownNumber(double value, int digits) {
  const auto rounded = parseNumber(formatSignificant(value, digits));
  return formatShortest(rounded ? rounded->value : value);
}

}  // namespace spanwright
