// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/risk.h"

#include <gtest/gtest.h>

#include <boost/math/special_functions/erf.hpp>
#include <boost/math/special_functions/owens_t.hpp>
#include <cmath>
#include <random>
#include <stdexcept>

#include "core/metrology/decision.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
const std::string kStatistics = SPANWRIGHT_REFERENCE_DIR "/statistics/";

double quantile(double probability) {
  return std::sqrt(2.0) * boost::math::erf_inv(2.0 * probability - 1.0);
}

double referenceNumber(const std::string& text) {
  return text == "inf" ? kInfinite : text == "-inf" ? -kInfinite : parseNumber(text).value().value;
}

// The printed figure within its tolerance and the recomputed one to 1e-9; both from the row.
void expectRow(const std::string& example, const std::string& quantity, double value,
               double relative = 1e-9) {
  for (const auto& row : test::readReferenceCsv(kStatistics + "expected_decision.csv")) {
    if (row.at("example") != example || row.at("quantity") != quantity) {
      continue;
    }
    if (!row.at("published").empty()) {
      EXPECT_NEAR(value, test::numberIn(row, "published"), test::numberIn(row, "tolerance"))
          << example << quantity;
    }
    const double recomputed = test::numberIn(row, "recomputed");
    EXPECT_NEAR(value, recomputed, relative * std::abs(recomputed)) << example << ", " << quantity;
    return;
  }
  ADD_FAILURE() << "no row " << example << ", " << quantity;
}

// JCGM 106:2012 Table 1: the z of a conformance probability.
TEST(Conformance, Table1) {
  for (const auto& [name, p] : {std::pair("0.8", 0.8), std::pair("0.9", 0.9), std::pair("0.95", 0.95),
                                std::pair("0.99", 0.99), std::pair("0.999", 0.999)}) {
    const double z = quantile(p);
    expectRow("jcgm106_table1", std::string("z for p_c=") + name, z);
    EXPECT_NEAR(conformanceProbability({-kInfinite, 0.0}, -z, 1.0), p, 1e-14);
    EXPECT_NEAR(conformanceProbability({0.0, kInfinite}, z, 1.0), p, 1e-14);
  }
}

// JCGM 106:2012 7.3.3 examples 1 and 2, 7.4.
TEST(Conformance, ExamplesOfClause7) {
  expectRow("jcgm106_zener", "z", (-5.40 + 5.47) / 0.05, 1e-12);
  expectRow("jcgm106_zener", "p_c", conformanceProbability({-kInfinite, -5.40}, -5.47, 0.05), 1e-12);
  expectRow("jcgm106_container", "z", (509.7 - 490.0) / 8.6, 1e-12);
  expectRow("jcgm106_container", "p_c", conformanceProbability({490.0, kInfinite}, 509.7, 8.6), 1e-12);
  expectRow("jcgm106_oil", "p_c", conformanceProbability({12.5, 16.3}, 13.6, 1.8), 1e-12);
}

// JCGM 106:2012 7.7.5: with C_m = 1 (T = 2 U = 4 u) the estimates with at least 95 % lie between 0.45 and
// 0.55.
TEST(Conformance, CapabilityOfOne) {
  const auto edge = [](double from, double to) {
    for (int i = 0; i < 200; ++i) {
      const double middle = (from + to) / 2.0;
      (conformanceProbability({0.0, 4.0}, 4.0 * middle, 1.0) >= 0.95 ? to : from) = middle;
    }
    return to;
  };
  expectRow("jcgm106_cm1", "lower end of y~ with p_c>=0.95 at C_m=1", edge(0.0, 0.5));
  expectRow("jcgm106_cm1", "upper end", edge(1.0, 0.5));
}

// JCGM 106:2012 A.3.1.
TEST(Conformance, CoverageOfTheNormalDistribution) {
  for (const int k : {1, 2, 3}) {
    expectRow("jcgm106_a3", "coverage k=" + std::to_string(k),
              conformanceProbability({-1.0 * k, 1.0 * k}, 0.0, 1.0));
  }
}

TEST(Conformance, IsExactWhereItIsTiny) {
  // Q(10) = 7.619853024160525e-24 (any table of the normal distribution in high precision; from memory).
  EXPECT_NEAR(nonConformanceProbability({-kInfinite, 10.0}, 0.0, 1.0) / 7.619853024160525e-24, 1.0, 1e-12);
  EXPECT_NEAR(conformanceProbability({10.0, 11.0}, 0.0, 1.0) / 7.6196619e-24, 1.0, 1e-4);
  EXPECT_NEAR(
      conformanceProbability({-1.0, 2.0}, 0.3, 0.7) + nonConformanceProbability({-1.0, 2.0}, 0.3, 0.7), 1.0,
      1e-15);
}

