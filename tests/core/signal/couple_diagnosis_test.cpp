// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/couple_diagnosis.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>
#include <set>

#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::kInf;
using test::kNan;
using test::valueOf;
using test::why;

using Kind = CoupleFaultKind;

CoupleInput typeK(double low = -200.0, double high = 1200.0) {
  return {ThermocoupleType::K, {{low}, {high}}, {23.0}};
}

const std::vector<double> kApplied{0.0, 100.0, 200.0, 300.0, 400.0};

/// Readings of an input with this fault, each with `noise` K added; at or beyond an end of its range the end
/// itself.
TemperatureObservations readingsWith(const CoupleInput& input, const CoupleFault& fault,
                                     const std::vector<double>& applied,
                                     const std::function<double()>& noise) {
  TemperatureObservations seen;
  for (const double t : applied) {
    const Expected reading = predictedReading(input, fault, {t});
    if (const auto* value = std::get_if<double>(&reading))
      seen.push_back({{t}, {*value + noise()}});
    else if (reading == why(RangeResult::belowRange) || reading == why(RangeResult::belowFunction))
      seen.push_back({{t}, input.range.low});
    else
      seen.push_back({{t}, input.range.high});
  }
  return seen;
}

double noNoise() {
  return 0.0;
}

std::vector<CoupleDiagnosis> offeredOf(const CoupleAnswer& answer) {
  if (const auto* offer = std::get_if<CoupleOffer>(&answer))
    return offer->diagnoses;
  ADD_FAILURE() << text(std::get<NoDiagnosis>(answer));
  return {};
}

std::optional<NoDiagnosis> reasonOf(const CoupleAnswer& answer) {
  const auto* reason = std::get_if<NoDiagnosis>(&answer);
  return reason == nullptr ? std::nullopt : std::optional(*reason);
}

TEST(CoupleFaults, ReadAsTheirCircuits) {
  const CoupleInput input = typeK();
  // By the printed table of type K: 0, 25 and 50 degC are 0, 1.000 and 2.023 mV.
  CoupleInput warm = input;
  warm.terminals = {25.0};
  const double reversed = valueOf(predictedReading(warm, {Kind::reversed, ThermocoupleType::K, {}}, {50.0}));
  EXPECT_NEAR(valueOf(thermocoupleMillivolts(ThermocoupleType::K, {reversed})), 2.0 * 1.000 - 2.023, 0.0016);
  EXPECT_NEAR(valueOf(predictedReading(warm, {Kind::reversed, ThermocoupleType::K, {}}, {25.0})), 25.0, 1e-9);
  EXPECT_EQ(predictedReading(input, {Kind::reversed, ThermocoupleType::K, {}}, {1000.0}),
            why(RangeResult::belowFunction));

  EXPECT_EQ(valueOf(predictedReading(input, {Kind::shorted, ThermocoupleType::K, {31.0}}, {400.0})), 31.0);
  EXPECT_EQ(predictedReading(input, {Kind::openHigh, ThermocoupleType::K, {}}, {400.0}),
            why(RangeResult::aboveRange));
  EXPECT_EQ(predictedReading(input, {Kind::openLow, ThermocoupleType::K, {}}, {400.0}),
            why(RangeResult::belowRange));

  // A type J where K is set up: 400 degC less 0 degC of J is 21.848 mV, read with the terminals at 0 degC.
  CoupleInput cold = input;
  cold.terminals = {0.0};
  const double other = valueOf(predictedReading(cold, {Kind::otherType, ThermocoupleType::J, {}}, {400.0}));
  EXPECT_NEAR(valueOf(thermocoupleMillivolts(ThermocoupleType::K, {other})), 21.848, 0.0005);
  EXPECT_EQ(predictedReading(input, {Kind::otherType, ThermocoupleType::B, {}}, {-100.0}),
            why(RangeResult::belowFunction));

  // The reference taken right is no fault; taken 10 K too warm reads about 10 K too much.
  EXPECT_NEAR(valueOf(predictedReading(input, {Kind::otherReference, ThermocoupleType::K, {23.0}}, {100.0})),
              100.0, 1e-9);
  EXPECT_NEAR(valueOf(predictedReading(input, {Kind::otherReference, ThermocoupleType::K, {33.0}}, {100.0})),
              109.8, 0.1);
  // Reversed extension: twice the difference of join and terminals, the other way.
  EXPECT_NEAR(
      valueOf(predictedReading(input, {Kind::extensionReversed, ThermocoupleType::K, {28.0}}, {100.0})), 90.2,
      0.1);
  EXPECT_NEAR(
      valueOf(predictedReading(input, {Kind::extensionReversed, ThermocoupleType::K, {23.0}}, {100.0})),
      100.0, 1e-9);
  // 4.096 mV, meant for 100 degC, at terminals of 25 degC is 124.31 degC (a row of
  // thermocouple_cold_junction_examples.csv; 4.096 is 100 degC to within 0.006 K).
  EXPECT_NEAR(valueOf(predictedReading(input, {Kind::copperLeads, ThermocoupleType::K, {25.0}}, {100.0})),
              124.3099, 0.006);
}

