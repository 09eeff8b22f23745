// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/ruling.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace spanwright {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
const DecisionRule kOneU{.basis = GuardBasis::factor, .factor = 1.0};

/// Limits of -1 and 1, U = 0.2 with k = 2.
RuledError at(double error) {
  return {error, {-1.0, 1.0}, 0.2, 2.0};
}
Verdict simple(double error) {
  return std::abs(error) <= 1.0 ? Verdict::pass : Verdict::fail;
}
Ruling byOneU(double error) {
  return rulingOn(kOneU, at(error), simple(error));
}

TEST(Ruling, SimpleAcceptanceTakesTheVerdictOverWithOrWithoutUncertainty) {
  for (const Verdict verdict : {Verdict::pass, Verdict::fail}) {
    RuledError reading = at(1.0);
    for (const std::optional<double> expanded : {std::optional(0.2), std::optional<double>()}) {
      reading.expandedUncertainty = expanded;
      const Ruling ruling = rulingOn({}, reading, verdict);
      EXPECT_EQ(ruling.verdict, verdict);
      EXPECT_EQ(ruling.answer, verdict == Verdict::pass ? Decision::pass : Decision::fail);
      EXPECT_EQ(ruling.guard->width, 0.0);
      EXPECT_EQ(ruling.reason, "");
    }
  }
  EXPECT_EQ(rulingOn({}, at(0.0), Verdict::notJudged).answer, std::nullopt);
}

// Guarded acceptance with w = U = 0.2: limits of acceptance 0.8, of conditional failure 1.2.
TEST(Ruling, AGuardBandGivesFourAnswersAndTwoVerdicts) {
  struct Case {
    double error;
    Verdict verdict;
    Decision answer;
  };
  for (const double sign : {1.0, -1.0}) {
    for (const auto& [error, verdict, answer] :
         {Case{0.0, Verdict::pass, Decision::pass}, Case{0.79, Verdict::pass, Decision::pass},
          Case{0.8, Verdict::pass, Decision::pass}, Case{0.81, Verdict::fail, Decision::conditionalPass},
          Case{1.0, Verdict::fail, Decision::conditionalPass},
          Case{1.01, Verdict::fail, Decision::conditionalFail},
          Case{1.19, Verdict::fail, Decision::conditionalFail}, Case{1.21, Verdict::fail, Decision::fail}}) {
      const Ruling ruling = byOneU(sign * error);
      EXPECT_EQ(ruling.verdict, verdict) << sign * error;
      EXPECT_EQ(ruling.answer, answer) << sign * error;
      EXPECT_NEAR(ruling.guard->width, 0.2, 1e-15);
    }
  }
}

TEST(Ruling, WithoutUncertaintyOnlyWhatIsOutsideIsJudged) {
  RuledError reading = at(0.0);
  reading.expandedUncertainty.reset();
  const Ruling inside = rulingOn(kOneU, reading, Verdict::pass);
  EXPECT_EQ(inside.verdict, Verdict::notJudged);
  EXPECT_EQ(inside.answer, std::nullopt);
  EXPECT_NE(inside.reason.find("needs an uncertainty"), std::string::npos);
  const Ruling outside = rulingOn(kOneU, reading, Verdict::fail);
  EXPECT_EQ(outside.verdict, Verdict::fail);
  EXPECT_EQ(outside.answer, std::nullopt);
  for (const double bad : {0.0, -0.1, std::nan(""), kInfinite}) {
    reading.expandedUncertainty = bad;
    EXPECT_EQ(rulingOn(kOneU, reading, Verdict::pass).verdict, Verdict::notJudged) << bad;
    EXPECT_FALSE(rulingOn(kOneU, reading, Verdict::pass).reason.empty());
  }
  reading.expandedUncertainty = 0.2;
  reading.coverageFactor = 0.0;
  EXPECT_EQ(rulingOn(kOneU, reading, Verdict::pass).verdict, Verdict::notJudged);
}

