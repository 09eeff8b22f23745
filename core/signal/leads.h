// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the wires between a platinum element and its input add to the reading.
//
// Two wires: both leads stand in series with the element and count in full. Three wires: lead 1 goes to one
// end of the element, leads 2 and 3 together to the other; the input takes off the resistance of one lead, so
// what remains is lead 1 less the lead it went by. An input that compares two voltages (or drives two equal
// currents) goes by lead 2 and does not see lead 3; one that measures the loop of leads 2 and 3 and takes it
// off goes by lead 3, since lead 2 counts twice and cancels. Four wires: no current in the sensing leads,
// nothing is added. Source: the circuits themselves (Ohm's law); input resistance taken as infinite.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "core/signal/range_result.h"
#include "core/signal/setup.h"

namespace spanwright {

/// Resistance of each lead in ohm; those a connection does not have are not looked at.
struct LeadResistances {
  double first = 0.0;
  double second = 0.0;
  double third = 0.0;
  double fourth = 0.0;
};

/// Which lead a three-wire input goes by.
enum class ThreeWireMethod {
  byVoltages,  ///< error = first - second
  byLoop       ///< error = first - third
};

/// What makes leads unusable (2, 3 or 4 wires; no resistance negative or not finite), each a clause.
std::vector<std::string> leadFaults(int wires, const LeadResistances& leads);

/// What the leads add to the element's resistance, in ohm; may be negative with three wires. Needs no
/// leadFaults.
double leadErrorOhms(int wires, const LeadResistances& leads,
                     ThreeWireMethod method = ThreeWireMethod::byVoltages);

struct LeadEffect {
  double ohms = 0.0;    ///< added to the resistance
  double kelvin = 0.0;  ///< added to the temperature shown
  Celsius shown;        ///< what an ideal input shows
};
using LeadAnswer = std::variant<LeadEffect, RangeResult>;

/// The same as an error of temperature with the element at `at`, through the element's function both ways; a
/// RangeResult when the sum leaves the function. Needs no leadFaults.
LeadAnswer leadEffect(RtdElement element, Celsius at, int wires, const LeadResistances& leads,
                      ThreeWireMethod method = ThreeWireMethod::byVoltages);

/// Resistance in ohm of one copper lead, `metres` long and of `squareMillimetres` cross-section, at `at`:
/// annealed copper, 1/58 ohm mm2/m and 0.00393/K at 20 degC (IEC 60028, from memory). Needs a length not
/// negative, a cross-section above zero, and a temperature at which the sum stays above zero.
double copperLeadOhms(double metres, double squareMillimetres, Celsius at = {20.0});

}  // namespace spanwright
