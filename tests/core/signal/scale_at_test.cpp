// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/scale_at.h"

#include <cmath>

#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::kInf;
using test::kNan;
using test::numberIn;
using test::readReferenceCsv;
using test::signalReference;
using test::valueOf;

ScaledValue scaledOf(const Scaled& scaled) {
  if (const auto* value = std::get_if<ScaledValue>(&scaled))
    return *value;
  ADD_FAILURE() << rangeText(std::get<RangeResult>(scaled));
  ScaledValue none;
  none.signal = none.percent = kNan;
  return none;
}

std::optional<RangeResult> reasonOf(const Scaled& scaled) {
  const auto* reason = std::get_if<RangeResult>(&scaled);
  return reason == nullptr ? std::nullopt : std::optional(*reason);
}

AnalogInputSetup current(std::optional<Span> counts, std::optional<Span> units) {
  AnalogInputSetup setup;
  setup.signal = {4.0, 20.0, Unit::milliampere};
  setup.counts = counts;
  setup.units = units;
  return setup;
}

TEST(ScaleAt, FollowsThePercentTable) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("percent_signal_table.csv"))) {
    const double percent = numberIn(row, "percent_of_span");
    AnalogInputSetup setup = current(std::nullopt, Span{0.0, 100.0, Unit::percent});
    const ScaledValue fromUnits = scaledOf(scaleAt(setup, {percent, Unit::percent}));
    EXPECT_NEAR(fromUnits.signal, numberIn(row, "i_4_20_mA"), 1e-9) << percent;
    EXPECT_EQ(*fromUnits.units, percent);
    setup.signal = {0.0, 10.0, Unit::volt};
    const ScaledValue fromSignal = scaledOf(scaleAt(setup, {numberIn(row, "v_0_10_V"), Unit::volt}));
    EXPECT_NEAR(fromSignal.percent, percent, 1e-9);
    EXPECT_FALSE(fromSignal.band.has_value());
    ++checked;
  }
  EXPECT_EQ(checked, 15);
}

TEST(ScaleAt, TellsBandAndPercentFarBeyondTheSpan) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("current_loop_band_examples.csv"))) {
    const ScaledValue value = scaledOf(scaleAt(current({}, {}), {numberIn(row, "i_mA"), Unit::milliampere}));
    EXPECT_NEAR(value.percent, numberIn(row, "percent_of_span"), 1e-12);
    ASSERT_TRUE(value.band);
    EXPECT_EQ(text(*value.band), row.at("band"));
    EXPECT_EQ(value.inSpan, value.percent >= 0.0 && value.percent <= 100.0);
    ++checked;
  }
  EXPECT_EQ(checked, 15);
}

TEST(ScaleAt, FollowsTheSquareRootTable) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("square_root_table.csv"))) {
    AnalogInputSetup setup = current(std::nullopt, Span{0.0, 100.0, Unit::percent});
    setup.transfer = TransferKind::squareRoot;
    const ScaledValue value = scaledOf(scaleAt(setup, {numberIn(row, "i_linear_mA"), Unit::milliampere}));
    EXPECT_EQ(formatFixed(*value.units, 4), row.at("flow_percent"));
    EXPECT_NEAR(value.percent, numberIn(row, "dp_percent"), 1e-9);
    const ScaledValue back = scaledOf(scaleAt(setup, {*value.units, Unit::percent}));
    EXPECT_NEAR(back.signal, numberIn(row, "i_linear_mA"), 1e-9);
    ++checked;
  }
  EXPECT_EQ(checked, 15);
}

TEST(ScaleAt, AgreesWithThePointModel) {
  AnalogInputSetup setup = current(Span{0.0, 32000.0, Unit::count}, Span{-50.0, 150.0, Unit::celsius});
  setup.bits = 12;
  const auto model = channelModel({setup});
  for (double mA = 3.3; mA < 20.7; mA += 0.1) {
    const ScaledValue value = scaledOf(scaleAt(setup, {mA, Unit::milliampere}));
    EXPECT_NEAR(*value.units, valueOf(model->expected(mA)), 1e-12);
    EXPECT_NEAR(*value.stepUnits, model->stepAt(*value.units), 1e-12);
    EXPECT_NEAR(*value.stepCounts, 32000.0 / 4095.0, 1e-9);
    // Every form leads back to the same signal.
    EXPECT_NEAR(scaledOf(scaleAt(setup, {*value.counts, Unit::count})).signal, mA, 1e-12);
    EXPECT_NEAR(scaledOf(scaleAt(setup, {*value.units, Unit::celsius})).signal, mA, 1e-12);
    EXPECT_NEAR(
        scaledOf(scaleAt(setup, {*convert(*value.units, Unit::celsius, Unit::fahrenheit), Unit::fahrenheit}))
            .signal,
        mA, 1e-12);
    EXPECT_NEAR(scaledOf(scaleAt(setup, {mA / 1000.0, Unit::ampere})).signal, mA, 1e-12);
  }
}

