// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/tolerance.h"

#include <cmath>
#include <string_view>
#include <vector>

#include "core/units/number.h"
#include "core/units/unit.h"

namespace spanwright {
namespace {

double width(const ToleranceSide& side, double expectedReading, double readingSpanWidth,
             double countsPerReadingUnit) {
  double sum = side.absolute + side.percentOfReading / 100.0 * std::abs(expectedReading) +
               side.percentOfSpan / 100.0 * std::abs(readingSpanWidth);
  if (side.counts > 0.0 && countsPerReadingUnit != 0.0) {
    sum += side.counts / std::abs(countsPerReadingUnit);
  }
  return sum;
}

std::optional<std::string> sideFault(const ToleranceSide& side) {
  struct Term {
    std::string_view name;
    double value;
  };
  for (const Term& term : {Term{"absolute", side.absolute}, Term{"percent of reading", side.percentOfReading},
                           Term{"percent of span", side.percentOfSpan}, Term{"counts", side.counts}}) {
    if (!std::isfinite(term.value)) {
      return "the tolerance's " + std::string(term.name) + " term is not a finite number";
    }
    if (term.value < 0.0) {
      return "the tolerance's " + std::string(term.name) + " term is negative";
    }
  }
  return std::nullopt;
}

struct SideText {
  std::string text;
  int terms = 0;
};

SideText sideText(const ToleranceSide& side, Unit readingUnit) {
  std::vector<std::string> parts;
  if (side.percentOfReading > 0.0) {
    parts.push_back(formatShortest(side.percentOfReading) + " % of reading");
  }
  if (side.percentOfSpan > 0.0) {
    parts.push_back(formatShortest(side.percentOfSpan) + " % of span");
  }
  if (side.counts > 0.0) {
    parts.push_back(formatShortest(side.counts) + (side.counts == 1.0 ? " count" : " counts"));
  }
  if (side.absolute > 0.0) {
    const std::string_view unit = symbol(readingUnit);
    parts.push_back(formatShortest(side.absolute) + (unit.empty() ? "" : " ") + std::string(unit));
  }
  SideText result;
  result.terms = static_cast<int>(parts.size());
  for (const std::string& part : parts) {
    result.text += (result.text.empty() ? "" : " + ") + part;
  }
  if (parts.empty()) {
    result.text = "0";
  }
  return result;
}

std::string bracketed(const SideText& side) {
  return side.terms > 1 ? "(" + side.text + ")" : side.text;
}

}  // namespace

ErrorLimits errorLimits(const Tolerance& tolerance, double expectedReading, double readingSpanWidth,
                        double countsPerReadingUnit) {
  return {-width(tolerance.minus, expectedReading, readingSpanWidth, countsPerReadingUnit),
          width(tolerance.plus, expectedReading, readingSpanWidth, countsPerReadingUnit)};
}

std::optional<std::string> toleranceFault(const Tolerance& tolerance) {
  if (auto fault = sideFault(tolerance.plus)) {
    return fault;
  }
  if (auto fault = sideFault(tolerance.minus)) {
    return fault;
  }
  if (tolerance == Tolerance{}) {
    return "the tolerance has no term above zero";
  }
  return std::nullopt;
}

std::string describe(const Tolerance& tolerance, Unit readingUnit) {
  if (tolerance.plus == tolerance.minus) {
    return "±" + bracketed(sideText(tolerance.plus, readingUnit));
  }
  return "+" + bracketed(sideText(tolerance.plus, readingUnit)) + " / -" +
         bracketed(sideText(tolerance.minus, readingUnit));
}

}  // namespace spanwright
