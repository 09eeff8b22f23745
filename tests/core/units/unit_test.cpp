// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/unit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <set>

#include "tests/support/csv.h"

namespace spanwright {
namespace {

using test::numberIn;
using test::readReferenceCsv;

std::string reference(const std::string& name) {
  return std::string(SPANWRIGHT_REFERENCE_DIR "/signals/") + name;
}

/// The unit a reference row names; the rows call the conventional columns "conventional".
std::optional<Unit> referenceUnit(std::string name) {
  if (name == "inH2O (39.2 degF = 4 degC)")
    return Unit::inchWater4C;
  if (name == "inH2O (68 degF = 20 degC)")
    return Unit::inchWater68F;
  if (name == "at (kgf/cm2)")
    return Unit::technicalAtmosphere;
  const std::string ending = " conventional";
  if (name.ends_with(ending))
    name.erase(name.size() - ending.size());
  return parseUnit(name);
}

bool close(double value, double expected, double relative) {
  return std::abs(value - expected) <= relative * std::max(1.0, std::abs(expected));
}

TEST(Convert, FollowsTheReferenceFactors) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(reference("unit_conversions.csv"))) {
    const std::string& from = row.at("from");
    const auto a = referenceUnit(from);
    const auto b = referenceUnit(row.at("to"));
    ASSERT_TRUE(a && b) << from;
    const double factor = numberIn(row, "factor");
    const double offset = numberIn(row, "offset");
    const bool interval = row.at("quantity") == "temperature interval";
    for (const double value : {0.0, 1.0, -40.0, 123.456}) {
      const auto result = interval ? convertDifference(value, *a, *b) : convert(value, *a, *b);
      ASSERT_TRUE(result) << from;
      // Two roundings of a double, and the reference's own 16 to 18 digits.
      EXPECT_TRUE(close(*result, value * factor + offset, 1e-15)) << from << " " << value << ": " << *result;
    }
    ++checked;
  }
  EXPECT_EQ(checked, 36);
}

TEST(Convert, GivesTheWorkedExamples) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(reference("unit_conversion_examples.csv"))) {
    const auto from = referenceUnit(row.at("from"));
    const auto to = referenceUnit(row.at("to"));
    ASSERT_TRUE(from && to) << row.at("from") << " " << row.at("to");
    const auto result = convert(numberIn(row, "value"), *from, *to);
    ASSERT_TRUE(result);
    EXPECT_NEAR(*result, numberIn(row, "result"), 5.1e-11 + 1e-15 * std::abs(*result)) << row.at("from");
    ++checked;
  }
  EXPECT_EQ(checked, 19);
}

TEST(Convert, IsExactWhereTheDefinitionIsAWholeRatio) {
  EXPECT_EQ(convert(4.5, Unit::milliampere, Unit::ampere), 0.0045);
  EXPECT_EQ(convert(0.0045, Unit::ampere, Unit::milliampere), 4.5);
  EXPECT_EQ(convert(250.0, Unit::millibar, Unit::bar), 0.25);
  EXPECT_EQ(convert(1.0, Unit::bar, Unit::kilopascal), 100.0);
  EXPECT_EQ(convert(100.0, Unit::celsius, Unit::fahrenheit), 212.0);
  EXPECT_EQ(convert(-40.0, Unit::fahrenheit, Unit::celsius), -40.0);
  EXPECT_EQ(convert(32.0, Unit::fahrenheit, Unit::celsius), 0.0);
  EXPECT_EQ(convert(0.0, Unit::celsius, Unit::kelvin), 273.15);
  EXPECT_EQ(convert(60.0, Unit::litrePerHour, Unit::litrePerMinute), 1.0);
  EXPECT_EQ(convert(1.0, Unit::cubicMetrePerHour, Unit::litrePerHour), 1000.0);
  EXPECT_EQ(convert(2.5, Unit::kilowatt, Unit::watt), 2500.0);
  EXPECT_EQ(convert(750.0, Unit::watt, Unit::kilowatt), 0.75);
  EXPECT_EQ(convert(1.0, Unit::centimetreWater, Unit::millimetreWater), 10.0);
  EXPECT_EQ(convert(1.0, Unit::footWater, Unit::inchWater), 12.0);
}

TEST(Convert, TellsAPointOfTemperatureFromADifference) {
  EXPECT_EQ(convertDifference(1.0, Unit::kelvin, Unit::fahrenheit), 1.8);
  EXPECT_EQ(convertDifference(1.8, Unit::fahrenheit, Unit::celsius), 1.0);
  EXPECT_EQ(convertDifference(0.5, Unit::celsius, Unit::kelvin), 0.5);
  EXPECT_EQ(convertDifference(0.0, Unit::fahrenheit, Unit::celsius), 0.0);
}

