// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/pool.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <random>

#include "tests/core/drift/reference_csv.h"

namespace spanwright {
namespace {

using reference::number;
using reference::table;
using reference::withinRelative;

struct Group {
  std::vector<std::pair<double, double>> inputs;  // value, and its variance or degrees of freedom
  std::map<std::string, double> expected;
};

std::map<std::string, Group> groups(const std::string& kind) {
  std::map<std::string, Group> out;
  for (const auto& row : table("pool_estimates.csv")) {
    out[row.at("group")].inputs.emplace_back(number(row.at("value")), number(row.at("variance_or_freedom")));
  }
  for (const auto& row : table("pool_expected.csv")) {
    const std::string& cell = row.at("value");
    out[row.at("group")].expected[row.at("quantity")] =
        cell == "inf" ? std::numeric_limits<double>::infinity() : number(cell);
  }
  std::erase_if(out,
                [&](const auto& entry) { return entry.first.starts_with("scatter") != (kind == "scatter"); });
  return out;
}

// 13 vaccine trials: 0.3132, -0.7145, 0.1798 (tests/reference/statistics/make_pool_reference.py).
TEST(PoolRates, MeetsThePublishedRandomEffectsExample) {
  const Group bcg = groups("rates").at("bcg");
  std::vector<RateEstimate> estimates;
  for (const auto& [value, variance] : bcg.inputs)
    estimates.push_back({value, variance});
  ASSERT_EQ(estimates.size(), 13u);
  const auto pooled = poolRates(estimates);
  ASSERT_TRUE(pooled);
  EXPECT_NEAR(pooled->betweenVariance, 0.3132, 5e-5);
  EXPECT_NEAR(pooled->mean, -0.7145, 5e-5);
  EXPECT_NEAR(std::sqrt(pooled->meanVariance), 0.1798, 5e-5);
}

// R's metafor::rma(method = "REML") on the same estimates (make_pool_outside.R), which stops at about eight
// digits.
TEST(PoolRates, AgreesWithAnOutsidePackage) {
  const auto rateGroups = groups("rates");
  int compared = 0;
  for (const auto& row : table("pool_outside.csv")) {
    std::vector<RateEstimate> estimates;
    for (const auto& [value, variance] : rateGroups.at(row.at("group")).inputs)
      estimates.push_back({value, variance});
    const auto pooled = poolRates(estimates);
    ASSERT_TRUE(pooled);
    const std::map<std::string, double> got{{"between_variance", pooled->betweenVariance},
                                            {"mean", pooled->mean},
                                            {"mean_standard_error", std::sqrt(pooled->meanVariance)}};
    EXPECT_NEAR(got.at(row.at("quantity")), number(row.at("value")),
                1e-7 * std::max(0.01, std::abs(number(row.at("value")))))
        << row.at("group") << " " << row.at("quantity");
    ++compared;
  }
  EXPECT_EQ(compared, 15);
}

TEST(PoolRates, AgreesWithTheComputedReference) {
  const auto rateGroups = groups("rates");
  for (const auto& [name, group] : rateGroups) {
    std::vector<RateEstimate> estimates;
    for (const auto& [value, variance] : group.inputs)
      estimates.push_back({value, variance});
    const auto pooled = poolRates(estimates);
    ASSERT_TRUE(pooled) << name;
    // The outside optimiser compares likelihoods, whose hill is flat: half of a double's digits are left.
    EXPECT_NEAR(pooled->betweenVariance, group.expected.at("between_variance"),
                2e-8 * std::max(1.0, pooled->betweenVariance))
        << name;
    EXPECT_TRUE(withinRelative(pooled->mean, group.expected.at("mean"), 1e-7)) << name;
    EXPECT_TRUE(
        withinRelative(std::sqrt(pooled->meanVariance), group.expected.at("mean_standard_error"), 1e-7))
        << name;
    for (std::size_t i = 0; i < estimates.size(); ++i) {
      EXPECT_NEAR(pooled->shrunk[i], group.expected.at("shrunk_" + std::to_string(i)), 1e-8)
          << name << " " << i;
      EXPECT_TRUE(withinRelative(pooled->shrunkVariance[i],
                                 group.expected.at("shrunk_variance_" + std::to_string(i)), 1e-7))
          << name << " " << i;
    }
  }
}

TEST(PoolScatter, AgreesWithTheComputedReference) {
  const auto scatterGroups = groups("scatter");
  for (const auto& [name, group] : scatterGroups) {
    std::vector<ScatterEstimate> estimates;
    for (const auto& [value, freedom] : group.inputs)
      estimates.push_back({value, static_cast<int>(freedom)});
    const auto pooled = poolScatter(estimates);
    ASSERT_TRUE(pooled) << name;
    EXPECT_TRUE(withinRelative(pooled->variance, group.expected.at("group_variance"), 1e-6)) << name;
    EXPECT_TRUE(withinRelative(pooled->degreesOfFreedom, group.expected.at("group_degrees_of_freedom"), 1e-6))
        << name;
    for (std::size_t i = 0; i < estimates.size(); ++i) {
      EXPECT_TRUE(withinRelative(pooled->shrunk[i], group.expected.at("shrunk_" + std::to_string(i)), 1e-6))
          << name;
    }
  }
}

TEST(PoolRates, ShrunkLiesAmongTheRates) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::normal_distribution<double> rate(0.5, 0.3);
  std::uniform_real_distribution<double> variance(0.001, 0.2);
  for (int round = 0; round < 500; ++round) {
    std::vector<RateEstimate> estimates(3 + random() % 20);
    for (RateEstimate& estimate : estimates)
      estimate = {rate(random), variance(random)};
    const auto pooled = poolRates(estimates);
    ASSERT_TRUE(pooled);
    for (std::size_t i = 0; i < estimates.size(); ++i) {
      // The mean moves a little with the spread it is taken at, so the bounds are those of all the rates.
      const auto [low, high] =
          std::minmax_element(estimates.begin(), estimates.end(),
                              [](const RateEstimate& a, const RateEstimate& b) { return a.rate < b.rate; });
      EXPECT_GE(pooled->shrunk[i], low->rate - 1e-12);
      EXPECT_LE(pooled->shrunk[i], high->rate + 1e-12);
      EXPECT_GT(pooled->shrunkVariance[i], 0.0);
    }
  }
}

// Why pooling is done at all: over many invented groups the shrunk rates are nearer the true ones than the
// fitted.
TEST(PoolRates, IsNearerTheTruthThanEachOnItsOwn) {
  std::mt19937 random(20260301);
  std::normal_distribution<double> standard(0.0, 1.0);
  double own = 0.0;
  double shrunk = 0.0;
  double claimed = 0.0;
  int count = 0;
  for (int round = 0; round < 2000; ++round) {
    std::vector<RateEstimate> estimates;
    std::vector<double> truth;
    for (int i = 0; i < 30; ++i) {
      const double sd = 0.1 + 0.4 * (i % 3);
      truth.push_back(0.2 + 0.25 * standard(random));
      estimates.push_back({truth.back() + sd * standard(random), sd * sd});
    }
    const auto pooled = poolRates(estimates);
    for (std::size_t i = 0; i < truth.size(); ++i) {
      own += std::pow(estimates[i].rate - truth[i], 2);
      shrunk += std::pow(pooled->shrunk[i] - truth[i], 2);
      claimed += pooled->shrunkVariance[i];
      ++count;
    }
  }
  EXPECT_LT(shrunk, 0.5 * own);
  // The variance it claims holds what is not known of the spread between subjects, and errs to the wide side:
  // 13 % here, 6 % of a band's width.
  EXPECT_GT(claimed / shrunk, 1.0);
  EXPECT_LT(claimed / shrunk, 1.15);
}

TEST(PoolScatter, AnInputWithoutDegreesOfFreedomTakesTheGroups) {
  const auto pooled = poolScatter({{0.04, 3}, {0.05, 3}, {0.03, 3}, {0.0, 0}});
  ASSERT_TRUE(pooled);
  EXPECT_DOUBLE_EQ(pooled->shrunk[3], pooled->variance);
}

TEST(PoolScatter, AReadingThatNeverChangedDoesNotDecideAlone) {
  const auto pooled = poolScatter({{0.04, 3}, {0.05, 3}, {0.03, 3}, {0.0, 3}});
  ASSERT_TRUE(pooled);
  EXPECT_GT(pooled->variance, 0.0);
  EXPECT_TRUE(std::isfinite(pooled->degreesOfFreedom)) << "such different scatters are not all alike";
  for (const double variance : pooled->shrunk)
    EXPECT_TRUE(std::isfinite(variance) && variance >= 0.0);
}

TEST(Pool, RefusesGroupsThatAreTooSmallAndNumbersThatAreNone) {
  const double nan = std::nan("");
  EXPECT_FALSE(poolRates({}));
  EXPECT_FALSE(poolRates({{1, 1}, {2, 1}}));
  EXPECT_TRUE(poolRates({{1, 1}, {2, 1}, {3, 1}}));
  EXPECT_FALSE(poolRates({{1, 1}, {2, 0}, {3, 1}}));
  EXPECT_FALSE(poolRates({{1, 1}, {2, -1}, {3, 1}}));
  EXPECT_FALSE(poolRates({{nan, 1}, {2, 1}, {3, 1}}));
  EXPECT_FALSE(poolRates({{1, nan}, {2, 1}, {3, 1}}));
  EXPECT_FALSE(poolRates({{1, 1e-300}, {2, 1}, {3, 1}}));
  EXPECT_FALSE(poolScatter({{1, 1}, {2, 1}, {3, 0}}));
  EXPECT_FALSE(poolScatter({{0, 1}, {0, 1}, {0, 1}}));
  EXPECT_FALSE(poolScatter({{nan, 1}, {1, 1}, {1, 1}}));
  EXPECT_FALSE(poolScatter({{-1, 1}, {1, 1}, {1, 1}}));
}

}  // namespace
}  // namespace spanwright
