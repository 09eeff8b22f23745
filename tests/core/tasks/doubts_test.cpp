// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/doubts.h"

#include "tests/core/tasks/record_fixture.h"

namespace spanwright::test {
namespace {

class Doubts : public RecordTest {
 protected:
  VisitSheet sheetOf(const std::string& channel, const std::string& when = "2026-02-20T09:30") {
    auto opened = openSheet(store().site(), channel, Subject::channel, moment(when));
    return std::get<VisitSheet>(opened);
  }
  /// Kind of doubt about what is typed at the point of this place on TT-110's sheet (0, 75, 150 degC).
  std::optional<Doubt> asked(std::size_t place, const char* reading) {
    const VisitSheet sheet = sheetOf("TT-110");
    const auto judged = judge(sheet, sheet.points.at(place), {"", reading, ""}, {});
    return doubtAbout(sheet, usualErrors(store(), sheet), std::get<Reading>(judged));
  }
};

TEST_F(Doubts, HoldWhatWasTypedAgainstTheSheet) {
  EXPECT_FALSE(asked(1, "75.1"));
  const auto swapped = asked(1, "57.1");
  ASSERT_TRUE(swapped);
  EXPECT_EQ(swapped->kind, DoubtKind::swappedDigits);
  EXPECT_EQ(swapped->meantText, "75.1");
  // Units are understood: 167.2 degF is 75.1 degC, and 176.2 degF is 80.1.
  const auto inOtherUnit = asked(1, "176.2 degF");
  ASSERT_TRUE(inOtherUnit);
  EXPECT_EQ(inOtherUnit->meantText, "167.2 degF");
  EXPECT_NEAR(inOtherUnit->meant, 75.1, 0.02);
  const auto place = asked(1, "150.1");
  ASSERT_TRUE(place);
  EXPECT_EQ(place->kind, DoubtKind::otherPoint);
  EXPECT_EQ(place->sequence, 3);
  const auto unit = asked(1, "7.51");
  ASSERT_TRUE(unit);
  EXPECT_EQ(unit->kind, DoubtKind::otherUnit);
}

TEST_F(Doubts, KnowWhatWasUsualUnderThisSetup) {
  for (const char* when : {"2024-02-15T08:00", "2024-09-02T08:00", "2025-02-25T08:00"}) {
    add(visitTo("TT-110", when, {"0.0", "75.0", "150.0"}, {}, {"LC-2201"}));
  }
  const auto usual = usualErrors(store(), sheetOf("TT-110"));
  ASSERT_TRUE(usual.contains("50"));
  EXPECT_EQ(usual.at("50").visits, 3U);
  EXPECT_NEAR(usual.at("50").size, 0.0, 1e-9);
  EXPECT_EQ(usualErrors(store(), sheetOf("TT-110", "2024-12-01T08:00")).at("50").visits, 2U)
      << "later visits are not history";
  EXPECT_TRUE(usualErrors(store(), sheetOf("TT-109")).empty());
}

// One step of the reading is 0.1 degC: an error of 1.2 is beyond ten of them, and beyond ten times the usual.
TEST_F(Doubts, AreFarOffByHistoryWhereItIsQuiet) {
  for (const char* when : {"2024-02-15T08:00", "2024-09-02T08:00", "2025-02-25T08:00"}) {
    EXPECT_FALSE(asked(1, "76.2")) << "before there is a history";
    add(visitTo("TT-110", when, {"0.0", "75.0", "150.0"}, {}, {"LC-2201"}));
  }
  const auto far = asked(1, "76.2");
  ASSERT_TRUE(far);
  EXPECT_EQ(far->kind, DoubtKind::farOff);
  EXPECT_TRUE(far->byHistory);
  EXPECT_FALSE(asked(1, "75.9"));
}

TEST_F(Doubts, ASkippedPointGivesNone) {
  const VisitSheet sheet = sheetOf("TT-110");
  const auto judged = judge(sheet, sheet.points.at(1), {"", "", "no access"}, {});
  EXPECT_FALSE(doubtAbout(sheet, {}, std::get<Reading>(judged)));
}

TEST_F(Doubts, StandInAStoredCalibrationToo) {
  const CalibrationId id = add(visitTo("TT-110", "2026-02-01T08:00", {"0.0", "57.0", "150.0"}));
  const CalibrationId fine = add(visitTo("TT-110", "2026-02-02T08:00", {"0.0", "75.0", "150.0"}));
  const auto doubts = doubtsAbout(store(), *store().calibration(id));
  ASSERT_EQ(doubts.size(), 1U);
  EXPECT_EQ(doubts.front().phase, Phase::asFound);
  EXPECT_EQ(doubts.front().reading.indicatedText, "57.0");
  EXPECT_EQ(doubts.front().doubt.meantText, "75.0");
  EXPECT_TRUE(doubtsAbout(store(), *store().calibration(fine)).empty());
  const CalibrationId placed = add(visitTo("TT-110", "2026-02-03T08:00", {"0.0", "150.0", "150.0"}));
  const auto place = doubtsAbout(store(), *store().calibration(placed));
  ASSERT_EQ(place.size(), 1U);
  EXPECT_EQ(place.front().other.sequence, 3);
}

}  // namespace
}  // namespace spanwright::test
