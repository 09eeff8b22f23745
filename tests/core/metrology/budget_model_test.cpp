// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/budget_model.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numeric>
#include <random>

#include "core/metrology/uncertainty.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

constexpr double kInfinite = std::numeric_limits<double>::infinity();

MeasurementModel sum() {
  return {[](std::span<const double> x) { return std::accumulate(x.begin(), x.end(), 0.0); }, {}};
}
MeasurementModel product() {
  return {[](std::span<const double> x) {
            return std::accumulate(x.begin(), x.end(), 1.0, [](double a, double b) { return a * b; });
          },
          {}};
}

ModelBudget good(const BudgetModel& model, const MeasurementModel& measurement, const CoverageRule& rule = {},
                 bool secondOrder = false) {
  auto answer = evaluate(model, measurement, rule, secondOrder);
  if (const auto* fault = std::get_if<BudgetFault>(&answer)) {
    ADD_FAILURE() << fault->what;
    return {};
  }
  return std::get<ModelBudget>(std::move(answer));
}

std::string fault(const BudgetModel& model, const MeasurementModel& measurement,
                  const CoverageRule& rule = {}, bool secondOrder = false) {
  const auto answer = evaluate(model, measurement, rule, secondOrder);
  const auto* found = std::get_if<BudgetFault>(&answer);
  EXPECT_TRUE(found == nullptr || !found->todo.empty());
  return found == nullptr ? "no fault" : found->what;
}

BudgetModel two(double u1, double u2) {
  return {{{"a", 3.0, u1}, {"b", 4.0, u2}}, {}};
}

// By hand: y = a b, c_a = 4, c_b = 3; u = sqrt((4 x 0.3)^2 + (3 x 0.1)^2) = sqrt(1.53).
TEST(Evaluate, AProductByHand) {
  const ModelBudget budget = good(two(0.3, 0.1), product());
  EXPECT_EQ(budget.value, 12.0);
  EXPECT_NEAR(budget.lines[0].sensitivity, 4.0, 1e-11);
  EXPECT_NEAR(budget.lines[1].contribution, 0.3, 1e-11);
  EXPECT_NEAR(budget.combined, std::sqrt(1.53), 1e-11);
  EXPECT_EQ(budget.degreesOfFreedom, kInfinite);
  EXPECT_NEAR(budget.coverageFactor, 2.0, 1e-12);
  EXPECT_NEAR(budget.expanded, 2.0 * std::sqrt(1.53), 1e-10);
  EXPECT_EQ(budget.firstOrder, budget.combined);
}

// By hand, GUM eq. 16: 1.44 + 0.09 + 2 x (-0.5) x 1.2 x 0.3 = 1.17.
TEST(Evaluate, CorrelatedInputsByHand) {
  BudgetModel model = two(0.3, 0.1);
  model.correlations = {{0, 1, -0.5}};
  EXPECT_NEAR(good(model, product()).combined, std::sqrt(1.17), 1e-11);
  model.correlations = {{1, 0, 1.0}};
  EXPECT_NEAR(good(model, product()).combined, 1.5, 1e-11);
}

// By hand: correlated lines are one line of variance 1.17 with 4 degrees; the third of 1 with 9.
TEST(Evaluate, CorrelatedLinesCountOnceInTheDegreesOfFreedom) {
  BudgetModel model = two(0.3, 0.1);
  model.inputs[0].degreesOfFreedom = 4;
  model.inputs[1].degreesOfFreedom = 7;
  model.inputs.push_back({"c", 1.0, 1.0 / 12.0, 9});
  model.correlations = {{0, 1, -0.5}};
  const double variance = 1.17 + 1.0;
  EXPECT_NEAR(good(model, product()).degreesOfFreedom, variance * variance / (1.17 * 1.17 / 4.0 + 1.0 / 9.0),
              1e-8);
}

TEST(Evaluate, KnownSensitivitiesAreUsedAsTheyAre) {
  MeasurementModel measurement = sum();
  measurement.sensitivities = {2.0, -3.0};
  const ModelBudget budget = good(two(1.0, 1.0), measurement);
  EXPECT_EQ(budget.lines[1].sensitivity, -3.0);
  EXPECT_NEAR(budget.combined, std::sqrt(13.0), 1e-14);
}

