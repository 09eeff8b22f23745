// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/advice.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/signal/thermocouple.h"
#include "core/units/number.h"
#include "tests/core/tasks/visit_fixture.h"

namespace spanwright {
namespace {

using test::moment;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class Advising : public test::VisitTest {
 protected:
  VisitSheet sheet(const char* tag, Subject subject = Subject::channel) const {
    const auto opened = openSheet(site_, tag, subject, moment("2026-02-20T09:30"));
    EXPECT_TRUE(std::holds_alternative<VisitSheet>(opened));
    return std::get<VisitSheet>(opened);
  }
  /// The first readings of the sheet, as typed; "skip" skips.
  static std::vector<Reading> readings(const VisitSheet& sheet, const std::vector<std::string>& texts) {
    std::vector<Reading> made;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const TypedReading typed =
          texts[i] == "skip" ? TypedReading{"", "", "stuck"} : TypedReading{"", texts[i], ""};
      const auto judged = judge(sheet, sheet.points.at(i), typed, {});
      EXPECT_TRUE(std::holds_alternative<Reading>(judged)) << texts[i];
      made.push_back(std::get<Reading>(judged));
    }
    return made;
  }
  VisitAdvice advise(const char* tag, const std::vector<std::string>& texts) const {
    const VisitSheet opened = sheet(tag);
    return adviseVisit(opened, readings(opened, texts));
  }
};

// TT-110: 0..150 degC, +/- 0.375 degC, read to 0.1, points 0, 75, 150; adjust limit 70 %.

TEST_F(Advising, SmallErrorsAreLeftAlone) {
  const VisitAdvice advice = advise("TT-110", {"0.1", "75.1", "150.0"});
  ASSERT_TRUE(advice.adjustment.has_value());
  EXPECT_EQ(advice.adjustment->advice, AdjustmentAdvice::notNeeded);
  EXPECT_FALSE(advice.adjusts());
  EXPECT_FALSE(advice.zeroShift.has_value());
  EXPECT_EQ(
      adviceText(advice),
      "Adjusting is not worth it: the worst point uses 27 % of tolerance, the limit for adjusting is 70 "
      "%.");
}

TEST_F(Advising, ThePlansOwnAdjustLimitDecides) {
  for (Plan& each : site_.plans) {
    each.adjustLimit = 0.25;
  }
  site_.index();
  EXPECT_TRUE(advise("TT-110", {"0.1", "75.1", "150.1"}).adjusts());
}

TEST_F(Advising, AZeroErrorAsksForAZeroShift) {
  const VisitAdvice advice = advise("TT-110", {"0.6", "75.6", "150.6"});
  ASSERT_TRUE(advice.adjusts());
  ASSERT_TRUE(advice.zeroShift.has_value());
  EXPECT_NEAR(*advice.zeroShift, -0.6, 1e-9);
  EXPECT_FALSE(advice.spanPercent.has_value());
  ASSERT_THAT(advice.predicted, SizeIs(3));
  for (const PredictedError& predicted : advice.predicted) {
    EXPECT_NEAR(predicted.error, 0.0, 1e-9);
  }
  EXPECT_EQ(adviceText(advice),
            "Shift zero by -0.600 °C: the worst point would use 0 % of tolerance, now 160 %.");
}

TEST_F(Advising, ASpanErrorAsksForASpanChange) {
  // Errors 0, 0.75 and 1.5 on 150 lie on a line through zero: the gain is 1 % too high. The corrected reading
  // is 151.5 less the change of 1 / 1.01 parts in 150.
  const VisitAdvice advice = advise("TT-110", {"0.0", "75.75", "151.5"});
  ASSERT_TRUE(advice.adjusts()) << adviceText(advice);
  ASSERT_TRUE(advice.spanPercent.has_value());
  EXPECT_NEAR(*advice.spanPercent, -100.0 * 1.5 / 151.5, 1e-9);
  EXPECT_FALSE(advice.zeroShift.has_value());
  EXPECT_THAT(adviceText(advice), HasSubstr("Shift span by -0.990 %: the worst point would use"));
}

TEST_F(Advising, PredictionsCarryTheSequenceOfThePointsThatWereRead) {
  const VisitAdvice advice = advise("TT-110", {"0.6", "skip", "150.6"});
  ASSERT_TRUE(advice.adjusts());
  ASSERT_THAT(advice.predicted, SizeIs(2));
  EXPECT_EQ(advice.predicted[0].sequence, 1);
  EXPECT_EQ(advice.predicted[1].sequence, 3);
}

TEST_F(Advising, ErrorsOffALineAreBeyondAdjusting) {
  const VisitAdvice advice = advise("TT-110", {"0.0", "77.0", "150.0"});
  ASSERT_TRUE(advice.adjustment.has_value());
  EXPECT_EQ(advice.adjustment->advice, AdjustmentAdvice::nonLinear);
  EXPECT_TRUE(advice.cannotHelp());
  EXPECT_EQ(
      adviceText(advice),
      "Adjusting cannot help: the worst point uses 533 % of tolerance, and the errors do not lie along a "
      "line.");
}

TEST_F(Advising, HysteresisWiderThanTheToleranceIsNamed) {
  const VisitAdvice advice =
      advise("TT-101", {"0.0", "37.0", "74.4", "112.0", "150.0", "150.0", "113.0", "75.6", "38.0", "0.0"});
  ASSERT_TRUE(advice.adjustment.has_value());
  EXPECT_EQ(advice.adjustment->advice, AdjustmentAdvice::hysteresis);
  EXPECT_THAT(adviceText(advice), HasSubstr("Adjusting cannot help: "));
  EXPECT_THAT(adviceText(advice), HasSubstr("up and down readings of one point"));
  ASSERT_TRUE(advice.figures.has_value());
  ASSERT_TRUE(advice.figures->hysteresis.has_value());
  EXPECT_NEAR(*advice.figures->hysteresis, 100.0 * 1.2 / 150.0, 1e-9);
}

TEST_F(Advising, RunsCountAsCycles) {
  const VisitAdvice advice = advise("TT-102", {"0.0", "150.0", "0.3", "150.0", "0.0", "150.6"});
  ASSERT_TRUE(advice.figures.has_value());
  ASSERT_TRUE(advice.figures->repeatability.has_value());
  EXPECT_NEAR(*advice.figures->repeatability, 100.0 * 0.6 / 150.0, 1e-9);
}

TEST_F(Advising, FiguresAreInPercentOfSpan) {
  const VisitAdvice advice = advise("TT-110", {"0.3", "75.3", "150.6"});
  ASSERT_TRUE(advice.figures.has_value());
  EXPECT_NEAR(advice.figures->zeroError.value(), 0.2, 1e-9);
  EXPECT_NEAR(advice.figures->spanError.value(), 0.2, 1e-9);
  EXPECT_NEAR(advice.figures->maximumError, 0.4, 1e-9);
}

TEST_F(Advising, UnfinishedReadingsGiveFiguresButNoAdvice) {
  const VisitAdvice advice = advise("TT-110", {"0.6"});
  EXPECT_EQ(advice.gap, AdviceGap::unfinished);
  EXPECT_EQ(advice.missing, 2);
  EXPECT_FALSE(advice.adjustment.has_value());
  EXPECT_THAT(advice.predicted, IsEmpty());
  ASSERT_TRUE(advice.figures.has_value());
  EXPECT_NEAR(advice.figures->maximumError, 0.4, 1e-9);
  EXPECT_EQ(adviceText(advice),
            "Nothing can be said about adjusting: 2 points of value have neither a reading nor a reason for "
            "its lack.");
}

TEST_F(Advising, OnePointIsTooLittle) {
  EXPECT_EQ(advise("TT-110", {"0.6", "skip", "skip"}).gap, AdviceGap::tooFewPoints);
  const VisitAdvice nothing = advise("TT-110", {"skip", "skip", "skip"});
  EXPECT_EQ(nothing.gap, AdviceGap::tooFewPoints);
  EXPECT_FALSE(nothing.figures.has_value());
  EXPECT_THAT(adviceText(nothing), HasSubstr("two different test points"));
}

TEST_F(Advising, LevelsAndStatesHaveNoZeroAndSpan) {
  const VisitAdvice advice = advise("LS-301", {"13.9", "6.1"});
  EXPECT_EQ(advice.gap, AdviceGap::noValuePoints);
  EXPECT_FALSE(advice.figures.has_value());
  EXPECT_THAT(adviceText(advice), HasSubstr("no points of value"));
}

TEST_F(Advising, LossOfCommunicationHasNoPartInIt) {
  // 4-20 mA, +/- 0.04 mA; the last point is the loss of communication.
  const VisitSheet opened = sheet("FV-201");
  ASSERT_EQ(opened.points.back().role, PointRole::lossOfSignal);
  const VisitAdvice with = adviseVisit(opened, readings(opened, {"4.05", "12.05", "20.05", "0.1"}));
  const VisitAdvice without = adviseVisit(opened, readings(opened, {"4.05", "12.05", "20.05"}));
  ASSERT_TRUE(with.adjusts()) << adviceText(with);
  EXPECT_EQ(adviceText(with), adviceText(without));
  EXPECT_NEAR(with.zeroShift.value(), -0.05, 1e-9);
  EXPECT_THAT(adviceText(with), HasSubstr("-0.0500 mA"));
}

AnalogInputSetup& inputOf(Register& site, std::string_view tag) {
  return std::get<AnalogInputSetup>(
      std::find_if(site.channels.begin(), site.channels.end(), [&](const Channel& c) { return c.tag == tag; })
          ->setups.front()
          .setup.kind);
}

// 4-20 mA to 0..150 through a root. The input sees 12 and 20 mA as 12.04 and 20.16 mA: 1 % of span too much,
// with 0.25 % allowed. Taken back on the signal: 0.16 mA of 16.16 seen.
TEST_F(Advising, ThroughASquareRootTheSignalIsCorrected) {
  inputOf(site_, "TT-110").transfer = TransferKind::squareRoot;
  inputOf(site_, "TT-110").resolution = 0.0;
  inputOf(site_, "TT-110").bits = 0;
  site_.index();
  const VisitAdvice advice = advise("TT-110", {"0.0", "106.5952", "150.7481"});
  ASSERT_TRUE(advice.adjusts()) << adviceText(advice);
  EXPECT_TRUE(advice.beforeRoot);
  EXPECT_EQ(advice.correctionSpan.unit, Unit::milliampere);
  EXPECT_NEAR(advice.spanPercent.value(), -100.0 * 0.16 / 16.16, 1e-3);
  EXPECT_FALSE(advice.zeroShift.has_value()) << *advice.zeroShift;
  EXPECT_EQ(adviceText(advice),
            "Shift span by -0.990 % before the square root: the worst point would use 0 % of tolerance, now "
            "199 %.");
  ASSERT_THAT(advice.predicted, SizeIs(3));
  EXPECT_NEAR(advice.predicted[2].error, 0.0, 1e-3);
}

// An input that hands counts on takes its root later: what is read follows the signal in a line.
TEST_F(Advising, CountsFollowTheSignalEvenWithARoot) {
  AnalogInputSetup& input = inputOf(site_, "TT-110");
  input.transfer = TransferKind::squareRoot;
  input.readsAs = ReadsAs::counts;
  input.counts = Span{0, 32000, Unit::count};
  input.resolution = 0.0;
  site_.index();
  const VisitAdvice advice = advise("TT-110", {"200", "16200", "32200"});
  ASSERT_TRUE(advice.adjusts()) << adviceText(advice);
  EXPECT_FALSE(advice.beforeRoot);
  EXPECT_NEAR(advice.zeroShift.value(), -200.0, 0.5);
}

// A transmitter that takes the root is set on the side of the pressure.
TEST_F(Advising, ATransmittersRootIsCorrectedOnItsPressure) {
  site_.sensors.front().range.process = {0, 25, Unit::kilopascal};
  site_.sensors.front().range.transfer = TransferKind::squareRoot;
  site_.index();
  const VisitSheet opened = sheet("TT-101", Subject::sensor);
  // 12.5 and 25 kPa seen as 12.75 and 25.5: 4 + 16 sqrt(p / 25) mA.
  const VisitAdvice advice = adviseVisit(opened, readings(opened, {"4.000", "15.4263", "20.1592"}));
  ASSERT_TRUE(advice.adjusts()) << adviceText(advice);
  EXPECT_EQ(advice.correctionSpan.unit, Unit::kilopascal);
  EXPECT_NEAR(advice.spanPercent.value(), -100.0 * 0.5 / 25.5, 2e-2);
}

TEST_F(Advising, AToleranceOfNothingIsToldAndNotUsed) {
  const VisitSheet opened = sheet("TT-110");
  std::vector<Reading> taken = readings(opened, {"0.6", "75.6", "150.6"});
  for (Reading& reading : taken) {
    reading.limits = {0.0, 0.0};
  }
  const VisitAdvice advice = adviseVisit(opened, taken);
  EXPECT_EQ(advice.gap, AdviceGap::unusable);
  EXPECT_THAT(adviceText(advice), HasSubstr("a tolerance of nothing"));
}

// TE-501: 0..400 degC, +/- 2 degC; 0, 200 and 400 degC applied. The input is set up for type J, the couple is
// a type K: 0, 8.138 and 16.397 mV (NIST Monograph 175, type K) with the terminals at 0 degC.
TEST_F(Advising, AnotherTypeOfCoupleIsOffered) {
  for (Channel& each : site_.channels) {
    if (auto* couple = std::get_if<ThermocoupleSetup>(&each.setups.front().setup.kind)) {
      couple->type = ThermocoupleType::J;
    }
  }
  const VisitSheet opened = sheet("TE-501");
  std::vector<std::string> shown;
  for (const double millivolts : {0.0, 8.138, 16.397}) {
    shown.push_back(
        formatFixed(std::get<double>(thermocoupleCelsius(ThermocoupleType::J, Millivolts{millivolts})), 1));
  }
  const VisitAdvice advice = adviseVisit(opened, readings(opened, shown), 0.0);
  ASSERT_FALSE(advice.diagnoses.empty()) << adviceText(advice);
  const auto& fault = std::get<CoupleFault>(advice.diagnoses.front().fault);
  EXPECT_EQ(fault.kind, CoupleFaultKind::otherType);
  EXPECT_EQ(fault.actual, ThermocoupleType::K);
  EXPECT_THAT(adviceText(advice), HasSubstr(" It looks as if the couple is a type K"));
}

// An input for Pt1000 from 0 to 400 degC with a Pt100 on it: 100 to 247 ohm, a tenth of what it wants.
TEST_F(Advising, AnotherPlatinumElementIsOffered) {
  for (Channel& each : site_.channels) {
    if (std::holds_alternative<ThermocoupleSetup>(each.setups.front().setup.kind)) {
      RtdSetup rtd;
      rtd.element = RtdElement::pt1000;
      rtd.range = {0, 400, Unit::celsius};
      each.setups.front().setup.kind = rtd;
    }
  }
  const VisitAdvice advice = advise("TE-501", {"-10.0", "-10.0", "-10.0"});
  std::vector<std::string> offered;
  for (const SensorDiagnosis& each : advice.diagnoses) {
    offered.push_back(describe(each));
  }
  EXPECT_THAT(offered, testing::UnorderedElementsAre(
                           "the element or a lead is open, the input stands at its lower end",
                           "the element or its leads are shorted, the input stands at its lower end",
                           "the element is a Pt100"));
  EXPECT_THAT(adviceText(advice), HasSubstr(" It looks as if the element "));
}

TEST_F(Advising, AHealthyCoupleHasNoDiagnosis) {
  const VisitAdvice advice = advise("TE-501", {"0.2", "200.1", "400.3"});
  EXPECT_THAT(advice.diagnoses, IsEmpty());
  EXPECT_EQ(advice.adjustment.value().advice, AdjustmentAdvice::notNeeded);
}

// 0.00005 of 16 mA is less than 0.0005 % of span.
TEST_F(Advising, ATinyCorrectionIsStillTold) {
  const VisitSheet opened = sheet("FV-201");
  std::vector<Reading> taken = readings(opened, {"4.00005", "12.00005", "20.00005"});
  for (Reading& reading : taken) {
    reading.limits = {-0.00006, 0.00006};
  }
  const VisitAdvice advice = adviseVisit(opened, taken);
  ASSERT_TRUE(advice.adjusts()) << adviceText(advice);
  EXPECT_NEAR(advice.zeroShift.value(), -0.00005, 1e-12);
  EXPECT_THAT(adviceText(advice), HasSubstr("Shift zero by -0.00005"));
  EXPECT_FALSE(advice.spanPercent.has_value());
}

TEST_F(Advising, AStoredVisitIsAdvisedAsItWasMade) {
  ProposedVisit visit = test::goodVisit();
  visit.asFound = {test::typed("0.6"), test::typed("75.6"), test::typed("150.6")};
  const Calibration made = checked(visit);
  const auto advised = adviseCalibration(site_, made, Phase::asFound);
  ASSERT_TRUE(std::holds_alternative<VisitAdvice>(advised));
  EXPECT_NEAR(std::get<VisitAdvice>(advised).zeroShift.value(), -0.6, 1e-9);
  const auto left = adviseCalibration(site_, made, Phase::asLeft);
  EXPECT_FALSE(std::get<VisitAdvice>(left).figures.has_value());
  for (Channel& each : site_.channels) {
    each.routines.clear();
  }
  site_.index();
  EXPECT_TRUE(std::holds_alternative<Problem>(adviseCalibration(site_, made, Phase::asFound)));
}

TEST(AdviceText, APercentageBesideTheLimitKeepsADecimal) {
  EXPECT_EQ(toleranceDecimals(1.002), 1);
  EXPECT_EQ(toleranceDecimals(0.998), 1);
  EXPECT_EQ(toleranceDecimals(1.0), 0);
  EXPECT_EQ(toleranceDecimals(0.42), 0);
}

}  // namespace
}  // namespace spanwright
