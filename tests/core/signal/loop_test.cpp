// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sensor on its own, and sensor and channel end to end.
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

SensorRange transmitter(Span process, Span output, TransferKind transfer = TransferKind::linear) {
  SensorRange sensor;
  sensor.process = process;
  sensor.output = output;
  sensor.transfer = transfer;
  return sensor;
}

SensorRange bare(ThermocoupleType type, double low, double high, Unit unit = Unit::celsius) {
  SensorRange sensor;
  sensor.process = {low, high, unit};
  sensor.thermocouple = type;
  return sensor;
}

SensorRange bare(RtdElement element, double low, double high) {
  SensorRange sensor;
  sensor.process = {low, high, Unit::celsius};
  sensor.rtd = element;
  return sensor;
}

AnalogInputSetup currentInput(Span units, TransferKind transfer = TransferKind::linear) {
  AnalogInputSetup setup;
  setup.signal = {4.0, 20.0, Unit::milliampere};
  setup.counts = Span{0.0, 32000.0, Unit::count};
  setup.units = units;
  setup.transfer = transfer;
  return setup;
}

constexpr Span kCurrent{4.0, 20.0, Unit::milliampere};

TEST(Sensor, ScalesThePublishedExamples) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("linear_scaling_examples.csv"))) {
    const Span in{numberIn(row, "in_low"), numberIn(row, "in_high"), parseUnit(row.at("in_unit")).value()};
    const Span out{numberIn(row, "out_low"), numberIn(row, "out_high"),
                   parseUnit(row.at("out_unit")).value()};
    const auto sensor = sensorModel(transmitter(in, out));
    EXPECT_NEAR(valueOf(sensor->expected(numberIn(row, "input"))), numberIn(row, "output"), 0.51e-8);
    EXPECT_NEAR(valueOf(sensor->appliedFor(numberIn(row, "output"))), numberIn(row, "input"), 1e-8);
    ++checked;
  }
  EXPECT_EQ(checked, 12);
}

TEST(Sensor, GivesTheSignalsOfThePercentTable) {
  const std::pair<const char*, Span> columns[] = {
      {"i_4_20_mA", {4.0, 20.0, Unit::milliampere}}, {"i_0_20_mA", {0.0, 20.0, Unit::milliampere}},
      {"v_1_5_V", {1.0, 5.0, Unit::volt}},           {"v_0_10_V", {0.0, 10.0, Unit::volt}},
      {"p_3_15_psi", {3.0, 15.0, Unit::psi}},        {"p_20_100_kPa", {20.0, 100.0, Unit::kilopascal}}};
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("percent_signal_table.csv"))) {
    const double percent = numberIn(row, "percent_of_span");
    for (const auto& [column, span] : columns) {
      const auto sensor = sensorModel(transmitter({0.0, 100.0, Unit::percent}, span));
      EXPECT_NEAR(valueOf(sensor->expected(percent)), numberIn(row, column), 1e-12) << column << percent;
      EXPECT_NEAR(valueOf(sensor->appliedFor(numberIn(row, column))), percent, 1e-11) << column << percent;
      ++checked;
    }
  }
  EXPECT_EQ(checked, 90);
}

TEST(Sensor, TakesTheSquareRootOfThePublishedTable) {
  const auto sensor =
      sensorModel(transmitter({0.0, 100.0, Unit::percent}, kCurrent, TransferKind::squareRoot));
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("square_root_table.csv"))) {
    EXPECT_NEAR(valueOf(sensor->expected(numberIn(row, "dp_percent"))), numberIn(row, "i_root_mA"), 0.51e-4);
    ++checked;
  }
  EXPECT_EQ(checked, 15);
  EXPECT_EQ(sensor->appliedFor(3.9), why(RangeResult::belowFunction));
  expectThereAndBack(*sensor, 0.0);
  // Half flow: twice as much pressure error as output error, in parts of span.
  EXPECT_NEAR(sensor->errorForms(12.0, 12.016).units.value(), 0.1, 1e-12);
  EXPECT_FALSE(sensor->errorForms(4.0, 4.016).units.has_value());
}

