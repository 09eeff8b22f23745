// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/point_uncertainty.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "tests/core/tasks/visit_fixture.h"
#include "tests/support/csv.h"

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

/// The first line of this name in the budget of one reading of TE-501; nothing when there is none.
std::optional<BudgetLine> lineAt(const Register& site, const char* name, const char* applied,
                                 const char* reading, std::size_t point, const char* standard) {
  const auto sheet =
      std::get<VisitSheet>(openSheet(site, "TE-501", Subject::channel, moment("2026-02-20T09:30")));
  const TypedReading text = typed(reading, applied).typed;
  const auto judged = judge(sheet, sheet.points.at(point), text, {});
  const auto budget = pointBudget(sheet, std::get<Reading>(judged), {site.standard(standard)});
  EXPECT_TRUE(budget.has_value()) << applied << " by " << standard;
  for (const BudgetLine& line : budget ? budget->lines : std::vector<BudgetLine>{}) {
    if (line.name == name) {
      return line;
    }
  }
  return std::nullopt;
}

Standard& standardOf(Register& site, std::string_view serial) {
  return *std::find_if(site.standards.begin(), site.standards.end(),
                       [&](const Standard& standard) { return standard.serial == serial; });
}
Plan& planOf(Register& site, std::string_view code) {
  return *std::find_if(site.plans.begin(), site.plans.end(),
                       [&](const Plan& plan) { return plan.code == code; });
}

// Type K: 39.451 uV/K at 0 degC, 39.965 at 200, 42.241 at 400 (NIST ITS-90, thermocouple_emf_table.csv): a
// reference junction 1 K off puts the reading off by their ratio.
TEST_F(Uncertainty, ACoupleFedWithMillivoltsHasAReferenceJunction) {
  EXPECT_FALSE(lineAt(site_, "reference junction", "8.138 mV", "200.4", 1, "VM-7"));
  planOf(site_, "TC-3").junctionUncertainty = 0.4;
  const char* const fed[] = {"0 mV", "8.138 mV", "16.397 mV"};
  const double slopes[] = {1.0, 39.451 / 39.965, 39.451 / 42.241};
  for (const std::size_t i : {0U, 1U, 2U}) {
    const auto line =
        lineAt(site_, "reference junction", fed[i], std::array{"0.0", "200.4", "399.8"}[i], i, "VM-7");
    ASSERT_TRUE(line.has_value()) << i;
    EXPECT_NEAR(line->standardUncertainty, 0.2, 1e-15);
    EXPECT_NEAR(line->sensitivity, slopes[i], 1e-3) << i;
  }
  // Told in degrees, but the standard is certified in mV: the junction is nobody else's.
  EXPECT_TRUE(lineAt(site_, "reference junction", "200.0", "200.4", 1, "VM-7"));
  // A standard certified for simulated temperatures compensates for its own.
  EXPECT_FALSE(lineAt(site_, "reference junction", "200.0", "200.4", 1, "TB-3"));
  EXPECT_TRUE(lineAt(site_, "reference junction", "8.138 mV", "200.4", 1, "TB-3"));
  EXPECT_FALSE(lineAt(site_, "leads", "8.138 mV", "200.4", 1, "VM-7"));
}

// Type B hardly gives a voltage at room temperature (-0.25 uV/K at 0 degC, 10.356 at 1200): what the junction
// is known to does not matter.
TEST_F(Uncertainty, ATypeBCoupleHardlyMindsItsReferenceJunction) {
  auto& couple = std::get<ThermocoupleSetup>(site_.channels.back().setups.front().setup.kind);
  couple.type = ThermocoupleType::B;
  couple.range = {800, 1600, Unit::celsius};
  site_.index();
  planOf(site_, "TC-3").junctionUncertainty = 2.0;
  const auto line = lineAt(site_, "reference junction", "1200", "1200.2", 1, "VM-7");
  ASSERT_TRUE(line.has_value());
  EXPECT_LT(std::abs(line->sensitivity), 0.04);
}

