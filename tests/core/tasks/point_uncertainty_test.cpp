// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/point_uncertainty.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/tasks/visit_fixture.h"

namespace spanwright {
namespace {

using test::goodVisit;
using test::kNow;
using test::moment;
using test::sentences;
using test::skipped;
using test::typed;
using testing::ElementsAre;
using testing::HasSubstr;

using Uncertainty = test::VisitTest;

// By hand from C-2 at 12 mA: certificate 0.0012/2 mA, resolution 0.001/sqrt(12) mA, both times 150/16 degC
// per mA; shown resolution 0.1/sqrt(12) degC; k = 2 for infinite degrees of freedom.
TEST_F(Uncertainty, FillsInTheUncertaintyFromTheCertificate) {
  const Calibration made = checked(goodVisit());
  const double slope = 150.0 / 16.0;
  const double byHand =
      2.0 * std::sqrt(std::pow(0.0006 * slope, 2) + std::pow(0.001 * slope, 2) / 12.0 + 0.01 / 12.0);
  ASSERT_TRUE(made.asFound[1].expandedUncertainty.has_value());
  EXPECT_NEAR(*made.asFound[1].expandedUncertainty, byHand, 1e-9);
  EXPECT_NEAR(made.asFound[1].coverageFactor, 2.0, 1e-12);
  EXPECT_LT(*made.asFound[0].expandedUncertainty, *made.asFound[1].expandedUncertainty);
}

TEST_F(Uncertainty, ACertificateReachesItsNominalValuesAndALittleBeyond) {
  Register site = site_;
  auto& range = site.standards[0].certificates[1].ranges[0];
  range.points.erase(range.points.begin());  // 12 to 20 mA
  const auto found = sentences(checkVisit(site, goodVisit(), kNow, false));
  EXPECT_THAT(
      found,
      ElementsAre(HasSubstr("no named standard's certificate reaches the values applied at 0 % up, in mA")));
  const CheckedVisit history = checkVisit(site, goodVisit(), kNow, true);
  ASSERT_TRUE(history.calibration.has_value());
  EXPECT_FALSE(history.calibration->asFound[0].expandedUncertainty.has_value());
  EXPECT_TRUE(history.calibration->asFound[1].expandedUncertainty.has_value());

  range.points = {{4.7, 0, 0.001}, {19.3, 0, 0.001}};  // 5 % of 14.6 is 0.73
  EXPECT_TRUE(checkVisit(site, goodVisit(), kNow, false).problems.empty());
  range.points = {{4.8, 0, 0.001}, {19.3, 0, 0.001}};
  EXPECT_FALSE(checkVisit(site, goodVisit(), kNow, false).problems.empty());
}

// Pooled by hand: errors at 0 %: 0.0 0.1 0.2, at 100 %: 0.0 0.0 0.3; s^2 = (0.02 + 0.06) / 4, four degrees.
TEST_F(Uncertainty, RepeatedPointsAddTheirRepeatability) {
  ProposedVisit visit = goodVisit();
  visit.channel = "TT-102";
  visit.asFound = {typed("0.0"), typed("150.0"), typed("0.1"), typed("150.0"), typed("0.2"), typed("150.3")};
  const Calibration made = checked(visit);
  const double slope = 150.0 / 16.0;
  const double others = std::pow(0.0004 * slope, 2) + std::pow(0.001 * slope, 2) / 12.0 + 0.01 / 12.0;
  const double combined = std::sqrt(others + 0.02);
  const double degrees = 4.0 * std::pow(combined, 4) / (0.02 * 0.02);
  EXPECT_NEAR(made.asFound[0].coverageFactor, coverageFactor(degrees), 1e-9);
  EXPECT_NEAR(*made.asFound[0].expandedUncertainty, coverageFactor(degrees) * combined, 1e-9);
  EXPECT_GT(made.asFound[0].coverageFactor, 2.6);
}

TEST_F(Uncertainty, OutputsAreMeasuredWithTheStandard) {
  ProposedVisit visit = goodVisit();
  visit.channel = "FV-201";
  visit.asFound = {typed("4.005"), typed("12.000"), typed("19.99"), typed("4.001")};
  const Calibration made = checked(visit);
  EXPECT_EQ(made.asFound[3].point.label, "loss of communication");
  EXPECT_EQ(made.foundVerdict, Verdict::pass);
  const double byHand = 2.0 * std::sqrt(0.0006 * 0.0006 + 0.001 * 0.001 / 12.0);
  EXPECT_NEAR(*made.asFound[1].expandedUncertainty, byHand, 1e-12);

  // Dead at full command: recorded as it is, though no certificate reaches down to 0 mA.
  visit.asFound[2] = typed("0.0");
  const Calibration dead = checked(visit);
  EXPECT_EQ(dead.foundVerdict, Verdict::fail);
  EXPECT_FALSE(dead.asFound[2].expandedUncertainty.has_value());
  EXPECT_TRUE(dead.asFound[1].expandedUncertainty.has_value());
  // But a standard that does not reach what should be there is the wrong standard.
  site_.standards[0].certificates[1].ranges[0].points.pop_back();
  EXPECT_THAT(problems(visit), ElementsAre(HasSubstr("reaches the values observed at 100 % up, in mA")));
}

TEST_F(Uncertainty, SwitchPointsAndStates) {
  ProposedVisit visit = goodVisit();
  visit.standards = {"VM-7"};
  visit.channel = "LS-301";
  visit.asFound = {typed("14.2"), typed("6.1 V")};
  Calibration made = checked(visit);
  EXPECT_EQ(made.asFound[0].applied, 14.2);
  EXPECT_EQ(made.asFound[0].expected, 14.0);
  EXPECT_EQ(made.foundVerdict, Verdict::pass);
  // 0.01 + 14.2/30 * 0.03 V expanded, k = 2; meter's resolution 0.01 V.
  const double byHand = 2.0 * std::sqrt(std::pow((0.01 + 14.2 / 30.0 * 0.03) / 2.0, 2) + 0.0001 / 12.0);
  EXPECT_NEAR(*made.asFound[0].expandedUncertainty, byHand, 1e-9);

  visit.channel = "XV-401";
  visit.asFound = {typed("23.8", "on"), typed("0.2", "off"), typed("0.1")};
  made = checked(visit);
  EXPECT_EQ(made.foundVerdict, Verdict::pass);
  EXPECT_EQ(made.asFound[0].applied, 1.0);
  visit.asFound[1].typed.appliedText = "on";
  EXPECT_THAT(problems(visit),
              ElementsAre(HasSubstr("as found, off: \"on\" is not what is commanded at this point")));
  visit.asFound[1].typed = {"", "24.3 V", ""};
  EXPECT_EQ(checked(visit).foundVerdict, Verdict::fail);
}

// A K couple at 200 degC gives 8.138 mV and about 0.040 mV/K (ITS-90 tables).
TEST_F(Uncertainty, ThermocoupleInputsTakeMillivoltsOrSimulatedDegrees) {
  ProposedVisit visit = goodVisit();
  visit.channel = "TE-501";
  visit.standards = {"VM-7"};
  visit.asFound = {typed("0.0", "0 mV"), typed("200.4", "8.138 mV"), typed("399.8", "16.397 mV")};
  const Calibration millivolts = checked(visit);
  EXPECT_NEAR(millivolts.asFound[1].applied, 200.0, 0.02);
  const double byHand =
      2.0 * std::sqrt(std::pow(0.002 / 0.040, 2) + std::pow(0.001 / 0.040, 2) / 12.0 + 0.01 / 12.0);
  EXPECT_NEAR(*millivolts.asFound[1].expandedUncertainty, byHand, 0.02 * byHand);

  visit.standards = {"TB-3"};  // simulated degrees, to 200 degC and a little
  visit.asFound = {typed("0.0"), typed("200.4"), skipped("beyond the simulator")};
  const Calibration degrees = checked(visit);
  EXPECT_NEAR(*degrees.asFound[1].expandedUncertainty,
              2.0 * std::sqrt(0.025 * 0.025 + 0.0001 / 12.0 + 0.01 / 12.0), 1e-9);
  visit.standards = {"LC-2201"};
  EXPECT_THAT(problems(visit),
              ElementsAre(HasSubstr("no named standard has a certificate for what is applied, in degC")));
}

TEST_F(Uncertainty, ASensorNeedsStandardsForBothItsSides) {
  ProposedVisit visit = goodVisit();
  visit.channel = "TT-101";
  visit.subject = Subject::sensor;
  visit.standards = {"TB-3", "LC-2201"};
  visit.asFound = {typed("4.01"), typed("12.01"), typed("20.00")};
  const Calibration made = checked(visit);
  EXPECT_EQ(made.sensor, "TX-5510");
  const double slope = 16.0 / 150.0;
  const double byHand = 2.0 * std::sqrt(std::pow(0.025 * slope, 2) + std::pow(0.01 * slope, 2) / 12.0 +
                                        std::pow((0.0012 + 0.01 / 8.0 * 0.0004) / 2.0, 2) + 1e-6 / 12.0);
  EXPECT_NEAR(*made.asFound[1].expandedUncertainty, byHand, 1e-9);
  visit.standards = {"TB-3"};
  EXPECT_THAT(problems(visit),
              ElementsAre(HasSubstr("no named standard has a certificate for what is observed, in mA")));
  visit.standards = {"LC-2201"};
  EXPECT_THAT(problems(visit), ElementsAre(HasSubstr("what is applied, in degC")));

  visit.subject = Subject::loop;
  visit.standards = {"TB-3"};
  visit.asFound = {typed("0.1"), typed("75.1"), typed("149.9")};
  EXPECT_EQ(checked(visit).sensor, "TX-5510");
  visit.performed = moment("2018-06-01T10:00");
  visit.standards = {};
  EXPECT_THAT(
      problems(visit, true),
      ElementsAre(HasSubstr("no sensor was fitted on TT-101 on 2018-06-01T10:00:00, so there is no loop")));
}

/// The budget's lines of one reading of TT-110 on 2026-02-20, 09:30.
std::optional<Budget> budgetAt(const Register& site, const char* applied, const char* reading,
                               std::size_t point, const char* when = "2026-02-20T09:30") {
  const auto sheet = std::get<VisitSheet>(openSheet(site, "TT-110", Subject::channel, moment(when)));
  const TypedReading text = typed(reading, applied).typed;
  const auto judged = judge(sheet, sheet.points.at(point), text, {});
  return pointBudget(sheet, std::get<Reading>(judged), {site.standard("LC-2201")});
}
std::vector<std::string> namesOf(const Budget& budget) {
  std::vector<std::string> names;
  for (const BudgetLine& line : budget.lines) {
    names.push_back(line.name);
  }
  return names;
}

// By hand: from C-1 (2024-02-12) to C-2 (2025-02-20), 374 days, the error at 12 mA went from -0.0004 to
// 0.0003 mA; 365 days later the half-width is 0.0007 x 365/374 mA, over sqrt(3), times 150/16 degC per mA.
TEST_F(Uncertainty, ADriftingStandardAddsALine) {
  site_.standards[0].certificates[0].ranges[0].points[1].error = -0.0004;
  const auto budget = budgetAt(site_, "12.000 mA", "75.2", 1);
  ASSERT_TRUE(budget.has_value());
  ASSERT_THAT(namesOf(*budget), ElementsAre("certificate of standard LC-2201", "drift of standard LC-2201",
                                            "resolution of standard LC-2201", "resolution of the reading"));
  const double slope = 150.0 / 16.0;
  const BudgetLine& drift = budget->lines[1];
  EXPECT_NEAR(drift.standardUncertainty, 0.0007 * 365.0 / 374.0 / std::sqrt(3.0), 1e-15);
  EXPECT_NEAR(drift.sensitivity, slope, 1e-9);
  EXPECT_TRUE(std::isinf(drift.degreesOfFreedom));
  EXPECT_NEAR(budget->lines[0].standardUncertainty, 0.0006, 1e-15);
  EXPECT_NEAR(budget->lines[2].standardUncertainty, 0.001 / std::sqrt(12.0), 1e-15);
  EXPECT_NEAR(budget->lines[3].standardUncertainty, 0.1 / std::sqrt(12.0), 1e-15);
  const double byHand =
      std::sqrt(slope * slope * (0.0006 * 0.0006 + std::pow(0.0007 * 365.0 / 374.0, 2) / 3.0 + 1e-6 / 12.0) +
                0.01 / 12.0);
  EXPECT_NEAR(budget->combined, byHand, 1e-9);
  EXPECT_NEAR(budget->expanded, 2.0 * byHand, 1e-9);

  // The same stands in the reading of a visit; half-way to 4 mA, where nothing changed, half the drift.
  const Calibration made = checked(goodVisit());
  EXPECT_NEAR(*made.asFound[1].expandedUncertainty, 2.0 * byHand, 1e-9);
  const auto between = budgetAt(site_, "11.600 mA", "71.3", 1);
  EXPECT_NEAR(between->lines.at(1).standardUncertainty, 0.95 * 0.0007 * 365.0 / 374.0 / std::sqrt(3.0),
              1e-15);
  // No drift at 4 mA, and none on the day of the certificate.
  EXPECT_EQ(namesOf(*budgetAt(site_, "4.000 mA", "0.1", 0)).size(), 3U);
  EXPECT_EQ(namesOf(*budgetAt(site_, "12.000 mA", "75.2", 1, "2025-02-20T09:30")).size(), 3U);
  // While C-1 was in use nothing came before it.
  EXPECT_EQ(namesOf(*budgetAt(site_, "12.000 mA", "75.2", 1, "2024-06-01T09:30")).size(), 3U);
}

// An earlier certificate in another unit counts; one that does not reach the value is passed over.
TEST_F(Uncertainty, TheLastCertificateThatReachesTheValueCounts) {
  auto& certificates = site_.standards[0].certificates;
  certificates[0].ranges[0] = {Unit::ampere, 1e-6, {{0.004, 0, 1e-6}, {0.02, -4e-7, 1e-6}}};
  auto budget = budgetAt(site_, "12.000 mA", "75.2", 1);
  // -0.0002 mA then, 0.0003 mA now.
  EXPECT_NEAR(budget->lines.at(1).standardUncertainty, 0.0005 * 365.0 / 374.0 / std::sqrt(3.0), 1e-15);
  const CertificateRange low{Unit::milliampere, 0.001, {{0, 0.1, 0.001}, {5, 0.1, 0.001}}};
  certificates.insert(certificates.begin() + 1,
                      test::certificate("C-1b", test::day(2024, 8, 1), test::day(2025, 8, 1), {low}));
  budget = budgetAt(site_, "12.000 mA", "75.2", 1);
  EXPECT_NEAR(budget->lines.at(1).standardUncertainty, 0.0005 * 365.0 / 374.0 / std::sqrt(3.0), 1e-15);
}

TEST_F(Uncertainty, StandardsForAUnitAndForASheet) {
  const auto serials = [](const std::vector<const Standard*>& standards) {
    std::vector<std::string> result;
    for (const Standard* each : standards) {
      result.push_back(each->serial);
    }
    return result;
  };
  EXPECT_THAT(serials(standardsFor(site_, test::day(2026, 2, 20), Unit::ampere)), ElementsAre("LC-2201"));
  EXPECT_THAT(serials(standardsFor(site_, test::day(2022, 6, 1), Unit::milliampere)), ElementsAre("LC-1100"));
  EXPECT_THAT(serials(standardsFor(site_, test::day(2027, 1, 1), Unit::milliampere)), ElementsAre());
  EXPECT_THAT(serials(standardsFor(site_, test::day(2026, 2, 20), Unit::ohm)), ElementsAre());
  const auto forSheet = [&](const char* tag, Subject subject) {
    return serials(
        standardsFor(std::get<VisitSheet>(openSheet(site_, tag, subject, moment("2026-02-20T09:00")))));
  };
  EXPECT_THAT(forSheet("TE-501", Subject::channel), ElementsAre("TB-3", "VM-7"));
  EXPECT_THAT(forSheet("TT-101", Subject::sensor), ElementsAre("LC-2201", "TB-3"));
  EXPECT_THAT(forSheet("XV-401", Subject::channel), ElementsAre("VM-7"));
}

}  // namespace
}  // namespace spanwright
