// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/reach.h"

#include <gmock/gmock.h>

#include "core/tasks/walking_order.h"
#include "tests/core/tasks/record_fixture.h"

namespace spanwright {
namespace {

using test::day;
using test::visitTo;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

// LC-2201 had C-1 from 2024-02-12 and C-2 from 2025-02-20. TT-110 is 4-20 mA to 0..150 degC, limits 0.375
// degC, so 0.06 mA too much shown is 0.06 * 150 / 16 = 0.5625 degC of error more.
FoundErrors currentHigh(double error = 0.06, double low = 4, double high = 20) {
  FoundErrors found;
  found.foundOn = day(2026, 2, 25);
  found.certificate = "C-3";
  found.ranges = {{Unit::milliampere, 0.0, {{low, error, 0}, {high, error, 0}}}};
  return found;
}

using ReachTest = test::RecordTest;

TEST_F(ReachTest, TheErrorFoundIsTakenOffWhatTheStandardApplied) {
  const CalibrationId id = add(visitTo("TT-110", "2026-01-10T09:00", {"0.1", "74.7", "150.0"}));
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  ASSERT_EQ(reach.calibrations.size(), 1U);
  const ReachedCalibration& reached = reach.calibrations[0];
  EXPECT_EQ(reached.id, id);
  EXPECT_EQ(reached.certificate, "C-2");
  ASSERT_EQ(reached.points.size(), 3U);
  const double before[] = {0.1, -0.3, 0.0};
  const Verdict verdicts[] = {Verdict::fail, Verdict::pass, Verdict::fail};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(reached.points[i].oldError, before[i], 1e-9);
    // The whole error found, not its difference from the 0.0002 to 0.0005 mA the certificate states.
    EXPECT_NEAR(reached.points[i].newError.value(), before[i] + 0.5625, 1e-9);
    EXPECT_EQ(reached.points[i].was, Verdict::pass);
    EXPECT_EQ(reached.points[i].becomes, verdicts[i]) << i;
  }
  EXPECT_NEAR(reached.points[1].certificateError.value(), 0.0003, 1e-12);
  EXPECT_NEAR(reached.points[1].foundError.value(), 0.06, 1e-12);
  EXPECT_NEAR(reached.points[1].standardValue.value(), 12.0, 1e-12);
  EXPECT_EQ(reached.worst(), &reached.points[0]);
  EXPECT_EQ(reached.asFound.was, Verdict::pass);
  EXPECT_EQ(reached.asFound.becomes, Verdict::fail);
  EXPECT_EQ(reached.asLeft.becomes, Verdict::fail);
  EXPECT_EQ(reach.flips(), 1U);
}

TEST_F(ReachTest, TheErrorFoundIsInterpolatedBetweenItsValues) {
  add(visitTo("TT-110", "2026-01-10T09:00", {"0.0", "75.0", "150.0"}));
  FoundErrors found = currentHigh();
  found.ranges[0].points = {{4, 0.0, 0}, {10, 0.03, 0}, {14, 0.01, 0}, {20, 0.1, 0}};
  const Reach reach = reachOfStandard(store(), "LC-2201", found);
  const auto& points = reach.calibrations.at(0).points;
  EXPECT_NEAR(points[0].newError.value(), 0.0, 1e-9);
  EXPECT_NEAR(points[1].newError.value(), 0.02 * 9.375, 1e-9);
  EXPECT_NEAR(points[2].newError.value(), 0.1 * 9.375, 1e-9);
}

TEST_F(ReachTest, AFailedAsFoundMayPassAndFlipsToo) {
  add(visitTo("TT-110", "2026-01-10T09:00", {"-0.6", "74.5", "149.5"}));
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  EXPECT_EQ(reach.calibrations.at(0).asFound.was, Verdict::fail);
  EXPECT_EQ(reach.calibrations.at(0).asFound.becomes, Verdict::pass);
  EXPECT_EQ(reach.flips(), 1U);
  EXPECT_THAT(reach.visits, IsEmpty());
}

TEST_F(ReachTest, BothPhasesAreRecomputedApart) {
  add(visitTo("TT-110", "2026-01-10T09:00", {"-0.6", "74.5", "149.5"}, {"0.0", "75.0", "150.0"}));
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  const ReachedCalibration& reached = reach.calibrations.at(0);
  EXPECT_TRUE(reached.leftApart);
  EXPECT_EQ(reached.points.size(), 6U);
  EXPECT_EQ(reached.asFound.was, Verdict::fail);
  EXPECT_EQ(reached.asFound.becomes, Verdict::pass);
  EXPECT_EQ(reached.asLeft.was, Verdict::pass);
  EXPECT_EQ(reached.asLeft.becomes, Verdict::fail);
  EXPECT_TRUE(reached.needsVisit);
}

TEST_F(ReachTest, AtOutputsItIsTakenOffWhatTheStandardMeasured) {
  add(visitTo("FV-201", "2026-01-10T09:00", {"4.005", "12.000", "19.990", "4.001"}));
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  const auto& points = reach.calibrations.at(0).points;
  ASSERT_EQ(points.size(), 4U);
  EXPECT_NEAR(points[1].newError.value(), -0.06, 1e-9);
  EXPECT_NEAR(points[2].newError.value(), -0.07, 1e-9);
  EXPECT_EQ(points[3].label, "loss of communication");
  EXPECT_EQ(points[1].becomes, Verdict::fail);  // 0.25 % of 16 mA is 0.04 mA
}

// Type K at 200 degC: 8.138 mV and 0.0399 mV/K (NIST ITS-90 tables), so 0.1 mV too much shown is 2.5 K.
TEST_F(ReachTest, GoesThroughTheSensorFunction) {
  add(visitTo("TE-501", "2026-01-10T09:00", {"0", "200", "400"}, {}, {"VM-7"}));
  FoundErrors found = currentHigh();
  found.ranges = {{Unit::millivolt, 0.0, {{-10, 0.1, 0}, {60, 0.1, 0}}}};
  const Reach reach = reachOfStandard(store(), "VM-7", found);
  const auto& points = reach.calibrations.at(0).points;
  EXPECT_NEAR(points[1].newError.value(), 0.1 / 0.0399, 0.02);
  EXPECT_NEAR(points[1].standardValue.value(), 8.138, 0.0006);
  EXPECT_EQ(points[1].standardUnit, Unit::millivolt);
  EXPECT_EQ(points[1].becomes, Verdict::fail);  // limits 2 K
}

TEST_F(ReachTest, OnlyWhatTheStandardVouchedForMoves) {
  ProposedVisit visit =
      visitTo("TT-101", "2026-01-10T09:00", {"4.000", "12.000", "20.000"}, {}, {"TB-3", "LC-2201"});
  visit.subject = Subject::sensor;
  add(visit);
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  const auto& points = reach.calibrations.at(0).points;
  EXPECT_NEAR(points[1].newError.value(), -0.06, 1e-9);  // measured in mA; the bath is as it was
  EXPECT_EQ(points[1].standardUnit, Unit::milliampere);
  FoundErrors bath;
  bath.foundOn = day(2026, 2, 25);
  bath.ranges = {{Unit::celsius, 0.0, {{-20, 0.75, 0}, {200, 0.75, 0}}}};
  const Reach other = reachOfStandard(store(), "TB-3", bath);
  EXPECT_NEAR(other.calibrations.at(0).points[1].newError.value(), 0.75 * 16 / 150, 1e-9);
}

TEST_F(ReachTest, AQuantityTheFindingDoesNotMentionStaysAndIsNamed) {
  site_.standards[3].certificates[0].ranges.push_back(
      {Unit::milliampere, 0.001, {{0, 0, 0.001}, {24, 0, 0.001}}});
  add(visitTo("LS-301", "2026-01-10T09:00", {"14.1", "6.1"}, {}, {"VM-7"}));
  const Reach reach = reachOfStandard(store(), "VM-7", currentHigh());
  for (const ReachedPoint& point : reach.calibrations.at(0).points) {
    EXPECT_TRUE(point.notInFinding);
    EXPECT_EQ(point.newError, point.oldError);
  }
  EXPECT_EQ(reach.flips(), 0U);
}

TEST_F(ReachTest, ValuesOutsideThoseFoundAreNotExtrapolated) {
  add(visitTo("TT-110", "2026-01-10T09:00", {"0.0", "75.0", "150.0"}));
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh(0.001, 4, 12));
  const ReachedCalibration& reached = reach.calibrations.at(0);
  EXPECT_EQ(reached.points[1].becomes, Verdict::pass);
  EXPECT_EQ(reached.points[2].becomes, Verdict::notJudged);
  EXPECT_FALSE(reached.points[2].newError.has_value());
  EXPECT_THAT(reached.points[2].reason, HasSubstr("what was found does not reach 20.0000 mA"));
  EXPECT_EQ(reached.asLeft.becomes, Verdict::notJudged);
  EXPECT_TRUE(reached.needsVisit);
  // A little beyond, the nearer end's error is used and said to be; 5 % of 15.4 mA is 0.77 mA.
  const Reach nearly = reachOfStandard(store(), "LC-2201", currentHigh(0.001, 4, 19.4));
  EXPECT_TRUE(nearly.calibrations[0].points[2].beyondFound);
  EXPECT_FALSE(nearly.calibrations[0].points[1].beyondFound);
  EXPECT_EQ(nearly.calibrations[0].points[2].becomes, Verdict::pass);
}

