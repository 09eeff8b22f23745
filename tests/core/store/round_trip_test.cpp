// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <limits>

#include "core/store/sqlite_connection.h"
#include "samples.h"

namespace spanwright {
namespace {

using test::at;
using test::everything;

TEST(RoundTrip, RegisterComesBackWhole) {
  const test::Folder folder;
  const Register site = test::sampleRegister();
  const Store made = Store::create(folder / "a.record", site);
  EXPECT_EQ(everything(made.site()), everything(site));
  const Store opened = Store::open(folder / "a.record");
  EXPECT_EQ(everything(opened.site()), everything(site));
  ASSERT_NE(opened.site().channel("TT-101"), nullptr);  // look-ups are built
  EXPECT_EQ(opened.site().channel("TT-101")->setups.size(), 7U);
}

TEST(RoundTrip, DecisionRulesComeBackWholeAndReadable) {
  struct Case {
    DecisionRule rule;
    const char* stored;
  };
  const Case cases[] = {{{}, "simple"},
                        {{.basis = GuardBasis::factor, .factor = 1.0 / 3.0},
                         R"({"rule":"guard-band","factor":0.3333333333333333})"},
                        {{.basis = GuardBasis::specificRisk, .falseAcceptLimit = 0.1},
                         R"({"rule":"false-accept","limit":0.1,"any_spread":false})"},
                        {{.basis = GuardBasis::anyPopulation, .falseAcceptLimit = 0.02},
                         R"({"rule":"false-accept","limit":0.02,"any_spread":true})"}};
  for (const auto& [rule, stored] : cases) {
    const test::Folder folder;
    Register site = test::sampleRegister();
    site.plans[1].decisionRule = rule;
    Store::create(folder / "a.record", site);
    EXPECT_EQ(everything(Store::open(folder / "a.record").site()), everything(site));
    Connection raw(folder / "a.record", Connection::Access::readOnly);
    EXPECT_EQ(raw.text("SELECT decision_rule FROM plan WHERE code = 'AO'"), stored);
  }
}

TEST(RoundTrip, WhatAPlanStatesOfJunctionAndLeadsComesBack) {
  const test::Folder folder;
  Register site = test::sampleRegister();
  ASSERT_EQ(site.plans.size(), 2U);
  site.plans[0].junctionUncertainty = 0.4;
  site.plans[1].leadHalfWidth = 0.05;
  Store::create(folder / "a.record", site);
  const Store opened = Store::open(folder / "a.record");
  EXPECT_EQ(opened.site().plans[0].junctionUncertainty, 0.4);
  EXPECT_EQ(opened.site().plans[0].leadHalfWidth, std::nullopt);
  EXPECT_EQ(opened.site().plans[1].junctionUncertainty, std::nullopt);
  EXPECT_EQ(opened.site().plans[1].leadHalfWidth, 0.05);
  EXPECT_EQ(everything(opened.site()), everything(site));
}

TEST(RoundTrip, ADecisionRuleNobodyWritesIsDamage) {
  for (const char* text : {"", "guarded", R"({"rule":"guarded"})", R"({"rule":"guard-band"})",
                           R"({"rule":"guard-band","factor":-1})",
                           R"({"rule":"false-accept","limit":0.7,"any_spread":true})", "[1]", "7"}) {
    const test::Folder folder;
    Store::create(folder / "a.record", test::sampleRegister());
    {
      Connection raw(folder / "a.record", Connection::Access::readWrite);
      raw.query("UPDATE plan SET decision_rule = $1 WHERE code = 'AO'").run(std::string(text));
    }
    EXPECT_THROW(Store::open(folder / "a.record"), StorageError) << text;
  }
}

TEST(RoundTrip, RandomCalibrationsComeBackWhole) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937_64 random(seed);
  const test::Folder folder;
  const test::FixedClock clock("2026-11-20T10:00:00", "2026-11-20T09:00:00");
  Store store = Store::create(folder / "a.record", test::sampleRegister(), clock);
  std::vector<Calibration> written;
  for (int i = 0; i < 200; ++i) {
    Calibration c = test::randomCalibration(random);
    c.id = store.add(c);
    c.recordedUtc = clock.utc;
    written.push_back(c);
  }
  const Store again = Store::open(folder / "a.record", Store::Mode::readOnly);
  std::int64_t readings = 0;
  for (const Calibration& c : written) {
    const auto read = again.calibration(c.id);
    ASSERT_TRUE(read.has_value());
    ASSERT_EQ(everything(*read), everything(c));
    readings += std::ssize(c.asFound) + std::ssize(c.asLeft);
  }
  EXPECT_EQ(again.calibrationCount(), 200);
  EXPECT_EQ(again.readingCount(), readings);
  EXPECT_EQ(again.calibration(201), std::nullopt);
}

TEST(RoundTrip, OpenLimitsAndMissingExpectationAreNullToOtherTools) {
  Calibration c = test::plainCalibration("AI-001", "2026-01-01T08:00:00", 2);
  constexpr double kOpen = std::numeric_limits<double>::infinity();
  c.asFound[0].limits = {-kOpen, kOpen};
  c.asFound[1].skipReason = "not reachable";
  const test::Folder folder;
  Store store = Store::create(folder / "a.record", test::sampleRegister());
  const auto read = store.calibration(store.add(c));
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(read->asFound[0].limits.low, -kOpen);
  EXPECT_EQ(read->asFound[0].limits.high, kOpen);
  EXPECT_TRUE(read->asFound[1].skipped());
  EXPECT_EQ(read->asFound[1].indicated, 0.0);
}

TEST(RoundTrip, MomentsAreKeptToTheWholeSecondAndFoundByIt) {
  const test::Folder folder;
  Store store = Store::create(folder / "a.record", test::sampleRegister());
  Calibration c = test::plainCalibration("AI-001", "2026-01-01T08:00:00");
  c.performed += boost::posix_time::milliseconds(700);
  const CalibrationId id = store.add(c);
  EXPECT_EQ(store.calibration(id)->performed, at("2026-01-01T08:00:00"));
  EXPECT_EQ(store.findCalibration("AI-001", Subject::channel, c.performed), id);
}

TEST(Lookups, FindBySubjectAndMoment) {
  const test::Folder folder;
  Store store = Store::create(folder / "a.record", test::sampleRegister());
  const auto id = store.add(test::plainCalibration("AI-001", "2026-01-01T08:00:00"));
  EXPECT_EQ(store.findCalibration("AI-001", Subject::channel, at("2026-01-01T08:00:00")), id);
  EXPECT_EQ(store.findCalibration("AI-001", Subject::loop, at("2026-01-01T08:00:00")), std::nullopt);
  EXPECT_EQ(store.findCalibration("AI-001", Subject::channel, at("2026-01-01T08:00:01")), std::nullopt);
  EXPECT_EQ(store.findCalibration("TT-101", Subject::channel, at("2026-01-01T08:00:00")), std::nullopt);
  EXPECT_EQ(store.findCalibration("no such", Subject::channel, at("2026-01-01T08:00:00")), std::nullopt);
}

TEST(Lookups, HistoriesAreOldestFirstWhateverTheOrderOfEntry) {
  const test::Folder folder;
  Store store = Store::create(folder / "a.record", test::sampleRegister());
  store.add(test::plainCalibration("AI-001", "2025-01-01T08:00:00"));
  store.add(test::plainCalibration("TT-101", "2026-01-01T08:00:00"));
  store.add(test::plainCalibration("AI-001", "2023-01-01T08:00:00"));
  store.add(test::plainCalibration("AI-001", "2024-01-01T08:00:00"));
  std::vector<CalibrationId> ids;
  for (const Calibration& c : store.history("AI-001")) {
    EXPECT_EQ(c.asFound.size(), 5U);
    ids.push_back(c.id);
  }
  EXPECT_EQ(ids, (std::vector<CalibrationId>{3, 4, 1}));
  ids.clear();
  for (const CalibrationSummary& s : store.calibrations("AI-001")) {
    ids.push_back(s.id);
  }
  EXPECT_EQ(ids, (std::vector<CalibrationId>{3, 4, 1}));
  EXPECT_TRUE(store.history("no such").empty());
  EXPECT_TRUE(store.calibrations("AI-000").empty());

  ids.clear();
  store.forEachCalibration([&](const Calibration& c) {
    ids.push_back(c.id);
    EXPECT_EQ(store.calibration(c.id)->asFound.size(), 5U);  // asking in between disturbs nothing
    return true;
  });
  EXPECT_EQ(ids, (std::vector<CalibrationId>{2, 3, 4, 1}));
  ids.clear();
  store.forEachCalibration([&](const Calibration& c) {
    ids.push_back(c.id);
    return ids.size() < 2;
  });
  EXPECT_EQ(ids, (std::vector<CalibrationId>{2, 3}));
}

TEST(Lookups, SummariesSayWhatTheCalibrationSays) {
  std::mt19937_64 random(7);
  const test::Folder folder;
  Store store = Store::create(folder / "a.record", test::sampleRegister());
  for (int i = 0; i < 20; ++i) {
    store.add(test::randomCalibration(random));
  }
  int seen = 0;
  for (const char* const channel : {"TT-101", "AI-001"}) {
    const auto full = store.history(channel);
    const auto summaries = store.calibrations(channel);
    ASSERT_EQ(full.size(), summaries.size());
    for (std::size_t i = 0; i < full.size(); ++i, ++seen) {
      const Calibration& c = full[i];
      const CalibrationSummary expected{c.id,
                                        c.channel,
                                        c.subject,
                                        c.setupVersion,
                                        c.sensor,
                                        c.performed,
                                        c.person,
                                        c.adjustment.adjusted,
                                        c.adjustment.repaired,
                                        c.foundVerdict,
                                        c.leftVerdict,
                                        LifeState::recorded,
                                        c.recordedUtc};
      EXPECT_EQ(everything(summaries[i]), everything(expected));
    }
  }
  EXPECT_EQ(seen, 20);
}

TEST(Lookups, LatestPassingPerSubjectSetupAndSensor) {
  const test::Folder folder;
  Store store = Store::create(folder / "a.record", test::sampleRegister());
  const auto add = [&store](const char* performed, int version, Subject subject, const char* sensor,
                            Verdict left) {
    Calibration c = test::plainCalibration("TT-101", performed);
    c.setupVersion = version;
    c.subject = subject;
    c.sensor = sensor;
    c.leftVerdict = left;
    return store.add(c);
  };
  add("2021-01-01", 1, Subject::channel, "", Verdict::pass);
  const auto latest = add("2023-01-01", 1, Subject::channel, "", Verdict::pass);
  add("2022-01-01", 1, Subject::channel, "", Verdict::pass);
  add("2024-01-01", 1, Subject::channel, "", Verdict::fail);
  add("2025-01-01", 1, Subject::channel, "", Verdict::notJudged);
  const auto other = add("2021-06-01", 2, Subject::channel, "", Verdict::pass);
  const auto loop = add("2021-02-01", 1, Subject::loop, "TX-5510", Verdict::pass);
  const auto swapped = add("2021-03-01", 1, Subject::loop, "TC-0002", Verdict::pass);
  std::vector<CalibrationId> ids;
  for (const CalibrationSummary& s : store.latestPassing()) {
    ids.push_back(s.id);
  }
  EXPECT_EQ(ids, (std::vector<CalibrationId>{loop, swapped, other, latest}));  // by channel, oldest first
}

TEST(Lookups, CalibrationsUsingAStandard) {
  const test::Folder folder;
  Store store = Store::create(folder / "a.record", test::sampleRegister());
  Calibration c = test::plainCalibration("AI-001", "2026-01-01");
  c.standards = {{"AA-0001", ""}, {"LC-2201", "C-11873"}, {"LC-2201", "C-12999"}};
  const auto both = store.add(c);
  const auto one = store.add(test::plainCalibration("AI-001", "2025-01-01"));
  EXPECT_EQ(store.calibrationsUsing("LC-2201"), (std::vector<CalibrationId>{both, one}));
  EXPECT_EQ(store.calibrationsUsing("AA-0001"), (std::vector<CalibrationId>{both}));
  EXPECT_TRUE(store.calibrationsUsing("no such").empty());
}

TEST(Add, RefusesWhatTheRegisterHasNotAndLeavesNothing) {
  const test::Folder folder;
  Store store = Store::create(folder / "a.record", test::sampleRegister());
  const Calibration good = test::plainCalibration("AI-001", "2026-01-01");
  const auto refused = [&](auto change) {
    Calibration bad = good;
    change(bad);
    return test::inputRefusal([&] { store.add(bad); });
  };
  EXPECT_NE(refused([](Calibration& c) { c.channel = "XX-9"; }).find("channel \"XX-9\""), std::string::npos);
  EXPECT_NE(refused([](Calibration& c) { c.person = "nobody"; }).find("person \"nobody\""),
            std::string::npos);
  EXPECT_NE(refused([](Calibration& c) { c.sensor = "S"; }).find("sensor \"S\""), std::string::npos);
  EXPECT_NE(refused([](Calibration& c) {
              c.standards = {{"S", ""}};
            }).find("standard \"S\""),
            std::string::npos);
  EXPECT_NE(refused([](Calibration& c) { c.setupVersion = 2; }).find("no setup of version 2"),
            std::string::npos);
  EXPECT_NE(refused([](Calibration& c) { c.performed = {}; }).find("no moment"), std::string::npos);
  EXPECT_NE(refused([](Calibration& c) { c.asFound[1].point.sequence = 1; }).find("point 1 has two as found"),
            std::string::npos);
  EXPECT_NE(refused([](Calibration& c) { c.asFound[1].indicated = std::nan(""); }).find("not a number"),
            std::string::npos);
  EXPECT_EQ(store.calibrationCount(), 0);
  EXPECT_EQ(store.add(good), 1);
}

}  // namespace
}  // namespace spanwright