// Second order by hand: y = x^2 at x = 1, u = 0.1: c = 2, (1/2) 2^2 u^4 = 2e-4, u_c^2 = 0.04 + 0.0002. For a
// normal input that is the exact variance of x^2. y = x^3: c = 3, d2 = 6, d3 = 6: 0.09 + (18 + 18) 1e-4.
TEST(Evaluate, SecondOrderByHand) {
  const BudgetModel model{{{"x", 1.0, 0.1}}, {}};
  const MeasurementModel square{[](std::span<const double> x) { return x[0] * x[0]; }, {}};
  const ModelBudget budget = good(model, square, {}, true);
  EXPECT_NEAR(budget.firstOrder, 0.2, 1e-12);
  EXPECT_NEAR(budget.combined * budget.combined, 0.0402, 1e-11);
  ASSERT_EQ(budget.secondOrder.size(), 1U);
  const MeasurementModel cube{[](std::span<const double> x) { return x[0] * x[0] * x[0]; }, {}};
  EXPECT_NEAR(std::pow(good(model, cube, {}, true).combined, 2), 0.0936, 1e-9);
  // A product of two: c are 4 and 3, mixed derivative 1: 1.53 + 0.3^2 0.1^2.
  EXPECT_NEAR(std::pow(good(two(0.3, 0.1), product(), {}, true).combined, 2), 1.5309, 1e-9);
  // x y^2 at 2, 3: mixed 2y = 6, d3/dx dy2 = 2, d2/dy2 = 2x = 4; u = 0.1 both:
  // (81 + 144) 0.01 + [36 + 9 x 2 + 12 x 0 + 16 / 2] 1e-4 = 2.25 + 0.0062.
  const MeasurementModel mixed{[](std::span<const double> x) { return x[0] * x[1] * x[1]; }, {}};
  EXPECT_NEAR(std::pow(good({{{"x", 2, 0.1}, {"y", 3, 0.1}}, {}}, mixed, {}, true).combined, 2), 2.2562,
              1e-9);
}

TEST(Evaluate, RulesForTheCoverageFactor) {
  BudgetModel model = two(1.0, 1.0);
  model.inputs[0].degreesOfFreedom = 4.2;  // effective: 4 x 4.2 = 16.8
  CoverageRule rule;
  rule.probability = 0.99;
  ModelBudget budget = good(model, sum(), rule);
  EXPECT_NEAR(budget.usedDegreesOfFreedom, 16.8, 1e-9);
  EXPECT_NEAR(budget.coverageFactor, studentFactor(0.99, 16.8), 1e-9);
  rule.truncate = true;
  budget = good(model, sum(), rule);
  EXPECT_EQ(budget.usedDegreesOfFreedom, 16.0);
  EXPECT_NEAR(budget.degreesOfFreedom, 16.8, 1e-9);
  model.inputs[0].degreesOfFreedom = 4;  // a whole 16, whatever rounding does
  EXPECT_EQ(good(model, sum(), rule).usedDegreesOfFreedom, 16.0);
  rule = {};
  rule.method = CoverageMethod::given;
  rule.factor = 2.5;
  EXPECT_NEAR(good(model, sum(), rule).expanded, 2.5 * std::sqrt(2.0), 1e-10);
  model = two(1.0, 0.3);
  model.inputs[0].shape = InputShape::rectangular;
  rule.method = CoverageMethod::dominantRectangular;
  rule.probability = 0.95;
  EXPECT_NEAR(good(model, sum(), rule).coverageFactor, 0.95 * std::sqrt(3.0), 1e-12);
  model.inputs[1].standardUncertainty = 0.301;
  EXPECT_THAT(fault(model, sum(), rule), HasSubstr("no rectangular line governs"));
  model.inputs[1].standardUncertainty = 0.1;
  model.inputs[0].shape = InputShape::normal;
  EXPECT_THAT(fault(model, sum(), rule), HasSubstr("no rectangular line governs"));
}