// JCGM 106:2012 9.5.3.2: resistors of 1500 ohm within 0.2 ohm.
TEST(GlobalRisk, ResistorsOfClause9) {
  const ErrorLimits limits{1499.8, 1500.2};
  const Population population{1500.0, 0.12};
  const GlobalRisk guarded = globalRisk(limits, {1499.82, 1500.18}, population, 0.04);
  const GlobalRisk simple = globalRisk(limits, limits, population, 0.04);
  // 1500.2 - 1500 has twelve good digits left.
  expectRow("jcgm106_resistor", "conformance probability of the process", guarded.inTolerance);
  expectRow("jcgm106_resistor", "global consumer risk R_C", guarded.falseAccept);
  expectRow("jcgm106_resistor", "global producer risk R_P", guarded.falseReject);
  expectRow("jcgm106_resistor", "R_C without guard band", simple.falseAccept);
  expectRow("jcgm106_resistor", "R_P without guard band", simple.falseReject);
}

TEST(GlobalRisk, GridOfRatiosAndInToleranceRates) {
  int checked = 0, empty = 0;
  for (const auto& row : test::readReferenceCsv(kStatistics + "false_accept_grid_computed.csv")) {
    const double ratio = test::numberIn(row, "TUR_L_over_U95(k=2)");
    const double inTolerance = test::numberIn(row, "true_in_tolerance_probability");
    const Population population{0.0, 1.0 / quantile((1.0 + inTolerance) / 2.0)};
    const double u = 0.5 / ratio;
    DecisionRule rule;
    if (row.at("rule") == "w=U") {
      rule = {.basis = GuardBasis::factor, .factor = 1.0};
    } else if (row.at("rule") != "simple") {
      // The set takes the formula as it is, below 0 too.
      rule = {.basis = GuardBasis::factor, .factor = twoPercentFactor(ratio)};
    }
    const Guard guard = guardFor(rule, {-1.0, 1.0}, u, 2.0 * u);
    EXPECT_NEAR(guard.acceptance.high, test::numberIn(row, "acceptance_limit_over_L"), 1e-12);
    const GlobalRisk risk = globalRisk({-1.0, 1.0}, guard.acceptance, population, u);
    EXPECT_NEAR(risk.inTolerance, inTolerance, 1e-14);
    ++checked;
    if (row.at("global_false_accept_probability").empty()) {
      // The guard bands meet: nothing is accepted, every good one rejected.
      EXPECT_EQ(guard.state, GuardState::acceptsNothing);
      EXPECT_EQ(risk.falseAccept, 0.0);
      EXPECT_EQ(risk.falseReject, risk.inTolerance);
      ++empty;
      continue;
    }
    const double accept = test::numberIn(row, "global_false_accept_probability");
    const double reject = test::numberIn(row, "global_false_reject_probability");
    EXPECT_NEAR(risk.falseAccept, accept, 1e-9 * accept + 1e-14)
        << ratio << " " << inTolerance << row.at("rule");
    EXPECT_NEAR(risk.falseReject, reject, 1e-9 * reject + 1e-14)
        << ratio << " " << inTolerance << row.at("rule");
  }
  EXPECT_EQ(checked, 144);
  EXPECT_EQ(empty, 6);
}

TEST(GlobalRisk, AgreesWithSciPyOnRandomCases) {
  int checked = 0;
  for (const auto& row : test::readReferenceCsv(kStatistics + "risk_table.csv")) {
    const auto in = [&](const std::string& column) { return referenceNumber(row.at(column)); };
    const GlobalRisk risk = globalRisk({in("low"), in("high")}, {in("accept_low"), in("accept_high")},
                                       {in("mean"), in("sd")}, in("u"));
    EXPECT_NEAR(risk.inTolerance, in("in_tolerance"), 1e-13) << checked;
    EXPECT_NEAR(risk.falseAccept, in("false_accept"), 1e-9 * in("false_accept") + 1e-14) << checked;
    EXPECT_NEAR(risk.falseReject, in("false_reject"), 1e-9 * in("false_reject") + 1e-14) << checked;
    ++checked;
  }
  EXPECT_EQ(checked, 120);
}

// P(X > a, Y < b) for standard normals of correlation r, by Owen's T function (D. B. Owen, Tables for
// computing bivariate normal probabilities, 1956): a road without quadrature.
double lowerBoth(double h, double k, double r) {
  const double root = std::sqrt(1.0 - r * r);
  const double share = h * k < 0.0 || (h * k == 0.0 && h + k < 0.0) ? 0.5 : 0.0;
  const auto phi = [](double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); };
  return 0.5 * (phi(h) + phi(k)) - boost::math::owens_t(h, (k - r * h) / (h * root)) -
         boost::math::owens_t(k, (h - r * k) / (k * root)) - share;
}

