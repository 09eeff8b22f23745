// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/doubt.h"

#include <gmock/gmock.h>

#include <limits>

namespace spanwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

const ReadingWindow kFifty{3, 50.0, {-0.25, 0.25}};
const std::vector<ReadingWindow> kAll{
    {1, 0.0, {-0.25, 0.25}}, {2, 25.0, {-0.25, 0.25}}, kFifty, {4, 50.0, {-0.25, 0.25}}};

/// "-" when nothing is asked.
std::string kindOf(const std::optional<Doubt>& doubt) {
  if (!doubt) {
    return "-";
  }
  switch (doubt->kind) {
    case DoubtKind::swappedDigits:
      return "swapped " + doubt->meantText;
    case DoubtKind::otherPoint:
      return "point " + std::to_string(doubt->sequence);
    case DoubtKind::otherUnit:
      return "unit";
    case DoubtKind::farOff:
      return doubt->byHistory ? "far by history" : "far by tolerance";
  }
  return "?";
}

std::string asked(double reading, const UsualError& usual = {}, double step = 0.01) {
  return kindOf(doubtOf(reading, kFifty, kAll, {}, usual, step));
}

TEST(Swapping, TakesNeighbouringDigitsOnly) {
  EXPECT_THAT(swappedDigits("9.18"), ElementsAre("9.81"));
  EXPECT_THAT(swappedDigits("-123,4 mA"), ElementsAre("-213,4 mA", "-132,4 mA"));
  EXPECT_THAT(swappedDigits("5.5"), IsEmpty());
  EXPECT_THAT(swappedDigits("11"), IsEmpty()) << "the same digits swapped are the same text";
  EXPECT_THAT(swappedDigits(""), IsEmpty());
}

TEST(ADoubt, IsNoneWithinToleranceOrALittleOutside) {
  EXPECT_EQ(asked(50.25), "-");
  EXPECT_EQ(asked(49.75), "-");
  EXPECT_EQ(asked(50.31), "-") << "a plain fail is a finding, not a slip";
  EXPECT_EQ(asked(52.5), "-") << "ten times the tolerance, not beyond";
}

TEST(ADoubt, NamesTheSwappedDigits) {
  const ReadingWindow own{1, 9.81, {-0.02, 0.02}};
  const std::vector<OtherReading> swapped{{"9.81", 9.81}};
  const auto doubt = doubtOf(9.18, own, {}, swapped, {}, 0.01);
  ASSERT_EQ(kindOf(doubt), "swapped 9.81");
  EXPECT_DOUBLE_EQ(doubt->meant, 9.81);
  EXPECT_EQ(kindOf(doubtOf(9.82, own, {}, {{"9.28", 9.28}}, {}, 0.01)), "-") << "it is within tolerance";
  EXPECT_EQ(kindOf(doubtOf(9.91, own, {}, {{"9.19", 9.19}}, {}, 0.01)), "-") << "swapped it is no better";
}

TEST(ADoubt, IsNoneAboutAPlainFailThatLooksBetterSwapped) {
  EXPECT_EQ(kindOf(doubtOf(50.3, kFifty, {}, {{"50.03", 50.03}}, {}, 0.01)), "-");
  EXPECT_EQ(kindOf(doubtOf(50.75, kFifty, {}, {{"50.1", 50.1}}, {}, 0.01)), "-")
      << "three times the tolerance";
  EXPECT_EQ(kindOf(doubtOf(50.8, kFifty, {}, {{"50.08", 50.08}}, {}, 0.01)), "swapped 50.08");
}

TEST(ADoubt, NamesThePointTheReadingFits) {
  EXPECT_EQ(asked(25.1), "point 2");
  EXPECT_EQ(asked(0.0), "point 1");
  // Up and down share their reading; the other direction of the point itself is no other place.
  EXPECT_EQ(kindOf(doubtOf(50.3, kFifty, {{4, 50.2, {-0.25, 0.25}}}, {}, {}, 0.01)), "-");
}

TEST(ADoubt, NamesAFactorOfTenOrAThousand) {
  for (const double reading : {5.0, 500.0, 0.05, 50000.0}) {
    const auto doubt = doubtOf(reading, kFifty, kAll, {}, {}, 0.01);
    if (reading == 0.05) {
      EXPECT_EQ(kindOf(doubt), "point 1") << "a place comes before a unit";
      continue;
    }
    ASSERT_EQ(kindOf(doubt), "unit") << reading;
    EXPECT_NEAR(doubt->meant, 50.0, 1e-9);
  }
  // Where zero is right, a tenth of anything is nearer to it.
  EXPECT_EQ(kindOf(doubtOf(0.3, {1, 0.0, {-0.25, 0.25}}, {}, {}, {}, 0.01)), "-");
}

TEST(ADoubt, IsFarOffAgainstTheHistoryOrElseTheTolerance) {
  EXPECT_EQ(asked(52.6), "far by tolerance");
  EXPECT_EQ(asked(50.24, {2, 0.02}), "-") << "two visits are no history";
  EXPECT_EQ(asked(50.24, {3, 0.02}), "far by history");
  EXPECT_EQ(asked(50.19, {3, 0.02}), "-");
  EXPECT_EQ(asked(50.12, {3, 0.0}), "-") << "within half the tolerance nothing is asked";
  EXPECT_EQ(asked(50.13, {3, 0.0}), "far by history");
  EXPECT_EQ(asked(50.24, {3, 0.0}, 0.1), "-") << "a few steps of the reading say nothing";
  EXPECT_EQ(asked(55.0, {3, 1.0}), "-") << "a channel that scatters is not asked about each time";
}

TEST(ADoubt, IsNoneOnAnOpenSide) {
  const double open = std::numeric_limits<double>::infinity();
  EXPECT_EQ(kindOf(doubtOf(900.0, {1, 0.0, {-1.0, open}}, {}, {}, {}, 0.01)), "-");
}

}  // namespace
}  // namespace spanwright