// All of the printed table but the one known misprint (35 degrees, 90 %: 1.69, not 1.70).
TEST(StudentFactor, TableG2) {
  int checked = 0;
  for (const test::CsvRow& row :
       test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/statistics/gum_table_g2.csv")) {
    if (row.at("agrees") != "yes") {
      continue;
    }
    const bool infinite = row.at("dof").find("inf") != std::string::npos;
    const double degrees = infinite ? kInfinite : test::numberIn(row, "dof");
    // 68.27, 95.45 and 99.73 stand for one, two and three standard deviations of a normal distribution.
    const double percent = test::numberIn(row, "p_percent");
    const double sigmas = percent == 68.27 ? 1.0 : percent == 95.45 ? 2.0 : percent == 99.73 ? 3.0 : 0.0;
    const double probability = sigmas > 0.0 ? std::erf(sigmas / std::sqrt(2.0)) : percent / 100.0;
    EXPECT_NEAR(studentFactor(probability, degrees), test::numberIn(row, "published_t"), 0.00501)
        << row.at("dof") << " " << row.at("p_percent");
    ++checked;
  }
  EXPECT_EQ(checked, 167);
  EXPECT_THROW(studentFactor(1.0, 5), std::invalid_argument);
  EXPECT_THROW(studentFactor(0.95, 0), std::invalid_argument);
  EXPECT_EQ(studentFactor(0.99, 1e-4), kInfinite);
}

// The budget of the record (uncertainty.h) and this one are the same where both apply.
TEST(Evaluate, AgreesWithTheRecordsOwnBudget) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> any(0.1, 10.0);
  for (int round = 0; round < 50; ++round) {
    BudgetModel model;
    MeasurementModel measurement = sum();
    std::vector<BudgetLine> lines;
    for (int i = 0; i < 5; ++i) {
      const double u = any(random), c = any(random) - 5.0, nu = 10.0 * any(random);
      model.inputs.push_back({"x", 0.0, u, nu});
      measurement.sensitivities.push_back(c);
      lines.push_back({"x", u, c, nu});
    }
    const Budget other = combine(lines);
    const ModelBudget budget = good(model, measurement);
    EXPECT_NEAR(budget.combined, other.combined, 1e-12 * other.combined);
    EXPECT_NEAR(budget.degreesOfFreedom, other.degreesOfFreedom, 1e-10 * other.degreesOfFreedom);
    EXPECT_NEAR(budget.expanded, other.expanded, 1e-10 * other.expanded);
  }
}