// A Pt100 gives 0.37928 ohm/K at 100 degC: A + 200 B of IEC 60751, times 100 ohm.
TEST_F(Uncertainty, AnRtdHasItsLeads) {
  RtdSetup rtd;
  rtd.range = {0, 200, Unit::celsius};
  site_.channels.back().setups.front().setup.kind = rtd;
  CertificateRange ohms;
  ohms.unit = Unit::ohm;
  ohms.resolution = 0.001;
  ohms.points = {{0, 0, 0.004}, {400, 0, 0.004}};
  site_.standards[0].certificates[1].ranges.push_back(ohms);
  site_.index();
  EXPECT_FALSE(lineAt(site_, "leads", "138.51 ohm", "100.1", 1, "LC-2201"));
  planOf(site_, "TC-3").leadHalfWidth = 0.05;
  planOf(site_, "TC-3").junctionUncertainty = 0.4;
  // A simulated temperature reaches the input as a resistance too.
  for (const auto& [applied, standard] : {std::pair{"138.51 ohm", "LC-2201"}, {"100.0", "TB-3"}}) {
    const auto line = lineAt(site_, "leads", applied, "100.1", 1, standard);
    ASSERT_TRUE(line.has_value()) << applied;
    EXPECT_NEAR(line->standardUncertainty, 0.05 / std::sqrt(3.0), 1e-15);
    EXPECT_NEAR(line->sensitivity, 1.0 / 0.37928, 1e-3);
    EXPECT_FALSE(lineAt(site_, "reference junction", applied, "100.1", 1, standard)) << applied;
  }
}

