// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/wear.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>

#include "core/schedule/reliability.h"
#include "tests/support/csv.h"

namespace spanwright {
namespace {

const std::string kStatistics = SPANWRIGHT_REFERENCE_DIR "/statistics/";

// Turbine parts looked at once for cracks (Applied Life Data Analysis, 1982, p. 415): a published fit of
// failures known to lie between two looks. Data looked up; the printed fit from memory, and reproduced by two
// other programs.
TEST(Wear, ReproducesThePublishedFitOfCrackedParts) {
  std::vector<FailureWindow> windows;
  for (const auto& row : test::readReferenceCsv(kStatistics + "interval_censored_cracks.csv")) {
    FailureWindow window{test::numberIn(row, "start_months"), std::nullopt,
                         static_cast<int>(test::numberIn(row, "count"))};
    if (row.at("end_months") != "inf") {
      window.until = test::numberIn(row, "end_months");
    }
    windows.push_back(window);
  }
  const auto fit = fitWear(windows);
  ASSERT_TRUE(fit);
  const auto at = [&](double target) { return fit->scale * std::pow(-std::log(target), 1.0 / fit->shape); };
  const std::map<std::string, double> ours{
      {"location mu=ln(scale)", std::log(fit->scale)},
      {"sigma=1/shape", 1.0 / fit->shape},
      {"Weibull scale (months)", fit->scale},
      {"Weibull shape", fit->shape},
      {"log-likelihood", fit->logLikelihood},
      {"exponential mean (months)", 1.0 / fit->constantRate},
      {"exponential log-likelihood", fit->constantLogLikelihood},
      {"time at which Weibull reliability is 0.95", at(0.95)},
      {"time at which Weibull reliability is 0.85", at(0.85)},
      {"time at which exponential reliability is 0.95", -std::log(0.95) / fit->constantRate},
      {"time at which exponential reliability is 0.85", -std::log(0.85) / fit->constantRate}};
  std::size_t checked = 0;
  for (const auto& row : test::readReferenceCsv(kStatistics + "expected_intervals.csv")) {
    const auto own = ours.find(row.at("quantity"));
    if (own == ours.end()) {
      continue;  // standard errors, which are not asked for
    }
    ++checked;
    const double recomputed = test::numberIn(row, "recomputed");
    EXPECT_NEAR(own->second, recomputed, 1e-6 * std::abs(recomputed)) << own->first;
    if (!row.at("published").empty()) {
      EXPECT_NEAR(own->second, test::numberIn(row, "published"), test::numberIn(row, "tolerance"))
          << own->first;
    }
  }
  EXPECT_EQ(checked, ours.size());
  EXPECT_LT(fit->probability, 0.001);
}

TEST(Wear, AgreesWithSurvregOnRandomWindows) {
  std::map<std::string, std::vector<FailureWindow>> windows;
  for (const auto& row : test::readReferenceCsv(kStatistics + "wear_windows.csv")) {
    FailureWindow window{test::numberIn(row, "after"), std::nullopt};
    if (!row.at("until").empty()) {
      window.until = test::numberIn(row, "until");
    }
    windows[row.at("case")].push_back(window);
  }
  int cases = 0;
  for (const auto& row : test::readReferenceCsv(kStatistics + "wear_fits.csv")) {
    const auto fit = fitWear(windows.at(row.at("case")));
    ASSERT_TRUE(fit) << row.at("case");
    const auto near = [&](double value, const char* column, double relative) {
      const double expected = test::numberIn(row, column);
      EXPECT_NEAR(value, expected, relative * std::abs(expected)) << row.at("case") << " " << column;
    };
    near(fit->constantRate, "constant_rate", 1e-9);
    near(fit->constantLogLikelihood, "constant_log_likelihood", 1e-9);
    near(fit->logLikelihood, "log_likelihood", 1e-9);
    // At the maximum the likelihood is flat: its arguments have half its digits.
    near(fit->shape, "shape", 1e-6);
    near(fit->scale, "scale", 1e-6);
    ++cases;
  }
  EXPECT_EQ(cases, 40);
}

// The rates of the exponential model once more, by another program than reliability_fits.csv.
TEST(Wear, TheExponentialRatesAreThoseOfSurvreg) {
  std::map<std::string, std::vector<ToleranceOutcome>> outcomes;
  for (const auto& row : test::readReferenceCsv(kStatistics + "reliability_outcomes.csv")) {
    outcomes[row.at("case")].push_back(
        {test::numberIn(row, "interval_days"), row.at("in_tolerance") == "yes"});
  }
  int cases = 0;
  for (const auto& row : test::readReferenceCsv(kStatistics + "reliability_survreg.csv")) {
    const double expected = test::numberIn(row, "rate");
    EXPECT_NEAR(*fitReliability(outcomes.at(row.at("case"))).rate, expected, 1e-9 * expected)
        << row.at("case");
    ++cases;
  }
  EXPECT_EQ(cases, 35);
}

TEST(Wear, HasNoAnswerWithoutAMaximum) {
  EXPECT_FALSE(fitWear({}));
  EXPECT_FALSE(fitWear({{100.0, std::nullopt, 5}}));                     // none failed
  EXPECT_FALSE(fitWear({{0.0, 100.0, 3}, {0.0, 50.0, 1}}));              // all failed
  EXPECT_FALSE(fitWear({{365.0, std::nullopt, 30}, {0.0, 365.0, 10}}));  // one age
  // In at 100 and out at 200, always: the sharper the edge the better.
  EXPECT_FALSE(fitWear({{100.0, std::nullopt, 5}, {0.0, 200.0, 5}}));
}

}  // namespace
}  // namespace spanwright