TEST_F(ReachTest, ReachesFromTheLastGoodCertificateUntilTheFinding) {
  add(visitTo("TT-110", "2025-02-19T09:00", {"0.0", "75.0", "150.0"}));  // still under C-1
  const auto first = add(visitTo("TT-110", "2025-02-20T09:00", {"0.0", "75.0", "150.0"}));
  const auto last = add(visitTo("TT-110", "2026-02-25T18:00", {"0.0", "75.0", "150.0"}));
  const auto after = add(visitTo("TT-110", "2026-02-26T09:00", {"0.0", "75.0", "150.0"}));
  add(visitTo("LS-301", "2025-06-01T09:00", {"14.1", "6.1"}, {}, {"VM-7"}));
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  ASSERT_TRUE(reach.lastGood.has_value());
  EXPECT_EQ(reach.lastGood->number, "C-2");
  EXPECT_EQ(reach.since, day(2025, 2, 20));
  std::vector<CalibrationId> ids;
  for (const ReachedCalibration& each : reach.calibrations) {
    ids.push_back(each.id);
  }
  EXPECT_THAT(ids, ElementsAre(first, last, after));  // the last still rests on C-2
}

TEST_F(ReachTest, ANewCertificateEndsIt) {
  site_.standards[0].certificates.push_back(test::certificate("C-3A", day(2026, 2, 26), day(2027, 2, 28),
                                                              site_.standards[0].certificates[1].ranges));
  add(visitTo("TT-110", "2026-01-10T09:00", {"0.0", "75.0", "150.0"}));
  const auto later = add(visitTo("TT-110", "2026-02-26T09:00", {"0.0", "75.0", "150.0"}));
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  ASSERT_EQ(reach.calibrations.size(), 1U);
  EXPECT_EQ(reach.calibrations[0].asLeft.becomes, Verdict::fail);
  EXPECT_EQ(reach.calibrations[0].clearedBy, later);
  EXPECT_FALSE(reach.calibrations[0].needsVisit);
  EXPECT_THAT(reach.visits, IsEmpty());
}

