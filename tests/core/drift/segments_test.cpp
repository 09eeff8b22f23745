// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/segments.h"

#include <gtest/gtest.h>

#include <random>
#include <string>

#include "core/units/number.h"

namespace spanwright {
namespace {

struct Case {
  const char* name;
  std::vector<VisitAtPoint> visits;
  const char* segments;  // "cause@start: time=error ...", L after an as-left; segments joined by " | "
};

std::string drawn(const std::vector<Segment>& segments) {
  std::string out;
  for (const Segment& segment : segments) {
    out += (out.empty() ? "" : " | ") + std::string(text(segment.cause)) + "@" +
           formatShortest(segment.startTime) + ":";
    for (const DriftReading& reading : segment.readings) {
      out += " " + formatShortest(reading.time) + "=" + formatShortest(reading.error) +
             (reading.asLeft ? "L" : "");
    }
  }
  return out;
}

constexpr auto kNone = std::nullopt;

const Case kCases[] = {
    {"nothing", {}, ""},
    {"left as found", {{0, 1, 1}, {1, 2, 2}, {2, 3, 3}}, "first calibration@0: 0=1 1=2 2=3"},
    {"the as-left of an untouched visit is not counted twice",
     {{0, 1, 1.1}, {1, 2, 2.1}},
     "first calibration@0: 0=1 1=2"},
    {"adjusted: found ends one segment, left opens the next",
     {{0, 1, 1}, {1, 2, 0.1, true}, {2, 1, 1}},
     "first calibration@0: 0=1 1=2 | adjustment@1: 1=0.1L 2=1"},
    {"adjusted at the first visit",
     {{0, 5, 0, true}, {1, 1, 1}},
     "first calibration@0: 0=5 | adjustment@0: 0=0L 1=1"},
    {"repaired counts before adjusted",
     {{0, 1, 1}, {1, 9, 0, true, true}},
     "first calibration@0: 0=1 1=9 | repair@1: 1=0L"},
    {"new setup",
     {{0, 1, 1, false, false, 1}, {1, 2, 2, false, false, 2}, {2, 3, 3, false, false, 2}},
     "first calibration@0: 0=1 | new setup@1: 1=2 2=3"},
    {"another sensor",
     {{0, 1, 1, false, false, 1, "A"}, {1, 2, 2, false, false, 1, "B"}},
     "first calibration@0: 0=1 | another sensor@1: 1=2"},
    {"setup and sensor at once",
     {{0, 1, 1, false, false, 1, "A"}, {1, 2, 2, false, false, 2, "B"}},
     "first calibration@0: 0=1 | new setup@1: 1=2"},
    {"a sensor that comes back is a break twice",
     {{0, 1, 1, false, false, 1, "A"}, {1, 2, 2, false, false, 1, "B"}, {2, 1, 1, false, false, 1, "A"}},
     "first calibration@0: 0=1 | another sensor@1: 1=2 | another sensor@2: 2=1"},
    {"... also when the visit between gave nothing",
     {{0, 1, 1, false, false, 1, "A"},
      {1, kNone, kNone, false, false, 1, "B"},
      {2, 1, 1, false, false, 1, "A"}},
     "first calibration@0: 0=1 | another sensor@2: 2=1"},
    {"skipped points are passed over",
     {{0, 1, 1}, {1, kNone, kNone}, {2, 3, 3}},
     "first calibration@0: 0=1 2=3"},
    {"adjusted with the as-left skipped: the next as-found opens",
     {{0, 1, 1}, {1, 2, kNone, true}, {2, 0.5, 0.5}},
     "first calibration@0: 0=1 1=2 | adjustment@1: 2=0.5"},
    {"adjusted with the as-found skipped",
     {{0, 1, 1}, {1, kNone, 0, true}},
     "first calibration@0: 0=1 | adjustment@1: 1=0L"},
    {"adjusted with nothing read is still a break",
     {{0, 1, 1}, {1, kNone, kNone, true}, {2, 2, 2}},
     "first calibration@0: 0=1 | adjustment@1: 2=2"},
    {"only an as-left, nothing touched", {{0, kNone, 1}, {1, 2, 2}}, "first calibration@0: 0=1L 1=2"},
    {"new setup after an adjustment without as-left is told as new setup",
     {{0, 1, 1}, {1, 2, kNone, true}, {2, 3, 3, false, false, 1}},
     "first calibration@0: 0=1 1=2 | new setup@2: 2=3"},
    {"two visits at the same moment", {{1, 1, 1}, {1, 2, 2}}, "first calibration@1: 1=1 1=2"},
};

TEST(CutSegments, Table) {
  for (const Case& row : kCases) {
    EXPECT_EQ(drawn(cutSegments(row.visits)), row.segments) << row.name;
  }
}

TEST(CutSegments, SaysUnderWhichSetupAndSensorItWasRead) {
  const auto segments = cutSegments(
      {{0, 1, 1, false, false, 1, "A"}, {1, 2, 0, true, false, 2, "A"}, {2, 1, 1, false, false, 2, "B"}});
  ASSERT_EQ(segments.size(), 4u);
  EXPECT_EQ(segments[0].setup, 1);
  EXPECT_EQ(segments[1].setup, 2);
  EXPECT_EQ(segments[2].setup, 2);
  EXPECT_EQ(segments[2].sensor, "A");
  EXPECT_EQ(segments[3].sensor, "B");
}

// Whatever happened: no empty segment, every reading once and in order, nothing joined across a break.
TEST(CutSegments, RandomHistoriesLoseNothingAndJoinNothing) {
  const unsigned seed = std::random_device{}();
  RecordProperty("seed", std::to_string(seed));
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  const auto chance = [&](double p) { return std::bernoulli_distribution(p)(random); };
  for (int round = 0; round < 500; ++round) {
    std::vector<VisitAtPoint> visits;
    int setup = 1;
    std::size_t wanted = 0;
    for (int i = 0; i < 20; ++i) {
      setup += chance(0.1) ? 1 : 0;
      VisitAtPoint visit{static_cast<double>(i), kNone, kNone, chance(0.2), chance(0.05), setup,
                         chance(0.9) ? "A" : "B"};
      if (chance(0.9))
        visit.found = i;
      if (chance(0.9))
        visit.left = i + 0.5;
      const bool touched = visit.adjusted || visit.repaired;
      wanted += visit.found ? 1 : 0;
      wanted += visit.left && (touched || !visit.found) ? 1 : 0;
      visits.push_back(visit);
    }
    std::size_t got = 0;
    double last = -1.0;
    for (const Segment& segment : cutSegments(visits)) {
      ASSERT_FALSE(segment.readings.empty());
      for (std::size_t i = 0; i < segment.readings.size(); ++i) {
        const DriftReading& reading = segment.readings[i];
        const VisitAtPoint& visit = visits[static_cast<std::size_t>(reading.time)];
        ASSERT_GT(reading.error, last);  // the errors were made to rise with time, found before left
        last = reading.error;
        ASSERT_EQ(visit.setup, segment.setup);
        ASSERT_EQ(visit.sensor, segment.sensor);
        // Only the last reading of a segment may be the as-found of a touched visit.
        if (i + 1 < segment.readings.size()) {
          ASSERT_TRUE(reading.asLeft || !(visit.adjusted || visit.repaired));
        }
        ++got;
      }
    }
    ASSERT_EQ(got, wanted);
  }
}

}  // namespace
}  // namespace spanwright