// On the bench, measured with a meter: a bare couple's mV against a junction, a bare RTD's ohm through leads.
TEST_F(Uncertainty, ABareSensorHasJunctionOrLeads) {
  Plan& plan = planOf(site_, "TX-3");
  plan.junctionUncertainty = 0.4;
  plan.leadHalfWidth = 0.05;
  SensorRange& range = site_.sensors.front().range;
  range.output.reset();
  CertificateRange ohms;
  ohms.unit = Unit::ohm;
  ohms.points = {{0, 0, 0.004}, {400, 0, 0.004}};
  standardOf(site_, "VM-7").certificates.front().ranges.push_back(ohms);
  const auto budgetWith = [&](const char* reading) {
    site_.index();
    const auto sheet =
        std::get<VisitSheet>(openSheet(site_, "TT-101", Subject::sensor, moment("2026-02-20T09:30")));
    const auto judged = judge(sheet, sheet.points.at(1), typed(reading).typed, {});
    return pointBudget(sheet, std::get<Reading>(judged), {site_.standard("TB-3"), site_.standard("VM-7")});
  };
  range.thermocouple = ThermocoupleType::K;
  const auto couple = budgetWith("3.06");
  ASSERT_TRUE(couple.has_value());
  ASSERT_EQ(couple->lines.back().name, "reference junction");
  EXPECT_NEAR(couple->lines.back().sensitivity, -0.039451, 1e-5);  // mV/K at 0 degC
  range.thermocouple.reset();
  range.rtd = RtdElement::pt100;
  const auto rtd = budgetWith("128.99");
  ASSERT_TRUE(rtd.has_value());
  ASSERT_EQ(rtd->lines.back().name, "leads");
  EXPECT_EQ(rtd->lines.back().sensitivity, 1.0);
  EXPECT_NEAR(rtd->lines.back().standardUncertainty, 0.05 / std::sqrt(3.0), 1e-15);
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

TEST_F(Uncertainty, WhatIsNotJudgedHasAReason) {
  planOf(site_, "AI-3").decisionRule = {.basis = GuardBasis::factor, .factor = 1.0};
  site_.index();
  const auto sheet =
      std::get<VisitSheet>(openSheet(site_, "TT-110", Subject::channel, moment("2026-02-20T09:30")));
  const auto why = [&](const char* reading, const std::vector<const Standard*>& standards,
                       std::size_t point = 1) {
    const auto judged = judge(sheet, sheet.points.at(point), typed(reading).typed, standards);
    return whyNotJudged(sheet, std::get<Reading>(judged), standards);
  };
  const Standard* const loop = site_.standard("LC-2201");
  EXPECT_FALSE(why("75.1", {loop}));
  const auto none = why("75.1", {});
  ASSERT_TRUE(none.has_value());
  EXPECT_EQ(none->gap, UncertaintyGap::noStandard);
  EXPECT_EQ(none->reason, "the decision rule needs an uncertainty, and there is none");
  EXPECT_FALSE(why("80.0", {}));  // outside its limits fails whatever the uncertainty
  EXPECT_EQ(why("75.1", {site_.standard("LC-1100"), site_.standard("NEW-1")})->gap,
            UncertaintyGap::noneValid);
  EXPECT_EQ(why("75.1", {site_.standard("LC-1100"), site_.standard("VM-7")})->gap,
            UncertaintyGap::otherQuantity);
  standardOf(site_, "LC-2201").certificates[1].ranges[0].points.pop_back();  // ends at 12 mA
  EXPECT_FALSE(why("75.1", {loop}));
  const auto beyond = why("150.0", {loop}, 2);
  ASSERT_TRUE(beyond.has_value());
  EXPECT_EQ(beyond->gap, UncertaintyGap::outOfReach);
  EXPECT_EQ(beyond->value.value, 20.0);
  EXPECT_EQ(beyond->value.unit, Unit::milliampere);
  // With an uncertainty it is the rule's own reason, for instance a limit that is open on one side.
  auto open = std::get<Reading>(judge(sheet, sheet.points.at(1), typed("75.1").typed, {loop}));
  open.verdict = Verdict::notJudged;
  open.limits = {-HUGE_VAL, HUGE_VAL};
  const auto unruled = whyNotJudged(sheet, open, {loop});
  ASSERT_TRUE(unruled.has_value());
  EXPECT_FALSE(unruled->gap.has_value());
  EXPECT_EQ(unruled->reason, "a tolerance needs a limit on one side at least");
}

TEST_F(Uncertainty, ARangeOfTheQuantityThatWasToldComesFirst) {
  Standard& bath = standardOf(site_, "TB-3");
  const CertificateRange millivolts{Unit::millivolt, 0.001, {{-10, 0, 0.4}, {60, 0, 0.4}}};
  auto& ranges = bath.certificates.front().ranges;
  ranges.insert(ranges.begin(), millivolts);
  planOf(site_, "TC-3").junctionUncertainty = 0.4;
  site_.index();
  const auto told = lineAt(site_, "certificate of standard TB-3", "200.0", "200.4", 1, "TB-3");
  ASSERT_TRUE(told.has_value());
  EXPECT_NEAR(told->standardUncertainty, 0.025, 1e-12);  // degC
  EXPECT_FALSE(lineAt(site_, "reference junction", "200.0", "200.4", 1, "TB-3"));
  const auto fed = lineAt(site_, "certificate of standard TB-3", "8.138 mV", "200.4", 1, "TB-3");
  ASSERT_TRUE(fed.has_value());
  EXPECT_NEAR(fed->standardUncertainty, 0.2, 1e-12);  // mV
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

// JCGM 100:2008 H.5, Table H.9 prints the mean and the deviation of five readings of each day. Five readings
// with just these: three at the mean, two as far to both sides as it takes.
TEST(Pooling, GivesTheGumsDeviationWithinDays) {
  const std::string folder = SPANWRIGHT_REFERENCE_DIR "/statistics/";
  std::vector<Reading> readings;
  for (const test::CsvRow& row : test::readReferenceCsv(folder + "gum_h5_data.csv")) {
    const double away = std::sqrt(2.0) * test::numberIn(row, "within_day_sd_uV");
    for (const double microvolts : {0.0, 0.0, 0.0, away, -away}) {
      Reading reading;
      reading.point.percent = test::numberIn(row, "day");  // a day is a point here
      reading.indicated = 1e6 * test::numberIn(row, "mean_V") + microvolts;
      readings.push_back(reading);
    }
  }
  const Repeatability pooled = repeatability(readings);
  EXPECT_EQ(pooled.degreesOfFreedom, 40.0);
  int checked = 0;
  for (const test::CsvRow& row : test::readReferenceCsv(folder + "expected_budgets.csv")) {
    if (row.at("example") == "gum_h5" && row.at("quantity") == "s_W") {
      EXPECT_NEAR(pooled.standardDeviation, test::numberIn(row, "published"),
                  test::numberIn(row, "tolerance"));
      EXPECT_NEAR(pooled.standardDeviation, test::numberIn(row, "recomputed"), 1e-6);
      ++checked;
    }
  }
  EXPECT_EQ(checked, 1);
}

}  // namespace
}  // namespace spanwright
