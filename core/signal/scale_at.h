// SPDX-License-Identifier: GPL-3.0-or-later
//
// One value of an analog signal told in every form at once: signal, counts, engineering units, percent.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/signal/converter.h"
#include "core/signal/loop_bands.h"
#include "core/signal/range_result.h"
#include "core/signal/setup.h"

namespace spanwright {

struct ScaledValue {
  double signal = 0.0;           ///< in the signal's unit
  std::optional<double> counts;  ///< unrounded
  std::optional<double> units;
  double percent = 0.0;              ///< of the signal's span
  std::optional<double> stepCounts;  ///< one converter step, or one count when that is coarser
  std::optional<double> stepUnits;  ///< at this value: through a square root a step is worth more at low flow
  std::optional<LoopBand> band;     ///< 4-20 mA only
  bool inSpan = true;               ///< between the ends of the signal's span
  std::optional<std::int64_t> code;  ///< what a converter with known bits gives
  std::optional<ConverterState> converter;
  std::optional<double> wholeCounts;  ///< what a converter with known bits shows
};
using Scaled = std::variant<ScaledValue, RangeResult>;

/// As setupFaults, but the setup need not say what a reading is: counts and units may both be missing.
std::vector<std::string> scaleFaults(const AnalogInputSetup& setup);

/// `at` in the signal's unit, in counts, or in engineering units (of the same kind as one of these), in all
/// forms. A line goes on beyond both ends, and `inSpan` tells; through the square root a signal below its
/// span is no flow. wrongUnit when the setup has no such form; belowFunction for a negative flow through a
/// square root; notMonotonic for a flow below the cut-off; aboveRange and belowRange where a form would be
/// too large a number. The setup must have no scaleFaults.
Scaled scaleAt(const AnalogInputSetup& setup, Quantity at);

}  // namespace spanwright
