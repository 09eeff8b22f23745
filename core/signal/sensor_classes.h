// SPDX-License-Identifier: GPL-3.0-or-later
//
// How far a new sensor of a class may be from its reference function, and where the class says so at all.
//
// Thermocouples: IEC 60584-1:2013 (formerly IEC 60584-2), classes 1, 2 and 3. Type C: class 2 of IEC 60584-1
// (its lower end, 426 degC, from memory) and the standard limit of ASTM E230/E230M. R and S of class 1 above
// 1100 degC: 1 K + 0.3 % of (t - 1100); some copies print 1000 there, which would leave a jump.
//
// Platinum: IEC 60751:2022, thermometers AA, A, B, C wire-wound or film; resistors W and F 0.1 to 0.6 (those
// from memory).
//
// A class holds inside its range only. Outside, or where a type has no such class, the answer is a
// NoTolerance.
#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include "core/signal/setup.h"
#include "core/signal/thermocouple.h"

namespace spanwright {

/// Why a class gives no tolerance there.
enum class NoTolerance {
  noSuchClass,  ///< the type has no such class
  belowClass,   ///< under the range the class is defined for
  aboveClass,   ///< over it
  notANumber
};
/// "not defined for this type" and so on, a clause for tables.
std::string_view text(NoTolerance reason);

/// Plus or minus so many kelvin, always above zero.
using ClassTolerance = std::variant<double, NoTolerance>;

enum class ThermocoupleClass { class1, class2, class3, astmStandard };
/// "class 1", "ASTM standard".
std::string_view text(ThermocoupleClass coupleClass);

/// Where the class holds for the type (both ends included), or nothing when it has no such class.
std::optional<CelsiusRange> classRange(ThermocoupleType type, ThermocoupleClass coupleClass);
/// Tolerance in K of a couple of this type and class at `at`.
ClassTolerance thermocoupleTolerance(ThermocoupleType type, ThermocoupleClass coupleClass, Celsius at);

enum class RtdConstruction { wire, film };
/// "wire-wound", "film".
std::string_view text(RtdConstruction construction);
/// The construction for "wire", "wire-wound", "film"; nothing for other text.
std::optional<RtdConstruction> parseRtdConstruction(std::string_view text);

/// Classes of thermometers.
enum class RtdClass { aa, a, b, c };
/// "AA".
std::string_view text(RtdClass rtdClass);

/// plus/minus (fixed + perKelvin |t|), t in degC.
struct RtdClassRule {
  double fixed = 0.0;      ///< K
  double perKelvin = 0.0;  ///< K/K
};
/// The rule alone. The edition of 1995 let it hold for A and B over the whole function.
RtdClassRule rtdClassRule(RtdClass rtdClass);

/// Where the class holds, both ends included.
CelsiusRange classRange(RtdClass rtdClass, RtdConstruction construction);
/// Tolerance in K of a thermometer at `at`.
ClassTolerance rtdTolerance(RtdClass rtdClass, RtdConstruction construction, Celsius at);

/// Classes of bare resistors: W wire-wound, F film.
enum class RtdResistorClass { w01, f01, w015, f015, w03, f03, w06, f06 };
/// "W 0.1", "F 0.15".
std::string_view text(RtdResistorClass resistorClass);
CelsiusRange classRange(RtdResistorClass resistorClass);
/// Tolerance in K of a resistor at `at`.
ClassTolerance rtdTolerance(RtdResistorClass resistorClass, Celsius at);

/// The same tolerance in ohm: kelvin times the slope of the element's function at `at`. A tolerance that is
/// not there stays what it is; `at` must lie in the element's function.
ClassTolerance inOhms(const ClassTolerance& kelvin, RtdElement element, Celsius at);

}  // namespace spanwright
