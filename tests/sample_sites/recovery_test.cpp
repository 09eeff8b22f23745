// SPDX-License-Identifier: GPL-3.0-or-later
//
// The drift that was put into the histories is found again by reading them in and fitting them. The generator
// shares no code with the program, so this goes through importing, judging, storing, cutting and fitting at
// once.
#include <gtest/gtest.h>

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>

#include "core/drift/fit.h"
#include "core/tasks/status.h"
#include "tests/sample_sites/sample.h"

namespace spanwright::test {
namespace {

constexpr double kSecondApart = 1.0 / (365.25 * 86400.0);  // years

const std::vector<DriftItem>& drift() {
  static const std::vector<DriftItem> items =
      driftReport(sampleRecord("larkmead").store, "", sampleNow().date(), Pooling::none);
  return items;
}

std::string name(const DriftItem& item) {
  return item.channel + " " + std::string(text(item.subject)) + " " + item.point;
}

/// The item's segments under each setup and sensor it had, oldest first.
std::vector<std::vector<Segment>> eras(const DriftItem& item) {
  std::vector<std::vector<Segment>> all;
  for (const Segment& segment : item.segments) {
    if (all.empty() || segment.cause == BreakCause::newSetup || segment.cause == BreakCause::otherSensor) {
      all.emplace_back();
    }
    all.back().push_back(segment);
  }
  return all;
}

/// The truth about the item, one row for each of its eras.
std::vector<CsvRow> truthAbout(const DriftItem& item) {
  static const std::vector<CsvRow> all = truth("larkmead", "rates");
  std::vector<CsvRow> rows;
  for (const CsvRow& row : all) {
    if (row.at("channel") == item.channel && subjectOf(row) == item.subject &&
        row.at("point") == item.point && numberIn(row, "visits") > 0) {
      rows.push_back(row);
    }
  }
  return rows;
}

struct Compared {
  std::string name;
  DriftFit fit;
  double trueRate = 0.0;
  double variance = 0.0;  ///< that one reading of the fit ought to have
};

/// Every seeded rate that can be told from its readings, with what the program makes of them.
std::vector<Compared> comparedRates() {
  std::vector<Compared> all;
  for (const DriftItem& item : drift()) {
    const auto parts = eras(item);
    const auto rows = truthAbout(item);
    EXPECT_EQ(parts.size(), rows.size()) << name(item);
    for (std::size_t i = 0; i < std::min(parts.size(), rows.size()); ++i) {
      const auto fit = fitDrift(parts[i]);
      if (!rows[i].at("not_recoverable").empty() || !fit || fit->degreesOfFreedom < 1) {
        continue;
      }
      // Points with hysteresis are taken in both directions, and the fit sees their mean.
      const double each =
          std::pow(numberIn(rows[i], "noise_sd"), 2) + std::pow(numberIn(rows[i], "resolution"), 2) / 12.0;
      const double taken = numberIn(rows[i], "hysteresis") > 0.0 ? 2.0 : 1.0;
      all.push_back({name(item), *fit, numberIn(rows[i], "rate_per_year"), each / taken});
    }
  }
  return all;
}

TEST(Recovery, EverySeededRateIsFollowed) {
  // All rows of the truth but those of points never read are there to be compared.
  std::size_t seeded = 0;
  for (const CsvRow& row : truth("larkmead", "rates")) {
    seeded += numberIn(row, "visits") > 0 ? 1 : 0;
  }
  std::size_t followed = 0;
  for (const DriftItem& item : drift()) {
    followed += eras(item).size();
  }
  EXPECT_EQ(followed, seeded);
  EXPECT_GT(comparedRates().size(), 250U);
}

TEST(Recovery, TrueRatesLieInsideTheFits) {
  for (const Compared& one : comparedRates()) {
    const auto limits = rateLimits(one.fit, 0.9999);
    ASSERT_TRUE(limits) << one.name;
    EXPECT_TRUE(limits->low <= one.trueRate && one.trueRate <= limits->high)
        << one.name << ": true " << one.trueRate << " outside " << limits->low << " .. " << limits->high;
  }
}

TEST(Recovery, NinetyFivePercentLimitsHoldNinetyFivePercentOfTheTruth) {
  const auto all = comparedRates();
  int inside = 0;
  for (const Compared& one : all) {
    const auto limits = rateLimits(one.fit, 0.95);
    ASSERT_TRUE(limits) << one.name;
    inside += limits->low <= one.trueRate && one.trueRate <= limits->high ? 1 : 0;
  }
  // Each point has noise of its own, so the count is binomial; one program in a thousand would fall outside.
  const boost::math::binomial count(static_cast<double>(all.size()), 0.95);
  EXPECT_GE(inside, boost::math::quantile(count, 0.0005)) << "of " << all.size();
  EXPECT_LE(inside, boost::math::quantile(count, 0.9995)) << "of " << all.size();
}

TEST(Recovery, ResidualScatterIsTheSeededNoise) {
  double sum = 0.0;
  int degrees = 0;
  for (const Compared& one : comparedRates()) {
    sum += one.fit.degreesOfFreedom * std::pow(*one.fit.residualSd, 2) / one.variance;
    degrees += one.fit.degreesOfFreedom;
  }
  const boost::math::chi_squared scatter(degrees);
  EXPECT_GE(sum, boost::math::quantile(scatter, 0.0005)) << degrees << " degrees of freedom";
  EXPECT_LE(sum, boost::math::quantile(scatter, 0.9995)) << degrees << " degrees of freedom";
}

/// Years since the item's origin of the breaks the truth names for it.
std::vector<double> breaksOf(const DriftItem& item) {
  static const std::vector<CsvRow> all = truth("larkmead", "breaks");
  std::vector<double> times;
  for (const CsvRow& row : all) {
    if (row.at("channel") == item.channel && subjectOf(row) == item.subject &&
        (row.at("point").empty() || row.at("point") == item.point)) {
      times.push_back(yearsBetween(item.origin, *parseMoment(row.at("at"))));
    }
  }
  return times;
}

TEST(Recovery, NoSegmentCrossesABreak) {
  int breaks = 0;
  for (const DriftItem& item : drift()) {
    for (const double at : breaksOf(item)) {
      ++breaks;
      for (const Segment& segment : item.segments) {
        bool before = false;
        bool after = false;
        for (const DriftReading& reading : segment.readings) {
          // At the very moment of an adjustment the as-found lies before it, the as-left after.
          const bool same = std::abs(reading.time - at) < kSecondApart;
          before = before || (same ? !reading.asLeft : reading.time < at);
          after = after || (same ? reading.asLeft : reading.time > at);
        }
        EXPECT_FALSE(before && after) << name(item) << " at " << at << " years";
      }
    }
  }
  EXPECT_GT(breaks, 200);
}

TEST(Recovery, EverySegmentOpensAtABreak) {
  for (const DriftItem& item : drift()) {
    const auto breaks = breaksOf(item);
    for (std::size_t i = 1; i < item.segments.size(); ++i) {
      const double last = item.segments[i - 1].readings.back().time;
      const double first = item.segments[i].readings.front().time;
      EXPECT_TRUE(
          std::any_of(breaks.begin(), breaks.end(),
                      [&](double at) { return last - kSecondApart <= at && at <= first + kSecondApart; }))
          << name(item) << " segment " << i;
    }
  }
}

}  // namespace
}  // namespace spanwright::test
