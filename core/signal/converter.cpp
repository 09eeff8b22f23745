// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/converter.h"

#include <cassert>
#include <cmath>

#include "core/signal/point_model.h"
#include "core/signal/scaling.h"

namespace spanwright {

namespace {

Shown shownBy(const AnalogInputSetup& setup, double applied) {
  if (!std::isfinite(applied))
    return RangeResult::notANumber;
  ShownReading shown;
  double fraction = fractionOf(setup.signal, applied);
  if (setup.bits > 0) {
    const double last = std::exp2(setup.bits) - 1.0;
    double code = std::round(fraction * last);
    if (code < 0.0) {
      shown.state = ConverterState::underRange;
      code = 0.0;
    } else if (code > last) {
      shown.state = ConverterState::overRange;
      code = last;
    }
    shown.code = static_cast<std::int64_t>(code);
    fraction = code / last;
  } else if (const auto fault = outsideSpan(setup.signal, applied)) {
    return *fault;
  }
  if (setup.counts) {
    const double counts = std::round(valueAt(*setup.counts, fraction));
    if (setup.readsAs == ReadsAs::counts) {
      shown.reading = counts;
      return shown;
    }
    fraction = fractionOf(*setup.counts, counts);
  }
  const double part =
      setup.transfer == TransferKind::squareRoot ? flowFraction(fraction, setup.cutOffPercent) : fraction;
  shown.reading = toStep(valueAt(*setup.units, part), setup.resolution);
  return shown;
}

/// Whole or tenths of a degree; in tenths the reading is a whole number ten times as large.
Shown shownTemperature(const ChannelSetup& setup, double applied) {
  const PointModelPtr model = channelModel(setup);
  const Expected expected = model->expected(applied);
  if (const auto* reason = std::get_if<RangeResult>(&expected))
    return *reason;
  return ShownReading{toStep(std::get<double>(expected), model->step()), std::nullopt,
                      ConverterState::inside};
}

}  // namespace

std::string_view text(ConverterState state) {
  switch (state) {
    case ConverterState::inside:
      return "inside";
    case ConverterState::underRange:
      return "under-range";
    case ConverterState::overRange:
      return "over-range";
  }
  return "";
}

double toStep(double value, double step) {
  if (step == 0.0)
    return value;
  // A step of 0.1 is not exact; ten steps to a unit are.
  const double perUnit = std::round(1.0 / step);
  if (step < 1.0 && std::abs(perUnit * step - 1.0) < 1e-12)
    return std::round(value * perUnit) / perUnit;
  return std::round(value / step) * step;
}

Shown shownReading(const ChannelSetup& setup, double applied) {
  assert(setupFaults(setup).empty());
  if (const auto* analog = std::get_if<AnalogInputSetup>(&setup.kind))
    return shownBy(*analog, applied);
  if (std::holds_alternative<ThermocoupleSetup>(setup.kind) || std::holds_alternative<RtdSetup>(setup.kind))
    return shownTemperature(setup, applied);
  return RangeResult::wrongUnit;
}

}  // namespace spanwright