TEST(Evaluate, RefusesWhatHasNoAnswer) {
  const BudgetModel usual = two(0.3, 0.1);
  EXPECT_THAT(fault({}, sum()), HasSubstr("no input"));
  EXPECT_THAT(fault(two(-0.3, 0.1), sum()), HasSubstr("\"a\" is negative or not finite"));
  EXPECT_THAT(fault(two(0.3, kInfinite), sum()), HasSubstr("\"b\" is negative or not finite"));
  EXPECT_THAT(fault(two(0.0, 0.0), sum()), HasSubstr("nothing contributes"));
  BudgetModel model = usual;
  model.inputs[1].value = std::nan("");
  EXPECT_THAT(fault(model, sum()), HasSubstr("the value of \"b\" is not a finite number"));
  model = usual;
  model.inputs[1].degreesOfFreedom = 0.0;
  EXPECT_THAT(fault(model, sum()), HasSubstr("degrees of freedom of \"b\""));
  const auto related = [&](std::vector<Correlation> correlations) {
    model = usual;
    model.correlations = std::move(correlations);
    return fault(model, sum());
  };
  EXPECT_THAT(related({{0, 1, 1.1}}), HasSubstr("not between -1 and 1"));
  EXPECT_THAT(related({{0, 1, std::nan("")}}), HasSubstr("not between -1 and 1"));
  EXPECT_THAT(related({{1, 1, 0.1}}), HasSubstr("with itself"));
  EXPECT_THAT(related({{0, 1, 0.1}, {1, 0, 0.1}}), HasSubstr("given twice"));
  model = two(0.3, 0.0);
  model.correlations = {{0, 1, 0.5}};
  EXPECT_THAT(fault(model, sum()), HasSubstr("taken as exact"));
  model = two(0.2, 0.2);
  model.correlations = {{0, 1, -1.0}};
  EXPECT_THAT(fault(model, sum()), HasSubstr("all of it cancels"));
  EXPECT_THAT(fault(model, sum(), {}, true), HasSubstr("all of it cancels"));
  model.correlations = {{0, 1, 0.5}};
  EXPECT_THAT(fault(model, sum(), {}, true), HasSubstr("independent inputs only"));
  model.inputs.push_back({"c", 1.0, 1.0});
  model.correlations = {{0, 1, 0.9}, {1, 2, 0.9}, {0, 2, -0.9}};
  EXPECT_THAT(fault(model, sum()), HasSubstr("cannot all be true together"));

  const MeasurementModel root{[](std::span<const double> x) { return std::sqrt(x[0] - 3.0); }, {}};
  EXPECT_THAT(fault(usual, root), HasSubstr("no derivative with respect to \"a\""));
  const MeasurementModel nothing{[](std::span<const double> x) { return std::sqrt(-x[0]); }, {}};
  EXPECT_THAT(fault(usual, nothing), HasSubstr("no value at its inputs' values"));
  const MeasurementModel jump{[](std::span<const double> x) { return x[0] < 3.0 ? 0.0 : x[1]; }, {}};
  EXPECT_THAT(fault(usual, jump), HasSubstr("not smooth enough"));

  CoverageRule rule;
  for (const double bad : {0.0, 1.0, -0.5, std::nan("")}) {
    rule.probability = bad;
    EXPECT_THAT(fault(usual, sum(), rule), HasSubstr("not between 0 and 1")) << bad;
  }
  rule = {};
  rule.method = CoverageMethod::given;
  rule.factor = 0.0;
  EXPECT_THAT(fault(usual, sum(), rule), HasSubstr("factor is not above zero"));
  model = {{{"a", 1.0, 1.0, 0.5}}, {}};
  rule = {};
  rule.truncate = true;
  EXPECT_THAT(fault(model, sum(), rule), HasSubstr("below one"));
  model.inputs[0].degreesOfFreedom = 1e-4;
  EXPECT_THAT(fault(model, sum()), HasSubstr("larger than a number can be"));
}

TEST(Correlation, RootGivesTheMatrixBack) {
  BudgetModel model{{{"a", 0, 1}, {"b", 0, 1}, {"c", 0, 1}}, {{0, 1, 0.6}, {2, 1, -0.3}, {0, 2, 0.2}}};
  const auto root = correlationRoot(model);
  ASSERT_TRUE(root.has_value());
  const auto entry = [&](std::size_t i, std::size_t j) {
    double value = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
      value += (*root)[i][k] * (*root)[j][k];
    }
    return value;
  };
  EXPECT_NEAR(entry(0, 1), 0.6, 1e-15);
  EXPECT_NEAR(entry(1, 2), -0.3, 1e-15);
  EXPECT_NEAR(entry(0, 2), 0.2, 1e-15);
  EXPECT_NEAR(entry(2, 2), 1.0, 1e-15);
  model.correlations = {{0, 1, 1.0}, {1, 2, 1.0}, {0, 2, 1.0}};
  ASSERT_TRUE(correlationRoot(model).has_value());
  model.correlations = {{0, 1, 1.0}, {1, 2, 1.0}};
  EXPECT_FALSE(correlationRoot(model).has_value());
}

TEST(Correlation, OfReadings) {
  const double up[] = {1, 2, 3}, down[] = {3, 2, 1}, still[] = {5, 5, 5};
  EXPECT_NEAR(readingsCorrelation(up, down).value(), -1.0, 1e-15);
  EXPECT_FALSE(readingsCorrelation(up, still).has_value());
}

}  // namespace
}  // namespace spanwright
