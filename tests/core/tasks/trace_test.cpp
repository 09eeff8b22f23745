// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/trace.h"

#include <gmock/gmock.h>

#include <cmath>
#include <functional>

#include "tests/core/tasks/record_fixture.h"

namespace spanwright {
namespace {

using test::day;
using test::goodVisit;
using test::moment;
using test::visitTo;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

class TraceTest : public test::RecordTest {
 protected:
  TraceTest() {
    for (Standard& standard : site_.standards) {
      for (StandardCertificate& certificate : standard.certificates) {
        certificate.issuer = "Harrow Vale (invented)";
        certificate.traceability = "to the SI (invented)";
      }
    }
  }
  /// The good visit with something changed after it was judged.
  CalibrationTrace changed(const std::function<void(Calibration&)>& change) {
    Calibration calibration = checkVisit(store().site(), goodVisit(), test::kNow, false).calibration.value();
    calibration.performed += boost::posix_time::minutes(++count_);
    change(calibration);
    return traceCalibration(store(), store().add(calibration));
  }

 private:
  int count_ = 0;
};

TEST_F(TraceTest, FollowsTheChainFromTheReadingToTheCertificate) {
  const CalibrationTrace trace = traceCalibration(store(), add(goodVisit()));
  EXPECT_THAT(trace.gaps, IsEmpty());
  EXPECT_TRUE(trace.agrees());
  EXPECT_EQ(trace.setup.value().version, 1);
  EXPECT_FALSE(trace.setupUntil.has_value());
  EXPECT_EQ(trace.plan.value().code, "AI-3");
  EXPECT_EQ(trace.personName, "Mara Tolland");
  EXPECT_FALSE(trace.issued.has_value());
  ASSERT_EQ(trace.standards.size(), 1U);
  EXPECT_EQ(trace.standards[0].certificate.value().number, "C-2");
  EXPECT_TRUE(trace.standards[0].validOnDay);
  ASSERT_EQ(trace.readings.size(), 3U);
  const TracedReading& middle = trace.readings[1];
  EXPECT_EQ(trace.readings[0].reading.appliedText, "4.000 mA");
  ASSERT_EQ(middle.values.size(), 1U);
  EXPECT_EQ(middle.values[0].certificate, "C-2");
  EXPECT_TRUE(middle.values[0].applied);
  EXPECT_DOUBLE_EQ(middle.values[0].at, 12.0);
  EXPECT_DOUBLE_EQ(middle.values[0].error, 0.0003);
  EXPECT_DOUBLE_EQ(middle.values[0].uncertainty, 0.0012);
  // Lines by hand: 0.0006 mA and 0.001/sqrt(12) mA times 150/16, shown to 0.1/sqrt(12).
  ASSERT_TRUE(middle.budget.has_value());
  ASSERT_EQ(middle.budget->lines.size(), 3U);
  EXPECT_NEAR(middle.budget->lines[0].standardUncertainty, 0.0006, 1e-12);
  EXPECT_NEAR(middle.budget->lines[0].sensitivity, 150.0 / 16.0, 1e-9);
  EXPECT_NEAR(middle.budget->lines[2].standardUncertainty, 0.1 / std::sqrt(12.0), 1e-12);
  EXPECT_NEAR(middle.budget->expanded, middle.reading.expandedUncertainty.value(), 1e-12);
}

TEST_F(TraceTest, TellsUntilWhenTheSetupHeldAndWhichSensorWasFitted) {
  Channel& channel = site_.channels[0];
  channel.setups.push_back(channel.setups[0]);
  channel.setups.back().version = 2;
  channel.setups.back().inForceFrom = moment("2026-02-25T08:00");
  ProposedVisit visit = visitTo("TT-101", "2026-01-10T09:00", {"0.0", "75.0", "150.0"}, {}, {"TB-3"});
  visit.subject = Subject::loop;
  const CalibrationTrace trace = traceCalibration(store(), add(visit));
  EXPECT_THAT(trace.gaps, IsEmpty());
  EXPECT_EQ(trace.setupUntil, moment("2026-02-25T08:00"));
  EXPECT_EQ(trace.sensor.value().serial, "TX-5510");
  EXPECT_EQ(trace.fitting.value().from, moment("2019-01-01T00:00"));
}

TEST_F(TraceTest, AnIssuedCertificateIsNamed) {
  const CalibrationId id = add(goodVisit());
  const IssuedCertificate issued = store().issueCertificate(id);
  EXPECT_EQ(traceCalibration(store(), id).issued.value().number, issued.number);
}

TEST_F(TraceTest, MissingAndExpiredLinksAreNamed) {
  site_.people.push_back({"agone", "Al Gone", {Role::technician}, day(2026, 1, 1)});
  auto& certificates = site_.standards[0].certificates;
  certificates.insert(certificates.begin(), test::certificate("C-EMPTY", day(2020, 1, 1), day(2020, 12, 31),
                                                              certificates[0].ranges));
  const auto gaps = [&](const std::function<void(Calibration&)>& change) { return changed(change).gaps; };
  EXPECT_THAT(gaps([](Calibration& each) { each.standards.clear(); }),
              ElementsAre(HasSubstr("no standard is named")));
  EXPECT_THAT(gaps([](Calibration& each) { each.standards[0].certificate = "C-1"; }),
              ElementsAre(HasSubstr("certificate C-1 of standard LC-2201 was valid from 2024-02-12 to "
                                    "2025-02-28, not on the day")));
  EXPECT_THAT(gaps([](Calibration& each) { each.standards[0].certificate = "C-EMPTY"; }),
              Contains(HasSubstr("certificate C-EMPTY of standard LC-2201 does not say what it traces to")));
  EXPECT_THAT(gaps([](Calibration& each) { each.planRevision = "1"; }),
              ElementsAre(HasSubstr("plan AI-3 in revision 1 is not in the register")));
  EXPECT_THAT(gaps([](Calibration& each) { each.person = "agone"; }),
              ElementsAre(HasSubstr("Al Gone had left on 2026-01-01")));
  EXPECT_THAT(gaps([](Calibration& each) { each.performed = moment("2017-01-01T09:00"); }),
              Contains(HasSubstr("setup 1 was not in force when it was performed")));
}

TEST_F(TraceTest, ACertificateThatHadBeenFollowedIsNamed) {
  // On 2025-02-25 both are valid and the newer counts.
  const CalibrationTrace trace = changed([](Calibration& each) {
    each.performed = moment("2025-02-25T09:00");
    each.standards[0].certificate = "C-1";
  });
  EXPECT_THAT(trace.gaps, ElementsAre(HasSubstr("had been followed by C-2 on the day")));
}

TEST_F(TraceTest, AValueNoCertificateReachesIsNamed) {
  site_.standards[0].certificates[1].ranges[0].points.pop_back();  // 4 to 12 mA
  const CalibrationTrace trace =
      traceCalibration(store(), add(visitTo("TT-110", "2026-01-10T09:00", {"0.0", "75.0", "150.0"})));
  EXPECT_THAT(trace.gaps, ElementsAre(HasSubstr("100 % up: no named standard's certificate reaches the "
                                                "applied 20.0000 mA")));
  EXPECT_TRUE(trace.agrees());
}

TEST_F(TraceTest, WhatDiffersFromTheRecomputationIsNamed) {
  const struct {
    const char* says;
    std::function<void(Reading&)> change;
  } cases[] = {
      {"the applied value is stored as", [](Reading& each) { each.applied += 0.01; }},
      {"the reading is stored as", [](Reading& each) { each.indicated += 0.1; }},
      {"the reading is stored as", [](Reading& each) { each.indicatedText = "75.3"; }},
      {"the expected reading is stored as", [](Reading& each) { each.expected += 0.001; }},
      {"the limits are stored as", [](Reading& each) { each.limits.high += 0.1; }},
      {"the expanded uncertainty is stored as", [](Reading& each) { *each.expandedUncertainty *= 0.5; }},
      {"the expanded uncertainty is stored as", [](Reading& each) { each.expandedUncertainty.reset(); }},
      {"the coverage factor is stored as", [](Reading& each) { each.coverageFactor = 3.0; }},
      {"the verdict is stored as fail, recomputed it is pass",
       [](Reading& each) { each.verdict = Verdict::fail; }},
      {"from what was typed nothing can be recomputed", [](Reading& each) { each.indicatedText = "x"; }},
  };
  for (const auto& each : cases) {
    const CalibrationTrace trace =
        changed([&](Calibration& calibration) { each.change(calibration.asFound[1]); });
    EXPECT_FALSE(trace.agrees()) << each.says;
    EXPECT_THAT(trace.readings[0].differs, IsEmpty());
    EXPECT_THAT(trace.readings[1].differs, Contains(HasSubstr(each.says)));
  }
  const CalibrationTrace whole = changed([](Calibration& each) { each.leftVerdict = Verdict::fail; });
  EXPECT_FALSE(whole.agrees());
  EXPECT_THAT(whole.differs, ElementsAre("as left is stored as fail, recomputed it is pass"));
}

TEST_F(TraceTest, AFailedPointWithItsOwnRepeatabilityAgrees) {
  ProposedVisit visit =
      visitTo("TT-102", "2026-01-10T09:00", {"0.0", "150.0", "0.1", "150.0", "2.0", "151.3"},
              {"0.0", "150.0", "0.1", "150.0", "0.1", "150.0"});
  const CalibrationTrace trace = traceCalibration(store(), add(visit));
  EXPECT_TRUE(trace.agrees());
  EXPECT_EQ(trace.readings.size(), 12U);
  EXPECT_EQ(trace.calibration.foundVerdict, Verdict::fail);
}

TEST_F(TraceTest, FromAStandardToAllThatRestsOnIt) {
  const auto second = add(visitTo("TT-110", "2025-06-10T09:00", {"0.0", "75.0", "150.0"}));
  const auto first = add(visitTo("FV-201", "2025-01-10T09:00", {"4.005", "12.000", "19.990", "4.001"}));
  add(visitTo("LS-301", "2025-06-01T09:00", {"14.1", "6.1"}, {}, {"VM-7"}));
  StandardTrace trace = traceStandard(store(), "LC-2201");
  EXPECT_EQ(trace.standard.certificates.size(), 2U);
  ASSERT_EQ(trace.uses.size(), 2U);
  EXPECT_EQ(trace.uses[0].calibration, first);
  EXPECT_EQ(trace.uses[0].certificate, "C-1");
  EXPECT_TRUE(trace.uses[0].validOnDay);
  EXPECT_EQ(trace.uses[1].calibration, second);
  EXPECT_EQ(trace.uses[1].left, Verdict::pass);
  EXPECT_THAT(trace.gaps, IsEmpty());
  changed([](Calibration& each) { each.standards[0].certificate = "C-1"; });
  trace = traceStandard(store(), "LC-2201");
  EXPECT_FALSE(trace.uses.back().validOnDay);
  EXPECT_THAT(trace.gaps, ElementsAre(HasSubstr("names certificate C-1, which was not valid on the day")));
  EXPECT_THAT(traceStandard(store(), "NEW-1").uses, IsEmpty());
}

TEST_F(TraceTest, WhatIsNotThereIsRefused) {
  EXPECT_THROW(traceCalibration(store(), 99), InputError);
  EXPECT_THROW(traceStandard(store(), "LC-22"), InputError);
}

}  // namespace
}  // namespace spanwright
