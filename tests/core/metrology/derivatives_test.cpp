// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/derivatives.h"

#include <gtest/gtest.h>

#include <cmath>

namespace spanwright {
namespace {

struct Case {
  const char* name;
  std::function<double(double)> function;
  double x, scale, exact;
};

// Derivatives by the rules of calculus; accuracy as the header states.
TEST(Derivative, IsExactToElevenDigitsForSmoothFunctions) {
  const Case cases[] = {{"sine", [](double x) { return std::sin(x); }, 1.0, 0.01, std::cos(1.0)},
                        {"exponential", [](double x) { return std::exp(x); }, 3.0, 1e-4, std::exp(3.0)},
                        {"power", [](double x) { return x * x * x; }, 50.0, 0.1, 7500.0},
                        {"reciprocal", [](double x) { return 1.0 / x; }, 0.5, 0.01, -4.0},
                        {"root near its edge", [](double x) { return std::sqrt(x); }, 0.01, 0.001, 5.0},
                        {"product with a small uncertainty",
                         [](double x) { return 50000623.0 * (1.0 - 0.1 * x); }, 0.0, 6e-7, -5000062.3},
                        {"small change of a large value", [](double x) { return 1e8 + x; }, 3.0, 1e-6, 1.0},
                        {"fast oscillation", [](double x) { return std::sin(1000.0 * x); }, 0.3, 1e-4,
                         1000.0 * std::cos(300.0)},
                        {"bell no wider than its scale", [](double x) { return std::exp(-x * x / 2.0); }, 1.0,
                         1.0, -std::exp(-0.5)}};
  for (const Case& each : cases) {
    const auto found = derivative(each.function, each.x, each.scale);
    ASSERT_TRUE(found.has_value()) << each.name;
    EXPECT_NEAR(found->value, each.exact, 1e-11 * std::abs(each.exact)) << each.name;
    EXPECT_LE(std::abs(found->value - each.exact), 4.0 * found->error + 1e-15 * std::abs(each.exact))
        << each.name << ": the stated error is too small";
    EXPECT_LT(found->error, 1e-8 * std::abs(each.exact)) << each.name;
  }
}

TEST(Derivative, OfAConstantIsZero) {
  const auto found = derivative([](double) { return 7.0; }, 2.0, 0.1);
  ASSERT_TRUE(found.has_value());
  EXPECT_EQ(found->value, 0.0);
}

TEST(Derivative, NeedsValuesOnBothSides) {
  EXPECT_FALSE(derivative([](double x) { return std::sqrt(x); }, 0.0, 0.1).has_value());
  EXPECT_FALSE(derivative([](double x) { return 1.0 / (x - x); }, 1.0, 0.1).has_value());
}

TEST(Derivative, TellsJumpsAndCornersFromSmoothPlaces) {
  const auto jump = [](const std::function<double(double)>& function, double x) {
    const auto found = derivative(function, x, 0.1);
    return found ? found->jump : -1.0;
  };
  EXPECT_NEAR(jump([](double x) { return x < 1.0 ? 0.0 : 1.0; }, 1.0), 1.0, 1e-6);
  EXPECT_GT(jump([](double x) { return std::abs(x); }, 0.0), 1e-6);
  EXPECT_LT(jump([](double x) { return std::abs(x); }, 0.3), 1e-15);
  EXPECT_LT(jump([](double x) { return std::exp(x); }, 1.0), 1e-10);
}

}  // namespace
}  // namespace spanwright