// 2.5 % of a normal distribution lie beyond 1.959963984540054 standard deviations.
TEST(Ruling, AFalseAcceptLimitUsesTheStandardUncertainty) {
  const DecisionRule rule{.basis = GuardBasis::specificRisk, .falseAcceptLimit = 0.025};
  RuledError reading{0.8, {-kInfinite, 1.0}, 0.3, 3.0};  // u = 0.1
  EXPECT_NEAR(rulingOn(rule, reading, Verdict::pass).guard->width, 0.1959963984540054, 1e-10);
  EXPECT_EQ(rulingOn(rule, reading, Verdict::pass).verdict, Verdict::pass);
  reading.error = 0.81;
  EXPECT_EQ(rulingOn(rule, reading, Verdict::pass).answer, Decision::conditionalPass);
}

TEST(Ruling, ARiskThatNeedsNoBandKeepsTheVerdictOfALimitThatIsItselfOutside) {
  const DecisionRule rule{.basis = GuardBasis::anyPopulation, .falseAcceptLimit = 0.4};
  const Ruling ruling = rulingOn(rule, at(1.0), Verdict::fail);
  ASSERT_EQ(ruling.guard->width, 0.0);
  EXPECT_EQ(ruling.verdict, Verdict::fail);
  EXPECT_EQ(ruling.answer, Decision::fail);
  EXPECT_EQ(rulingOn(rule, at(1.0), Verdict::pass).answer, Decision::pass);
}

TEST(Ruling, WhateverTheSpreadTheBandIsThatOfGuardForEachTime) {
  for (int round = 0; round < 2; ++round) {
    for (const double limit : {0.01, 0.02}) {
      for (const ErrorLimits limits : {ErrorLimits{-1.0, 1.0}, ErrorLimits{-1.0, 1.5}}) {
        for (const double expanded : {0.8, 1.0}) {
          const DecisionRule rule{.basis = GuardBasis::anyPopulation, .falseAcceptLimit = limit};
          const Ruling ruling = rulingOn(rule, {0.0, limits, expanded, 2.5}, Verdict::pass);
          EXPECT_EQ(ruling.guard->width, guardFor(rule, limits, expanded / 2.5, expanded).width);
        }
      }
    }
  }
}

TEST(Ruling, WhereTheBandsMeetNothingIsAccepted) {
  RuledError reading{0.0, {-1.0, 1.0}, 1.5, 2.0};
  const Ruling ruling = rulingOn(kOneU, reading, Verdict::pass);
  EXPECT_EQ(ruling.guard->state, GuardState::acceptsNothing);
  EXPECT_EQ(ruling.verdict, Verdict::fail);
  EXPECT_EQ(ruling.answer, Decision::conditionalPass);
}

// A limit that a rule cannot be applied to is a reason, not an exception.
TEST(Ruling, LimitsARuleCannotUse) {
  const DecisionRule rule{.basis = GuardBasis::anyPopulation};
  const Ruling oneSided = rulingOn(rule, {0.0, {-kInfinite, 1.0}, 0.2, 2.0}, Verdict::pass);
  EXPECT_EQ(oneSided.verdict, Verdict::notJudged);
  EXPECT_NE(oneSided.reason.find("two limits"), std::string::npos);
  const Ruling open = rulingOn(kOneU, {0.0, {-kInfinite, kInfinite}, 0.2, 2.0}, Verdict::pass);
  EXPECT_EQ(open.verdict, Verdict::notJudged);
  EXPECT_FALSE(open.reason.empty());
}

