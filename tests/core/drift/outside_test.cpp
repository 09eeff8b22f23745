// SPDX-License-Identifier: GPL-3.0-or-later
//
// Fits, significance, influence and steps against R's lm; growing scatter against full matrices
// (tests/reference/statistics/make_drift_lm.R, make_growth_reference.py).
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "core/drift/growth.h"
#include "core/drift/influence.h"
#include "core/drift/like_subjects.h"
#include "core/drift/step.h"
#include "tests/core/drift/histories.h"

namespace spanwright {
namespace {

using reference::number;
using reference::table;
using reference::withinRelative;

using Told = std::map<std::string, double>;

std::map<int, std::vector<Segment>> histories() {
  std::map<int, std::vector<Segment>> out;
  for (const auto& row : table("drift_fits_readings.csv")) {
    auto& segments = out[static_cast<int>(number(row.at("case")))];
    const auto at = static_cast<std::size_t>(number(row.at("segment")));
    if (segments.size() <= at)
      segments.resize(at + 1);
    segments[at].readings.push_back({number(row.at("time")), number(row.at("error")), false});
  }
  return out;
}

std::map<int, Told> toldBy(const std::string& file) {
  std::map<int, Told> out;
  for (const auto& row : table(file))
    out[static_cast<int>(number(row.at("case")))][row.at("quantity")] = number(row.at("value"));
  return out;
}

/// The place of a reading in the file's order.
std::size_t placeOf(const std::vector<Segment>& segments, const PointInfluence& point) {
  std::size_t place = point.reading;
  for (std::size_t s = 0; s < point.segment; ++s)
    place += segments[s].readings.size();
  return place;
}

TEST(Outside, FitSignificanceAndInfluenceAreThoseOfRsLm) {
  const auto all = histories();
  int compared = 0;
  for (const auto& [which, want] : toldBy("drift_lm.csv")) {
    const auto& segments = all.at(which);
    const auto fit = fitDrift(segments);
    ASSERT_TRUE(fit && fit->rateStandardError);
    const auto test = rateTest(*fit);
    ASSERT_TRUE(test);
    Told got{{"rate", fit->rate},
             {"rate_standard_error", *fit->rateStandardError},
             {"t", test->t},
             {"p_value", test->pValue},
             {"residual_sd", *fit->residualSd}};
    for (const PointInfluence& point : influences(segments, *fit)) {
      const std::string place = std::to_string(placeOf(segments, point));
      got["rate_without_" + place] = point.rateWithout;
      got["cook_distance_" + place] = point.cookDistance;
    }
    for (const auto& [quantity, value] : want) {
      if (quantity.starts_with("step"))
        continue;
      ASSERT_TRUE(got.contains(quantity)) << which << " " << quantity;
      // Distances are squares of cancelled residuals over those of 1 - h; a tail of 1e-50 loses digits to its
      // t.
      const bool cancelled = quantity.starts_with("cook") || quantity == "p_value";
      EXPECT_NEAR(got.at(quantity), value,
                  (cancelled ? 1e-8 * std::max(0.1, std::abs(value)) : 1e-9 * std::abs(value)))
          << "case " << which << ", " << quantity;
      ++compared;
    }
  }
  EXPECT_GT(compared, 1500);
}

TEST(Outside, TheLikeliestStepIsTheOneRsLmFinds) {
  const auto all = histories();
  int compared = 0;
  for (const auto& [which, want] : toldBy("drift_lm.csv")) {
    if (!want.contains("step_t"))
      continue;
    const auto& segments = all.at(which);
    const auto step = likeliestStep(segments);
    ASSERT_TRUE(step) << which;
    std::vector<double> times;
    for (const Segment& segment : segments)
      for (const DriftReading& reading : segment.readings)
        times.push_back(reading.time);
    EXPECT_EQ(step->after, times[static_cast<std::size_t>(want.at("step_after"))]) << which;
    EXPECT_TRUE(withinRelative(step->amount, want.at("step_amount"), 1e-8)) << which;
    EXPECT_TRUE(withinRelative(step->amount / step->standardError, want.at("step_t"), 1e-8)) << which;
    ++compared;
  }
  EXPECT_GT(compared, 30);
}

TEST(Outside, GrowingScatterIsThatOfTheFullLikelihood) {
  const auto all = histories();
  int ratios = 0;
  int tails = 0;
  for (const auto& [which, want] : toldBy("drift_growth.csv")) {
    const auto growth = scatterGrowth(all.at(which));
    ASSERT_TRUE(growth) << which;
    if (want.contains("ratio")) {
      EXPECT_NEAR(growth->ratio, want.at("ratio"), 1e-4 * want.at("ratio") + 1e-5) << which;
      ++ratios;
    }
    // Simulated: five standard deviations of a share among 200 000.
    const double share = want.at("p_value");
    EXPECT_NEAR(growth->pValue, share, 5.0 * std::sqrt(std::max(share * (1.0 - share), 1e-5) / 200'000.0))
        << which;
    ++tails;
  }
  EXPECT_GE(ratios, 15);
  EXPECT_GE(tails, 20);
}

TEST(Outside, TheBasisWithoutGrowthIsTheFit) {
  for (const auto& [which, segments] : histories()) {
    const auto fit = fitDrift(segments);
    const auto basis = driftBasis(segments);
    ASSERT_TRUE(fit && basis);
    EXPECT_NEAR(basis->rate, fit->rate, 1e-11 * (1.0 + std::abs(fit->rate)));
    const auto own = ownBand(*basis);
    ASSERT_EQ(own.has_value(), fit->residualSd.has_value());
    if (own) {
      const double at = segments.back().readings.back().time + 0.7;
      EXPECT_NEAR(*predictAt(*own, at).high, *predict(*fit, at).high, 1e-10) << which;
    }
  }
}

}  // namespace
}  // namespace spanwright
