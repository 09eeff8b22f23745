// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/budget_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "tests/importers/files.h"

namespace spanwright::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

constexpr double kInfinite = std::numeric_limits<double>::infinity();

BudgetFile read(std::string_view text) {
  const TempFile file(text, "budget.toml");
  return readBudgetFile(file.path());
}
std::vector<std::string> mistakes(const std::string& text) {
  return problemsOf([&] { read(text); });
}

const std::string kHead = "[result]\nname = \"y\"\nunit = \"V\"\n";
/// One line of a budget without a formula, with these keys.
std::string line(const std::string& keys) {
  return kHead + "[[input]]\nname = \"a b\"\n" + keys;
}

struct Source {
  const char* keys;
  double uncertainty;
  double degrees;
  InputShape shape;
};
// By hand; t_0.95(5) = 2.5706 (GUM Table G.2 prints 2.57), 1.9600 for a normal distribution.
const Source kSources[] = {
    {"standard_uncertainty = 0.2", 0.2, kInfinite, InputShape::normal},
    {"standard_uncertainty = 0.2\ndistribution = \"triangular\"", 0.2, kInfinite, InputShape::triangular},
    {"expanded_uncertainty = 0.5\ncoverage_factor = 2", 0.25, kInfinite, InputShape::normal},
    {"expanded_uncertainty = 0.6\ndivisor = 3\ndegrees_of_freedom = 9", 0.2, 9, InputShape::normal},
    {"expanded_uncertainty = 1.95996398454005\nprobability = 0.95", 1.0, kInfinite, InputShape::normal},
    {"distribution = \"t\"\nexpanded_uncertainty = 2.57058183563631\nprobability = 0.95\ndegrees_of_freedom "
     "= 5",
     1.0, 5, InputShape::student},
    {"half_width = 3\ndistribution = \"rectangular\"", 1.7320508075688772, kInfinite,
     InputShape::rectangular},
    {"half_width = 6\ndistribution = \"triangular\"", 2.449489742783178, kInfinite, InputShape::triangular},
    {"half_width = 2\ndistribution = \"U-shaped\"", 1.4142135623730951, kInfinite, InputShape::arcsine},
    {"scale = 0.3\ndegrees_of_freedom = 7", 0.3, 7, InputShape::student},
    {"standard_uncertainty = 1\nrelative_uncertainty_of_u = 0.25", 1, 8, InputShape::normal},
    {"readings = [1, 2, 3]", 0.5773502691896258, 2, InputShape::student},
    {"readings = [1, 2, 3, 6]\npooled_standard_deviation = 4\npooled_degrees_of_freedom = 20", 2, 20,
     InputShape::student},
    {"value = 1\ncount = 4\npooled_standard_deviation = 4\npooled_degrees_of_freedom = 20", 2, 20,
     InputShape::student},
    {"exact = true", 0, kInfinite, InputShape::normal}};

TEST(BudgetFile, WaysToSayHowUncertainAnInputIs) {
  for (const Source& source : kSources) {
    SCOPED_TRACE(source.keys);
    const auto found = mistakes(line(source.keys));
    EXPECT_THAT(found, testing::IsEmpty());
    if (!found.empty()) {
      continue;
    }
    const ModelInput input = read(line(source.keys)).model.inputs.at(0);
    EXPECT_NEAR(input.standardUncertainty, source.uncertainty, 1e-12);
    EXPECT_EQ(input.degreesOfFreedom, source.degrees);
    EXPECT_EQ(input.shape, source.shape);
  }
}

TEST(BudgetFile, WithoutAFormulaItIsASum) {
  const BudgetFile file =
      read(kHead +
           "[[input]]\nname = \"as read\"\nvalue = 5\nexact = true\n"
           "[[input]]\nname = \"set\"\nvalue = 2\nsensitivity = -3\nstandard_uncertainty = 1\n"
           "[[input]]\nname = \"resolution\"\nstandard_uncertainty = 1\n");
  const MeasurementModel& model = file.results.at(0).measurement;
  EXPECT_THAT(model.sensitivities, ElementsAre(1, -3, 1));
  EXPECT_EQ(model.function(std::vector<double>{5, 2, 0}), -1);
  EXPECT_EQ(model.function(std::vector<double>{5, 3, 0.5}), -3.5);
  const BudgetFile stated = read(
      "result = { name = \"y\", value = 100 }\n"
      "input = [ { name = \"x\", value = 2, standard_uncertainty = 1 } ]\n");
  EXPECT_EQ(stated.results.at(0).measurement.function(std::vector<double>{3}), 101);
}

