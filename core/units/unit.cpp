// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/unit.h"

#include <array>
#include <cmath>
#include <string>

#include "core/units/text.h"

namespace spanwright {

namespace {

/// One unit: one of it is numerator/denominator of its dimension's base unit. Both are whole numbers or exact
/// decimals that a double holds exactly, so that a conversion rounds once or twice in all. Temperatures carry
/// the size of their degree; their zero points are in toCelsius and fromCelsius.
struct Row {
  Unit unit;
  std::string_view symbol;
  std::string_view display;
  Dimension dimension;
  double numerator;
  double denominator;
};

// Pressures in Pa, from the exact expressions: psi = 0.45359237 kg * 9.80665 m/s2 / (0.0254 m)2,
// torr = 101325 Pa / 760, conventional water 1000 kg/m3 and mercury 13595.1 kg/m3 at 9.80665 m/s2 (NIST SP
// 811 B.8).
constexpr std::array kRows{
    Row{Unit::none, "", "", Dimension::number, 1, 1},
    Row{Unit::count, "count", "counts", Dimension::number, 1, 1},
    Row{Unit::percent, "%", "%", Dimension::ratio, 1, 1},
    Row{Unit::volt, "V", "V", Dimension::voltage, 1, 1},
    Row{Unit::millivolt, "mV", "mV", Dimension::voltage, 1, 1000},
    Row{Unit::microvolt, "uV", "µV", Dimension::voltage, 1, 1000000},
    Row{Unit::ampere, "A", "A", Dimension::current, 1, 1},
    Row{Unit::milliampere, "mA", "mA", Dimension::current, 1, 1000},
    Row{Unit::microampere, "uA", "µA", Dimension::current, 1, 1000000},
    Row{Unit::ohm, "ohm", "Ω", Dimension::resistance, 1, 1},
    Row{Unit::kiloohm, "kohm", "kΩ", Dimension::resistance, 1000, 1},
    Row{Unit::milliohm, "mohm", "mΩ", Dimension::resistance, 1, 1000},
    Row{Unit::celsius, "degC", "°C", Dimension::temperature, 1, 1},
    Row{Unit::fahrenheit, "degF", "°F", Dimension::temperature, 5, 9},
    Row{Unit::kelvin, "K", "K", Dimension::temperature, 1, 1},
    Row{Unit::rankine, "degR", "°R", Dimension::temperature, 5, 9},
    Row{Unit::pascal, "Pa", "Pa", Dimension::pressure, 1, 1},
    Row{Unit::kilopascal, "kPa", "kPa", Dimension::pressure, 1000, 1},
    Row{Unit::megapascal, "MPa", "MPa", Dimension::pressure, 1000000, 1},
    Row{Unit::bar, "bar", "bar", Dimension::pressure, 100000, 1},
    Row{Unit::millibar, "mbar", "mbar", Dimension::pressure, 100, 1},
    Row{Unit::psi, "psi", "psi", Dimension::pressure, 44482216152605.0, 6451600000.0},
    Row{Unit::inchWater, "inH2O", "inH2O", Dimension::pressure, 24908891, 100000},
    Row{Unit::inchWater4C, "inH2O_4C", "inH2O (4 °C)", Dimension::pressure, 249082, 1000},
    Row{Unit::inchWater60F, "inH2O_60F", "inH2O (60 °F)", Dimension::pressure, 24884, 100},
    Row{Unit::inchWater68F, "inH2O_68F", "inH2O (68 °F)", Dimension::pressure, 24864, 100},
    Row{Unit::footWater, "ftH2O", "ftH2O", Dimension::pressure, 298906692, 100000},
    Row{Unit::millimetreWater, "mmH2O", "mmH2O", Dimension::pressure, 980665, 100000},
    Row{Unit::centimetreWater, "cmH2O", "cmH2O", Dimension::pressure, 980665, 10000},
    Row{Unit::centimetreWater4C, "cmH2O_4C", "cmH2O (4 °C)", Dimension::pressure, 980638, 10000},
    Row{Unit::inchMercury, "inHg", "inHg", Dimension::pressure, 3386388640341.0, 1000000000},
    Row{Unit::inchMercury32F, "inHg_32F", "inHg (32 °F)", Dimension::pressure, 338638, 100},
    Row{Unit::inchMercury60F, "inHg_60F", "inHg (60 °F)", Dimension::pressure, 337685, 100},
    Row{Unit::millimetreMercury, "mmHg", "mmHg", Dimension::pressure, 133322387415.0, 1000000000},
    Row{Unit::torr, "torr", "Torr", Dimension::pressure, 101325, 760},
    Row{Unit::atmosphere, "atm", "atm", Dimension::pressure, 101325, 1},
    Row{Unit::technicalAtmosphere, "kgf/cm2", "kgf/cm²", Dimension::pressure, 980665, 10},
    Row{Unit::hertz, "Hz", "Hz", Dimension::frequency, 1, 1},
    Row{Unit::ph, "pH", "pH", Dimension::acidity, 1, 1},
    Row{Unit::microsiemensPerCm, "uS/cm", "µS/cm", Dimension::conductivity, 1, 1000},
    Row{Unit::millisiemensPerCm, "mS/cm", "mS/cm", Dimension::conductivity, 1, 1},
    Row{Unit::cubicMetrePerHour, "m3/h", "m³/h", Dimension::volumeFlow, 1, 1},
    Row{Unit::litrePerMinute, "l/min", "l/min", Dimension::volumeFlow, 60, 1000},
    Row{Unit::litrePerHour, "l/h", "l/h", Dimension::volumeFlow, 1, 1000},
    Row{Unit::kilogramPerHour, "kg/h", "kg/h", Dimension::massFlow, 1, 1},
    Row{Unit::tonnePerHour, "t/h", "t/h", Dimension::massFlow, 1000, 1},
    Row{Unit::rpm, "rpm", "rpm", Dimension::rotation, 1, 1},
    Row{Unit::metre, "m", "m", Dimension::length, 1, 1},
    Row{Unit::millimetre, "mm", "mm", Dimension::length, 1, 1000},
    Row{Unit::inch, "in", "in", Dimension::length, 254, 10000},
    Row{Unit::second, "s", "s", Dimension::time, 1, 1},
    Row{Unit::millisecond, "ms", "ms", Dimension::time, 1, 1000},
    Row{Unit::minute, "min", "min", Dimension::time, 60, 1},
    Row{Unit::hour, "h", "h", Dimension::time, 3600, 1},
    Row{Unit::kilogram, "kg", "kg", Dimension::mass, 1, 1},
    Row{Unit::pound, "lb", "lb", Dimension::mass, 45359237, 100000000},
    Row{Unit::relativeHumidity, "%RH", "% RH", Dimension::ratio, 1, 1},
    Row{Unit::ppm, "ppm", "ppm", Dimension::concentration, 1, 1},
    Row{Unit::metrePerSecond, "m/s", "m/s", Dimension::speed, 1, 1},
    Row{Unit::kilowatt, "kW", "kW", Dimension::power, 1, 1},
    Row{Unit::watt, "W", "W", Dimension::power, 1, 1000},
    Row{Unit::metrePerSecondSquared, "m/s2", "m/s²", Dimension::acceleration, 1, 1},
    Row{Unit::standardGravity, "gn", "gₙ", Dimension::acceleration, 980665, 100000},
};

constexpr bool inDeclarationOrder() {
  for (std::size_t i = 0; i < kRows.size(); ++i)
    if (static_cast<std::size_t>(kRows[i].unit) != i)
      return false;
  return static_cast<std::size_t>(Unit::standardGravity) + 1 == kRows.size();
}
static_assert(inDeclarationOrder());

constexpr auto kUnits = [] {
  std::array<Unit, kRows.size()> units{};
  for (std::size_t i = 0; i < kRows.size(); ++i)
    units[i] = kRows[i].unit;
  return units;
}();

const Row& row(Unit unit) {
  return kRows[static_cast<std::size_t>(unit)];
}

double toCelsius(double value, Unit from) {
  switch (from) {
    case Unit::fahrenheit:
      return (value - 32.0) * 5.0 / 9.0;
    case Unit::kelvin:
      return value - 273.15;
    case Unit::rankine:
      return value * 5.0 / 9.0 - 273.15;
    default:
      return value;
  }
}

double fromCelsius(double value, Unit to) {
  switch (to) {
    case Unit::fahrenheit:
      return value * 9.0 / 5.0 + 32.0;
    case Unit::kelvin:
      return value + 273.15;
    case Unit::rankine:
      return (value + 273.15) * 9.0 / 5.0;
    default:
      return value;
  }
}

/// value * (from / to), by one multiplication or one division wherever the ratio is a whole number either
/// way.
double scaled(double value, const Row& from, const Row& to) {
  const double numerator = from.numerator * to.denominator;
  const double denominator = from.denominator * to.numerator;
  if (std::fmod(numerator, denominator) == 0.0)
    return value * (numerator / denominator);
  if (std::fmod(denominator, numerator) == 0.0)
    return value / (denominator / numerator);
  return value * numerator / denominator;
}

struct Spelling {
  std::string_view text;
  Unit unit;
};

/// Understood in any case. Nothing stands here whose meaning a capital changes (mA, MPa, mS).
constexpr std::array kAnyCase{
    Spelling{"none", Unit::none},
    Spelling{"count", Unit::count},
    Spelling{"counts", Unit::count},
    Spelling{"cnt", Unit::count},
    Spelling{"cts", Unit::count},
    Spelling{"percent", Unit::percent},
    Spelling{"pct", Unit::percent},
    Spelling{"v", Unit::volt},
    Spelling{"vdc", Unit::volt},
    Spelling{"volt", Unit::volt},
    Spelling{"volts", Unit::volt},
    Spelling{"millivolt", Unit::millivolt},
    Spelling{"millivolts", Unit::millivolt},
    Spelling{"uv", Unit::microvolt},
    Spelling{"microvolt", Unit::microvolt},
    Spelling{"microvolts", Unit::microvolt},
    Spelling{"amp", Unit::ampere},
    Spelling{"amps", Unit::ampere},
    Spelling{"ampere", Unit::ampere},
    Spelling{"amperes", Unit::ampere},
    Spelling{"milliamp", Unit::milliampere},
    Spelling{"milliamps", Unit::milliampere},
    Spelling{"milliampere", Unit::milliampere},
    Spelling{"milliamperes", Unit::milliampere},
    Spelling{"ua", Unit::microampere},
    Spelling{"microampere", Unit::microampere},
    Spelling{"microamperes", Unit::microampere},
    Spelling{"ohm", Unit::ohm},
    Spelling{"ohms", Unit::ohm},
    Spelling{"kohm", Unit::kiloohm},
    Spelling{"kohms", Unit::kiloohm},
    Spelling{"kiloohm", Unit::kiloohm},
    Spelling{"kiloohms", Unit::kiloohm},
    Spelling{"milliohm", Unit::milliohm},
    Spelling{"milliohms", Unit::milliohm},
    Spelling{"degc", Unit::celsius},
    Spelling{"celsius", Unit::celsius},
    Spelling{"degcelsius", Unit::celsius},
    Spelling{"degreecelsius", Unit::celsius},
    Spelling{"degreescelsius", Unit::celsius},
    Spelling{"degf", Unit::fahrenheit},
    Spelling{"fahrenheit", Unit::fahrenheit},
    Spelling{"degfahrenheit", Unit::fahrenheit},
    Spelling{"degreesfahrenheit", Unit::fahrenheit},
    Spelling{"kelvin", Unit::kelvin},
    Spelling{"degr", Unit::rankine},
    Spelling{"rankine", Unit::rankine},
    Spelling{"pascal", Unit::pascal},
    Spelling{"kpa", Unit::kilopascal},
    Spelling{"kilopascal", Unit::kilopascal},
    Spelling{"megapascal", Unit::megapascal},
    Spelling{"bar", Unit::bar},
    Spelling{"millibar", Unit::millibar},
    Spelling{"psi", Unit::psi},
    Spelling{"lbf/in2", Unit::psi},
    Spelling{"inh2o", Unit::inchWater},
    Spelling{"inwc", Unit::inchWater},
    Spelling{"inh2o_4c", Unit::inchWater4C},
    Spelling{"inh2o(4degc)", Unit::inchWater4C},
    Spelling{"inh2o@4degc", Unit::inchWater4C},
    Spelling{"inh2o_60f", Unit::inchWater60F},
    Spelling{"inh2o(60degf)", Unit::inchWater60F},
    Spelling{"inh2o@60degf", Unit::inchWater60F},
    Spelling{"inh2o_68f", Unit::inchWater68F},
    Spelling{"inh2o(68degf)", Unit::inchWater68F},
    Spelling{"inh2o@68degf", Unit::inchWater68F},
    Spelling{"fth2o", Unit::footWater},
    Spelling{"ftwc", Unit::footWater},
    Spelling{"mmh2o", Unit::millimetreWater},
    Spelling{"cmh2o", Unit::centimetreWater},
    Spelling{"cmwc", Unit::centimetreWater},
    Spelling{"cmh2o_4c", Unit::centimetreWater4C},
    Spelling{"cmh2o(4degc)", Unit::centimetreWater4C},
    Spelling{"cmh2o@4degc", Unit::centimetreWater4C},
    Spelling{"mmwc", Unit::millimetreWater},
    Spelling{"inhg", Unit::inchMercury},
    Spelling{"inhg_32f", Unit::inchMercury32F},
    Spelling{"inhg(32degf)", Unit::inchMercury32F},
    Spelling{"inhg@32degf", Unit::inchMercury32F},
    Spelling{"inhg_60f", Unit::inchMercury60F},
    Spelling{"inhg(60degf)", Unit::inchMercury60F},
    Spelling{"inhg@60degf", Unit::inchMercury60F},
    Spelling{"mmhg", Unit::millimetreMercury},
    Spelling{"torr", Unit::torr},
    Spelling{"atm", Unit::atmosphere},
    Spelling{"kgf/cm2", Unit::technicalAtmosphere},
    Spelling{"kg/cm2", Unit::technicalAtmosphere},
    Spelling{"hz", Unit::hertz},
    Spelling{"hertz", Unit::hertz},
    Spelling{"ph", Unit::ph},
    Spelling{"us/cm", Unit::microsiemensPerCm},
    Spelling{"m3/h", Unit::cubicMetrePerHour},
    Spelling{"m3/hr", Unit::cubicMetrePerHour},
    Spelling{"m^3/h", Unit::cubicMetrePerHour},
    Spelling{"cum/h", Unit::cubicMetrePerHour},
    Spelling{"l/min", Unit::litrePerMinute},
    Spelling{"lpm", Unit::litrePerMinute},
    Spelling{"l/h", Unit::litrePerHour},
    Spelling{"l/hr", Unit::litrePerHour},
    Spelling{"kg/h", Unit::kilogramPerHour},
    Spelling{"kg/hr", Unit::kilogramPerHour},
    Spelling{"t/h", Unit::tonnePerHour},
    Spelling{"t/hr", Unit::tonnePerHour},
    Spelling{"rpm", Unit::rpm},
    Spelling{"1/min", Unit::rpm},
    Spelling{"r/min", Unit::rpm},
    Spelling{"rev/min", Unit::rpm},
    Spelling{"metre", Unit::metre},
    Spelling{"metres", Unit::metre},
    Spelling{"meter", Unit::metre},
    Spelling{"meters", Unit::metre},
    Spelling{"millimetre", Unit::millimetre},
    Spelling{"millimetres", Unit::millimetre},
    Spelling{"millimeter", Unit::millimetre},
    Spelling{"millimeters", Unit::millimetre},
    Spelling{"in", Unit::inch},
    Spelling{"inch", Unit::inch},
    Spelling{"inches", Unit::inch},
    Spelling{"sec", Unit::second},
    Spelling{"second", Unit::second},
    Spelling{"seconds", Unit::second},
    Spelling{"msec", Unit::millisecond},
    Spelling{"millisecond", Unit::millisecond},
    Spelling{"milliseconds", Unit::millisecond},
    Spelling{"min", Unit::minute},
    Spelling{"minute", Unit::minute},
    Spelling{"minutes", Unit::minute},
    Spelling{"hr", Unit::hour},
    Spelling{"hrs", Unit::hour},
    Spelling{"hour", Unit::hour},
    Spelling{"hours", Unit::hour},
    Spelling{"kg", Unit::kilogram},
    Spelling{"kilogram", Unit::kilogram},
    Spelling{"lb", Unit::pound},
    Spelling{"lbs", Unit::pound},
    Spelling{"pound", Unit::pound},
    Spelling{"%rh", Unit::relativeHumidity},
    Spelling{"%r.h.", Unit::relativeHumidity},
    Spelling{"rh%", Unit::relativeHumidity},
    Spelling{"ppm", Unit::ppm},
    Spelling{"kw", Unit::kilowatt},
    Spelling{"kilowatt", Unit::kilowatt},
    Spelling{"kilowatts", Unit::kilowatt},
    Spelling{"w", Unit::watt},
    Spelling{"watt", Unit::watt},
    Spelling{"watts", Unit::watt},
    Spelling{"m/s2", Unit::metrePerSecondSquared},
    Spelling{"m/s^2", Unit::metrePerSecondSquared},
    Spelling{"gn", Unit::standardGravity},
    Spelling{"standardgravity", Unit::standardGravity},
};

/// Understood as written only, beside the symbols. Small letters alone are safe where only the capital is
/// another unit.
constexpr std::array kAsWritten{
    Spelling{"mv", Unit::millivolt},  Spelling{"ma", Unit::milliampere},
    Spelling{"C", Unit::celsius},     Spelling{"F", Unit::fahrenheit},
    Spelling{"degK", Unit::kelvin},   Spelling{"R", Unit::rankine},
    Spelling{"pa", Unit::pascal},     Spelling{"mBar", Unit::millibar},
    Spelling{"mOhm", Unit::milliohm}, Spelling{"ms/cm", Unit::millisiemensPerCm},
};

/// One character people write, and the plain letters it stands for.
struct Plain {
  std::string_view from;
  std::string_view to;
};
constexpr std::array kPlain{
    Plain{"\u00b5", "u"},   Plain{"\u03bc", "u"},   Plain{"\u00b0", "deg"},  Plain{"\u00ba", "deg"},
    Plain{"\u03a9", "ohm"}, Plain{"\u2126", "ohm"}, Plain{"\u00b3", "3"},    Plain{"\u00b2", "2"},
    Plain{"\u2082", "2"},   Plain{"\u2099", "n"},   Plain{"\u2103", "degC"}, Plain{"\u2109", "degF"},
    Plain{" ", ""},         Plain{"\u00a0", ""},    Plain{"\u202f", ""},     Plain{"\t", ""},
};

std::string plain(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    bool found = false;
    for (const Plain& p : kPlain) {
      if (text.starts_with(p.from)) {
        out += p.to;
        text.remove_prefix(p.from.size());
        found = true;
        break;
      }
    }
    if (!found) {
      out += text.front();
      text.remove_prefix(1);
    }
  }
  return out;
}

std::string lowerCase(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z')
      c = static_cast<char>(c - 'A' + 'a');
  return text;
}

}  // namespace