TEST_F(ReachTest, OnlyAPassWithAnotherStandardClears) {
  Standard other = site_.standards[0];
  other.serial = "LC-9";
  site_.standards.push_back(other);
  add(visitTo("TT-110", "2026-01-10T09:00", {"0.0", "75.0", "150.0"}));
  add(visitTo("TT-110", "2026-01-20T09:00", {"-0.5", "74.5", "149.5"}));               // fails, same one
  add(visitTo("TT-110", "2026-01-21T09:00", {"-0.3", "74.7", "149.7"}));               // passes, same one
  add(visitTo("TT-110", "2026-01-22T09:00", {"3.0", "78.0", "153.0"}, {}, {"LC-9"}));  // fails, another
  ASSERT_EQ(reachOfStandard(store(), "LC-2201", currentHigh()).visits.size(), 1U);
  add(visitTo("TT-110", "2026-01-23T09:00", {"0.0", "75.0", "150.0"}, {}, {"LC-9"}));
  EXPECT_THAT(reachOfStandard(store(), "LC-2201", currentHigh()).visits, IsEmpty());
}

TEST_F(ReachTest, StopsWhenToldTo) {
  add(visitTo("TT-110", "2026-01-10T09:00", {"0.0", "75.0", "150.0"}));
  add(visitTo("TT-110", "2026-01-11T09:00", {"0.0", "75.0", "150.0"}));
  std::vector<double> shares;
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh(), [&shares](double share) {
    shares.push_back(share);
    return shares.size() < 2;
  });
  EXPECT_THAT(shares, ElementsAre(0.0, 0.5));
  EXPECT_EQ(reach.calibrations.size(), 1U);
}

