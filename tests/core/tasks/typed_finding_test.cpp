// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/typed_finding.h"

#include <gmock/gmock.h>

#include "core/tasks/reach.h"
#include "tests/core/tasks/record_fixture.h"

namespace spanwright {
namespace {

using test::day;
using testing::HasSubstr;

Standard currentStandard() {
  Standard standard;
  standard.serial = "LC-1";
  const CertificateRange range{Unit::milliampere, 0.001, {{4, 0, 0.001}, {20, 0, 0.001}}};
  standard.certificates = {test::certificate("A", day(2024, 2, 1), day(2025, 2, 28), {range}),
                           test::certificate("B", day(2025, 2, 1), day(2026, 2, 28), {range})};
  return standard;
}

TypedFinding typedHigh() {
  return {day(2026, 2, 25), "C", "",
          "dropped",        "2", {{"mA", "", "20", "0,05", ""}, {"", "", "4", "0.05", "0.001"}}};
}

std::vector<FindingProblem> wrongWith(const TypedFinding& typed) {
  const auto read = readFinding(currentStandard(), typed);
  const auto* problems = std::get_if<std::vector<FindingProblem>>(&read);
  return problems != nullptr ? *problems : std::vector<FindingProblem>();
}

TEST(TypedFinding, BecomesAFindingWithItsPointsInOrder) {
  const auto read = readFinding(currentStandard(), typedHigh());
  ASSERT_TRUE(std::holds_alternative<FoundErrors>(read));
  const auto& found = std::get<FoundErrors>(read);
  EXPECT_EQ(found.foundOn, day(2026, 2, 25));
  EXPECT_EQ(found.certificate, "C");
  EXPECT_EQ(found.remark, "dropped");
  ASSERT_EQ(found.ranges.size(), 1U);
  ASSERT_EQ(found.ranges[0].points.size(), 2U);
  EXPECT_EQ(found.ranges[0].points[0].nominal, 4.0);
  EXPECT_EQ(found.ranges[0].points[1].error, 0.05);
  EXPECT_EQ(found.ranges[0].points[1].uncertainty, 0.0) << "not stated";
}

TEST(TypedFinding, NamesTheFieldOfEveryMistake) {
  TypedFinding typed = typedHigh();
  typed.coverageFactor = "20";
  typed.lastGood = "C";  // the one that reports it
  typed.points[1].error = "high";
  const auto problems = wrongWith(typed);
  ASSERT_EQ(problems.size(), 3U);
  EXPECT_EQ(problems[0].field, FindingField::coverageFactor);
  EXPECT_THAT(problems[0].problem.what, HasSubstr("k is 20"));
  EXPECT_EQ(problems[1].field, FindingField::points);
  EXPECT_EQ(problems[1].problem.where.line, 2);
  EXPECT_EQ(problems[1].problem.where.column, 4);
  EXPECT_THAT(problems[1].problem.what, HasSubstr("\"high\" is not a number"));
  EXPECT_EQ(problems[2].field, FindingField::lastGood);
  EXPECT_THAT(problems[2].problem.what, HasSubstr("no certificate \"C\""));
}

TEST(TypedFinding, AUnitNoCertificateKnowsIsRefusedWhereItStands) {
  TypedFinding typed = typedHigh();
  typed.points.push_back({});
  typed.points.push_back({"bar", "", "1", "0.1", ""});
  const auto problems = wrongWith(typed);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems[0].problem.where.line, 4);
  EXPECT_THAT(problems[0].problem.what, HasSubstr("no certificate of LC-1 has a range in bar"));
}

TEST(TypedFinding, WithoutPointsOrDayIsRefused) {
  TypedFinding typed = typedHigh();
  typed.points = {{}};
  typed.foundOn = Date();
  const auto problems = wrongWith(typed);
  ASSERT_EQ(problems.size(), 2U);
  EXPECT_EQ(problems[0].field, FindingField::foundOn);
  EXPECT_THAT(problems[1].problem.what, HasSubstr("nothing says"));
}

TEST(TypedFinding, ACertificateTypedIsTheFindingItReports) {
  Standard standard = currentStandard();
  standard.certificates[1].ranges.push_back({Unit::volt, 0.0001, {{0, 0.002, 0.0004}, {10, -0.001, 0.0004}}});
  const FoundErrors found = findingOf(standard.certificates[1]);
  const auto read = readFinding(standard, typedFinding(found));
  ASSERT_TRUE(std::holds_alternative<FoundErrors>(read));
  const auto& again = std::get<FoundErrors>(read);
  EXPECT_EQ(again.foundOn, standard.certificates[1].issued);
  EXPECT_EQ(again.certificate, "B");
  ASSERT_EQ(again.ranges.size(), 2U);
  EXPECT_EQ(again.ranges[1].unit, Unit::volt);
  EXPECT_EQ(again.ranges[1].resolution, 0.0001);
  EXPECT_EQ(again.ranges[1].points[1].error, -0.001);
}

}  // namespace
}  // namespace spanwright
