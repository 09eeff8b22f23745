// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/decision.h"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "tests/support/csv.h"

namespace spanwright {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
const ErrorLimits kBoth{-1.0, 1.0};

Guard factorGuard(double factor, const ErrorLimits& limits = kBoth, double expanded = 0.2) {
  return guardFor({.basis = GuardBasis::factor, .factor = factor}, limits, expanded / 2.0, expanded);
}

// ILAC-G8:09/2019 Table 1: the largest risk of accepting what is outside one limit, with U = 2 u.
TEST(Guard, RisksOfTheIlacTable) {
  int checked = 0;
  for (const auto& row :
       test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/statistics/ilac_g8_decision_rules.csv")) {
    const double factor = test::numberIn(row, "w_over_U");
    const ErrorLimits limits{-kInfinite, 1.0};
    const Guard guard = factorGuard(factor, limits);
    EXPECT_NEAR(guard.width, factor * 0.2, 1e-15);
    // With a guard band outside the limits what counts is rejecting what is inside.
    const double risk = factor >= 0.0 ? nonConformanceProbability(limits, guard.acceptance.high, 0.1)
                                      : conformanceProbability(limits, guard.acceptance.high, 0.1);
    const double recomputed = test::numberIn(row, "recomputed_worst_case_one_sided_risk");
    EXPECT_NEAR(risk, recomputed, 1e-9 * recomputed) << row.at("rule");
    // "<2.5 %", "<1 ppm": the bound as printed; simple acceptance reaches its 50 %.
    const std::string& printed = row.at("published_specific_risk");
    const std::size_t end = printed.find(' ');
    const double unit = printed.compare(end + 1, 3, "ppm") == 0 ? 1e-6 : 0.01;
    EXPECT_LE(risk, parseNumber(printed.substr(1, end - 1)).value().value * unit) << row.at("rule");
    ++checked;
  }
  EXPECT_EQ(checked, 6);
}

TEST(Guard, IsDrawnInOnBothSides) {
  const Guard guard = factorGuard(1.0, {-0.5, 1.5});
  EXPECT_NEAR(guard.acceptance.low, -0.3, 1e-15);
  EXPECT_NEAR(guard.acceptance.high, 1.3, 1e-15);
  const Guard open = factorGuard(1.0, {-0.5, kInfinite});
  EXPECT_EQ(open.acceptance.high, kInfinite);
  EXPECT_EQ(guardFor({}, kBoth, 0.1, 0.2).width, 0.0);
  EXPECT_EQ(guardFor({.basis = GuardBasis::width, .width = 0.3}, kBoth, 0.1, 0.2).acceptance.high, 0.7);
  EXPECT_EQ(factorGuard(5.0).state, GuardState::acceptsNothing);
  EXPECT_EQ(factorGuard(4.9).state, GuardState::found);
}

TEST(Guard, BySpecificRiskMeetsItAtTheAcceptanceLimit) {
  // One limit: the quantile of the normal distribution (2.5 %: 1.959963984540054 u).
  const DecisionRule rule{.basis = GuardBasis::specificRisk, .falseAcceptLimit = 0.025};
  EXPECT_NEAR(guardFor(rule, {-kInfinite, 1.0}, 0.1, 0.2).width, 0.1959963984540054, 1e-10);
  EXPECT_NEAR(guardFor(rule, {-1.0, kInfinite}, 0.1, 0.2).acceptance.low, -1.0 + 0.1959963984540054, 1e-10);
  // Two limits near each other: the far one counts too, and the band is wider.
  const ErrorLimits narrow{-0.25, 0.25};
  const Guard guard = guardFor(rule, narrow, 0.1, 0.2);
  EXPECT_GT(guard.width, 0.19599641);
  EXPECT_NEAR(nonConformanceProbability(narrow, guard.acceptance.high, 0.1), 0.025, 1e-9);
  EXPECT_LE(nonConformanceProbability(narrow, guard.acceptance.high, 0.1), 0.025);
  EXPECT_NEAR(nonConformanceProbability(narrow, guard.acceptance.low, 0.1), 0.025, 1e-9);
  // Too near: even the middle has more.
  const Guard none = guardFor(rule, {-0.15, 0.15}, 0.1, 0.2);
  EXPECT_EQ(none.state, GuardState::outOfReach);
  EXPECT_EQ(decide({-0.15, 0.15}, none, 0.0), Decision::conditionalPass);
  EXPECT_FALSE(accepted(none, 0.0));
}

TEST(Guard, ByGlobalRiskMeetsItOverThePopulation) {
  DecisionRule rule{.basis = GuardBasis::globalRisk, .population = Population{0.1, 0.6}};
  for (const ErrorLimits& limits : {kBoth, ErrorLimits{-0.6, 1.1}, ErrorLimits{-kInfinite, 0.9}}) {
    const Guard guard = guardFor(rule, limits, 0.3, 0.6);
    EXPECT_GT(guard.width, 0.0);
    const double risk = globalRisk(limits, guard.acceptance, *rule.population, 0.3).falseAccept;
    EXPECT_LE(risk, 0.02);
    EXPECT_NEAR(risk, 0.02, 1e-9);
  }
  // No band where the risk is small without one.
  rule.population = Population{0.0, 0.3};
  EXPECT_EQ(guardFor(rule, kBoth, 0.05, 0.1).width, 0.0);
  // A smaller limit asks for a wider band.
  rule.population = Population{0.0, 0.6};
  const double two = guardFor(rule, kBoth, 0.3, 0.6).width;
  rule.falseAcceptLimit = 0.005;
  EXPECT_GT(guardFor(rule, kBoth, 0.3, 0.6).width, two);
}

// The published fit stays at or under 2 %, by at most a tenth of it (README of the set: 1.91 to 1.97 %), so
// the band that just keeps 2 % is a little narrower.
TEST(Guard, ForAnyPopulationIsNearThePublishedFit) {
  for (const double ratio : {1.0, 2.0, 4.0}) {
    const double u = 0.5 / ratio;
    const Guard guard = guardFor({.basis = GuardBasis::anyPopulation}, kBoth, u, 2.0 * u);
    EXPECT_NEAR(worstFalseAccept(kBoth, guard.acceptance, u), 0.02, 1e-8);
    EXPECT_LT(guard.width, twoPercentFactor(ratio) * 2.0 * u);
    EXPECT_NEAR(guard.width / (2.0 * u), twoPercentFactor(ratio), 0.03);
  }
  EXPECT_EQ(guardFor({.basis = GuardBasis::anyPopulation}, kBoth, 0.1, 0.2).width, 0.0);
}

TEST(Decide, FourAnswers) {
  struct Row {
    double factor, error;
    Decision decision;
    bool accepted;
  };
  // Limits of 1, U = 0.2; a guard band of 0.2.
  const Row rows[] = {
      {1.0, 0.0, Decision::pass, true},
      {1.0, 0.8, Decision::pass, true},
      {1.0, -0.8, Decision::pass, true},
      {1.0, 0.81, Decision::conditionalPass, false},
      {1.0, -1.0, Decision::conditionalPass, false},
      {1.0, 1.01, Decision::conditionalFail, false},
      {1.0, -1.2, Decision::conditionalFail, false},
      {1.0, 1.21, Decision::fail, false},
      {0.0, 1.0, Decision::pass, true},
      {0.0, 1.0000001, Decision::fail, false},
      {0.0, -1.0000001, Decision::fail, false},
      // A band outside the limits accepts what is not shown to be outside.
      {-1.0, 0.9, Decision::conditionalPass, true},
      {-1.0, 1.1, Decision::conditionalFail, true},
      {-1.0, 1.21, Decision::fail, false},
      // Nothing can be shown to be inside.
      {6.0, 0.0, Decision::conditionalPass, false},
  };
  for (const Row& row : rows) {
    const Guard guard = factorGuard(row.factor);
    EXPECT_EQ(decide(kBoth, guard, row.error), row.decision) << row.factor << " " << row.error;
    EXPECT_EQ(accepted(guard, row.error), row.accepted) << row.factor << " " << row.error;
  }
  // 0.3 - 0.1 is a little less than 0.2 in binary.
  const Guard tenth = guardFor({.basis = GuardBasis::width, .width = 0.1}, {-0.3, 0.3}, 0.1, 0.2);
  EXPECT_EQ(decide({-0.3, 0.3}, tenth, 0.2), Decision::pass);
  EXPECT_TRUE(accepted(tenth, 0.2));
  const ErrorLimits oneSide{-kInfinite, 0.5};
  EXPECT_EQ(decide(oneSide, factorGuard(1.0, oneSide), -1e9), Decision::pass);
  EXPECT_EQ(decide(oneSide, factorGuard(1.0, oneSide), 0.4), Decision::conditionalPass);
  EXPECT_EQ(decide(oneSide, factorGuard(1.0, oneSide), 0.8), Decision::fail);
}

// JCGM 106:2012 9.5.3.2: acceptance within 0.18 of a tolerance of 0.2 with u = 0.04 is a guard band of U / 4.
TEST(Guard, OfTheResistors) {
  const Guard guard = guardFor({.basis = GuardBasis::factor, .factor = 0.25}, {-0.2, 0.2}, 0.04, 0.08);
  int checked = 0;
  for (const auto& row :
       test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/statistics/expected_decision.csv")) {
    if (row.at("quantity") == "guard band w") {
      EXPECT_NEAR(guard.width, test::numberIn(row, "recomputed"), 1e-12);
      ++checked;
    } else if (row.at("quantity") == "w/U with U=2*0.04") {
      EXPECT_NEAR(guard.width / 0.08, test::numberIn(row, "recomputed"), 1e-12);
      ++checked;
    }
  }
  EXPECT_EQ(checked, 2);
  EXPECT_NEAR(guard.acceptance.high, 0.18, 1e-12);
}

TEST(TestUncertaintyRatio, IsHalfTheToleranceOverU) {
  EXPECT_NEAR(*testUncertaintyRatio(kBoth, 0.25), 4.0, 1e-15);
  EXPECT_NEAR(*testUncertaintyRatio({-0.5, 1.5}, 0.25), 4.0, 1e-15);
  EXPECT_NEAR(*testUncertaintyRatio({-kInfinite, 0.5}, 0.25), 2.0, 1e-15);
  EXPECT_NEAR(*testUncertaintyRatio({-0.75, kInfinite}, 0.25), 3.0, 1e-15);
  EXPECT_FALSE(testUncertaintyRatio(kBoth, 1e-320).has_value());
  EXPECT_FALSE(testUncertaintyRatio({-kInfinite, 0.0}, 0.25));
  EXPECT_THROW(testUncertaintyRatio(kBoth, 0.0), std::invalid_argument);
}

TEST(DecisionRule, RefusesWhatIsNoRule) {
  const double nan = std::nan("");
  EXPECT_FALSE(ruleFault({}, kBoth));
  EXPECT_TRUE(ruleFault({.basis = GuardBasis::factor, .factor = nan}, kBoth));
  EXPECT_TRUE(ruleFault({.basis = GuardBasis::width, .width = kInfinite}, kBoth));
  for (const double limit : {0.0, 0.5, -0.1, nan}) {
    EXPECT_TRUE(ruleFault({.basis = GuardBasis::specificRisk, .falseAcceptLimit = limit}, kBoth)) << limit;
  }
  EXPECT_TRUE(ruleFault({.basis = GuardBasis::globalRisk}, kBoth));
  EXPECT_TRUE(ruleFault({.basis = GuardBasis::globalRisk, .population = Population{0.0, 0.0}}, kBoth));
  EXPECT_TRUE(ruleFault({.basis = GuardBasis::anyPopulation}, {-kInfinite, 1.0}));
  EXPECT_THROW(guardFor({.basis = GuardBasis::globalRisk}, kBoth, 0.1, 0.2), std::invalid_argument);
  EXPECT_THROW(guardFor({}, {1.0, 1.0}, 0.1, 0.2), std::invalid_argument);
  EXPECT_THROW(guardFor({}, kBoth, 0.1, nan), std::invalid_argument);
}

}  // namespace
}  // namespace spanwright