TEST(GlobalRisk, AgreesWithOwensT) {
  for (const double u : {0.05, 0.3, 1.0}) {
    for (const double accept : {0.4, 0.9, 1.3}) {
      const double sd = 0.6, limit = 1.0, measured = std::hypot(sd, u);
      // True value above the limit, measured below the acceptance limit.
      const double direct = 0.5 * std::erfc(-accept / measured / std::sqrt(2.0)) -
                            lowerBoth(limit / sd, accept / measured, sd / measured);
      const GlobalRisk risk = globalRisk({-kInfinite, limit}, {-kInfinite, accept}, {0.0, sd}, u);
      EXPECT_NEAR(risk.falseAccept, direct, 1e-14) << u << " " << accept;
    }
  }
}

TEST(GlobalRisk, FalseAcceptFallsAsTheGuardBandGrows) {
  constexpr unsigned kSeed = 20261129;
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> uniform;
  for (int round = 0; round < 40; ++round) {
    const ErrorLimits limits{round % 3 == 0 ? -kInfinite : -0.5 - uniform(random), 0.5 + uniform(random)};
    const Population population{uniform(random) - 0.5, 0.1 + uniform(random)};
    const double u = 0.02 + 0.5 * uniform(random);
    double accept = 1.0, reject = -1.0;
    for (int step = -6; step < 10; ++step) {
      const double band = 0.05 * step;
      const GlobalRisk risk = globalRisk(limits, {limits.low + band, limits.high - band}, population, u);
      EXPECT_LT(risk.falseAccept, accept) << "seed " << kSeed << " round " << round << " band " << band;
      EXPECT_GT(risk.falseReject, reject) << "seed " << kSeed << " round " << round << " band " << band;
      EXPECT_GE(risk.falseAccept, 0.0);
      accept = risk.falseAccept;
      reject = risk.falseReject;
      // Two ways to count what is accepted.
      const double measured = std::hypot(population.sd, u);
      const double share =
          conformanceProbability({limits.low + band, limits.high - band}, population.mean, measured);
      EXPECT_NEAR(risk.accepted(), share, 1e-12);
    }
  }
}

TEST(GlobalRisk, TurnsLimitsRoundWithTheSign) {
  const GlobalRisk a = globalRisk({-0.7, 1.2}, {-0.6, 1.1}, {0.2, 0.5}, 0.2);
  const GlobalRisk b = globalRisk({-1.2, 0.7}, {-1.1, 0.6}, {-0.2, 0.5}, 0.2);
  EXPECT_NEAR(a.falseAccept, b.falseAccept, 1e-15);
  EXPECT_NEAR(a.falseReject, b.falseReject, 1e-15);
}

TEST(GlobalRisk, HoldsOverFarApartScales) {
  // A measurement a million times finer than the spread, and one a million times coarser.
  const GlobalRisk fine = globalRisk({-1.0, 1.0}, {-1.0, 1.0}, {0.0, 1.0}, 1e-6);
  // To first order density(1) u / sqrt(2 pi) on each side.
  EXPECT_NEAR(fine.falseAccept / (2.0 * 0.24197072451914337 * 1e-6 / std::sqrt(2.0 * M_PI)), 1.0, 1e-5);
  const GlobalRisk coarse = globalRisk({-1.0, 1.0}, {-1.0, 1.0}, {0.0, 1.0}, 1e6);
  EXPECT_NEAR(coarse.accepted(), std::erf(1.0 / std::hypot(1.0, 1e6) / std::sqrt(2.0)), 1e-14);
}

// The set's largest values are the largest of a table over in-tolerance rates of 0.400, 0.405 .. 0.950.
double largestOfTable(double limit, double u) {
  double largest = 0.0;
  for (int i = 0; i <= 110; ++i) {
    const double sd = 1.0 / quantile((1.0 + 0.4 + 0.005 * i) / 2.0);
    largest = std::max(largest, globalRisk({-1.0, 1.0}, {-limit, limit}, {0.0, sd}, u).falseAccept);
  }
  return largest;
}

