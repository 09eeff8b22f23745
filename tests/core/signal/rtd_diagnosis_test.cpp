// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/rtd_diagnosis.h"

#include <random>

#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::kNan;
using test::valueOf;
using test::why;

const RtdInput kPt100{RtdElement::pt100, {{-50.0}, {250.0}}};

TemperatureObservations readingsWith(const RtdInput& input, const RtdFault& fault,
                                     const std::vector<double>& applied, double noise = 0.0) {
  std::mt19937 random(20261125);
  std::normal_distribution<double> normal(0.0, noise > 0.0 ? noise : 1.0);
  TemperatureObservations observations;
  for (const double t : applied) {
    const Expected shown = predictedReading(input, fault, {t});
    double reading = 0.0;
    if (const auto* value = std::get_if<double>(&shown))
      reading = *value + (noise > 0.0 ? normal(random) : 0.0);
    else
      reading = std::get<RangeResult>(shown) == RangeResult::aboveRange ||
                        std::get<RangeResult>(shown) == RangeResult::aboveFunction
                    ? input.range.high.value + 5.0
                    : input.range.low.value - 5.0;
    observations.push_back({{t}, {reading}});
  }
  return observations;
}

std::vector<std::string> offered(const RtdInput& input, const TemperatureObservations& observations) {
  const RtdAnswer answer = diagnoseRtd(input, observations, 0.5);
  std::vector<std::string> texts;
  if (const auto* diagnoses = std::get_if<std::vector<RtdDiagnosis>>(&answer))
    for (const RtdDiagnosis& each : *diagnoses)
      texts.push_back(describe(each.fault));
  return texts;
}

const std::vector<double> kApplied{0.0, 50.0, 100.0, 150.0, 200.0};
const std::string kOpenHigh = "the element or a lead is open, the input stands at its upper end";
const std::string kOpenLow = "the element or a lead is open, the input stands at its lower end";
const std::string kShorted = "the element or its leads are shorted, the input stands at its lower end";

TEST(RtdDiagnosis, APt1000OnAPt100InputReadsTenTimesTheResistance) {
  // 1000 ohm and more is above everything a Pt100 has (390.48 ohm at 850 degC, IEC 60751).
  EXPECT_EQ(predictedReading(kPt100, {RtdFaultKind::otherElement, RtdElement::pt1000}, {0.0}),
            why(RangeResult::aboveFunction));
  // At -180 degC it has 270.96 ohm (ten times the 27.10 ohm of the Pt100 table), which a Pt100 has at 471.2
  // degC.
  const RtdInput wide{RtdElement::pt100, {{-200.0}, {850.0}}};
  const double ohms = 10.0 * valueOf(rtdOhms(RtdElement::pt100, {-180.0}));
  EXPECT_NEAR(ohms, 271.0, 0.05);
  EXPECT_NEAR(valueOf(predictedReading(wide, {RtdFaultKind::otherElement, RtdElement::pt1000}, {-180.0})),
              valueOf(rtdCelsius(RtdElement::pt100, {ohms})), 1e-6);
}

TEST(RtdDiagnosis, FaultsThatStandAtOneEndAreOfferedTogether) {
  const auto high = offered(kPt100, readingsWith(kPt100, {RtdFaultKind::openHigh, {}}, kApplied));
  EXPECT_EQ(high, (std::vector<std::string>{kOpenHigh, "the element is a Pt1000"}));
  const auto low = offered(kPt100, readingsWith(kPt100, {RtdFaultKind::shorted, {}}, kApplied));
  EXPECT_EQ(low, (std::vector<std::string>{kOpenLow, kShorted}));
  const RtdInput pt1000{RtdElement::pt1000, kPt100.range};
  EXPECT_EQ(offered(pt1000, readingsWith(pt1000, {RtdFaultKind::openLow, {}}, kApplied)),
            (std::vector<std::string>{kOpenLow, kShorted, "the element is a Pt100"}));
}

TEST(RtdDiagnosis, AnotherElementIsToldFromABreakWhereItReads) {
  // A Pt100 from 300 degC on has more than the 185.2 ohm that a Pt1000 has at -200 degC.
  const RtdInput input{RtdElement::pt1000, {{-200.0}, {600.0}}};
  const auto seen =
      readingsWith(input, {RtdFaultKind::otherElement, RtdElement::pt100}, {300, 400, 500, 600}, 0.1);
  EXPECT_EQ(offered(input, seen), (std::vector<std::string>{"the element is a Pt100"}));
}

TEST(RtdDiagnosis, OffersNothingWithoutReason) {
  const auto answerTo = [](const TemperatureObservations& seen) { return diagnoseRtd(kPt100, seen, 0.5); };
  const auto none = [](const RtdAnswer& answer) { return std::get<NoDiagnosis>(answer); };
  EXPECT_EQ(none(answerTo({{{0}, {0.1}}, {{100}, {100.2}}, {{200}, {200.3}}})), NoDiagnosis::noError);
  // Leads that add 5 ohm: 13 K all over, a plain zero error.
  TemperatureObservations leads;
  for (const double t : kApplied)
    leads.push_back(
        {{t}, {valueOf(rtdCelsius(RtdElement::pt100, {valueOf(rtdOhms(RtdElement::pt100, {t})) + 5.0}))}});
  EXPECT_EQ(none(answerTo(leads)), NoDiagnosis::plainError);
  EXPECT_EQ(none(answerTo({{{0}, {250}}, {{100}, {250}}})), NoDiagnosis::tooFewPoints);
  EXPECT_EQ(none(answerTo({{{0}, {kNan}}, {{100}, {250}}, {{200}, {250}}})), NoDiagnosis::notANumber);
  EXPECT_EQ(none(answerTo({{{0}, {40}}, {{100}, {20}}, {{200}, {90}}})), NoDiagnosis::noneFits);
}

}  // namespace
}  // namespace spanwright
