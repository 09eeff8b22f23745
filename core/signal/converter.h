// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an ideal input with a real converter and a real display shows: the expected reading in whole steps.
//
// Order of rounding: the converter (2^bits codes, 2^bits - 1 steps over the signal's span, code 0 at its low
// end, the last code at its high end; each code is the nearest one), then whole counts where the setup has
// counts, then the shown resolution (1 for whole degrees, 0.1 for tenths). A half goes away from zero.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <variant>

#include "core/signal/range_result.h"
#include "core/signal/setup.h"

namespace spanwright {

/// Where the applied value stands for the converter.
enum class ConverterState {
  inside,
  underRange,  ///< more than half a step under the first code, which is what the converter gives
  overRange    ///< more than half a step over the last code, which is what it gives
};
std::string_view text(ConverterState state);  // "inside", "under-range", "over-range"

struct ShownReading {
  double reading = 0.0;              ///< in the unit of the point model's reading span
  std::optional<std::int64_t> code;  ///< of the converter, 0..2^bits - 1; nothing when its bits are not known
  ConverterState state = ConverterState::inside;
};
using Shown = std::variant<ShownReading, RangeResult>;

/// The reading an input of this setup shows for `applied`, in the unit of its model's applied span. Analog
/// inputs with known bits stop at the ends of their converter and say so in `state`; without bits, and for
/// thermocouple and RTD inputs, more than 5 % outside the span is a RangeResult. wrongUnit for kinds that are
/// not analog, thermocouple or RTD inputs. The setup must have no setupFaults.
Shown shownReading(const ChannelSetup& setup, double applied);

/// `value` to the nearest whole multiple of `step`; `value` itself for a step of 0.
double toStep(double value, double step);

}  // namespace spanwright