TEST_F(ReachTest, SaysWhatIsToBeDoneAndListsTheVisits) {
  for (Channel& channel : site_.channels) {
    if (channel.tag == "TT-110") {
      channel.place = "Hall, north";
    }
  }
  site_.places.push_back({"Hall, north", "Hall, north", "", 1});
  const auto bad = add(visitTo("TT-110", "2026-01-10T09:00", {"0.0", "75.0", "150.0"}));
  add(visitTo("TT-110", "2026-01-11T09:00", {"-0.6", "74.4", "149.4"}));
  add(visitTo("TT-110", "2026-01-12T09:00", {"-0.3", "74.7", "149.7"}));
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  ASSERT_EQ(reach.calibrations.size(), 3U);
  EXPECT_EQ(reach.calibrations[0].then(), ReachedThen::visitAgain);
  EXPECT_EQ(reach.calibrations[1].then(), ReachedThen::nothing);
  EXPECT_EQ(reach.calibrations[2].then(), ReachedThen::unchanged);
  EXPECT_EQ(reach.flips(), 2U);
  EXPECT_EQ(reach.why, LastGoodWhy::disagrees);
  EXPECT_EQ(visitsCsv(reach),
            "number,place,channel,subject,calibrations_in_doubt\r\n1,\"Hall, north\",TT-110," +
                std::string(text(Subject::channel)) + "," + std::to_string(bad) + "\r\n");
}

TEST_F(ReachTest, VisitsStandInWalkingOrder) {
  site_.places = {{"Yard", "Yard", "", 2},
                  {"Hall", "Hall", "", 1},
                  {"Hall / Cabinet 2", "Cabinet 2", "Hall", 1},
                  {"Hall / Cabinet 1", "Cabinet 1", "Hall", 0}};
  for (Channel& channel : site_.channels) {
    channel.place = channel.tag == "TT-101"   ? "Yard"
                    : channel.tag == "TT-110" ? "Hall / Cabinet 2"
                                              : "Hall / Cabinet 1";
  }
  add(visitTo("TT-101", "2026-01-10T09:00",
              {"0.0", "37.5", "75.0", "112.5", "150.0", "150.0", "112.5", "75.0", "37.5", "0.0"}));
  add(visitTo("TT-110", "2026-01-11T09:00", {"0.0", "75.0", "150.0"}));
  add(visitTo("TT-109", "2026-01-12T09:00", {"0.0", "75.0", "150.0"}));  // retired
  add(visitTo("FV-201", "2026-01-13T09:00", {"4.005", "12.000", "19.990", "4.001"}));
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  EXPECT_EQ(reach.calibrations.size(), 4U);
  std::vector<std::string> channels;
  for (const ReachVisit& visit : reach.visits) {
    channels.push_back(visit.channel);
  }
  EXPECT_THAT(channels, ElementsAre("FV-201", "TT-110", "TT-101"));
}

// Error 0.3 with limits 0.375: inside by more than the standard's own U, not by that of the finding.
TEST_F(ReachTest, TheFindingsUncertaintyCountsUnderAGuardedRule) {
  for (Plan& plan : site_.plans) {
    plan.decisionRule.basis = GuardBasis::factor;
    plan.decisionRule.factor = 1.0;
  }
  add(visitTo("TT-110", "2026-01-10T09:00", {"0.2", "75.2", "150.2"}));
  FoundErrors found = currentHigh(0.1 / 9.375);
  EXPECT_EQ(reachOfStandard(store(), "LC-2201", found).calibrations.at(0).asLeft.becomes, Verdict::pass);
  for (CertificatePoint& point : found.ranges[0].points) {
    point.uncertainty = 0.02;  // 0.19 degC
  }
  const Reach reach = reachOfStandard(store(), "LC-2201", found);
  EXPECT_EQ(reach.calibrations.at(0).asLeft.becomes, Verdict::fail);
}

TEST_F(ReachTest, WhatCannotBeJudgedAgainSaysWhy) {
  const auto id = add(visitTo("TT-110", "2026-01-10T09:00", {"0.0", "75.0", "150.0"}));
  Calibration older = *store().calibration(id);
  older.planRevision = "1";
  older.performed = test::moment("2026-01-11T09:00");
  store().add(older);
  const Reach reach = reachOfStandard(store(), "LC-2201", currentHigh());
  ASSERT_EQ(reach.calibrations.size(), 2U);
  EXPECT_THAT(reach.calibrations[1].reason, HasSubstr("plan AI-3 in revision 1 is not in the register"));
  EXPECT_EQ(reach.calibrations[1].asLeft.becomes, Verdict::notJudged);
  EXPECT_TRUE(reach.calibrations[1].needsVisit);
}

