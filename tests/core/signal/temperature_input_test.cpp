// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "core/signal/rtd.h"
#include "core/signal/thermocouple.h"
#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::expectThereAndBack;
using test::kNan;
using test::numberIn;
using test::readReferenceCsv;
using test::signalReference;
using test::valueOf;
using test::why;

ThermocoupleSetup couple(ThermocoupleType type, double low, double high, Unit unit = Unit::celsius) {
  ThermocoupleSetup setup;
  setup.type = type;
  setup.range = {low, high, unit};
  return setup;
}

RtdSetup platinum(double low, double high, bool tenths = false) {
  RtdSetup setup;
  setup.range = {low, high, Unit::celsius};
  setup.readsTenths = tenths;
  return setup;
}

template <typename Setup>
PointModelPtr model(const Setup& setup) {
  EXPECT_TRUE(setupFaults({setup}).empty());
  return channelModel({setup});
}

TEST(TemperatureInput, TenthsReadTenTimesTheTemperature) {
  for (const auto& row : readReferenceCsv(signalReference("common_practice.csv"))) {
    if (row.at("case") != "temperature reported in tenths of a degree")
      continue;
    const auto input = model(platinum(0.0, 200.0, true));
    const double applied =
        valueOf(input->normaliseApplied({parseQuantity(row.at("given"))->value, Unit::celsius}));
    EXPECT_DOUBLE_EQ(valueOf(input->expected(applied)), numberIn(row, "expected"));
    EXPECT_EQ(input->readingSpan(), (Span{0.0, 2000.0, Unit::count}));
    EXPECT_EQ(input->step(), 1.0);
    EXPECT_DOUBLE_EQ(valueOf(input->normaliseReading({100.0, Unit::celsius})), 1000.0);
    EXPECT_DOUBLE_EQ(valueOf(input->normaliseReading({1000.0, Unit::count})), 1000.0);
    EXPECT_DOUBLE_EQ(valueOf(input->appliedFor(1000.0)), 100.0);
    const ErrorForms forms = input->errorForms(1000.0, 1003.0);
    EXPECT_DOUBLE_EQ(forms.counts.value(), 3.0);
    EXPECT_DOUBLE_EQ(forms.units.value(), 0.3);
    EXPECT_DOUBLE_EQ(forms.percentOfSpan, 0.15);
    return;
  }
  FAIL() << "the reference row is missing";
}

TEST(TemperatureInput, StepIsTheShownResolution) {
  ThermocoupleSetup setup = couple(ThermocoupleType::K, 0.0, 1200.0);
  EXPECT_DOUBLE_EQ(model(setup)->step(), 0.1);
  setup.resolution = 1.0;
  EXPECT_DOUBLE_EQ(model(setup)->step(), 1.0);
  setup.readsTenths = true;
  EXPECT_DOUBLE_EQ(model(setup)->step(), 10.0);
  setup.resolution = 0.0;
  EXPECT_DOUBLE_EQ(model(setup)->step(), 1.0);
}

TEST(TemperatureInput, TakesMillivoltsWithTheReferenceJunction) {
  const auto input = model(couple(ThermocoupleType::K, 0.0, 1200.0));
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("thermocouple_cold_junction_examples.csv"))) {
    if (row.at("type") != "K" || row.at("case") != "compensate")
      continue;
    const Quantity emf{numberIn(row, "emf_measured_mV"), Unit::millivolt};
    const Celsius reference{numberIn(row, "t_reference_degC")};
    EXPECT_NEAR(valueOf(input->normaliseApplied(emf, reference)), numberIn(row, "t_hot_expected_degC"),
                0.51e-4);
    const Quantity microvolts{1000.0 * emf.value, Unit::microvolt};
    EXPECT_NEAR(valueOf(input->normaliseApplied(microvolts, reference)), numberIn(row, "t_hot_expected_degC"),
                0.51e-4);
    ++checked;
  }
  EXPECT_EQ(checked, 2);
  EXPECT_EQ(input->normaliseApplied({80.0, Unit::millivolt}), why(RangeResult::aboveFunction));
  EXPECT_EQ(input->normaliseApplied({kNan, Unit::millivolt}), why(RangeResult::notANumber));
  EXPECT_EQ(input->normaliseApplied({100.0, Unit::ohm}), why(RangeResult::wrongUnit));
  EXPECT_EQ(input->normaliseReading({100.0, Unit::count}), why(RangeResult::wrongUnit));
}

