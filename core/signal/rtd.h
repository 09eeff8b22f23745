// SPDX-License-Identifier: GPL-3.0-or-later
//
// Industrial platinum resistance thermometers, Callendar-Van Dusen, both ways.
//
// R(t) = R0 (1 + A t + B t^2 + C (t - 100) t^3), C only below 0 degC; A = 3.9083e-3, B = -5.775e-7, C =
// -4.183e-12 (IEC 60751:2022, ITS-90). The inverse is closed above 0 degC and a Newton iteration below.
// Range: -200..850 degC; outside belowFunction, aboveFunction. Stated error: both ways agree within 1e-9 K.
#pragma once

#include <optional>
#include <string_view>

#include "core/signal/range_result.h"
#include "core/signal/setup.h"

namespace spanwright {

inline constexpr Celsius kRtdLow{-200.0};
inline constexpr Celsius kRtdHigh{850.0};

/// Resistance at 0 degC: 100 or 1000 ohm.
Ohms nominalResistance(RtdElement element);

/// Resistance in ohm.
Expected rtdOhms(RtdElement element, Celsius at);
/// Temperature in degC.
Expected rtdCelsius(RtdElement element, Ohms resistance);
/// dR/dt at `at`, ohm/K.
Expected rtdOhmsPerKelvin(RtdElement element, Celsius at);

/// "pt100", "pt1000".
std::string_view text(RtdElement element);
/// The element for "pt100", "Pt 1000"; nothing for other text.
std::optional<RtdElement> parseRtdElement(std::string_view text);

}  // namespace spanwright
