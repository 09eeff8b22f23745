// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/monte_carlo.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numeric>

#include "core/metrology/draws.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

double total(std::span<const double> x) {
  return std::accumulate(x.begin(), x.end(), 0.0);
}

BudgetModel additive(InputShape shape, double last) {
  BudgetModel model;
  for (const double u : {1.0, 1.0, 1.0, last}) {
    model.inputs.push_back({"x", 0.0, u, std::numeric_limits<double>::infinity(), shape});
  }
  return model;
}

ModelBudget gumOf(const BudgetModel& model, const ModelFunction& function, double probability = 0.95) {
  CoverageRule rule;
  rule.probability = probability;
  return std::get<ModelBudget>(evaluate(model, {function, {}}, rule));
}

MonteCarloResult simulated(const BudgetModel& model, const ModelFunction& function,
                           const MonteCarloOptions& options = {}, double probability = 0.95) {
  auto answer = monteCarlo(model, function, gumOf(model, function, probability), options);
  if (const auto* fault = std::get_if<BudgetFault>(&answer)) {
    ADD_FAILURE() << fault->what;
    return {};
  }
  return std::get<MonteCarloResult>(answer);
}

// JCGM 101:2008 7.9.2, its three examples and the carry of rounding.
TEST(MonteCarlo, NumericalTolerance) {
  EXPECT_NEAR(numericalTolerance(0.00035, 2), 0.000005, 1e-18);
  EXPECT_NEAR(numericalTolerance(0.00035, 1), 0.00005, 1e-17);
  EXPECT_NEAR(numericalTolerance(2.0, 2), 0.05, 1e-15);
  EXPECT_NEAR(numericalTolerance(2.0, 1), 0.5, 1e-15);
  EXPECT_NEAR(numericalTolerance(10.1, 2), 0.5, 1e-15);
  EXPECT_NEAR(numericalTolerance(9.94, 2), 0.05, 1e-15);
  EXPECT_NEAR(numericalTolerance(9.96, 2), 0.5, 1e-15);
  EXPECT_NEAR(numericalTolerance(1.0, 2), 0.05, 1e-15);
}

// JCGM 101:2008 Table 2 prints 2.00 and 3.92 for four normal inputs. The bounds are those of the procedure, a
// fifth of delta = 0.05 (twice the standard deviation of the averages), and half a printed digit.
TEST(MonteCarlo, FourNormalInputs) {
  const MonteCarloResult result = simulated(additive(InputShape::normal, 1.0), total);
  EXPECT_TRUE(result.stabilised);
  EXPECT_NEAR(result.standardUncertainty, 2.00, 0.015);
  EXPECT_NEAR((result.symmetric.high - result.symmetric.low) / 2.0, 3.92, 0.015);
  EXPECT_NEAR(result.tolerance, 0.05, 1e-15);
  EXPECT_TRUE(result.validated);
  EXPECT_NEAR(result.value, 0.0, 0.01);
  EXPECT_LE(result.shortest.high - result.shortest.low, result.symmetric.high - result.symmetric.low);
}

// Table 3: 3.88 for four rectangular inputs (analytic). The GUM's 3.92 differs by less than delta = 0.05.
TEST(MonteCarlo, FourRectangularInputs) {
  const MonteCarloResult result = simulated(additive(InputShape::rectangular, 1.0), total);
  EXPECT_NEAR((result.symmetric.high - result.symmetric.low) / 2.0, 3.88, 0.015);
  EXPECT_TRUE(result.validated);
}

// Table 4: u = 10.1, simulated half-interval 17.0 against the GUM's 19.9: not validated.
TEST(MonteCarlo, OneLargeRectangularInput) {
  MonteCarloOptions options;
  options.maximumTrials = 1'000'000;
  options.digits = 3;
  const MonteCarloResult result = simulated(additive(InputShape::rectangular, 10.0), total, options);
  EXPECT_NEAR((result.symmetric.high - result.symmetric.low) / 2.0, 17.0, 0.05);
  EXPECT_NEAR(result.standardUncertainty, 10.1, 0.05 + 0.02);
  EXPECT_FALSE(result.validated);
  EXPECT_NEAR(result.differenceHigh, 19.9 - 17.0, 0.1);
}

TEST(MonteCarlo, TheSameSeedGivesTheSameAnswer) {
  const BudgetModel model = additive(InputShape::triangular, 2.0);
  MonteCarloOptions options;
  options.digits = 1;
  const MonteCarloResult one = simulated(model, total, options);
  const MonteCarloResult again = simulated(model, total, options);
  EXPECT_EQ(one.symmetric.low, again.symmetric.low);
  EXPECT_EQ(one.trials, again.trials);
  options.seed = 2;
  EXPECT_NE(one.symmetric.low, simulated(model, total, options).symmetric.low);
}

