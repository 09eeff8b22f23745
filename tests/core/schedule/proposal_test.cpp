// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/proposal.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace spanwright {
namespace {

using testing::HasSubstr;

constexpr IntervalLimits kWide{30, 3000};

Date day(const char* text) {
  return *parseDate(text);
}
std::vector<IntervalOutcome> lastFound(FoundState found) {
  return {{day("2024-05-02"), 366.0, FoundState::out}, {day("2025-05-02"), 365.0, found}};
}

TEST(FixedProposal, StaysWithinItsLimits) {
  EXPECT_EQ(proposeFixed(365, {}).days, 365);
  const IntervalProposal cut = proposeFixed(800, {90, 730});
  EXPECT_EQ(cut.days, 730);
  EXPECT_THAT(cut.evidence, HasSubstr("That is 800 days; the policy allows at most 730 days."));
}

// Factors as the policy states them; ILAC-G24:2022 / OIML D 10:2022 lays down none.
TEST(StaircaseProposal, OneStepByTheLastVisit) {
  const StaircaseRule rule{1.25, 0.5};
  const IntervalProposal up = proposeStaircase(365, lastFound(FoundState::within), rule, kWide);
  EXPECT_EQ(up.days, 456);  // 456.25
  EXPECT_EQ(
      up.evidence,
      "The visit of 2025-05-02, 365 days after the as-left before it, found everything within the adjust "
      "limit: a step up by 1.25.");
  const IntervalProposal stay = proposeStaircase(365, lastFound(FoundState::beyondAdjustLimit), rule, kWide);
  EXPECT_EQ(stay.days, 365);
  EXPECT_THAT(stay.evidence, HasSubstr("in tolerance but beyond the adjust limit: no step."));
  const IntervalProposal down = proposeStaircase(365, lastFound(FoundState::out), rule, kWide);
  EXPECT_EQ(down.days, 183);  // 182.5, towards the present interval
  EXPECT_THAT(down.evidence, HasSubstr("out of tolerance: a step down by 0.5."));
}

TEST(StaircaseProposal, WithoutAVisitThereIsNoStep) {
  const IntervalProposal none = proposeStaircase(365, {}, {1.25, 0.5}, kWide);
  EXPECT_EQ(none.days, 365);
  EXPECT_THAT(none.evidence, HasSubstr("No visit has put the present interval to the test"));
}

TEST(StaircaseProposal, TheLimitsWinAndAreNamed) {
  const IntervalProposal low = proposeStaircase(100, lastFound(FoundState::out), {1.25, 0.5}, {90, 400});
  EXPECT_EQ(low.days, 90);
  EXPECT_THAT(low.evidence, HasSubstr("That is 50 days; the policy allows no less than 90 days."));
  EXPECT_EQ(proposeStaircase(350, lastFound(FoundState::within), {1.25, 0.5}, {90, 400}).days, 400);
}

TEST(StaircaseProposal, NeverJumpsMoreThanItsFactors) {
  const unsigned seed = std::random_device{}();
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> days(1, 4000);
  std::uniform_real_distribution<double> up(1.001, 4.0), down(0.01, 0.99);
  for (int i = 0; i < 2000; ++i) {
    const int now = days(random);
    const StaircaseRule rule{up(random), down(random)};
    const int longer = *proposeStaircase(now, lastFound(FoundState::within), rule, {}).days;
    const int shorter = *proposeStaircase(now, lastFound(FoundState::out), rule, {}).days;
    EXPECT_LE(longer, now * rule.lengthen) << "seed " << seed;
    EXPECT_GE(longer, now) << "seed " << seed;
    EXPECT_GE(shorter, now * rule.shorten) << "seed " << seed;
    EXPECT_LE(shorter, now) << "seed " << seed;
  }
}

std::vector<ToleranceOutcome> alike(int in, int out, double days) {
  std::vector<ToleranceOutcome> outcomes;
  for (int i = 0; i < in + out; ++i) {
    outcomes.push_back({days, i < in});
  }
  return outcomes;
}

OutcomeGroup groupOf(std::vector<ToleranceOutcome> own, std::vector<ToleranceOutcome> others) {
  return {"channel, thermocouple-input, plan TC-5", 4, std::move(own), std::move(others)};
}

// With one interval for all the reliability at it is the observed share, so that the target's interval is in
// closed form: 365 ln 0.9 / ln 0.8.
TEST(ReliabilityProposal, InvertsTheObservedShare) {
  const IntervalProposal proposal =
      proposeReliability(groupOf(alike(6, 2, 365.0), alike(26, 6, 365.0)), {0.9, 0.95, 10}, kWide);
  EXPECT_EQ(proposal.days, static_cast<int>(365.0 * std::log(0.9) / std::log(0.8)));
  EXPECT_THAT(
      proposal.evidence,
      HasSubstr("32 of 40 visits found in tolerance in the group \"channel, thermocouple-input, plan TC-5\" "
                "(4 subjects)"));
  EXPECT_THAT(proposal.evidence, HasSubstr("90 % are still in tolerance after 172 days ("));
  EXPECT_THAT(proposal.evidence, HasSubstr("at 95 % confidence)"));
}

TEST(ReliabilityProposal, TooFewOutcomesProposeNothing) {
  const IntervalProposal few = proposeReliability(groupOf(alike(3, 0, 365.0), alike(5, 1, 365.0)), {}, kWide);
  EXPECT_FALSE(few.days);
  EXPECT_THAT(few.evidence, HasSubstr("Too few outcomes: 9 in the group"));
  EXPECT_THAT(few.evidence, HasSubstr("the policy asks for 10"));
  EXPECT_FALSE(proposeReliability(groupOf({}, {}), {}, kWide).days);
}

// All in: at the upper limit of the rate, ten of ten have the probability 1 - 0.95 (exact, one-sided).
TEST(ReliabilityProposal, AllInTakesTheShortestThatTheConfidenceAllows) {
  const IntervalProposal proposal = proposeReliability(groupOf(alike(10, 0, 365.0), {}), {0.9, 0.95, 10}, {});
  const double rate = -std::log(0.05) / 3650.0;
  EXPECT_EQ(proposal.days, static_cast<int>(-std::log(0.9) / rate));
  EXPECT_THAT(proposal.evidence, HasSubstr("none was found out"));
}

TEST(ReliabilityProposal, AllOutGoesToTheLowerLimit) {
  const IntervalProposal proposal =
      proposeReliability(groupOf(alike(0, 6, 365.0), alike(0, 6, 365.0)), {}, kWide);
  EXPECT_EQ(proposal.days, 30);
  EXPECT_THAT(proposal.evidence, HasSubstr("no interval meets 90 %"));
  EXPECT_EQ(proposeReliability(groupOf(alike(0, 10, 365.0), {}), {}, {}).days, 1);
}

// A fair coin four times: 3 or 4 heads have 5/16.
TEST(ReliabilityProposal, MisfitIsTheBinomialTailWhenIntervalsAreAlike) {
  const double rate = std::log(2.0) / 100.0;
  EXPECT_NEAR(misfit(alike(1, 3, 100.0), rate), 5.0 / 16.0, 1e-14);
  EXPECT_NEAR(misfit(alike(0, 4, 100.0), rate), 1.0 / 16.0, 1e-14);
  EXPECT_NEAR(misfit(alike(4, 0, 100.0), rate), 1.0, 1e-14);
  EXPECT_EQ(misfit({}, rate), 1.0);
  // Unequal: out at 100 days and at 200 days, 0.5 x 0.75.
  EXPECT_NEAR(misfit({{100.0, false}, {200.0, false}}, rate), 0.375, 1e-14);
}

TEST(ReliabilityProposal, OneThatDoesNotFitIsJudgedByItsOwnRecordAndToldSo) {
  const auto others = alike(38, 2, 365.0);
  const IntervalProposal fits = proposeReliability(groupOf(alike(5, 1, 365.0), others), {}, kWide);
  EXPECT_THAT(fits.evidence, testing::Not(HasSubstr("does not fit")));
  const IntervalProposal misfits = proposeReliability(groupOf(alike(2, 4, 365.0), others), {}, kWide);
  EXPECT_THAT(
      misfits.evidence,
      HasSubstr("This one does not fit the group: 4 of its own 6 visits found it out of tolerance, where "
                "the others lead to expect 0.30"));
  EXPECT_EQ(misfits.days, static_cast<int>(365.0 * std::log(0.9) / std::log(2.0 / 6.0)));
  // The group itself is not made to follow it.
  EXPECT_GT(*fits.days, 300);
}

TEST(ReliabilityProposal, SaysWhenTheRateIsNotConstant) {
  std::vector<ToleranceOutcome> wearing;
  for (int i = 0; i < 20; ++i) {
    wearing.push_back({200.0, true});
    wearing.push_back({700.0, i == 0});
  }
  const IntervalProposal proposal = proposeReliability(groupOf(wearing, {}), {}, kWide);
  EXPECT_THAT(proposal.evidence, HasSubstr("The rate is not constant: with a shape of"));
  EXPECT_THAT(proposeReliability(groupOf(alike(36, 4, 365.0), {}), {}, kWide).evidence,
              testing::Not(HasSubstr("not constant")));
}

TEST(ReliabilityProposal, FallsAsTheTargetRisesAndStaysWithinTheLimits) {
  const unsigned seed = std::random_device{}();
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> days(50.0, 900.0), chance(0.0, 1.0);
  for (int i = 0; i < 60; ++i) {
    OutcomeGroup group = groupOf({}, {});
    const double out = chance(random);
    for (int k = 0; k < 24; ++k) {
      (k < 6 ? group.own : group.others).push_back({days(random), chance(random) >= out});
    }
    int before = 36525;
    for (const double target : {0.5, 0.7, 0.8, 0.9, 0.95, 0.99, 0.999}) {
      const IntervalProposal proposal = proposeReliability(group, {target, 0.95, 10}, {20, 2000});
      ASSERT_TRUE(proposal.days) << "seed " << seed;
      EXPECT_LE(*proposal.days, before) << "seed " << seed;
      EXPECT_GE(*proposal.days, 20) << "seed " << seed;
      EXPECT_LE(*proposal.days, 2000) << "seed " << seed;
      before = *proposal.days;
    }
  }
}

ForecastEvidence forecastOut(const char* outOn) {
  ForecastEvidence evidence;
  evidence.provenOn = day("2026-03-02");
  evidence.points = evidence.pointsWithBand = 5;
  evidence.outOn = day(outOn);
  evidence.outAt = "100 %";
  evidence.lineOn = day("2029-01-15");
  return evidence;
}

TEST(ForecastProposal, EndsTheDayBeforeTheBandLeaves) {
  const IntervalProposal proposal = proposeForecast(forecastOut("2027-03-03"), kWide);
  EXPECT_EQ(proposal.days, 365);  // to 2027-03-02
  EXPECT_EQ(
      proposal.evidence,
      "From the as-left of 2026-03-02 the 95 % band at 100 % leaves tolerance first, on 2027-03-03 (the "
      "fitted line on 2029-01-15).");
}

TEST(ForecastProposal, IsCappedBelowAndAbove) {
  const IntervalProposal atOnce = proposeForecast(forecastOut("2026-03-02"), kWide);
  EXPECT_EQ(atOnce.days, 30);
  EXPECT_THAT(atOnce.evidence, HasSubstr("no less than 30 days"));
  EXPECT_EQ(proposeForecast(forecastOut("2035-03-03"), kWide).days, 3000);
  ForecastEvidence never = forecastOut("2027-03-03");
  never.outOn.reset();
  const IntervalProposal most = proposeForecast(never, kWide);
  EXPECT_EQ(most.days, 3000);
  EXPECT_THAT(most.evidence, HasSubstr("no point leaves tolerance within ten years"));
}

TEST(ForecastProposal, WithoutABandThereIsNone) {
  ForecastEvidence none = forecastOut("2027-03-03");
  none.pointsWithBand = 0;
  none.outOn.reset();
  EXPECT_FALSE(proposeForecast(none, kWide).days);
  none.points = 0;
  EXPECT_FALSE(proposeForecast(none, kWide).days);
  ForecastEvidence some = forecastOut("2027-03-03");
  some.pointsWithBand = 3;
  EXPECT_THAT(proposeForecast(some, kWide).evidence, HasSubstr("2 of 5 points have no band"));
}

}  // namespace
}  // namespace spanwright