TEST(Sensor, BareElementsFollowTheirFunctions) {
  const auto couple = sensorModel(bare(ThermocoupleType::K, 0.0, 1000.0));
  EXPECT_EQ(couple->readingSpan().unit, Unit::millivolt);
  EXPECT_NEAR(couple->readingSpan().high, 41.276, 0.5e-3);  // NIST ITS-90 table, type K at 1000 degC
  EXPECT_EQ(valueOf(couple->expected(600.0)), valueOf(thermocoupleMillivolts(ThermocoupleType::K, {600.0})));
  expectThereAndBack(*couple);
  const ErrorForms forms =
      couple->errorForms(valueOf(couple->expected(600.0)), valueOf(couple->expected(600.1)));
  EXPECT_NEAR(forms.units.value(), 0.1, 1e-4);
  EXPECT_EQ(valueOf(couple->normaliseReading({600.0, Unit::celsius})), valueOf(couple->expected(600.0)));
  EXPECT_DOUBLE_EQ(valueOf(couple->normaliseReading({1234.0, Unit::microvolt})), 1.234);

  const auto platinum = sensorModel(bare(RtdElement::pt1000, -50.0, 200.0));
  EXPECT_NEAR(valueOf(platinum->expected(100.0)), 1385.055, 1e-9);
  EXPECT_NEAR(platinum->errorForms(1385.055, 1385.055 + 3.7928).units.value(), 1.0, 1e-9);
  expectThereAndBack(*platinum);

  const auto fahrenheit = sensorModel(bare(ThermocoupleType::J, 32.0, 212.0, Unit::fahrenheit));
  EXPECT_NEAR(valueOf(fahrenheit->expected(212.0)),
              valueOf(thermocoupleMillivolts(ThermocoupleType::J, {100.0})), 1e-12);
  EXPECT_NEAR(valueOf(fahrenheit->normaliseApplied({100.0, Unit::celsius})), 212.0, 1e-12);
  EXPECT_EQ(couple->normaliseApplied({1.0, Unit::bar}), why(RangeResult::wrongUnit));
  EXPECT_EQ(couple->expected(kNan), why(RangeResult::notANumber));
  EXPECT_EQ(couple->appliedFor(kNan), why(RangeResult::notANumber));
  EXPECT_EQ(couple->expected(1100.0), why(RangeResult::aboveRange));
}

TEST(Loop, ReadsTheProcessValueThroughATransmitter) {
  const auto loop = loopModel({currentInput({0.0, 150.0, Unit::celsius})},
                              transmitter({0.0, 150.0, Unit::celsius}, kCurrent));
  EXPECT_EQ(loop->appliedSpan(), (Span{0.0, 150.0, Unit::celsius}));
  EXPECT_EQ(loop->readingSpan(), (Span{0.0, 150.0, Unit::celsius}));
  EXPECT_NEAR(valueOf(loop->expected(37.5)), 37.5, 1e-12);
  EXPECT_NEAR(valueOf(loop->normaliseApplied({212.0, Unit::fahrenheit})), 100.0, 1e-12);
  EXPECT_NEAR(valueOf(loop->normaliseReading({16000.0, Unit::count})), 75.0, 1e-12);
  EXPECT_NEAR(loop->errorForms(75.0, 75.15).signal.value(), 0.016, 1e-12);
  EXPECT_EQ(loop->expected(160.0), why(RangeResult::aboveRange));
  EXPECT_EQ(loop->expected(kNan), why(RangeResult::notANumber));
  expectThereAndBack(*loop);
}

// A channel scaled for another sensor must not pass end to end because the electrics agree with each other.
TEST(Loop, AWrongScalingIsAnErrorAndNamed) {
  const ChannelSetup channel{currentInput({0.0, 200.0, Unit::celsius})};
  const SensorRange sensor = transmitter({0.0, 100.0, Unit::celsius}, kCurrent);
  EXPECT_NEAR(valueOf(loopModel(channel, sensor)->expected(50.0)), 50.0, 1e-12);  // it would show 100
  ASSERT_EQ(loopFaults(channel, sensor).size(), 1u);
  EXPECT_NE(loopFaults(channel, sensor)[0].find("scaled for another range"), std::string::npos);
  const SensorRange fahrenheit = transmitter({32.0, 392.0, Unit::fahrenheit}, kCurrent);
  EXPECT_TRUE(loopFaults(channel, fahrenheit).empty());
  EXPECT_NEAR(valueOf(loopModel(channel, fahrenheit)->expected(212.0)), 100.0, 1e-9);
}

