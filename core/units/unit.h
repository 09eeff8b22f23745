// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units of measurement and exact conversions between them.
// Sources: SI Brochure (9th ed.); NIST SP 811 (2008) Appendix B for the non-SI factors.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace spanwright {

enum class Dimension {
  number,
  ratio,
  voltage,
  current,
  resistance,
  temperature,
  pressure,
  frequency,
  acidity,
  conductivity,
  volumeFlow,
  massFlow,
  rotation,
  length,
  level,
  time,
  mass,
  concentration,
  speed,
  power,
  acceleration
};

enum class Unit {
  none,
  count,
  percent,
  volt,
  millivolt,
  microvolt,
  ampere,
  milliampere,
  microampere,
  ohm,
  kiloohm,
  milliohm,
  celsius,
  fahrenheit,
  kelvin,
  rankine,
  pascal,
  kilopascal,
  megapascal,
  bar,
  millibar,
  psi,
  inchWater,          ///< conventional: 249.08891 Pa
  inchWater4C,        ///< at 4 degC (39.2 degF): 249.082 Pa
  inchWater60F,       ///< at 60 degF: 248.84 Pa
  inchWater68F,       ///< at 68 degF (20 degC): 248.64 Pa, from the density of water, not in NIST SP 811
  footWater,          ///< conventional: 2989.06692 Pa
  millimetreWater,    ///< conventional: 9.80665 Pa
  centimetreWater,    ///< conventional: 98.0665 Pa
  centimetreWater4C,  ///< at 4 degC: 98.0638 Pa
  inchMercury,        ///< conventional: 3386.388640341 Pa
  inchMercury32F,     ///< at 32 degF: 3386.38 Pa
  inchMercury60F,     ///< at 60 degF: 3376.85 Pa
  millimetreMercury,  ///< conventional: 133.322387415 Pa, not the torr
  torr,               ///< 101325/760 Pa
  atmosphere,
  technicalAtmosphere,  ///< 1 kgf/cm2
  hertz,
  ph,
  microsiemensPerCm,
  millisiemensPerCm,
  cubicMetrePerHour,
  litrePerMinute,
  litrePerHour,
  kilogramPerHour,
  tonnePerHour,
  rpm,
  metre,
  millimetre,
  inch,
  second,
  millisecond,
  minute,
  hour,
  kilogram,
  pound,
  relativeHumidity,
  ppm,
  metrePerSecond,
  kilowatt,
  watt,
  metrePerSecondSquared,
  standardGravity  ///< the conventional fall of a free body: 9.80665 m/s2
};

/// The unit's symbol as written in files and on certificates, ASCII ("degC", "uS/cm", "ohm").
std::string_view symbol(Unit unit);
/// The symbol as shown to people, UTF-8 ("°C", "µS/cm", "Ω").
std::string_view displaySymbol(Unit unit);
Dimension dimension(Unit unit);
/// All units, in declaration order.
std::span<const Unit> allUnits();

/// The unit people mean by `text`: symbols, display symbols and usual spellings ("C", "°C", "deg C", "Ohm",
/// "Ω", "mbar", "m³/h"), case-sensitive only where case tells units apart ("mA" from "MA"). Nothing when not
/// understood.
std::optional<Unit> parseUnit(std::string_view text);

bool sameDimension(Unit a, Unit b);

/// `value` in `from` expressed in `to`, or nothing when they measure different things.
/// Temperatures are points on a scale here (0 degC = 32 degF = 273.15 K).
std::optional<double> convert(double value, Unit from, Unit to);
/// The same for a difference (an error, a tolerance, a span): 1 K = 1 degC = 1.8 degF, no offset.
std::optional<double> convertDifference(double value, Unit from, Unit to);

}  // namespace spanwright
