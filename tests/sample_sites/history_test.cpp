// SPDX-License-Identifier: GPL-3.0-or-later
//
// The histories are taken in whole, through their mappings, as the truth beside them says.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "core/tasks/status.h"
#include "tests/sample_sites/sample.h"

namespace spanwright::test {
namespace {

std::int64_t done(const std::vector<Reading>& readings) {
  return std::count_if(readings.begin(), readings.end(), [](const Reading& each) { return !each.skipped(); });
}

class Histories : public testing::TestWithParam<const char*> {};

TEST_P(Histories, AreTakenInWhole) {
  const SampleRecord& record = sampleRecord(GetParam());
  std::int64_t calibrations = 0;
  for (std::size_t i = 0; i < record.sources.size(); ++i) {
    const CsvRow& source = record.sources[i];
    const ImportOutcome& outcome = record.outcomes[i];
    ASSERT_TRUE(outcome.rejected.empty()) << source.at("file") << ":" << outcome.rejected.front().where.line
                                          << ": " << outcome.rejected.front().reason;
    EXPECT_EQ(outcome.calibrations, numberIn(source, "calibrations")) << source.at("file");
    EXPECT_EQ(outcome.readings, numberIn(source, "readings") + numberIn(source, "skipped"))
        << source.at("file");
    EXPECT_EQ(outcome.alreadyKnown, 0) << source.at("file");
    calibrations += outcome.calibrations;
  }
  EXPECT_EQ(record.store.calibrationCount(), calibrations);
}

TEST_P(Histories, AddNothingTheSecondTime) {
  SampleRecord& record = sampleRecord(GetParam());
  const auto before = record.store.readingCount();
  for (const CsvRow& source : record.sources) {
    const auto folder = sampleFolder(GetParam());
    const ImportOutcome again =
        importInto(record.store, folder / source.at("file"), folder / source.at("mapping"));
    EXPECT_EQ(again.calibrations, 0);
    EXPECT_EQ(again.alreadyKnown, numberIn(source, "calibrations")) << source.at("file");
    EXPECT_TRUE(again.rejected.empty());
  }
  EXPECT_EQ(record.store.readingCount(), before);
}

TEST_P(Histories, EveryVisitIsThereAsItWas) {
  const SampleRecord& record = sampleRecord(GetParam());
  const auto visits = truth(GetParam(), "visits");
  EXPECT_EQ(static_cast<std::int64_t>(visits.size()), record.store.calibrationCount());
  for (const CsvRow& visit : visits) {
    const std::string name = visit.at("channel") + " " + visit.at("performed");
    const auto id = record.store.findCalibration(visit.at("channel"), subjectOf(visit),
                                                 *parseMoment(visit.at("performed")));
    ASSERT_TRUE(id) << name;
    const auto stored = record.store.calibration(*id);
    ASSERT_TRUE(stored) << name;
    EXPECT_EQ(stored->setupVersion, numberIn(visit, "setup")) << name;
    EXPECT_EQ(stored->sensor, visit.at("sensor")) << name;
    EXPECT_EQ(stored->person, visit.at("person")) << name;
    ASSERT_EQ(stored->standards.size(), 1U) << name;
    EXPECT_EQ(stored->standards.front().serial, visit.at("standards")) << name;
    EXPECT_FALSE(stored->standards.front().certificate.empty()) << name;
    EXPECT_EQ(done(stored->asFound), numberIn(visit, "readings_found")) << name;
    EXPECT_EQ(done(stored->asLeft), numberIn(visit, "readings_left")) << name;
    EXPECT_EQ(stored->adjustment.adjusted, visit.at("adjusted") == "yes") << name;
    for (const Reading& reading : stored->asFound) {
      // Every reading traces to a valid standard, so every one has an uncertainty well inside its tolerance.
      ASSERT_TRUE(reading.skipped() || reading.expandedUncertainty) << name << " " << reading.point.label;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Sites, Histories, testing::Values("larkmead", "tiny"));

TEST(LarkmeadHistory, UncertaintiesOfTheStandardsAreAQuarterOfTheToleranceOrLess) {
  const SampleRecord& record = sampleRecord("larkmead");
  int readings = 0;
  record.store.forEachCalibration([&](const Calibration& calibration) {
    const Plan* plan = record.store.site().plan(calibration.plan);
    for (const Reading& reading : calibration.asFound) {
      if (reading.skipped() || reading.point.role != PointRole::value || !plan) {
        continue;
      }
      ++readings;
      EXPECT_LE(4.0 * *reading.expandedUncertainty / reading.coverageFactor,
                std::min(reading.limits.high, -reading.limits.low))
          << calibration.channel << " " << formatMoment(calibration.performed) << " " << reading.point.label;
    }
    return true;
  });
  EXPECT_GT(readings, 2000);
}

TEST(LarkmeadHistory, SomethingIsDueInEveryStateInNovember2026) {
  const auto due = dueList(sampleRecord("larkmead").store, sampleNow().date());
  std::set<DueState> states;
  bool newSetupUnproven = false;
  for (const DueItem& item : due) {
    states.insert(item.due.state);
    newSetupUnproven = newSetupUnproven || (item.channel == "TE-410" && item.due.state == DueState::unproven);
  }
  EXPECT_EQ(states.size(), 5U);
  EXPECT_TRUE(newSetupUnproven);
}

}  // namespace
}  // namespace spanwright::test
