// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/reliability.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <stdexcept>

#include "tests/support/csv.h"

namespace spanwright {
namespace {

const std::string kStatistics = SPANWRIGHT_REFERENCE_DIR "/statistics/";
using Outcomes = std::vector<ToleranceOutcome>;

Outcomes alike(int in, int out, double days) {
  Outcomes outcomes(static_cast<std::size_t>(in), {days, true});
  outcomes.resize(outcomes.size() + static_cast<std::size_t>(out), {days, false});
  return outcomes;
}

// With one interval for all, the fit is the observed share: R(t) = in / all.
TEST(Reliability, ReproducesTheTableOfPairs) {
  int exponential = 0, weibull = 0;
  for (const auto& row : test::readReferenceCsv(kStatistics + "reliability_interval_computed.csv")) {
    const double observed = test::numberIn(row, "observed_interval_months");
    const double reliability = test::numberIn(row, "observed_reliability");
    const double target = test::numberIn(row, "target_reliability");
    const double expected = test::numberIn(row, "interval_months");
    if (row.at("model") == "exponential") {
      const int in = static_cast<int>(std::lround(100 * reliability));
      const ReliabilityFit fit = fitReliability(alike(in, 100 - in, observed));
      EXPECT_NEAR(*intervalForTarget(fit.rate, target), expected, 1e-10 * expected)
          << reliability << " " << target;
      EXPECT_NEAR(reliabilityAt(*fit.rate, observed), reliability, 1e-12);
      EXPECT_NEAR(intervalFromPair(observed, reliability, target), expected, 1e-12 * expected);
      ++exponential;
    } else {
      EXPECT_NEAR(intervalFromPair(observed, reliability, target, test::numberIn(row, "shape")), expected,
                  1e-12 * expected);
      ++weibull;
    }
  }
  EXPECT_EQ(exponential, 25);
  EXPECT_EQ(weibull, 15);
}

TEST(Reliability, AgreesWithSciPyOnRandomOutcomes) {
  std::map<std::string, Outcomes> outcomes;
  for (const auto& row : test::readReferenceCsv(kStatistics + "reliability_outcomes.csv")) {
    outcomes[row.at("case")].push_back(
        {test::numberIn(row, "interval_days"), row.at("in_tolerance") == "yes"});
  }
  int mixed = 0, allIn = 0, allOut = 0;
  for (const auto& row : test::readReferenceCsv(kStatistics + "reliability_fits.csv")) {
    const ReliabilityFit fit = fitReliability(outcomes.at(row.at("case")), test::numberIn(row, "confidence"));
    const auto expectSame = [&](std::optional<double> value, const std::string& column) {
      ASSERT_EQ(value.has_value(), !row.at(column).empty()) << row.at("case") << " " << column;
      if (value) {
        const double expected = test::numberIn(row, column);
        EXPECT_NEAR(*value, expected, 1e-9 * expected) << row.at("case") << " " << column;
      }
    };
    expectSame(fit.rate, "rate");
    expectSame(fit.rateLow, "rate_low");
    expectSame(fit.rateHigh, "rate_high");
    ++(fit.mix == OutcomeMix::mixed ? mixed : fit.mix == OutcomeMix::allIn ? allIn : allOut);
  }
  EXPECT_EQ(mixed, 35);
  EXPECT_EQ(allIn, 9);
  EXPECT_EQ(allOut, 4);
}

TEST(Reliability, AllInGivesAnUpperLimitOnly) {
  const ReliabilityFit fit = fitReliability(alike(10, 0, 365.0), 0.95);
  EXPECT_EQ(fit.mix, OutcomeMix::allIn);
  EXPECT_EQ(*fit.rate, 0.0);
  EXPECT_FALSE(fit.rateLow);
  // Ten of ten have the probability 1 - 0.95 at that rate.
  EXPECT_NEAR(std::pow(reliabilityAt(*fit.rateHigh, 365.0), 10), 0.05, 1e-14);
  EXPECT_FALSE(intervalForTarget(fit.rate, 0.9));
}

TEST(Reliability, AllOutGivesALowerLimitOnly) {
  const ReliabilityFit fit = fitReliability(alike(0, 3, 365.0), 0.9);
  EXPECT_EQ(fit.mix, OutcomeMix::allOut);
  EXPECT_FALSE(fit.rate || fit.rateHigh);
  EXPECT_NEAR(std::pow(1.0 - reliabilityAt(*fit.rateLow, 365.0), 3), 0.1, 1e-12);
  EXPECT_EQ(text(fit.mix), "all_out");
}

// Days or months: the same history in another unit has the same reliability.
TEST(Reliability, DoesNotDependOnTheUnitOfTime) {
  const Outcomes days{{300, true}, {350, true}, {500, false}, {200, true}, {720, false}, {400, true}};
  Outcomes scaled = days;
  for (ToleranceOutcome& outcome : scaled) {
    outcome.intervalDays *= 1e4;
  }
  const ReliabilityFit a = fitReliability(days), b = fitReliability(scaled);
  EXPECT_NEAR(*a.rate / *b.rate, 1e4, 1e-7);
  EXPECT_NEAR(*a.rateLow / *b.rateLow, 1e4, 1e-7);
  EXPECT_NEAR(*a.rateHigh / *b.rateHigh, 1e4, 1e-7);
  EXPECT_LT(*a.rateLow, *a.rate);
  EXPECT_LT(*a.rate, *a.rateHigh);
}

TEST(Reliability, RefusesWhatIsNoHistory) {
  const double nan = std::nan("");
  EXPECT_TRUE(outcomesFault({}, 0.95));
  for (const double days : {0.0, -1.0, nan, std::numeric_limits<double>::infinity(), 1e300}) {
    EXPECT_TRUE(outcomesFault({{365, true}, {days, true}}, 0.95)) << days;
  }
  for (const double confidence : {0.0, 1.0, 95.0, nan}) {
    EXPECT_TRUE(outcomesFault({{365, true}}, confidence)) << confidence;
  }
  EXPECT_THROW(fitReliability({}), std::invalid_argument);
}

}  // namespace
}  // namespace spanwright
