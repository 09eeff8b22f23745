// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/leads.h"

#include <cmath>
#include <random>

#include "core/signal/rtd.h"
#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::kInf;
using test::kNan;
using test::valueOf;

LeadEffect effectOf(const LeadAnswer& answer) {
  if (const auto* effect = std::get_if<LeadEffect>(&answer))
    return *effect;
  ADD_FAILURE() << rangeText(std::get<RangeResult>(answer));
  return {kNan, kNan, {kNan}};
}

std::optional<RangeResult> reasonOf(const LeadAnswer& answer) {
  const auto* reason = std::get_if<RangeResult>(&answer);
  return reason == nullptr ? std::nullopt : std::optional(*reason);
}

/// The voltages of the circuit itself at 1 mA, worked out lead by lead: a second road to the closed forms.
double seenByCircuit(int wires, double element, const LeadResistances& leads, ThreeWireMethod method) {
  const double milliampere = 1.0;
  const double through = milliampere * (leads.first + element + leads.second);
  if (wires == 2)
    return through / milliampere;
  if (wires == 4)  // sensed at the element by two leads without current
    return milliampere * element / milliampere;
  if (method == ThreeWireMethod::byVoltages) {
    // Current in by lead 1 and out by lead 2; lead 3 senses the join without current.
    const double acrossElement = milliampere * (leads.first + element);
    const double acrossReturn = milliampere * leads.second;
    return (acrossElement - acrossReturn) / milliampere;
  }
  // First through 1 and 2, then through 2 and 3.
  return (through - milliampere * (leads.second + leads.third)) / milliampere;
}

TEST(Leads, AddWhatTheCircuitAdds) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> ohms(0.0, 10.0);
  std::uniform_real_distribution<double> temperatures(-150.0, 750.0);
  for (int i = 0; i < 1000; ++i) {
    const LeadResistances leads{ohms(random), ohms(random), ohms(random), ohms(random)};
    const Celsius at{temperatures(random)};
    const double element = valueOf(rtdOhms(RtdElement::pt100, at));
    for (const int wires : {2, 3, 4}) {
      for (const auto method : {ThreeWireMethod::byVoltages, ThreeWireMethod::byLoop}) {
        const double seen = seenByCircuit(wires, element, leads, method);
        const LeadEffect effect = effectOf(leadEffect(RtdElement::pt100, at, wires, leads, method));
        ASSERT_NEAR(effect.ohms, seen - element, 1e-11) << wires;
        ASSERT_NEAR(effect.shown.value, valueOf(rtdCelsius(RtdElement::pt100, {seen})), 1e-7) << wires;
        ASSERT_NEAR(effect.kelvin, effect.shown.value - at.value, 1e-12);
      }
    }
  }
}

TEST(Leads, OneOhmIsTwoAndAHalfKelvinAtZero) {
  const LeadEffect two = effectOf(leadEffect(RtdElement::pt100, {0.0}, 2, {0.5, 0.5, 0.0, 0.0}));
  EXPECT_EQ(two.ohms, 1.0);
  // 1 ohm over A R0 = 0.39083 ohm/K, and a little for the curve: t = (A - sqrt(A^2 + 4 B 0.01)) / (-2 B), by
  // hand.
  EXPECT_NEAR(two.kelvin, 2.5596253, 1e-7);
  const LeadEffect thousand = effectOf(leadEffect(RtdElement::pt1000, {0.0}, 2, {0.5, 0.5, 0.0, 0.0}));
  EXPECT_NEAR(thousand.kelvin, two.kelvin / 10.0, 1e-3);
}

TEST(Leads, EqualLeadsCancelWithThreeWiresAndUnequalOnesDoNot) {
  EXPECT_EQ(leadErrorOhms(3, {2.0, 2.0, 2.0, 0.0}), 0.0);
  EXPECT_EQ(leadErrorOhms(3, {2.0, 2.0, 5.0, 0.0}, ThreeWireMethod::byVoltages), 0.0);
  EXPECT_EQ(leadErrorOhms(3, {2.0, 2.0, 5.0, 0.0}, ThreeWireMethod::byLoop), -3.0);
  EXPECT_EQ(leadErrorOhms(3, {2.5, 2.0, 2.0, 0.0}), 0.5);
  EXPECT_EQ(leadErrorOhms(4, {9.0, 1.0, 5.0, 3.0}), 0.0);
  EXPECT_EQ(effectOf(leadEffect(RtdElement::pt100, {123.4}, 4, {9.0, 1.0, 5.0, 3.0})).kelvin, 0.0);
}

TEST(Leads, LeavingTheFunctionIsNamed) {
  EXPECT_EQ(reasonOf(leadEffect(RtdElement::pt100, {849.0}, 2, {5.0, 5.0, 0.0, 0.0})),
            RangeResult::aboveFunction);
  EXPECT_EQ(reasonOf(leadEffect(RtdElement::pt100, {-199.0}, 3, {0.0, 5.0, 0.0, 0.0})),
            RangeResult::belowFunction);
  EXPECT_EQ(reasonOf(leadEffect(RtdElement::pt100, {900.0}, 4, {})), RangeResult::aboveFunction);
  EXPECT_EQ(reasonOf(leadEffect(RtdElement::pt100, {kNan}, 2, {})), RangeResult::notANumber);
}

TEST(Leads, FaultsAreNamed) {
  EXPECT_TRUE(leadFaults(2, {0.0, 0.0, kNan, -1.0}).empty());  // leads two wires do not have
  EXPECT_EQ(leadFaults(5, {}).size(), 1u);
  EXPECT_EQ(leadFaults(1, {}).size(), 1u);
  EXPECT_EQ(leadFaults(3, {-0.1, kInf, kNan, 0.0}).size(), 3u);
  EXPECT_NE(leadFaults(2, {0.0, -1.0, 0.0, 0.0}).at(0).find("second"), std::string::npos);
}

TEST(Leads, CopperHasItsResistance) {
  // 58 m of 1 mm2 is one ohm at 20 degC by the definition of the international standard of copper.
  EXPECT_NEAR(copperLeadOhms(58.0, 1.0), 1.0, 1e-15);
  EXPECT_NEAR(copperLeadOhms(58.0, 0.5), 2.0, 1e-15);
  EXPECT_NEAR(copperLeadOhms(58.0, 1.0, {30.0}), 1.0393, 1e-12);
  EXPECT_EQ(copperLeadOhms(0.0, 1.0), 0.0);
}

}  // namespace

}  // namespace spanwright