TEST(CoupleFaults, OutsideTheInputsRangeIsNamed) {
  const CoupleInput narrow = typeK(0.0, 300.0);
  EXPECT_EQ(predictedReading(narrow, {Kind::reversed, ThermocoupleType::K, {}}, {100.0}),
            why(RangeResult::belowRange));
  EXPECT_EQ(predictedReading(narrow, {Kind::otherType, ThermocoupleType::E, {}}, {290.0}),
            why(RangeResult::aboveRange));
}

TEST(CoupleDiagnosis, FindsEachFaultAgainUnderNoise) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::normal_distribution<double> scatter(0.0, 0.15);
  const auto noise = [&] { return scatter(random); };
  const CoupleInput input = typeK();
  std::vector<CoupleFault> faults{{Kind::openHigh, ThermocoupleType::K, {}},
                                  {Kind::openLow, ThermocoupleType::K, {}},
                                  {Kind::reversed, ThermocoupleType::K, {}},
                                  {Kind::shorted, ThermocoupleType::K, {26.0}}};
  for (const auto type : {ThermocoupleType::E, ThermocoupleType::J, ThermocoupleType::N, ThermocoupleType::R,
                          ThermocoupleType::S, ThermocoupleType::T})
    faults.push_back({Kind::otherType, type, {}});
  for (const CoupleFault& fault : faults) {
    const std::vector<double> applied = fault.kind == Kind::reversed
                                            ? std::vector<double>{0.0, 25.0, 50.0, 75.0, 100.0}
                                            : std::vector<double>{20.0, 100.0, 200.0, 300.0, 380.0};
    const auto offered = offeredOf(diagnoseCouple(input, readingsWith(input, fault, applied, noise), 1.0));
    ASSERT_FALSE(offered.empty()) << describe(fault);
    EXPECT_EQ(offered.front().fault.kind, fault.kind)
        << describe(fault) << " taken for " << describe(offered.front().fault);
    if (fault.kind == Kind::otherType) {
      // Type R and S differ by less than this noise when read as type K; either may come first, both are
      // offered.
      const bool platinum = fault.actual == ThermocoupleType::R || fault.actual == ThermocoupleType::S;
      const auto same = std::find_if(offered.begin(), offered.end(), [&](const CoupleDiagnosis& d) {
        return d.fault.actual == fault.actual;
      });
      EXPECT_NE(same, offered.end()) << describe(fault);
      if (!platinum) {
        EXPECT_EQ(offered.front().fault.actual, fault.actual) << describe(fault);
      }
    }
    if (fault.kind == Kind::shorted) {
      EXPECT_NEAR(offered.front().fault.place.value, 26.0, 0.5);
    }
    EXPECT_LT(offered.front().residual, 0.6) << describe(fault);
    for (std::size_t i = 1; i < offered.size(); ++i)
      EXPECT_LE(offered[i - 1].residual, offered[i].residual);
  }
}