TEST(Loop, FollowsTheSignalWhereTheReadingIsAnotherQuantity) {
  const ChannelSetup flow{currentInput({0.0, 40.0, Unit::cubicMetrePerHour}, TransferKind::squareRoot)};
  const SensorRange pressure = transmitter({0.0, 25.0, Unit::kilopascal}, kCurrent);
  const auto loop = loopModel(flow, pressure);
  EXPECT_TRUE(loopFaults(flow, pressure).empty());
  EXPECT_NEAR(valueOf(loop->expected(6.25)), 20.0, 1e-12);
  EXPECT_NEAR(valueOf(loop->appliedFor(20.0)), 6.25, 1e-12);
  EXPECT_GT(loop->stepAt(1.0), loop->step());
  expectThereAndBack(*loop, 0.0);
}

TEST(Loop, ReadsABareCoupleAndPlatinum) {
  ThermocoupleSetup channel;
  channel.range = {0.0, 500.0, Unit::celsius};
  channel.readsTenths = true;
  const auto loop = loopModel({channel}, bare(ThermocoupleType::K, 0.0, 500.0));
  EXPECT_DOUBLE_EQ(valueOf(loop->expected(100.0)), 1000.0);
  expectThereAndBack(*loop);
  RtdSetup rtd;
  rtd.range = {-50.0, 200.0, Unit::celsius};
  expectThereAndBack(*loopModel({rtd}, bare(RtdElement::pt100, -50.0, 200.0)));
  EXPECT_EQ(loopFaults({channel}, bare(ThermocoupleType::J, 0.0, 500.0)).size(), 1u);
  EXPECT_EQ(loopFaults({rtd}, bare(RtdElement::pt1000, 0.0, 100.0)).size(), 1u);
  EXPECT_TRUE(loopFaults({channel}, bare(ThermocoupleType::K, 0.0, 500.0)).empty());
}

TEST(Loop, PairsThatCannotWorkAnswerByName) {
  AnalogOutputSetup output;
  output.signal = kCurrent;
  output.units = Span{0.0, 100.0, Unit::percent};
  ThermocoupleSetup couple;
  couple.range = {0.0, 500.0, Unit::celsius};
  const SensorRange current = transmitter({0.0, 100.0, Unit::celsius}, kCurrent);
  const std::pair<ChannelSetup, SensorRange> pairs[] = {
      {{output}, current},
      {{DiscreteOutputSetup{}}, current},
      {{couple}, current},
      {{ThresholdSetup{24.0, 14.0, 6.0, 0}}, current},
      {{couple}, bare(RtdElement::pt100, 0.0, 100.0)},
      {{currentInput({0.0, 100.0, Unit::celsius})}, bare(RtdElement::pt100, 0.0, 100.0)},
  };
  for (const auto& [channel, sensor] : pairs) {
    const auto loop = loopModel(channel, sensor);
    EXPECT_EQ(loop->expected(50.0), why(RangeResult::wrongUnit)) << kindName(channel);
    EXPECT_EQ(loop->appliedFor(50.0), why(RangeResult::wrongUnit));
    EXPECT_EQ(loop->normaliseApplied({50.0, Unit::celsius}), why(RangeResult::wrongUnit));
    EXPECT_EQ(loop->normaliseReading({50.0, Unit::celsius}), why(RangeResult::wrongUnit));
    EXPECT_EQ(loopFaults(channel, sensor).size(), 1u) << kindName(channel);
  }
  const SensorRange voltage = transmitter({0.0, 10.0, Unit::bar}, {0.0, 10.0, Unit::volt});
  EXPECT_EQ(loopFaults({currentInput({0.0, 10.0, Unit::bar})}, voltage).size(), 1u);
  EXPECT_TRUE(loopFaults({ThresholdSetup{24.0, 8.0, 6.0, 0}}, voltage).empty());
}

}  // namespace
}  // namespace spanwright
