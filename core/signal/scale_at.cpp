// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/scale_at.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/signal/scaling.h"

namespace spanwright {

namespace {

enum FormId { kSignal, kCounts, kUnits };

bool root(const AnalogInputSetup& setup) {
  return setup.transfer == TransferKind::squareRoot;
}

/// The form `at` is told in.
std::optional<Form> formOf(const AnalogInputSetup& setup, Quantity at) {
  std::vector<Form> forms{{setup.signal.unit, kSignal}};
  if (setup.counts)
    forms.push_back({setup.counts->unit, kCounts});
  if (setup.units)
    forms.push_back({setup.units->unit, kUnits});
  return formFor(at.unit, forms);
}

/// The place in the signal's span of a number told in this form.
Expected signalFraction(const AnalogInputSetup& setup, int form, double number) {
  if (form == kSignal)
    return fractionOf(setup.signal, number);
  if (form == kCounts)
    return fractionOf(*setup.counts, number);
  const double part = fractionOf(*setup.units, number);
  return root(setup) ? pressureFraction(part, setup.cutOffPercent) : Expected(part);
}

void addSteps(ScaledValue& value, const AnalogInputSetup& setup, double unitsPart) {
  const double step = converterStep(setup.bits, setup.counts);
  if (step > 0.0 && setup.counts)
    value.stepCounts = step * std::abs(setup.counts->width());
  if (!(step > 0.0) || !setup.units)
    return;
  const double part = root(setup) ? std::sqrt(unitsPart * unitsPart + step) - unitsPart : step;
  value.stepUnits = std::max(part * std::abs(setup.units->width()), setup.resolution);
}

void addConverter(ScaledValue& value, const AnalogInputSetup& setup, double fraction) {
  if (setup.bits == 0)
    return;
  const double last = std::exp2(setup.bits) - 1.0;
  const double nearest = std::round(fraction * last);
  const double code = std::clamp(nearest, 0.0, last);
  value.converter = nearest < 0.0    ? ConverterState::underRange
                    : nearest > last ? ConverterState::overRange
                                     : ConverterState::inside;
  value.code = static_cast<std::int64_t>(code);
  if (setup.counts)
    value.wholeCounts = std::round(valueAt(*setup.counts, code / last));
}

}  // namespace

std::vector<std::string> scaleFaults(const AnalogInputSetup& setup) {
  AnalogInputSetup complete = setup;
  complete.readsAs = setup.units ? ReadsAs::units : ReadsAs::counts;
  if (!setup.units && !setup.counts)
    complete.counts = Span{0.0, 1.0, Unit::count};
  return setupFaults(ChannelSetup{complete});
}

Scaled scaleAt(const AnalogInputSetup& setup, Quantity at) {
  const auto form = formOf(setup, at);
  if (!form)
    return RangeResult::wrongUnit;
  const Expected given = inUnit(at, form->unit);
  if (const auto* reason = std::get_if<RangeResult>(&given))
    return *reason;
  const double number = std::get<double>(given);
  const Expected place = signalFraction(setup, form->id, number);
  if (const auto* reason = std::get_if<RangeResult>(&place))
    return *reason;
  const double fraction = std::get<double>(place);
  const double unitsPart = root(setup) ? flowFraction(fraction, setup.cutOffPercent) : fraction;

  ScaledValue value;
  // What was given comes back as it was, without the rounding of the way there and back.
  value.signal = form->id == kSignal ? number : valueAt(setup.signal, fraction);
  value.percent = 100.0 * fraction;
  if (setup.counts)
    value.counts = form->id == kCounts ? number : valueAt(*setup.counts, fraction);
  if (setup.units)
    value.units = form->id == kUnits ? number : valueAt(*setup.units, unitsPart);
  if (!std::isfinite(value.percent) || !std::isfinite(value.signal) ||
      !std::isfinite(value.counts.value_or(0.0)) || !std::isfinite(value.units.value_or(0.0)))
    return fraction < 0.0 ? RangeResult::belowRange : RangeResult::aboveRange;
  addSteps(value, setup, unitsPart);
  addConverter(value, setup, fraction);
  if (hasLoopBands(setup.signal))
    value.band = loopBand(*convert(value.signal, setup.signal.unit, Unit::milliampere));
  value.inSpan = fraction >= 0.0 && fraction <= 1.0;
  return value;
}

}  // namespace spanwright