TEST(CoupleDiagnosis, TellsAWrongReferenceWhereTheFunctionIsCurved) {
  // Type S from 50 to 1400 degC: one emf too much is 5.5 K at the bottom and 2.7 K at the top.
  const CoupleInput input{ThermocoupleType::S, {{0.0}, {1600.0}}, {23.0}};
  const CoupleFault fault{Kind::otherReference, ThermocoupleType::S, {53.0}};
  const auto seen = readingsWith(input, fault, {50.0, 150.0, 300.0, 600.0, 1400.0}, noNoise);
  const auto offered = offeredOf(diagnoseCouple(input, seen, 0.5));
  ASSERT_EQ(offered.size(), 2u);
  // One emf cannot tell a warm reference from a reversed extension: both are offered.
  std::set<Kind> kinds;
  for (const CoupleDiagnosis& each : offered) {
    kinds.insert(each.fault.kind);
    EXPECT_LT(each.residual, 1e-3);
    if (each.fault.kind == Kind::otherReference) {
      EXPECT_NEAR(each.fault.place.value, 53.0, 1e-3);
    } else {
      // 2 E(terminals) - 2 E(join) is the emf too much.
      const auto emf = [](double t) { return valueOf(thermocoupleMillivolts(ThermocoupleType::S, {t})); };
      EXPECT_NEAR(2.0 * emf(23.0) - 2.0 * emf(each.fault.place.value), emf(53.0) - emf(23.0), 1e-6);
    }
  }
  EXPECT_EQ(kinds, (std::set<Kind>{Kind::otherReference, Kind::extensionReversed}));
}

TEST(CoupleDiagnosis, OffersNothingForAPlainError) {
  const CoupleInput input = typeK();
  const auto withError = [](auto error) {
    TemperatureObservations seen;
    for (const double t : kApplied)
      seen.push_back({{t}, {t + error(t)}});
    return seen;
  };
  EXPECT_EQ(reasonOf(diagnoseCouple(input, withError([](double t) { return 2.0 + 0.01 * t; }), 0.5)),
            NoDiagnosis::plainError);
  // With type K a wrong reference looks like a zero error, and is not offered.
  EXPECT_EQ(
      reasonOf(diagnoseCouple(
          input, readingsWith(input, {Kind::otherReference, ThermocoupleType::K, {33.0}}, kApplied, noNoise),
          0.5)),
      NoDiagnosis::plainError);
  EXPECT_EQ(reasonOf(diagnoseCouple(input, withError([](double) { return 0.4; }), 0.5)),
            NoDiagnosis::noError);
  EXPECT_EQ(reasonOf(diagnoseCouple(input, withError([](double t) { return t == 200.0 ? 30.0 : 0.0; }), 0.5)),
            NoDiagnosis::noneFits);
  EXPECT_EQ(reasonOf(diagnoseCouple(input, withError([](double t) { return -0.3 * t; }), 0.5)),
            NoDiagnosis::noneFits);
}

TEST(CoupleDiagnosis, NeverOffersForRandomScatter) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> zero(-5.0, 5.0);
  std::uniform_real_distribution<double> span(-0.03, 0.03);
  std::normal_distribution<double> scatter(0.0, 0.5);
  for (int i = 0; i < 500; ++i) {
    const double a = zero(random);
    const double b = span(random);
    TemperatureObservations seen;
    for (const double t : {0.0, 250.0, 500.0, 750.0, 1000.0})
      seen.push_back({{t}, {t + a + b * t + scatter(random)}});
    EXPECT_TRUE(reasonOf(diagnoseCouple(typeK(), seen, 0.5)).has_value()) << i;
  }
}