std::string refusal(const Store& store, const char* serial, const FoundErrors& found) {
  try {
    reachOfStandard(store, serial, found);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

TEST_F(ReachTest, RefusesWhatCannotBe) {
  EXPECT_THAT(refusal(store(), "LC-22", currentHigh()), HasSubstr("no standard \"LC-22\""));
  FoundErrors pressure = currentHigh();
  pressure.ranges[0].unit = Unit::bar;
  EXPECT_THAT(refusal(store(), "LC-2201", pressure),
              HasSubstr("no certificate of LC-2201 has a range in bar"));
  FoundErrors decided = currentHigh();
  decided.lastGood = "C-9";
  EXPECT_THAT(refusal(store(), "LC-2201", decided), HasSubstr("no certificate \"C-9\""));
}

// --- Which certificate is the last good one

Standard standardWith(const std::vector<std::pair<const char*, double>>& certificates) {
  Standard standard;
  standard.serial = "LC-1";
  int year = 2020;
  for (const auto& [number, error] : certificates) {
    const CertificateRange range{Unit::milliampere, 0.001, {{4, 0, 0.001}, {20, error, 0.001}}};
    standard.certificates.push_back(
        test::certificate(number, day(year, 2, 1), day(year + 1, 2, 28), {range}));
    ++year;
  }
  return standard;
}
FoundErrors endHigh(double error, double uncertainty = 0.001) {
  FoundErrors found;
  found.foundOn = day(2026, 2, 25);
  found.ranges = {{Unit::milliampere, 0.0, {{4, 0, uncertainty}, {20, error, uncertainty}}}};
  return found;
}
std::string lastGood(const Standard& standard, const FoundErrors& found) {
  const StandardCertificate* good = lastGoodCertificate(standard, found).certificate;
  return good != nullptr ? good->number : "none";
}

TEST(LastGoodCertificate, IsTheNewestThatDoesNotShowTheFaultYet) {
  EXPECT_EQ(lastGood(standardWith({{"A", 0.0}, {"B", 0.0002}}), endHigh(0.02)), "B");
  EXPECT_EQ(lastGood(standardWith({{"A", 0.0}, {"B", 0.0195}}), endHigh(0.02)), "A");
  EXPECT_EQ(lastGood(standardWith({{"A", 0.0}, {"B", 0.0195}, {"C", 0.0201}}), endHigh(0.02)), "A");
  // sqrt(0.001^2 + 0.001^2) = 0.00141: a certificate agrees up to there and no further.
  EXPECT_EQ(lastGood(standardWith({{"A", 0.0}, {"B", 0.01859}}), endHigh(0.02)), "A");
  EXPECT_EQ(lastGood(standardWith({{"A", 0.0}, {"B", 0.01858}}), endHigh(0.02)), "B");
  EXPECT_EQ(lastGood(standardWith({{"A", 0.0}, {"B", 0.0192}}), endHigh(0.02, 0.0)), "A");
  EXPECT_EQ(lastGood(standardWith({{"A", 0.0}, {"B", 0.0188}}), endHigh(0.02, 0.0)), "B");
}

TEST(LastGoodCertificate, IsTheNewestWhenNothingChanged) {
  EXPECT_EQ(lastGood(standardWith({{"A", 0.0002}, {"B", 0.0}}), endHigh(0.0005)), "B");
}

TEST(LastGoodCertificate, IsNeverTheFindingItselfNorLater) {
  Standard standard = standardWith({{"A", 0.0}, {"B", 0.0}, {"C", 0.0001}});
  standard.certificates[2].issued = day(2026, 2, 25);
  EXPECT_EQ(lastGood(standard, endHigh(0.02)), "B");
  FoundErrors found = endHigh(0.02);
  found.certificate = "B";
  EXPECT_EQ(lastGood(standard, found), "A");
  EXPECT_EQ(lastGood(standardWith({}), found), "none");
}

TEST(LastGoodCertificate, IsTheOneAPersonDecided) {
  FoundErrors found = endHigh(0.02);
  found.lastGood = "A";
  EXPECT_EQ(lastGood(standardWith({{"A", 0.0}, {"B", 0.0}}), found), "A");
}

TEST(LastGoodCertificate, IsNotOneThatHasNothingInCommonWithTheFinding) {
  Standard standard = standardWith({{"A", 0.0}, {"B", 0.0}});
  standard.certificates[1].ranges[0].unit = Unit::volt;
  EXPECT_EQ(lastGood(standard, endHigh(0.02)), "A");
  standard.certificates[0].ranges[0].unit = Unit::volt;
  EXPECT_EQ(lastGood(standard, endHigh(0.02)), "B");
}

}  // namespace
}  // namespace spanwright