TEST(ScaleAt, ConverterStandsStillAtItsEnds) {
  AnalogInputSetup setup = current(Span{0.0, 1000.0, Unit::count}, std::nullopt);
  setup.bits = 12;
  const ScaledValue over = scaledOf(scaleAt(setup, {24.0, Unit::milliampere}));
  EXPECT_EQ(over.code, 4095);
  EXPECT_EQ(over.converter, ConverterState::overRange);
  EXPECT_EQ(over.wholeCounts, 1000.0);
  EXPECT_EQ(over.counts, 1250.0);  // the line goes on
  EXPECT_EQ(scaledOf(scaleAt(setup, {0.0, Unit::milliampere})).converter, ConverterState::underRange);
  EXPECT_EQ(scaledOf(scaleAt(setup, {12.0, Unit::milliampere})).converter, ConverterState::inside);
  setup.bits = 0;
  EXPECT_FALSE(scaledOf(scaleAt(setup, {12.0, Unit::milliampere})).code.has_value());
  EXPECT_EQ(*scaledOf(scaleAt(setup, {12.0, Unit::milliampere})).stepCounts, 1.0);
}

TEST(ScaleAt, KeepsUnitsApartFromASignalOfTheSameUnit) {
  AnalogInputSetup setup;
  setup.signal = {0.0, 10.0, Unit::volt};
  setup.units = Span{0.0, 500.0, Unit::volt};
  const ScaledValue value = scaledOf(scaleAt(setup, {2.0, Unit::volt}));
  EXPECT_EQ(value.signal, 2.0);
  EXPECT_EQ(*value.units, 100.0);
}

TEST(ScaleAt, RefusesByName) {
  AnalogInputSetup setup = current(std::nullopt, Span{0.0, 100.0, Unit::cubicMetrePerHour});
  EXPECT_EQ(reasonOf(scaleAt(setup, {1.0, Unit::celsius})), RangeResult::wrongUnit);
  EXPECT_EQ(reasonOf(scaleAt(setup, {1.0, Unit::count})), RangeResult::wrongUnit);
  for (const double bad : {kNan, kInf, -kInf})
    EXPECT_EQ(reasonOf(scaleAt(setup, {bad, Unit::milliampere})), RangeResult::notANumber);
  EXPECT_EQ(reasonOf(scaleAt(setup, {1e308, Unit::milliampere})), RangeResult::aboveRange);
  EXPECT_EQ(reasonOf(scaleAt(setup, {-1e308, Unit::milliampere})), RangeResult::belowRange);
  AnalogInputSetup bare;
  bare.signal = {4.0, 20.0, Unit::milliampere};
  EXPECT_EQ(reasonOf(scaleAt(bare, {1e308, Unit::milliampere})), RangeResult::aboveRange);  // of its percent
  setup.transfer = TransferKind::squareRoot;
  EXPECT_EQ(reasonOf(scaleAt(setup, {-1.0, Unit::cubicMetrePerHour})), RangeResult::belowFunction);
  setup.cutOffPercent = 5.0;
  EXPECT_EQ(reasonOf(scaleAt(setup, {2.0, Unit::cubicMetrePerHour})), RangeResult::notMonotonic);
  EXPECT_EQ(*scaledOf(scaleAt(setup, {3.5, Unit::milliampere})).units, 0.0);
}

TEST(ScaleAt, FaultsAreThoseOfASetupButForTheReading) {
  EXPECT_TRUE(scaleFaults(current({}, {})).empty());
  EXPECT_TRUE(scaleFaults(current(Span{0.0, 1000.0, Unit::count}, {})).empty());
  EXPECT_EQ(scaleFaults(current(Span{5.0, 5.0, Unit::count}, {})).size(), 1u);
  AnalogInputSetup zero = current({}, {});
  zero.signal = {4.0, 4.0, Unit::milliampere};
  EXPECT_EQ(scaleFaults(zero).size(), 1u);
  AnalogInputSetup root = current({}, {});
  root.transfer = TransferKind::squareRoot;
  EXPECT_EQ(scaleFaults(root).size(), 1u);
  AnalogInputSetup bits = current({}, {});
  bits.bits = 33;
  EXPECT_EQ(scaleFaults(bits).size(), 1u);
}

}  // namespace
}  // namespace spanwright