TEST(CoupleDiagnosis, NeedsEnoughAndRealReadings) {
  const CoupleInput input = typeK();
  EXPECT_EQ(reasonOf(diagnoseCouple(input, {}, 1.0)), NoDiagnosis::tooFewPoints);
  EXPECT_EQ(reasonOf(diagnoseCouple(input, {{{0.0}, {9.0}}, {{0.4}, {9.0}}, {{100.0}, {9.0}}}, 1.0)),
            NoDiagnosis::tooFewPoints);
  for (const double bad : {kNan, kInf}) {
    EXPECT_EQ(reasonOf(diagnoseCouple(input, {{{0.0}, {bad}}, {{50.0}, {9.0}}, {{100.0}, {9.0}}}, 1.0)),
              NoDiagnosis::notANumber);
    EXPECT_EQ(reasonOf(diagnoseCouple(input, {{{bad}, {1.0}}, {{50.0}, {9.0}}, {{100.0}, {9.0}}}, 1.0)),
              NoDiagnosis::notANumber);
  }
}

TEST(CoupleDiagnosis, SaturatedReadingsAloneAreAnOpenCoupleNotAReversedOne) {
  // An input from 0 degC with a reversed couple stands at its lower end everywhere: nothing tells it from a
  // broken wire, so the fault that needs readings inside the range is not offered.
  const CoupleInput input = typeK(0.0, 400.0);
  const auto seen =
      readingsWith(input, {Kind::reversed, ThermocoupleType::K, {}}, {100.0, 200.0, 300.0, 400.0}, noNoise);
  const auto offered = offeredOf(diagnoseCouple(input, seen, 1.0));
  ASSERT_EQ(offered.size(), 2u);
  EXPECT_EQ(offered[0].fault.kind, Kind::openLow);
  EXPECT_EQ(offered[1].fault.kind, Kind::shorted);  // at 0 degC, which is a place too
}

// Each on both sides of what a cabinet's temperature can be, of the tolerance, and of the readings it needs.
TEST(CoupleDiagnosis, CopperLeadsAreOfferedForTheTemperatureOfACabinetOnly) {
  const CoupleInput input = typeK();
  const auto at = [&](double terminals, std::optional<Celsius> ambient, double tolerance = 2.0,
                      std::vector<double> applied = {0.0, 200.0, 400.0}) {
    TemperatureObservations seen;
    for (const double each : applied)
      seen.push_back({{each},
                      {valueOf(predictedReading(input, {Kind::copperLeads, ThermocoupleType::K, {terminals}},
                                                {each}))}});
    return diagnoseCopperLeads(input, seen, tolerance, ambient);
  };
  const auto usual = at(23.0, std::nullopt);
  ASSERT_TRUE(usual.has_value());
  EXPECT_NEAR(usual->fault.place.value, 23.0, 0.01);
  EXPECT_LT(usual->residual, 0.01);
  EXPECT_TRUE(at(10.5, std::nullopt) && at(39.5, std::nullopt));
  EXPECT_FALSE(at(9.5, std::nullopt) || at(40.5, std::nullopt));
  EXPECT_TRUE(at(-4.5, Celsius{0.0}) && at(14.5, Celsius{0.0}));
  EXPECT_FALSE(at(-5.5, Celsius{0.0}) || at(15.5, Celsius{0.0}));
  EXPECT_FALSE(at(23.0, std::nullopt, 30.0));               // inside the tolerance
  EXPECT_FALSE(at(23.0, std::nullopt, 2.0, {0.0, 200.0}));  // two readings tell nothing
  // A span error of 5 % over 400 degC does not look so.
  EXPECT_FALSE(diagnoseCopperLeads(input, {{{0.0}, {0.0}}, {{200.0}, {220.0}}, {{400.0}, {440.0}}}, 2.0,
                                   std::nullopt));
}

TEST(CoupleDiagnosis, SaysEverythingInWords) {
  for (const auto kind : {Kind::openHigh, Kind::openLow, Kind::shorted, Kind::reversed, Kind::otherType,
                          Kind::otherReference, Kind::extensionReversed, Kind::copperLeads})
    EXPECT_FALSE(describe({kind, ThermocoupleType::J, {25.0}}).empty());
  EXPECT_EQ(describe({Kind::otherType, ThermocoupleType::J, {}}), "the couple is a type J");
  EXPECT_EQ(describe({Kind::shorted, ThermocoupleType::K, {25.04}}),
            "the leads are shorted where it is 25.0 degC");
}

}  // namespace
}  // namespace spanwright
