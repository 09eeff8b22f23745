// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/loop_bands.h"

#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::kInf;
using test::kNan;
using test::numberIn;
using test::readReferenceCsv;
using test::signalReference;

TEST(LoopBands, EndWhereTheRecommendationSays) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("current_loop_bands.csv"))) {
    const LoopBand band = kLoopBands.at(static_cast<std::size_t>(checked));
    EXPECT_EQ(text(band), row.at("band"));
    const LoopBandEnds ends = loopBandEnds(band);
    ASSERT_EQ(ends.low.has_value(), !row.at("i_min_mA").empty());
    ASSERT_EQ(ends.high.has_value(), !row.at("i_max_mA").empty());
    if (ends.low) {
      EXPECT_EQ(*ends.low, numberIn(row, "i_min_mA"));
    }
    if (ends.high) {
      EXPECT_EQ(*ends.high, numberIn(row, "i_max_mA"));
    }
    // Anywhere between its ends is this band.
    const double low = ends.low.value_or(-5.0);
    const double high = ends.high.value_or(30.0);
    for (int i = 1; i < 100; ++i)
      EXPECT_EQ(loopBand(low + (high - low) * i / 100.0), band);
    ++checked;
  }
  EXPECT_EQ(checked, 7);
}

TEST(LoopBands, GiveTheWorkedExamples) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("current_loop_band_examples.csv"))) {
    const auto band = loopBand(numberIn(row, "i_mA"));
    ASSERT_TRUE(band);
    EXPECT_EQ(text(*band), row.at("band")) << row.at("i_mA");
    ++checked;
  }
  EXPECT_EQ(checked, 15);
}

TEST(LoopBands, SettleEveryEnd) {
  EXPECT_EQ(loopBand(3.6), LoopBand::failureLow);
  EXPECT_EQ(loopBand(3.8), LoopBand::underrange);
  EXPECT_EQ(loopBand(4.0), LoopBand::normal);
  EXPECT_EQ(loopBand(20.0), LoopBand::normal);
  EXPECT_EQ(loopBand(20.5), LoopBand::overrange);
  EXPECT_EQ(loopBand(21.0), LoopBand::failureHigh);
  // Worked out from percent of span the ends carry a rounding.
  for (const double end : {3.6, 3.8, 4.0, 20.0, 20.5, 21.0}) {
    EXPECT_EQ(loopBand(end - 1e-12), loopBand(end)) << end;
    EXPECT_EQ(loopBand(end + 1e-12), loopBand(end)) << end;
  }
  EXPECT_EQ(loopBand(3.79), LoopBand::gapLow);
  EXPECT_EQ(loopBand(20.99), LoopBand::gapHigh);
}

TEST(LoopBands, SayNothingForWhatIsNoNumber) {
  for (const double bad : {kNan, kInf, -kInf})
    EXPECT_FALSE(loopBand(bad).has_value());
}

TEST(LoopBands, BelongToTheLiveZeroCurrentOnly) {
  EXPECT_TRUE(hasLoopBands({4.0, 20.0, Unit::milliampere}));
  EXPECT_TRUE(hasLoopBands({20.0, 4.0, Unit::milliampere}));
  EXPECT_TRUE(hasLoopBands({0.004, 0.020, Unit::ampere}));
  int with = 0;
  for (const auto& row : readReferenceCsv(signalReference("standard_signal_ranges.csv"))) {
    const Unit unit = parseUnit(row.at("unit")).value();
    with += hasLoopBands({numberIn(row, "low"), numberIn(row, "high"), unit}) ? 1 : 0;
  }
  EXPECT_EQ(with, 1);
  EXPECT_FALSE(hasLoopBands({4.0, 20.0, Unit::volt}));
}

}  // namespace
}  // namespace spanwright
