// SPDX-License-Identifier: GPL-3.0-or-later
//
// The arithmetic the point models share: place in a span, square root, range, choice of unit.
#pragma once

#include <optional>
#include <span>

#include "core/signal/point_model.h"

namespace spanwright {

/// 0 at the span's low, 1 at its high; not limited. The span must have a width.
double fractionOf(const Span& span, double value);
/// The value at `fraction` of the span; exactly `high` at 1.
double valueAt(const Span& span, double fraction);

/// From fraction of differential pressure to fraction of flow. No flow at or below zero pressure, and below
/// the cut-off: that is the function, not a limit put on it.
double flowFraction(double pressureFraction, double cutOffPercent);
/// The other way. Below no flow is belowFunction; a flow between zero and the cut-off never shows:
/// notMonotonic.
Expected pressureFraction(double flowFraction, double cutOffPercent);

/// One step of the converter as a fraction of span: 2^bits - 1 steps make the span, and a count is whole. 0:
/// not known.
double converterStep(int bits, const std::optional<Span>& counts);

/// Nothing within 5 % of the span's width around it, else why not. For values of the span's own unit.
std::optional<RangeResult> outsideSpan(const Span& span, double value);

/// One way a quantity may be told.
struct Form {
  Unit unit = Unit::none;
  int id = 0;
};
/// The form meant by `unit`: the first with that very unit, else the first that measures the same thing.
std::optional<Form> formFor(Unit unit, std::span<const Form> forms);

/// `quantity` in `to`, or wrongUnit or notANumber.
Expected inUnit(Quantity quantity, Unit to);

}  // namespace spanwright