TEST(MonteCarlo, SaysWhenItDidNotSettle) {
  MonteCarloOptions options;
  options.digits = 4;
  options.maximumTrials = 200'000;
  const MonteCarloResult result = simulated(additive(InputShape::normal, 1.0), total, options);
  EXPECT_FALSE(result.stabilised);
  EXPECT_FALSE(result.validated);
  EXPECT_EQ(result.trials, 200'000U);
}

// Correlated normals: u^2 = 1 + 4 + 2 r 2 for a sum; r = 1 is a singular matrix.
TEST(MonteCarlo, CorrelatedInputs) {
  for (const double r : {-0.8, 1.0}) {
    BudgetModel model{{{"a", 1.0, 1.0}, {"b", 2.0, 2.0}}, {{0, 1, r}}};
    MonteCarloOptions options;
    options.maximumTrials = 200'000;
    const MonteCarloResult result = simulated(model, total, options);
    EXPECT_NEAR(result.standardUncertainty, std::sqrt(5.0 + 4.0 * r), 0.01 * std::sqrt(5.0 + 4.0 * r)) << r;
    EXPECT_NEAR(result.value, 3.0, 0.02);
  }
}

// A t distribution's standard deviation is its scale times sqrt(nu/(nu - 2)): sqrt(10/8) here; 95 % lie
// within t = 2.228 (GUM Table G.2 prints 2.23).
TEST(MonteCarlo, FewDegreesOfFreedomAreDrawnAsStudentsT) {
  for (const InputShape shape : {InputShape::student, InputShape::normal}) {
    const BudgetModel model{{{"a", 5.0, 1.0, 10.0, shape}}, {}};
    MonteCarloOptions options;
    options.maximumTrials = 400'000;
    const MonteCarloResult result = simulated(model, total, options);
    EXPECT_NEAR(result.standardUncertainty, std::sqrt(1.25), 0.01);
    EXPECT_NEAR(result.symmetric.high, 5.0 + 2.23, 0.03);
    EXPECT_NEAR(result.symmetric.low, 5.0 - 2.23, 0.03);
  }
}

// y = x^2 with x normal about zero: chi-squared with one degree of freedom, a skew density. The shortest
// interval begins at zero and ends at 3.841 (95 % of chi-squared, common tables).
TEST(MonteCarlo, ShortestIntervalOfASkewDensity) {
  const BudgetModel model{{{"x", 0.0, 1.0}, {"y", 0.0, 1e-6}}, {}};
  MonteCarloOptions options;
  options.maximumTrials = 400'000;
  const MonteCarloResult result = simulated(
      model, [](std::span<const double> x) { return x[0] * x[0] + x[1]; }, options);
  EXPECT_NEAR(result.shortest.low, 0.0, 1e-4);
  EXPECT_NEAR(result.shortest.high, 3.841, 0.05);
  EXPECT_NEAR(result.symmetric.high, 5.024, 0.06);
  EXPECT_NEAR(result.value, 1.0, 0.02);
  EXPECT_FALSE(result.validated);
}

TEST(MonteCarlo, RefusesWhatItCannotDraw) {
  const auto fault = [](const BudgetModel& model, const ModelFunction& function) {
    const auto answer = monteCarlo(model, function, gumOf(model, function));
    const auto* found = std::get_if<BudgetFault>(&answer);
    return found == nullptr ? std::string("no fault") : found->what;
  };
  EXPECT_THAT(fault({{{"a", 0.0, 1.0, 2.0, InputShape::student}}, {}}, total),
              HasSubstr("two degrees of freedom or fewer"));
  BudgetModel model = additive(InputShape::rectangular, 1.0);
  model.correlations = {{0, 1, 0.5}};
  EXPECT_THAT(fault(model, total), HasSubstr("correlated and rectangular"));
  EXPECT_THAT(fault({{{"a", 1.0, 1.0}}, {}}, [](std::span<const double> x) { return std::sqrt(x[0]); }),
              HasSubstr("no value for some of the values"));
}

// Moments of what is drawn: mean 0; variance 1, 1/3, 1/6, 1/2; nu/(nu - 2) = 2 for t with 4. Bounds: four
// standard errors of the mean square, generously.
TEST(Draws, HaveTheRightMoments) {
  Draws draws(7);
  constexpr int kCount = 200'000;
  const auto check = [&](const char* name, double variance, const std::function<double()>& draw) {
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < kCount; ++i) {
      const double x = draw();
      sum += x;
      squares += x * x;
    }
    EXPECT_NEAR(sum / kCount, 0.0, 4.0 * std::sqrt(variance / kCount)) << name;
    EXPECT_NEAR(squares / kCount, variance, 0.02 * variance) << name;
  };
  check("normal", 1.0, [&] { return draws.normal(); });
  check("rectangular", 1.0 / 3.0, [&] { return draws.rectangular(); });
  check("triangular", 1.0 / 6.0, [&] { return draws.triangular(); });
  check("arcsine", 0.5, [&] { return draws.arcsine(); });
  check("t", 10.0 / 8.0, [&] { return draws.student(10.0); });
  double below = 0;  // t with one degree is a Cauchy distribution: half lie within 1
  for (int i = 0; i < kCount; ++i) {
    below += std::abs(draws.student(1.0)) < 1.0 ? 1 : 0;
  }
  EXPECT_NEAR(below / kCount, 0.5, 0.005);
}

// The first numbers of seed 5489 that the C++ standard's engine gives (its 10000th is stated in the standard,
// [rand.predef]: 9981545732273789042); here only that ours are what the formula makes of them.
TEST(Draws, UniformsComeFromTheEngineOnly) {
  std::mt19937_64 engine(5489);
  Draws draws(5489);
  for (int i = 0; i < 1000; ++i) {
    const double wanted = (static_cast<double>(engine() >> 11U) + 0.5) / 9007199254740992.0;
    EXPECT_EQ(draws.uniform(), wanted);
  }
}

}  // namespace
}  // namespace spanwright