std::string_view symbol(Unit unit) {
  return row(unit).symbol;
}
std::string_view displaySymbol(Unit unit) {
  return row(unit).display;
}
Dimension dimension(Unit unit) {
  return row(unit).dimension;
}
std::span<const Unit> allUnits() {
  return kUnits;
}

std::optional<Unit> parseUnit(std::string_view text) {
  const std::string written = plain(trimmed(text));
  for (const Row& r : kRows)
    if (written == r.symbol)
      return r.unit;
  for (const Spelling& s : kAsWritten)
    if (written == s.text)
      return s.unit;
  const std::string lower = lowerCase(written);
  for (const Spelling& s : kAnyCase)
    if (lower == s.text)
      return s.unit;
  return std::nullopt;
}

bool sameDimension(Unit a, Unit b) {
  return dimension(a) == dimension(b);
}

std::optional<double> convert(double value, Unit from, Unit to) {
  if (!sameDimension(from, to))
    return std::nullopt;
  if (from == to)
    return value;
  // Both kelvin and rankine count from absolute zero; a way through degC would cost digits near it.
  const bool absolute =
      (from == Unit::kelvin || from == Unit::rankine) && (to == Unit::kelvin || to == Unit::rankine);
  if (dimension(from) == Dimension::temperature && !absolute)
    return fromCelsius(toCelsius(value, from), to);
  return scaled(value, row(from), row(to));
}

std::optional<double> convertDifference(double value, Unit from, Unit to) {
  if (!sameDimension(from, to))
    return std::nullopt;
  if (from == to)
    return value;
  return scaled(value, row(from), row(to));
}

}  // namespace spanwright
