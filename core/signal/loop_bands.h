// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the current of a 4-20 mA loop tells beside its value (NAMUR NE 43).
//
//   failure_low    up to 3.6 mA        failure information
//   gap_low        3.6 to 3.8 mA       neither measuring nor failure information
//   underrange     3.8 to 4.0 mA       measuring information, below the range's start
//   normal         4.0 to 20.0 mA
//   overrange      20.0 to 20.5 mA     measuring information, above the range's end
//   gap_high       20.5 to 21.0 mA     neither
//   failure_high   from 21.0 mA        failure information
//
// 3.8, 4.0, 20.0 and 20.5 mA themselves are measuring information. Copies of the recommendation differ on
// whether 3.6 and 21.0 mA themselves already mean failure; here they do, the answer on the safe side.
#pragma once

#include <array>
#include <optional>
#include <string_view>

#include "core/units/quantity.h"

namespace spanwright {

enum class LoopBand { failureLow, gapLow, underrange, normal, overrange, gapHigh, failureHigh };

inline constexpr std::array kLoopBands{LoopBand::failureLow, LoopBand::gapLow,    LoopBand::underrange,
                                       LoopBand::normal,     LoopBand::overrange, LoopBand::gapHigh,
                                       LoopBand::failureHigh};

/// "failure_low", "gap_low", "underrange", "normal", "overrange", "gap_high", "failure_high".
std::string_view text(LoopBand band);
/// What the band means, a clause for people.
std::string_view meaning(LoopBand band);

/// Ends of a band in mA; nothing for an open end.
struct LoopBandEnds {
  std::optional<double> low, high;
};
LoopBandEnds loopBandEnds(LoopBand band);

/// The band of a current in mA, or nothing when it is not a finite number. Differences up to 1e-9 mA from an
/// end are taken as rounding and count as the end.
std::optional<LoopBand> loopBand(double milliamperes);

/// Has this signal such bands: 4 mA at one end and 20 mA at the other?
bool hasLoopBands(const Span& signal);

}  // namespace spanwright
