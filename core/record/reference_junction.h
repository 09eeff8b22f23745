// SPDX-License-Identifier: GPL-3.0-or-later
//
// The reference junction of a visit: where mV of a couple are fed or measured through copper leads, the emf
// at the terminals is E(couple) - E(terminals), and only the temperature of the terminals makes a temperature
// of it. Without one the mV are emf referred to 0 degC, as a source set to that reference or an ice bath
// gives. Source: the law of the series circuit of homogeneous wires.
#pragma once

#include <optional>
#include <string>

#include "core/record/calibration.h"
#include "core/record/problem.h"
#include "core/signal/setup.h"

namespace spanwright {

/// Where a reference junction may be, degC (common practice, no source).
inline constexpr double kColdestJunction = -40.0;
inline constexpr double kWarmestJunction = 85.0;

/// The couple whose mV are fed (a thermocouple input) or measured (a bare couple on the bench); nothing at
/// any other subject. A loop is not among them: a temperature is applied to it. `setup` and `sensor` may be
/// nullptr.
std::optional<ThermocoupleType> coupleInMillivolts(Subject subject, const ChannelSetup* setup,
                                                   const SensorRange* sensor);

/// At such a subject: were mV told at this reading, not a temperature that somebody else had made of them?
bool toldInMillivolts(Subject subject, const Reading& reading);

/// Why a visit cannot have its reference junction at `celsius`; `couple` as coupleInMillivolts gives it.
std::optional<Problem> junctionFault(double celsius, const std::optional<ThermocoupleType>& couple);

/// "23.4 °C"; "emf referred to 0 °C" where mV were told without one; empty where no mV were told.
std::string junctionText(const Calibration& calibration, const ChannelSetup* setup,
                         const SensorRange* sensor);

}  // namespace spanwright
