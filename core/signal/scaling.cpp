// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/scaling.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace spanwright {

namespace {
constexpr double kOverRange = 0.05;
// Rounding when a value at exactly 105 % is worked out from percents, or a zero flow from a reading.
constexpr double kSlack = 1e-9;
}  // namespace

double fractionOf(const Span& span, double value) {
  assert(span.width() != 0.0);
  return (value - span.low) / span.width();
}

double valueAt(const Span& span, double fraction) {
  return fraction == 1.0 ? span.high : span.low + fraction * span.width();
}

double flowFraction(double pressureFraction, double cutOffPercent) {
  if (pressureFraction <= 0.0)
    return 0.0;
  const double flow = std::sqrt(pressureFraction);
  return 100.0 * flow < cutOffPercent - kSlack ? 0.0 : flow;
}

Expected pressureFraction(double flowFraction, double cutOffPercent) {
  if (flowFraction < -kSlack)
    return RangeResult::belowFunction;
  if (flowFraction <= kSlack)
    return 0.0;
  if (100.0 * flowFraction < cutOffPercent - kSlack)
    return RangeResult::notMonotonic;
  return flowFraction * flowFraction;
}

double converterStep(int bits, const std::optional<Span>& counts) {
  const double converter = bits > 0 ? 1.0 / (std::exp2(bits) - 1.0) : 0.0;
  const double count = counts ? 1.0 / std::abs(counts->width()) : 0.0;
  return std::max(converter, count);
}

std::optional<RangeResult> outsideSpan(const Span& span, double value) {
  if (!std::isfinite(value))
    return RangeResult::notANumber;
  const double reach = (kOverRange + kSlack) * std::abs(span.width());
  if (value < std::min(span.low, span.high) - reach)
    return RangeResult::belowRange;
  if (value > std::max(span.low, span.high) + reach)
    return RangeResult::aboveRange;
  return std::nullopt;
}

std::optional<Form> formFor(Unit unit, std::span<const Form> forms) {
  for (const Form& form : forms)
    if (form.unit == unit)
      return form;
  for (const Form& form : forms)
    if (sameDimension(form.unit, unit))
      return form;
  return std::nullopt;
}

Expected inUnit(Quantity quantity, Unit to) {
  if (!std::isfinite(quantity.value))
    return RangeResult::notANumber;
  const auto value = convert(quantity.value, quantity.unit, to);
  if (!value)
    return RangeResult::wrongUnit;
  return *value;
}

}  // namespace spanwright