// What a record keeps is the verdict that was given: handing it in again changes nothing.
TEST(Ruling, IsTheSameFromTheVerdictItGave) {
  constexpr unsigned kSeed = 20261125;
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> error(-1.5, 1.5), expanded(-0.1, 1.5), factor(2.0, 3.0);
  const DecisionRule rules[] = {{},
                                kOneU,
                                {.basis = GuardBasis::factor, .factor = 3.0},
                                {.basis = GuardBasis::specificRisk, .falseAcceptLimit = 0.02},
                                {.basis = GuardBasis::specificRisk, .falseAcceptLimit = 0.49}};
  int accepted = 0, refused = 0, unjudged = 0;
  for (int i = 0; i < 2000; ++i) {
    const double u = expanded(random);
    const RuledError reading{
        error(random), {-1.0, 1.0}, u < 0.0 ? std::nullopt : std::optional(u), factor(random)};
    const DecisionRule& rule = rules[static_cast<std::size_t>(i) % std::size(rules)];
    const Ruling first = rulingOn(rule, reading, simple(reading.error));
    const Ruling again = rulingOn(rule, reading, first.verdict);
    EXPECT_EQ(again.verdict, first.verdict) << "seed " << kSeed;
    EXPECT_EQ(again.answer, first.answer) << "seed " << kSeed;
    // Never accepted outside, whatever the rule.
    EXPECT_FALSE(first.verdict == Verdict::pass && simple(reading.error) == Verdict::fail);
    accepted += first.verdict == Verdict::pass ? 1 : 0;
    refused += first.verdict == Verdict::fail ? 1 : 0;
    unjudged += first.verdict == Verdict::notJudged ? 1 : 0;
  }
  EXPECT_GT(accepted, 100);
  EXPECT_GT(refused, 100);
  EXPECT_GT(unjudged, 20);
}

TEST(Ruling, RatioNeedsAnUncertaintyAndALimit) {
  EXPECT_NEAR(*uncertaintyRatio(at(0.3)), 5.0, 1e-15);
  RuledError reading = at(0.3);
  reading.expandedUncertainty.reset();
  EXPECT_EQ(uncertaintyRatio(reading), std::nullopt);
  reading.expandedUncertainty = 0.0;
  EXPECT_EQ(uncertaintyRatio(reading), std::nullopt);
  EXPECT_EQ(uncertaintyRatio({0.0, {-kInfinite, kInfinite}, 0.2, 2.0}), std::nullopt);
}

TEST(PlanRule, WhatAPlanCannotHave) {
  EXPECT_FALSE(planRuleFault({}));
  for (const double factor : {0.5, 1.0, 3.0}) {
    EXPECT_FALSE(planRuleFault({.basis = GuardBasis::factor, .factor = factor})) << factor;
  }
  for (const double factor : {0.0, -1.0, 3.1, std::nan(""), kInfinite}) {
    EXPECT_TRUE(planRuleFault({.basis = GuardBasis::factor, .factor = factor})) << factor;
  }
  for (const GuardBasis basis : {GuardBasis::specificRisk, GuardBasis::anyPopulation}) {
    EXPECT_FALSE(planRuleFault({.basis = basis, .falseAcceptLimit = 0.02}));
    for (const double limit : {0.0, -0.1, 0.5, 2.0, std::nan("")}) {
      EXPECT_TRUE(planRuleFault({.basis = basis, .falseAcceptLimit = limit})) << limit;
    }
  }
  EXPECT_TRUE(planRuleFault({.basis = GuardBasis::width, .width = 0.1}));
  EXPECT_TRUE(planRuleFault({.basis = GuardBasis::globalRisk, .population = Population{0.0, 1.0}}));
}

TEST(PlanRule, PercentAsPeopleWriteIt) {
  EXPECT_EQ(percentText(0.07), "7");
  EXPECT_EQ(percentText(0.02), "2");
  EXPECT_EQ(percentText(0.00135), "0.135");
  EXPECT_EQ(percentText(1e-5), "0.001");
}

TEST(PlanRule, InWords) {
  EXPECT_EQ(describe(DecisionRule{}), "simple acceptance");
  EXPECT_EQ(describe(DecisionRule{.basis = GuardBasis::factor, .factor = 0.83}), "guard band of 0.83 U");
  EXPECT_EQ(describe(DecisionRule{.basis = GuardBasis::specificRisk, .falseAcceptLimit = 0.02}),
            "guard band for at most 2 % false acceptance of the worst error accepted");
}

}  // namespace
}  // namespace spanwright