TEST(WorstFalseAccept, GuardBandPublishedForTwoPercent) {
  for (const auto& [name, ratio] : {std::pair("1", 1.0), std::pair("2", 2.0), std::pair("3", 3.0),
                                    std::pair("4", 4.0), std::pair("4.6", 4.6)}) {
    const double u = 0.5 / ratio, factor = twoPercentFactor(ratio);
    const std::string at = std::string("TUR=") + name;
    expectRow("managed_guard_band_2pct", "multiplier M at " + at, factor);
    const double limit = 1.0 - factor * 2.0 * u;
    const double without = largestOfTable(1.0, u), with = largestOfTable(limit, u);
    expectRow("managed_guard_band_2pct",
              "largest false-accept probability over all in-tolerance rates, no guard band, " + at, without);
    expectRow("managed_guard_band_2pct", "largest false-accept probability with guard band M*U95, " + at,
              with);
    // Between the table's steps there is a little more.
    for (const auto& [table, worst] : {std::pair(without, worstFalseAccept({-1.0, 1.0}, {-1.0, 1.0}, u)),
                                       std::pair(with, worstFalseAccept({-1.0, 1.0}, {-limit, limit}, u))}) {
      EXPECT_GE(worst, table * (1.0 - 1e-12)) << ratio;
      EXPECT_NEAR(worst, table, 3e-5 * table) << ratio;
    }
  }
}

TEST(WorstFalseAccept, IsNotExceededByAnySpread) {
  const double worst = worstFalseAccept({-1.0, 2.0}, {-0.9, 1.9}, 0.3);
  double largest = 0.0;
  for (int step = 0; step < 460; ++step) {
    const double sd = 0.01 * std::pow(1.02, step);
    largest = std::max(largest, globalRisk({-1.0, 2.0}, {-0.9, 1.9}, {0.5, sd}, 0.3).falseAccept);
  }
  EXPECT_GE(worst, largest);
  EXPECT_NEAR(worst, largest, 1e-3 * worst);
}

TEST(EstimateWithin, WeighsTheMeasurementByThePopulation) {
  const Estimate even = estimateWithin({0.0, 0.3}, 0.5, 0.3);
  EXPECT_NEAR(even.error, 0.25, 1e-15);
  EXPECT_NEAR(even.standardUncertainty, 0.3 / std::sqrt(2.0), 1e-15);
  EXPECT_NEAR(estimateWithin({1.0, 0.3}, 2.0, 0.3).error, 1.5, 1e-15);
  const Estimate wide = estimateWithin({0.0, 1e6}, 0.5, 0.3);
  EXPECT_NEAR(wide.error, 0.5, 1e-12);
  EXPECT_NEAR(wide.standardUncertainty, 0.3, 1e-12);
}

TEST(Risk, RefusesWhatIsNoLimitOrUncertainty) {
  const double nan = std::nan("");
  EXPECT_FALSE(riskFault({-1.0, kInfinite}, 0.1));
  EXPECT_TRUE(riskFault({-kInfinite, kInfinite}, 0.1));
  EXPECT_TRUE(riskFault({1.0, 1.0}, 0.1));
  EXPECT_TRUE(riskFault({1.0, -1.0}, 0.1));
  EXPECT_TRUE(riskFault({nan, 1.0}, 0.1));
  EXPECT_TRUE(riskFault({kInfinite, kInfinite}, 0.1));
  for (const double u : {0.0, -0.1, nan, kInfinite}) {
    EXPECT_TRUE(riskFault({-1.0, 1.0}, u)) << u;
    EXPECT_THROW(conformanceProbability({-1.0, 1.0}, 0.0, u), std::invalid_argument);
    EXPECT_THROW(globalRisk({-1.0, 1.0}, {-1.0, 1.0}, {0.0, 1.0}, u), std::invalid_argument);
    EXPECT_THROW(globalRisk({-1.0, 1.0}, {-1.0, 1.0}, {0.0, u}, 0.1), std::invalid_argument);
  }
  EXPECT_THROW(conformanceProbability({-1.0, 1.0}, nan, 0.1), std::invalid_argument);
  EXPECT_THROW(nonConformanceProbability({-1.0, 1.0}, kInfinite, 0.1), std::invalid_argument);
  EXPECT_THROW(globalRisk({-1.0, 1.0}, {nan, 1.0}, {0.0, 1.0}, 0.1), std::invalid_argument);
  EXPECT_THROW(globalRisk({-1.0, 1.0}, {-1.0, 1.0}, {nan, 1.0}, 0.1), std::invalid_argument);
  EXPECT_THROW(worstFalseAccept({-kInfinite, 1.0}, {-kInfinite, 1.0}, 0.1), std::invalid_argument);
  EXPECT_THROW(estimateWithin({0.0, 1.0}, nan, 0.1), std::invalid_argument);
}

}  // namespace
}  // namespace spanwright
