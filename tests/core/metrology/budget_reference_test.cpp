// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random budgets worked out by another road: tests/reference/statistics/make_random_budgets.py.
#include <gtest/gtest.h>

#include <cmath>
#include <memory>

#include "core/metrology/budget_model.h"
#include "core/metrology/formula.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

std::vector<std::string> split(const std::string& text, char by) {
  std::vector<std::string> parts;
  for (std::size_t at = 0; at <= text.size() && !text.empty();) {
    const std::size_t end = std::min(text.find(by, at), text.size());
    parts.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return parts;
}

double number(const std::string& text) {
  return text == "inf" ? std::numeric_limits<double>::infinity() : parseNumber(text).value().value;
}

std::vector<double> numbers(const std::string& text) {
  std::vector<double> values;
  for (const std::string& part : split(text, ';')) {
    values.push_back(number(part));
  }
  return values;
}

TEST(RandomBudgets, AgreeWithComplexStepsToNineDigits) {
  int rows = 0;
  int correlated = 0;
  for (const test::CsvRow& row :
       test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/statistics/random_budgets.csv")) {
    SCOPED_TRACE(row.at("formula"));
    const auto values = numbers(row.at("values"));
    const auto spreads = numbers(row.at("standard_uncertainties"));
    const auto degrees = numbers(row.at("degrees_of_freedom"));
    const auto slopes = numbers(row.at("sensitivities"));
    BudgetModel model;
    std::vector<std::string> names;
    for (std::size_t i = 0; i < values.size(); ++i) {
      names.push_back("x" + std::to_string(i + 1));
      model.inputs.push_back({names.back(), values[i], spreads[i], degrees[i], InputShape::normal});
    }
    for (const std::string& pair : split(row.at("correlations"), ';')) {
      const auto parts = split(pair, ':');
      model.correlations.push_back({static_cast<std::size_t>(number(parts[0])),
                                    static_cast<std::size_t>(number(parts[1])), number(parts[2])});
    }
    correlated += model.correlations.empty() ? 0 : 1;
    auto parsed = Formula::parse(row.at("formula"), names);
    ASSERT_TRUE(std::holds_alternative<Formula>(parsed));
    const auto formula = std::make_shared<Formula>(std::get<Formula>(std::move(parsed)));
    CoverageRule rule;
    rule.probability = test::numberIn(row, "probability");
    const auto answer =
        evaluate(model, {[&](std::span<const double> at) { return (*formula)(at); }, {}}, rule);
    ASSERT_TRUE(std::holds_alternative<ModelBudget>(answer)) << std::get<BudgetFault>(answer).what;
    const auto& budget = std::get<ModelBudget>(answer);
    const auto near = [&](double found, const char* column) {
      const double wanted = number(row.at(column));
      EXPECT_TRUE(found == wanted || std::abs(found - wanted) <= 1e-9 * std::abs(wanted))
          << column << ": " << found << " instead of " << wanted;
    };
    near(budget.value, "value");
    near(budget.combined, "combined");
    near(budget.degreesOfFreedom, "effective_degrees");
    near(budget.coverageFactor, "coverage_factor");
    near(budget.expanded, "expanded");
    for (std::size_t i = 0; i < slopes.size(); ++i) {
      EXPECT_NEAR(budget.lines[i].sensitivity * spreads[i], slopes[i] * spreads[i], 1e-9 * budget.combined);
    }
    ++rows;
  }
  EXPECT_EQ(rows, 60);
  EXPECT_GT(correlated, 10);
}

}  // namespace
}  // namespace spanwright
