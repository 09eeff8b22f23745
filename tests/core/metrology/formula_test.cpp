// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/formula.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <locale>
#include <numbers>

namespace spanwright {
namespace {

using testing::HasSubstr;

double valueOf(const std::string& text, const std::vector<std::string>& names = {},
               const std::vector<double>& values = {}) {
  auto parsed = Formula::parse(text, names);
  if (const auto* fault = std::get_if<FormulaFault>(&parsed)) {
    ADD_FAILURE() << text << " " << fault->what;
    return 0.0;
  }
  return std::get<Formula>(parsed)(values);
}

FormulaFault faultOf(const std::string& text) {
  auto parsed = Formula::parse(text, {"x", "y_1"});
  if (const auto* fault = std::get_if<FormulaFault>(&parsed)) {
    return *fault;
  }
  ADD_FAILURE() << text << " was taken";
  return {};
}

TEST(Formula, Computes) {
  struct Row {
    const char* text;
    double value;
  };
  const Row rows[] = {{"1 + 2 * 3", 7},
                      {"(1 + 2) * 3", 9},
                      {"-x^2", -9},
                      {"2^-1", 0.5},
                      {"2^3^2", 512},
                      {"10 - 4 - 3", 3},
                      {"12 / 4 / 3", 1},
                      {"x + -y_1", -2},
                      {"1.5e-3 * 2E3", 3},
                      {"ln(exp(2))", 2},
                      {"log10(1000)", 3},
                      {"log2(8)", 3},
                      {"cos(pi)", -1},
                      {"atan2(1, 1) * 4", std::numbers::pi},
                      {"hypot(x, 4)", 5},
                      {"sqrt(abs(-16))", 4},
                      {"sign(-2) + sign(0) + sign(7)", 0},
                      {"x > 2 ? 1 : 2", 1},
                      {"sin(0.5)^2 + cos(0.5)^2", 1},
                      {"tan(atan(0.3)) + asin(sin(0.2)) + acos(cos(0.1))", 0.6},
                      {"sinh(asinh(2)) + cosh(acosh(3)) + tanh(atanh(0.5))", 5.5}};
  for (const Row& row : rows) {
    EXPECT_NEAR(valueOf(row.text, {"x", "y_1"}, {3, 5}), row.value, 1e-14 * (1 + std::abs(row.value)))
        << row.text;
  }
}

TEST(Formula, SaysWhereItIsNotUnderstood) {
  struct Row {
    const char* text;
    std::size_t position;
    const char* what;
  };
  const Row rows[] = {{"", 0, "is empty"},
                      {"  ", 0, "is empty"},
                      {"x + z", 4, "uses \"z\", which is no input and no function"},
                      {"log(x)", 0, "write ln or log10"},
                      {"x + 2e3 * 1.5x_z", 13, "\"x_z\""},
                      {"x = 2", 2, "only the right-hand side"},
                      {"x, y_1", 0, "several formulas"},
                      {"x + \"a\"", 4, "holds a text"},
                      {"(x + 1", 6, "ends before it is complete"},
                      {"x +", 3, "ends before it is complete"},
                      {"sqrt(x, 1)", 9, "gives sqrt the wrong number of values"},
                      {"x $ 2", 2, "not understood"},
                      {"x y_1", 2, "not understood"}};
  for (const Row& row : rows) {
    const FormulaFault fault = faultOf(row.text);
    EXPECT_THAT(fault.what, HasSubstr(row.what)) << row.text;
    EXPECT_EQ(fault.position, row.position) << row.text << ": " << fault.what;
  }
}

TEST(Formula, HasNoValueWhereTheFunctionHasNone) {
  EXPECT_FALSE(std::isfinite(valueOf("1 / x", {"x"}, {0})));
  EXPECT_FALSE(std::isfinite(valueOf("sqrt(x)", {"x"}, {-1})));
  EXPECT_FALSE(std::isfinite(valueOf("ln(x)", {"x"}, {0})));
}

TEST(Formula, KnowsWhatItUsesAndKeepsItsInputs) {
  auto parsed = Formula::parse("a * c", {"a", "b", "c"});
  const Formula formula = std::get<Formula>(std::move(parsed));
  EXPECT_TRUE(formula.uses(0));
  EXPECT_FALSE(formula.uses(1));
  EXPECT_TRUE(formula.uses(2));
  const std::vector<double> values{2, 3, 4};
  EXPECT_EQ(formula(values), 8);
  EXPECT_EQ(formula(values), 8);
}

TEST(Formula, NamesOfInputs) {
  for (const char* good : {"x", "R_S", "d1", "_a", "e", "Pi", "SIN"}) {
    EXPECT_TRUE(usableName(good)) << good;
  }
  for (const char* bad : {"", "1x", "a b", "a-b", "sin", "pi", "sqrt", "sign", "hypot", "Ω"}) {
    EXPECT_FALSE(usableName(bad)) << bad;
  }
}

struct DecimalComma : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
};

// A locale with a decimal comma must not change what 1.5 means.
TEST(Formula, IgnoresTheLocale) {
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new DecimalComma));
  EXPECT_EQ(valueOf("1.5 + 1"), 2.5);
  EXPECT_THAT(faultOf("x + 1,5").what, HasSubstr("several formulas"));
  std::locale::global(before);
}

}  // namespace
}  // namespace spanwright
