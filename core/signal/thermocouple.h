// SPDX-License-Identifier: GPL-3.0-or-later
//
// Thermocouple reference functions, temperatures on ITS-90.
//
// Method: the published piecewise polynomials E(t) (type K with its exponential term), and their inverse by
// bracketed Newton iteration on E(t) itself, not by the published approximate inverse polynomials (those are
// off by up to 0.05 K).
//
// Source: NIST ITS-90 Thermocouple Database (SRD 60), NIST Monograph 175, IEC 60584-1; type C after ASTM
// E230/E230M.
//
// Stated error: E(t) to the last printed digit (1 uV) of the NIST tables; from t to E and back within 1e-8 K,
// below -250 degC, where couples hardly respond, within 1e-7 K.
//
// Ranges (degC): B 0..1820, C 0..2315, E -270..1000, J -210..1200, K -270..1372, N -270..1300, R and S
// -50..1768.1, T -270..400. IEC 60584-1:2013 ends type K at 1300 degC; the NIST range is used here.
//
// Outside: belowFunction, aboveFunction. Type B has two temperatures for every emf from its minimum (-0.0026
// mV near 21 degC) up to 0 mV (0 and 42.2 degC): notMonotonic.
#pragma once

#include <optional>
#include <string_view>

#include "core/signal/range_result.h"
#include "core/signal/setup.h"

namespace spanwright {

struct CelsiusRange {
  Celsius low;
  Celsius high;
};

/// Where the type's reference function is defined.
CelsiusRange thermocoupleRange(ThermocoupleType type);

/// Emf in mV at `hot` with the reference junction at 0 degC.
Expected thermocoupleMillivolts(ThermocoupleType type, Celsius hot);

/// Emf in mV at `hot` as it stands at terminals that are at `referenceJunction`: E(hot) - E(reference).
Expected thermocoupleMillivolts(ThermocoupleType type, Celsius hot, Celsius referenceJunction);

/// Temperature in degC for `emf` measured with the reference junction at `referenceJunction`:
/// the t for which E(t) = emf + E(reference).
Expected thermocoupleCelsius(ThermocoupleType type, Millivolts emf, Celsius referenceJunction = {0.0});

/// dE/dt at `at`, in uV/K. Where two pieces of the function meet their slopes differ a little (type N at 0
/// degC by 0.23 uV/K): there it is the mean of both.
Expected seebeckMicrovoltsPerKelvin(ThermocoupleType type, Celsius at);

/// "K".
std::string_view text(ThermocoupleType type);
/// The type for "K" or "k"; nothing for other text.
std::optional<ThermocoupleType> parseThermocoupleType(std::string_view text);

}  // namespace spanwright