TEST(Convert, GoesThereAndBackBetweenAllUnitsOfAKind) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> values(-500.0, 500.0);
  int pairs = 0;
  for (const Unit a : allUnits()) {
    for (const Unit b : allUnits()) {
      const double value = values(random);
      const auto there = convert(value, a, b);
      const auto difference = convertDifference(value, a, b);
      ASSERT_EQ(there.has_value(), sameDimension(a, b));
      ASSERT_EQ(difference.has_value(), sameDimension(a, b));
      if (!there)
        continue;
      ++pairs;
      EXPECT_NEAR(*convert(*there, b, a), value, 1e-12 * 1000.0) << symbol(a) << " " << symbol(b);
      EXPECT_NEAR(*convertDifference(*difference, b, a), value, 1e-12 * 1000.0)
          << symbol(a) << " " << symbol(b);
      // A difference is what is left between two points.
      EXPECT_NEAR(*convert(value + 1.0, a, b) - *there, *convertDifference(1.0, a, b),
                  1e-12 * std::max(1000.0, std::abs(*there)));
    }
  }
  EXPECT_GT(pairs, 200);
}

TEST(ParseUnit, ReadsEverySymbolBack) {
  std::set<std::string_view> symbols;
  for (const Unit unit : allUnits()) {
    EXPECT_EQ(parseUnit(symbol(unit)), unit) << symbol(unit);
    EXPECT_EQ(parseUnit(displaySymbol(unit)), unit) << displaySymbol(unit);
    EXPECT_TRUE(symbols.insert(symbol(unit)).second) << symbol(unit);
    for (const char c : symbol(unit))
      EXPECT_TRUE(c > ' ' && c < 127) << symbol(unit);
  }
}

TEST(Convert, BringsTheFixedPointsFromKelvinToCelsius) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(reference("its90_fixed_points.csv"))) {
    const double kelvin = numberIn(row, "T90_K"), celsius = numberIn(row, "t90_degC");
    // Both are exact decimals: nothing but rounding of doubles lies between them.
    EXPECT_NEAR(convert(kelvin, Unit::kelvin, Unit::celsius).value(), celsius, 3e-13) << row.at("substance");
    EXPECT_NEAR(convert(celsius, Unit::celsius, Unit::kelvin).value(), kelvin, 3e-13) << row.at("substance");
    ++checked;
  }
  EXPECT_EQ(checked, 14);
}

TEST(ParseUnit, UnderstandsWhatPeopleWrite) {
  const std::pair<const char*, Unit> cases[] = {
      {"C", Unit::celsius},
      {"°C", Unit::celsius},
      {"deg C", Unit::celsius},
      {"ºC", Unit::celsius},
      {"\u2103", Unit::celsius},
      {"Celsius", Unit::celsius},
      {"DEGC", Unit::celsius},
      {"° F", Unit::fahrenheit},
      {"k\u03a9", Unit::kiloohm},
      {"\u2126", Unit::ohm},
      {"Ohms", Unit::ohm},
      {"kOhm", Unit::kiloohm},
      {"mbar", Unit::millibar},
      {"m³/h", Unit::cubicMetrePerHour},
      {"m^3/h", Unit::cubicMetrePerHour},
      {"L/min", Unit::litrePerMinute},
      {"\u00b5S/cm", Unit::microsiemensPerCm},
      {"\u03bcV", Unit::microvolt},
      {"mV", Unit::millivolt},
      {"vdc", Unit::volt},
      {" mA ", Unit::milliampere},
      {"ma", Unit::milliampere},
      {"PSI", Unit::psi},
      {"KPA", Unit::kilopascal},
      {"%", Unit::percent},
      {"% RH", Unit::relativeHumidity},
      {"counts", Unit::count},
      {"1/min", Unit::rpm},
      {"inH\u2082O", Unit::inchWater},
      {"mmHg", Unit::millimetreMercury},
      {"Torr", Unit::torr},
      {"ms", Unit::millisecond},
      {"mS/cm", Unit::millisiemensPerCm},
      {"cm H\u2082O", Unit::centimetreWater},
      {"cmH2O (4 °C)", Unit::centimetreWater4C},
      {"ftH2O", Unit::footWater},
      {"inH2O (68 °F)", Unit::inchWater68F},
      {"inHg (32 degF)", Unit::inchMercury32F},
      {"inHg (60 °F)", Unit::inchMercury60F},
      {"W", Unit::watt},
      {"kW", Unit::kilowatt},
      {"m/s\u00b2", Unit::metrePerSecondSquared},
      {"", Unit::none},
  };
  for (const auto& [text, unit] : cases)
    EXPECT_EQ(parseUnit(text), unit) << text;
}

TEST(ParseUnit, RefusesWhatItWouldHaveToGuess) {
  for (const char* text : {"mX", "MA", "mpa", "MV", "Mbar", "S",    "volt/s", "degX", "4",  "mA2",
                           "x",  "?",  "°",   "m3", "Ω/K",  "MOhm", "MS/cm",  "g",    "MW", "mW"})
    EXPECT_FALSE(parseUnit(text).has_value()) << text;
}

}  // namespace
}  // namespace spanwright