TEST(BudgetFile, ReadsFormulasCorrelationsAndCoverage) {
  const BudgetFile file = read(R"(title = "try"
second_order = true
[result]
name = "y"
formula = "a * b"
[[also]]
name = "z"
unit = "W"
formula = "a / b + c"
[coverage]
probability = 0.9
truncate_degrees_of_freedom = true
[[input]]
name = "a"
readings = [1, 2, 3]
unit = "V"
[[input]]
name = "b"
readings = [4, 6, 5]
[[input]]
name = "c"
value = 0
standard_uncertainty = 1
note = "anything"
[[correlation]]
between = ["a", "b"]
from_readings = true
[[correlation]]
between = ["c", "a"]
coefficient = 0.25
)");
  EXPECT_EQ(file.title, "try");
  EXPECT_TRUE(file.secondOrder);
  EXPECT_TRUE(file.coverage.truncate);
  EXPECT_EQ(file.coverage.probability, 0.9);
  ASSERT_EQ(file.results.size(), 2U);
  EXPECT_EQ(file.results[1].measurement.function(std::vector<double>{6, 2, 1}), 4);
  EXPECT_THAT(file.units, ElementsAre("V", "", ""));
  ASSERT_EQ(file.model.correlations.size(), 2U);
  EXPECT_NEAR(file.model.correlations[0].coefficient, 0.5, 1e-15);
  EXPECT_EQ(file.model.correlations[1].first, 2U);
  EXPECT_EQ(file.inputPlaces.at(1).line, 17);
  const Problem problem = file.problem({std::size_t{2}, "is odd", "mend it"}, file.results[0]);
  EXPECT_EQ(problem.where.line, 20);
}

struct Mistake {
  std::string text;
  const char* says;
};

