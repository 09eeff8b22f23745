// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/quantity.h"

#include <gtest/gtest.h>

#include <random>

namespace spanwright {
namespace {

struct TypedCase {
  const char* text;
  double value;
  std::optional<Unit> unit;
  int decimals;
};

TEST(ParseQuantity, ReadsANumberWithOrWithoutUnit) {
  const TypedCase cases[] = {
      {"4.02", 4.02, std::nullopt, 2},          {"4,02", 4.02, std::nullopt, 2},
      {"4.02 mA", 4.02, Unit::milliampere, 2},  {"4,02mA", 4.02, Unit::milliampere, 2},
      {"-12.5 °C", -12.5, Unit::celsius, 1},    {"\u221212,5\u00a0°C", -12.5, Unit::celsius, 1},
      {"50%", 50.0, Unit::percent, 0},          {"16000 counts", 16000.0, Unit::count, 0},
      {"1.5e3 Pa", 1500.0, Unit::pascal, 0},    {"  7.500 V ", 7.5, Unit::volt, 3},
      {"138.51 \u03a9", 138.51, Unit::ohm, 2},  {"1500 1/min", 1500.0, Unit::rpm, 0},
      {"100 inH2O", 100.0, Unit::inchWater, 0},
  };
  for (const TypedCase& c : cases) {
    const auto typed = parseQuantity(c.text);
    ASSERT_TRUE(typed.has_value()) << c.text;
    EXPECT_EQ(typed->value, c.value) << c.text;
    EXPECT_EQ(typed->unit, c.unit) << c.text;
    EXPECT_EQ(typed->decimals, c.decimals) << c.text;
    EXPECT_EQ(typed->text, c.text);
  }
}

TEST(ParseQuantity, RefusesWhatItDoesNotUnderstand) {
  for (const char* text : {"",           " ",         "nan",  "inf",  "nan mA", "4..2",    "1,234.5",
                           "1,234.5 mA", "1.234,5",   "4 mX", "mA",   "mA 4",   "4 mA 5",  "4 mA mA",
                           "four",       "12 500 Pa", "4e",   "4 e5", "--4 V",  "1e999 V", "4 MA"})
    EXPECT_FALSE(parseQuantity(text).has_value()) << '"' << text << '"';
  EXPECT_FALSE(parseQuantity("4,2 mA", DecimalSign::point).has_value());
  EXPECT_FALSE(parseQuantity("4.2 mA", DecimalSign::comma).has_value());
}

TEST(FormatQuantity, IsReadBack) {
  EXPECT_EQ(formatQuantity(4.02, 2, Unit::milliampere), "4.02 mA");
  EXPECT_EQ(formatQuantity(-0.001, 1, Unit::celsius), "0.0 degC");
  EXPECT_EQ(formatQuantity(12.0, 0, Unit::none), "12");
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> millis(-99999999, 99999999);
  for (const Unit unit : allUnits()) {
    for (int i = 0; i < 50; ++i) {
      const double value = millis(random) / 1000.0;
      const auto back = parseQuantity(formatQuantity(value, 3, unit));
      ASSERT_TRUE(back.has_value()) << formatQuantity(value, 3, unit);
      EXPECT_EQ(back->value, value);
      EXPECT_EQ(back->decimals, 3);
      EXPECT_EQ(back->unit, unit == Unit::none ? std::nullopt : std::optional(unit));
    }
  }
}

}  // namespace
}  // namespace spanwright