TEST(TemperatureInput, TakesOhms) {
  const auto input = model(platinum(-50.0, 200.0));
  EXPECT_NEAR(valueOf(input->normaliseApplied({138.5055, Unit::ohm})), 100.0, 1e-9);
  EXPECT_NEAR(valueOf(input->normaliseApplied({0.1385055, Unit::kiloohm})), 100.0, 1e-9);
  EXPECT_EQ(input->normaliseApplied({10.0, Unit::ohm}), why(RangeResult::belowFunction));
  EXPECT_EQ(input->normaliseApplied({1.0, Unit::millivolt}), why(RangeResult::wrongUnit));
}

TEST(TemperatureInput, WorksInFahrenheit) {
  const auto input = model(couple(ThermocoupleType::J, 32.0, 932.0, Unit::fahrenheit));
  EXPECT_DOUBLE_EQ(valueOf(input->expected(212.0)), 212.0);
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseApplied({100.0, Unit::celsius})), 212.0);
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseReading({100.0, Unit::celsius})), 212.0);
  const double emf = valueOf(thermocoupleMillivolts(ThermocoupleType::J, {100.0}));
  EXPECT_NEAR(valueOf(input->normaliseApplied({emf, Unit::millivolt})), 212.0, 1e-9);
  const ErrorForms forms = input->errorForms(212.0, 213.8);  // 1 K
  EXPECT_NEAR(forms.signal.value(),
              valueOf(seebeckMicrovoltsPerKelvin(ThermocoupleType::J, {100.0})) / 1000.0, 1e-9);
  EXPECT_EQ(forms.signalUnit, Unit::millivolt);
}

TEST(TemperatureInput, NamesWhatIsOutside) {
  const auto input = model(couple(ThermocoupleType::K, 0.0, 1000.0));
  EXPECT_EQ(valueOf(input->expected(1050.0)), 1050.0);
  EXPECT_EQ(input->expected(1050.1), why(RangeResult::aboveRange));
  EXPECT_EQ(input->expected(-50.1), why(RangeResult::belowRange));
  EXPECT_EQ(input->expected(kNan), why(RangeResult::notANumber));
  EXPECT_EQ(input->appliedFor(kNan), why(RangeResult::notANumber));
  const auto whole = model(couple(ThermocoupleType::K, -270.0, 1372.0));
  EXPECT_EQ(whole->expected(1380.0), why(RangeResult::aboveFunction));
  EXPECT_EQ(whole->expected(-275.0), why(RangeResult::belowFunction));
  EXPECT_EQ(model(platinum(-200.0, 850.0))->expected(860.0), why(RangeResult::aboveFunction));
  const auto B = model(couple(ThermocoupleType::B, 0.0, 1800.0));
  EXPECT_EQ(B->expected(20.0), why(RangeResult::notMonotonic));
  EXPECT_EQ(B->appliedFor(20.0), why(RangeResult::notMonotonic));
  EXPECT_EQ(valueOf(B->expected(300.0)), 300.0);
}

TEST(TemperatureInput, GoesThereAndBack) {
  expectThereAndBack(*model(couple(ThermocoupleType::K, -200.0, 1200.0)));
  expectThereAndBack(*model(couple(ThermocoupleType::B, 100.0, 1700.0)), -0.03);  // down to 52 degC
  expectThereAndBack(*model(couple(ThermocoupleType::T, -300.0, 700.0, Unit::fahrenheit)));
  expectThereAndBack(*model(platinum(-100.0, 600.0, true)));
}

TEST(TemperatureInput, TellsThePlatinumErrorInOhms) {
  const ErrorForms forms = model(platinum(0.0, 200.0))->errorForms(100.0, 100.5);
  EXPECT_NEAR(forms.signal.value(), 0.5 * 0.379280, 1e-9);  // dR/dt = R0 (A + 2 B t) at 100 degC
  EXPECT_EQ(forms.signalUnit, Unit::ohm);
  EXPECT_FALSE(forms.counts.has_value());
  EXPECT_DOUBLE_EQ(forms.percentOfSpan, 0.25);
}

}  // namespace
}  // namespace spanwright
