// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/tolerance.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace spanwright {
namespace {

Tolerance symmetric(const ToleranceSide& side) {
  return {side, side};
}

struct LimitCase {
  const char* name;
  Tolerance tolerance;
  double expected;
  double span;
  double countsPerUnit;
  double low, high;
};

class Limits : public testing::TestWithParam<LimitCase> {};

TEST_P(Limits, AreTheSumOfTheTerms) {
  const LimitCase& at = GetParam();
  const ErrorLimits limits = errorLimits(at.tolerance, at.expected, at.span, at.countsPerUnit);
  EXPECT_NEAR(limits.low, at.low, 1e-12) << at.name;
  EXPECT_NEAR(limits.high, at.high, 1e-12) << at.name;
}

INSTANTIATE_TEST_SUITE_P(
    Table, Limits,
    testing::Values(
        LimitCase{"absolute", symmetric({.absolute = 0.2}), 50, 100, 0, -0.2, 0.2},
        LimitCase{"of reading", symmetric({.percentOfReading = 1}), 50, 100, 0, -0.5, 0.5},
        LimitCase{"of a negative reading", symmetric({.percentOfReading = 1}), -50, 100, 0, -0.5, 0.5},
        LimitCase{"of reading at zero", symmetric({.percentOfReading = 1}), 0, 100, 0, 0, 0},
        LimitCase{"of span", symmetric({.percentOfSpan = 0.25}), 7, 150, 0, -0.375, 0.375},
        LimitCase{"of a reversed span", symmetric({.percentOfSpan = 0.25}), 7, -150, 0, -0.375, 0.375},
        LimitCase{"counts of counts", symmetric({.counts = 16}), 100, 32000, 1, -16, 16},
        LimitCase{"counts behind units", symmetric({.counts = 16}), 100, 100, 320, -0.05, 0.05},
        LimitCase{"all four", symmetric({0.1, 1, 0.25, 32}), 50, 100, 320, -0.95, 0.95},
        LimitCase{
            "unequal", {{.absolute = 0.5}, {.absolute = 0.2, .percentOfSpan = 1}}, 50, 100, 0, -1.2, 0.5},
        LimitCase{"one side", {{.absolute = 0.5}, {}}, 50, 100, 0, 0, 0.5}));

TEST(Limits, GrowWithEveryTerm) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> some(0.001, 5.0);
  std::uniform_real_distribution<double> anywhere(-200.0, 200.0);
  double ToleranceSide::*const terms[] = {&ToleranceSide::absolute, &ToleranceSide::percentOfReading,
                                          &ToleranceSide::percentOfSpan, &ToleranceSide::counts};
  for (int round = 0; round < 1000; ++round) {
    const ToleranceSide side{some(random), some(random), some(random), some(random)};
    const double expected = anywhere(random);
    const double span = anywhere(random);
    const ErrorLimits before = errorLimits(symmetric(side), expected, span, 3.0);
    EXPECT_DOUBLE_EQ(before.low, -before.high);
    EXPECT_DOUBLE_EQ(errorLimits(symmetric(side), -expected, -span, -3.0).high, before.high);
    for (const auto term : terms) {
      ToleranceSide wider = side;
      wider.*term *= 2.0;
      const ErrorLimits after = errorLimits(symmetric(wider), expected, span, 3.0);
      EXPECT_GT(after.high, before.high);
      EXPECT_LT(after.low, before.low);
      const ErrorLimits upper = errorLimits({wider, side}, expected, span, 3.0);
      EXPECT_EQ(upper.low, before.low) << "one side leaves the other alone";
      EXPECT_EQ(upper.high, after.high);
    }
  }
}

TEST(ToleranceFault, NamesWhatCannotBeUsed) {
  const double infinite = std::numeric_limits<double>::infinity();
  EXPECT_EQ(toleranceFault({}), "the tolerance has no term above zero");
  EXPECT_EQ(toleranceFault(symmetric({.absolute = -0.1})), "the tolerance's absolute term is negative");
  EXPECT_EQ(toleranceFault({{.absolute = 1}, {.percentOfSpan = -1}}),
            "the tolerance's percent of span term is negative");
  EXPECT_EQ(toleranceFault(symmetric({.percentOfReading = infinite})),
            "the tolerance's percent of reading term is not a finite number");
  EXPECT_EQ(toleranceFault(symmetric({.counts = std::nan("")})),
            "the tolerance's counts term is not a finite number");
  EXPECT_EQ(toleranceFault(symmetric({.counts = 1})), std::nullopt);
  EXPECT_EQ(toleranceFault({{.absolute = 1}, {}}), std::nullopt) << "one-sided is usable";
}

TEST(Describe, SaysTheToleranceInOneLine) {
  EXPECT_EQ(describe(symmetric({.percentOfSpan = 0.25}), Unit::celsius), "±0.25 % of span");
  EXPECT_EQ(describe(symmetric({.absolute = 0.2, .percentOfSpan = 0.1}), Unit::celsius),
            "±(0.1 % of span + 0.2 degC)");
  EXPECT_EQ(describe(symmetric({.percentOfReading = 0.5, .counts = 1}), Unit::count),
            "±(0.5 % of reading + 1 count)");
  EXPECT_EQ(describe(symmetric({.counts = 16}), Unit::count), "±16 counts");
  EXPECT_EQ(describe({{.absolute = 0.5}, {.absolute = 0.2}}, Unit::volt), "+0.5 V / -0.2 V");
  EXPECT_EQ(describe({{.absolute = 0.5}, {}}, Unit::volt), "+0.5 V / -0");
}

}  // namespace
}  // namespace spanwright