TEST(BudgetFile, EachMistakeSaysWhatAndWhere) {
  const std::string formula = "[result]\nname = \"y\"\nformula = ";
  const std::string a = "\n[[input]]\nname = \"a\"\nvalue = 1\nstandard_uncertainty = 1\n";
  const std::string b = "[[input]]\nname = \"b\"\nvalue = 1\nreadings = [1]\n";
  const Mistake rows[] = {
      {"", "1:1 the budget file has no result"},
      {kHead, "input of the budget file is missing"},
      {line(""), "4:1 [[input]] \"a b\" does not say how uncertain it is"},
      {line("exact = false"), "exact of [[input]] \"a b\" is false"},
      {line("standard_uncertainty = 0"),
       "6:24 standard_uncertainty of [[input]] \"a b\" is the number 0; a number above 0"},
      {line("standard_uncertainty = -1"), "is the number -1"},
      {line("standard_uncertainty = nan"), "is not a finite number"},
      {line("standard_uncertainty = \"1\""), "is the text \"1\""},
      {line("standard_uncertainty = 1\nhalf_width = 1\ndistribution = \"rectangular\""),
       "half_width of [[input]] \"a b\" stands beside standard_uncertainty"},
      {line("half_width = 1"), "needs a distribution with limits"},
      {line("half_width = 1\ndistribution = \"square\""),
       "distribution of [[input]] \"a b\" is the text \"square\""},
      {line("expanded_uncertainty = 1"), "has neither coverage_factor"},
      {line("expanded_uncertainty = 1\ncoverage_factor = 2\nprobability = 0.9"), "has both"},
      {line("expanded_uncertainty = 1\ncoverage_factor = 2\ndivisor = 2"), "they are the same: keep one"},
      {line("expanded_uncertainty = 1\ndivisor = 2\ndistribution = \"rectangular\""), "is normal or t"},
      {line("expanded_uncertainty = 1\nprobability = 1"), "write 95 % as 0.95"},
      {line("standard_uncertainty = 1\ncoverage_factor = 2"), "has no meaning beside standard_uncertainty"},
      {line("exact = true\ndegrees_of_freedom = 2"), "has no meaning beside exact"},
      {line("scale = 1"), "degrees_of_freedom of [[input]] \"a b\" is missing"},
      {line("standard_uncertainty = 1\ndistribution = \"t\""), "needs its degrees of freedom"},
      {line("standard_uncertainty = 1\ndegrees_of_freedom = 0"), "a number above 0 is expected"},
      {line("standard_uncertainty = 1\ndegrees_of_freedom = 3\nrelative_uncertainty_of_u = 0.1"),
       "keep one of them"},
      {line("readings = [1]"), "readings of [[input]] \"a b\" are fewer than 2"},
      {line("readings = [1, inf]"), "not a finite number"},
      {line("readings = [1, 2]\nvalue = 1"), "their mean is the value"},
      {line("readings = [1, 2]\ndistribution = \"normal\""), "readings bring their own"},
      {line("pooled_standard_deviation = 1\npooled_degrees_of_freedom = 3"),
       "count of [[input]] \"a b\" is missing"},
      {line("pooled_standard_deviation = 1\ncount = 3"), "has no pooled_degrees_of_freedom"},
      {line("standard_uncertainty = 1\nsensivity = 2"), "sensivity"},
      {line("standard_uncertainty = 1\n[coverage]\nprobability = 95"),
       "a number above 0, at most 1, is expected"},
      {line("standard_uncertainty = 1\n[coverage]\nprobability = 1"), "no factor covers everything"},
      {line("standard_uncertainty = 1\n[coverage]\nfactor = 2\ndominant_rectangular = true"),
       "beside another rule"},
      {line("standard_uncertainty = 1\n[[also]]\nname = \"z\"\nformula = \"1\""), "needs a formula for each"},
      {formula + "\"a + * 2\"" + a, "3:16 formula of [result] is not understood at \"*\""},
      {formula + "\"a + b\"" + a, "3:16 formula of [result] uses \"b\", which is no input"},
      {formula + "\"2\"" + a, "input \"a\" is used by no formula"},
      {formula + "\"a\"\nvalue = 2" + a, "stands beside formula"},
      {formula + "\"a\"" + a + "sensitivity = 2", "stands beside a formula"},
      {formula + "\"a\"\n[[input]]\nname = \"a\"\nstandard_uncertainty = 1",
       "value of [[input]] \"a\" is missing"},
      {formula + "\"a\"" + a + "[[input]]\nname = \"sin\"\nvalue = 1\nexact = true",
       "cannot stand in a formula"},
      {formula + "\"a\"" + a + a, "\"a\""},
      {formula + "\"a\"" + a + "[[correlation]]\nbetween = [\"a\", \"c\"]\ncoefficient = 0.5",
       "there is no input \"c\""},
      {formula + "\"a\"" + a + "[[correlation]]\nbetween = [\"a\"]\ncoefficient = 0.5",
       "fewer than two inputs"},
      {formula + "\"a + b\"" + a + b + "[[correlation]]\nbetween = [\"a\", \"b\"]\ncoefficient = 2",
       "from -1 to 1"},
      {formula + "\"a + b\"" + a + b + "[[correlation]]\nbetween = [\"a\", \"b\"]",
       "coefficient of [[correlation]]"},
      {formula + "\"a + b\"" + a + b + "[[correlation]]\nbetween = [\"a\", \"b\"]\nfrom_readings = true",
       "as many readings"}};
  for (const Mistake& row : rows) {
    EXPECT_THAT(joined(mistakes(row.text)), HasSubstr(row.says)) << row.text;
  }
}

TEST(BudgetFile, AllMistakesInOneGo) {
  const auto found = mistakes(R"(titel = "x"
[result]
name = "y"
formula = "a + c"
[coverage]
probability = 2
[[input]]
name = "a"
value = "one"
[[input]]
name = "b c"
value = 1
standard_uncertainty = -1
)");
  EXPECT_THAT(found, ElementsAre(HasSubstr("1:1"), HasSubstr("6:15 probability"),
                                 HasSubstr("7:1 [[input]] \"a\" does not"), HasSubstr("9:9 value"),
                                 HasSubstr("11:8 name"), HasSubstr("13:24 standard_uncertainty")));
}

TEST(BudgetFile, TheSampleBudgetsCanBeReadAndWorkedOut) {
  int count = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(SPANWRIGHT_SOURCE_DIR "/sample_sites/budgets")) {
    SCOPED_TRACE(entry.path());
    EXPECT_EQ(joined(problemsOf([&] { readBudgetFile(entry.path()); })), "");
    const BudgetFile file = readBudgetFile(entry.path());
    for (const BudgetResult& result : file.results) {
      const auto answer = evaluate(file.model, result.measurement, file.coverage, file.secondOrder);
      EXPECT_TRUE(std::holds_alternative<ModelBudget>(answer));
    }
    ++count;
  }
  EXPECT_GE(count, 2);
}

}  // namespace
}  // namespace spanwright::test
