// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/uncertainty.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <stdexcept>

#include "tests/support/csv.h"

namespace spanwright {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

TEST(CoverageFactor, MatchesTableG2) {
  int checked = 0;
  for (const auto& row : test::readReferenceCsv(SPANWRIGHT_REFERENCE_DIR "/statistics/gum_table_g2.csv")) {
    if (row.at("p_percent") != "95.45") {
      continue;
    }
    const double degrees = row.at("dof") == "inf" ? kInfinite : std::stod(row.at("dof"));
    const double factor = coverageFactor(degrees);
    // Printed to three figures: half a unit of the last.
    EXPECT_NEAR(factor, std::stod(row.at("published_t")), 0.00501) << row.at("dof");
    // The recomputed column was made to about eight figures: at 6 and 45 degrees it is 3e-9 and 5e-9 from the
    // thirty-digit values below.
    EXPECT_NEAR(factor, std::stod(row.at("recomputed_t")), 1e-8) << row.at("dof");
    ++checked;
  }
  EXPECT_EQ(checked, 28);
}

// Roots of 1 - I(n/(n+t^2); n/2, 1/2) = erf(sqrt 2), found with thirty digits (mpmath).
TEST(CoverageFactor, MatchesThirtyDigitRoots) {
  EXPECT_NEAR(coverageFactor(6.0), 2.51652405565311867519, 1e-13);
  EXPECT_NEAR(coverageFactor(10.0), 2.28367820247793047910, 1e-13);
  EXPECT_NEAR(coverageFactor(45.0), 2.05709973434195421303, 1e-13);
  EXPECT_NEAR(coverageFactor(50.0), 2.05124817288165742896, 1e-13);
}

TEST(CoverageFactor, FallsTowardsTwoAsDegreesGrow) {
  double before = coverageFactor(0.5);
  for (double degrees = 1.0; degrees < 1e18; degrees *= 1.7) {
    const double now = coverageFactor(degrees);
    EXPECT_LE(now, before * (1.0 + 1e-12)) << degrees;
    EXPECT_GE(now, 2.0 - 1e-9) << degrees;
    before = now;
  }
  EXPECT_NEAR(coverageFactor(kInfinite), 2.0, 1e-14);
  EXPECT_NEAR(coverageFactor(16.5), (coverageFactor(16.0) + coverageFactor(17.0)) / 2.0, 1e-3);
}

TEST(CoverageFactor, RefusesNoDegreesOfFreedom) {
  for (const double degrees : {0.0, -1.0, std::nan("")}) {
    EXPECT_THROW(coverageFactor(degrees), std::invalid_argument) << degrees;
  }
}

// JCGM 100:2008 G.4.1: y = b x1 x2 x3, relative uncertainties 0.25 %, 0.57 %, 0.82 % from 10, 5, 15
// observations.
TEST(Combine, ProductExampleOfG41) {
  const Budget budget = combine({{"x1", 0.25, 1.0, 9.0}, {"x2", 0.57, 1.0, 4.0}, {"x3", 0.82, 1.0, 14.0}});
  EXPECT_NEAR(budget.combined, 1.02946588093049, 1e-13);
  EXPECT_NEAR(budget.combined, 1.03, 0.005);
  EXPECT_NEAR(budget.degreesOfFreedom, 19.0, 0.05);
}

// JCGM 100:2008 H.1, Table H.1; inputs in uncertainty_budgets.csv (gum_h1), in nm.
TEST(Combine, EndGaugeOfH1) {
  const Budget comparator = combine({{"d_bar", 13.0 / std::sqrt(5.0), 1.0, 24.0},
                                     {"d_1", 3.89016986643352, 1.0, 5.0},
                                     {"d_2", 20.0 / 3.0, 1.0, 8.0}});
  EXPECT_NEAR(comparator.combined, 9.7, 0.05);
  EXPECT_NEAR(comparator.degreesOfFreedom, 25.6, 0.05);
  const Budget length = combine({{"l_S", 25.0, 1.0, 18.0},
                                 {"d", comparator.combined, 1.0, comparator.degreesOfFreedom},
                                 {"delta_alpha", rectangular(1e-6), 50.000623e6 * 0.1, 50.0},
                                 {"delta_theta", rectangular(0.05), 50.000623e6 * 11.5e-6, 2.0}});
  EXPECT_NEAR(length.combined, 31.6581601864467, 1e-9 * length.combined);
  EXPECT_NEAR(length.combined, 32.0, 0.5);
  EXPECT_NEAR(length.degreesOfFreedom, 16.7, 0.05);
  EXPECT_NEAR(length.degreesOfFreedom, 16.7411488965842, 1e-6);
}

// JCGM 100:2008 4.3.7 example 2 and 5.1.5: a meter's specification as a rectangular bound, in microvolt.
TEST(Combine, VoltmeterOf515) {
  EXPECT_NEAR(rectangular(15.0), 8.7, 0.05);
  const Budget budget = combine({{"mean", 12.0}, {"specification", 8.7}});
  EXPECT_NEAR(budget.combined, 15.0, 0.5);
  EXPECT_NEAR(budget.combined, 14.8219431924428, 1e-12);  // from 8.7 as printed
  EXPECT_TRUE(std::isinf(budget.degreesOfFreedom));
  EXPECT_NEAR(budget.expanded, 2.0 * budget.combined, 1e-12);
}

// EA-4/02 M:2022 supplement S2 and S3, from memory in the set: a mass and a resistor, all at k = 2.
TEST(Combine, ExamplesOfEa402) {
  const Budget mass = combine({{"m_S", 45.0 / 2.0},
                               {"dm_D", rectangular(15.0)},
                               {"dm", 25.0 / std::sqrt(3.0)},
                               {"dm_C", rectangular(10.0)},
                               {"dB", rectangular(10.0)}});
  EXPECT_NEAR(mass.combined, 29.2617497767991, 1e-9);
  EXPECT_NEAR(mass.expanded, 59.0, 0.5);

  const Budget resistor = combine({{"R_S", 2.5},
                                   {"dR_D", rectangular(10.0)},
                                   {"dR_TS", rectangular(2.75)},
                                   {"dR_TX", rectangular(5.5), -1.0},
                                   {"r_C", 1.0e-6 / std::sqrt(6.0), 1e7},
                                   {"r", 0.0707106781128376e-6, 1e7, 4.0}});
  EXPECT_NEAR(resistor.combined, 8.33, 0.005);
  EXPECT_NEAR(resistor.expanded, 17.0, 0.5);
}

// JCGM 100:2008 4.3.7 and F.2.2.1 (prints 0.29): half a step either way as a rectangle.
TEST(Resolution, IsARectangleOneStepWide) {
  EXPECT_NEAR(resolutionUncertainty(1.0), 0.2886751346, 1e-10);
  EXPECT_DOUBLE_EQ(resolutionUncertainty(0.1), rectangular(0.05));
}

TEST(Combine, RefusesWhatIsNoBudget) {
  const double nan = std::nan("");
  EXPECT_THROW(combine({}), std::invalid_argument);
  EXPECT_THROW(combine({{"nothing", 0.0}}), std::invalid_argument);
  EXPECT_THROW(combine({{"no slope", 1.0, 0.0}}), std::invalid_argument);
  EXPECT_THROW(combine({{"negative", -1.0}, {"fine", 1.0}}), std::invalid_argument);
  EXPECT_THROW(combine({{"not a number", nan}}), std::invalid_argument);
  EXPECT_THROW(combine({{"infinite", kInfinite}}), std::invalid_argument);
  EXPECT_THROW(combine({{"slope", 1.0, nan}}), std::invalid_argument);
  EXPECT_THROW(combine({{"degrees", 1.0, 1.0, 0.0}}), std::invalid_argument);
  try {
    combine({{"bench meter", -1.0}});
    FAIL() << "a negative uncertainty was taken";
  } catch (const std::invalid_argument& refusal) {
    EXPECT_NE(std::string(refusal.what()).find("bench meter"), std::string::npos);
  }
}

TEST(Combine, OrderSignAndScaleDoNotMatter) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> some(0.01, 10.0);
  for (int round = 0; round < 500; ++round) {
    std::vector<BudgetLine> lines;
    for (int i = 0; i < 5; ++i) {
      lines.push_back({"line", some(random), some(random), std::ceil(some(random))});
    }
    const Budget one = combine(lines);
    std::vector<BudgetLine> other(lines.rbegin(), lines.rend());
    for (BudgetLine& line : other) {
      line.sensitivity *= -1e-150;  // fourth powers of this would be below the smallest double
    }
    const Budget two = combine(other);
    EXPECT_NEAR(two.combined / 1e-150, one.combined, 1e-12 * one.combined);
    EXPECT_NEAR(two.degreesOfFreedom, one.degreesOfFreedom, 1e-10 * one.degreesOfFreedom);
    // GUM G.4.1: never less than the smallest, never more than the sum of the lines' degrees of freedom.
    double least = kInfinite;
    double sum = 0.0;
    for (const BudgetLine& line : lines) {
      least = std::min(least, line.degreesOfFreedom);
      sum += line.degreesOfFreedom;
    }
    EXPECT_GE(one.degreesOfFreedom, least * (1.0 - 1e-12));
    EXPECT_LE(one.degreesOfFreedom, sum * (1.0 + 1e-12));
    lines[0].standardUncertainty *= 1.5;
    EXPECT_GT(combine(lines).combined, one.combined);
  }
}

}  // namespace
}  // namespace spanwright
