// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::expectThereAndBack;
using test::kInf;
using test::kNan;
using test::numberIn;
using test::readReferenceCsv;
using test::signalReference;
using test::valueOf;
using test::why;

AnalogInputSetup volts(double countsHigh, int bits) {
  AnalogInputSetup setup;
  setup.signal = {0.0, 10.0, Unit::volt};
  setup.counts = Span{0.0, countsHigh, Unit::count};
  setup.bits = bits;
  setup.readsAs = ReadsAs::counts;
  return setup;
}

AnalogInputSetup loopCurrent(Span units) {
  AnalogInputSetup setup;
  setup.signal = {4.0, 20.0, Unit::milliampere};
  setup.counts = Span{0.0, 32000.0, Unit::count};
  setup.units = units;
  return setup;
}

AnalogInputSetup flow(double cutOff = 0.0) {
  AnalogInputSetup setup = loopCurrent({0.0, 100.0, Unit::percent});
  setup.transfer = TransferKind::squareRoot;
  setup.cutOffPercent = cutOff;
  return setup;
}

PointModelPtr model(const AnalogInputSetup& setup) {
  EXPECT_TRUE(setupFaults({setup}).empty());
  return channelModel({setup});
}

const test::CsvRow& practice(const std::string& name) {
  static const auto rows = readReferenceCsv(signalReference("common_practice.csv"));
  for (const auto& row : rows)
    if (row.at("case").find(name) != std::string::npos)
      return row;
  throw std::runtime_error("no such row: " + name);
}

TEST(AnalogInput, ReadsTheCountsOfCommonPractice) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("common_practice.csv"))) {
    const std::string& name = row.at("case");
    if (!name.starts_with("0-10 V input"))
      continue;
    const auto input = model(volts(name.find("32000") != std::string::npos ? 32000.0 : 1000.0, 12));
    const double applied = parseQuantity(row.at("given"))->value;
    EXPECT_DOUBLE_EQ(valueOf(input->expected(applied)), numberIn(row, "expected")) << name << applied;
    ++checked;
  }
  EXPECT_EQ(checked, 6);
}

TEST(AnalogInput, OneStepOfTwelveBitsIsTheSpanOver4095) {
  const auto input = model(volts(32000.0, 12));
  EXPECT_EQ(practice("a reading of 5 counts").at("tolerance"), "32000/4095");
  EXPECT_DOUBLE_EQ(input->step(), 32000.0 / 4095.0);
  EXPECT_LT(5.0 - valueOf(input->expected(0.0)), input->step());
}

TEST(AnalogInput, AWiderCountRangeKeepsMoreOfTheResolution) {
  const double wide = model(volts(32000.0, 16))->step() / 32000.0;
  const double narrow = model(volts(1000.0, 16))->step() / 1000.0;
  EXPECT_TRUE(practice("a wider count range").at("expected").starts_with("32 times"));
  EXPECT_DOUBLE_EQ(narrow / wide, 32.0);
}

TEST(AnalogInput, StepIsTheCoarserOfConverterCountAndDisplay) {
  AnalogInputSetup setup = loopCurrent({0.0, 150.0, Unit::celsius});
  setup.bits = 12;
  setup.resolution = 0.01;
  EXPECT_DOUBLE_EQ(model(setup)->step(), 150.0 / 4095.0);
  setup.resolution = 0.1;
  EXPECT_DOUBLE_EQ(model(setup)->step(), 0.1);
  setup.bits = 24;
  setup.resolution = 0.0;
  EXPECT_DOUBLE_EQ(model(setup)->step(), 150.0 / 32000.0);  // a count is whole
  setup.counts.reset();
  EXPECT_DOUBLE_EQ(model(setup)->step(), 150.0 / 16777215.0);
  setup.bits = 0;
  EXPECT_EQ(model(setup)->step(), 0.0);
}

TEST(AnalogInput, ExpectedIsIdealAndNotRounded) {
  EXPECT_DOUBLE_EQ(valueOf(model(volts(1000.0, 12))->expected(3.33333)), 333.333);
}

TEST(AnalogInput, ScalesThePublishedExamples) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("linear_scaling_examples.csv"))) {
    const auto in = parseUnit(row.at("in_unit"));
    const auto out = parseUnit(row.at("out_unit"));
    ASSERT_TRUE(in && out);
    if (dimension(*in) != Dimension::current)
      continue;  // the others are transmitters: see loop_test.cpp
    AnalogInputSetup setup;
    setup.signal = {numberIn(row, "in_low"), numberIn(row, "in_high"), *in};
    setup.units = Span{numberIn(row, "out_low"), numberIn(row, "out_high"), *out};
    EXPECT_NEAR(valueOf(model(setup)->expected(numberIn(row, "input"))), numberIn(row, "output"), 0.51e-8);
    ++checked;
  }
  EXPECT_EQ(checked, 5);
}

TEST(AnalogInput, TakesTheSquareRootOfThePublishedTable) {
  const auto input = model(flow());
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("square_root_table.csv"))) {
    EXPECT_NEAR(valueOf(input->expected(numberIn(row, "i_linear_mA"))), numberIn(row, "flow_percent"),
                0.51e-4);
    EXPECT_NEAR(valueOf(input->appliedFor(std::sqrt(100.0 * numberIn(row, "dp_percent")))),
                numberIn(row, "i_linear_mA"), 0.51e-4);
    ++checked;
  }
  EXPECT_EQ(checked, 15);
}

TEST(AnalogInput, GoesThereAndBack) {
  expectThereAndBack(*model(volts(32000.0, 12)));
  expectThereAndBack(*model(loopCurrent({-50.0, 150.0, Unit::celsius})));
  expectThereAndBack(*model(loopCurrent({150.0, -50.0, Unit::celsius})));  // reversed
  expectThereAndBack(*model(flow()), 0.0);
  expectThereAndBack(*model(flow(10.0)), 0.0101);
  AnalogInputSetup reversed = volts(32000.0, 12);
  reversed.signal = {10.0, 0.0, Unit::volt};
  expectThereAndBack(*model(reversed));
}

TEST(AnalogInput, CutsOffSmallFlow) {
  const auto input = model(flow(10.0));
  EXPECT_EQ(valueOf(input->expected(4.15)), 0.0);           // 9.7 % of flow
  EXPECT_NEAR(valueOf(input->expected(4.16)), 10.0, 1e-9);  // exactly the cut-off shows
  EXPECT_EQ(valueOf(input->expected(3.9)), 0.0);            // no flow under zero pressure
  EXPECT_EQ(input->appliedFor(5.0), why(RangeResult::notMonotonic));
  EXPECT_EQ(valueOf(input->appliedFor(0.0)), 4.0);
  EXPECT_EQ(input->appliedFor(-1.0), why(RangeResult::belowFunction));
}

TEST(AnalogInput, FollowsFivePercentBeyondTheSpanAndNamesTheRest) {
  const auto input = model(loopCurrent({0.0, 100.0, Unit::percent}));
  EXPECT_NEAR(valueOf(input->expected(20.8)), 105.0, 1e-9);
  EXPECT_NEAR(valueOf(input->expected(3.2)), -5.0, 1e-9);
  EXPECT_EQ(input->expected(20.81), why(RangeResult::aboveRange));
  EXPECT_EQ(input->expected(3.19), why(RangeResult::belowRange));
  EXPECT_EQ(input->appliedFor(105.1), why(RangeResult::aboveRange));
  EXPECT_EQ(input->appliedFor(-5.1), why(RangeResult::belowRange));
  for (const double bad : {kNan, kInf, -kInf}) {
    EXPECT_EQ(input->expected(bad), why(RangeResult::notANumber));
    EXPECT_EQ(input->appliedFor(bad), why(RangeResult::notANumber));
    EXPECT_EQ(input->normaliseApplied({bad, Unit::milliampere}), why(RangeResult::notANumber));
    EXPECT_EQ(input->normaliseReading({bad, Unit::percent}), why(RangeResult::notANumber));
    EXPECT_EQ(input->normaliseReading({bad, Unit::count}), why(RangeResult::notANumber));
  }
  AnalogInputSetup reversed = loopCurrent({0.0, 100.0, Unit::percent});
  reversed.signal = {20.0, 4.0, Unit::milliampere};
  EXPECT_EQ(model(reversed)->expected(3.0), why(RangeResult::belowRange));
  EXPECT_EQ(model(reversed)->expected(21.0), why(RangeResult::aboveRange));
}

TEST(AnalogInput, UnderstandsEveryFormOfItsValues) {
  const auto input = model(loopCurrent({0.0, 150.0, Unit::celsius}));
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseApplied({12.0, Unit::milliampere})), 12.0);
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseApplied({0.012, Unit::ampere})), 12.0);
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseApplied({75.0, Unit::celsius})), 12.0);
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseApplied({167.0, Unit::fahrenheit})), 12.0);
  EXPECT_EQ(input->normaliseApplied({5.0, Unit::volt}), why(RangeResult::wrongUnit));
  EXPECT_EQ(input->normaliseApplied({16000.0, Unit::count}), why(RangeResult::wrongUnit));
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseReading({75.0, Unit::celsius})), 75.0);
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseReading({167.0, Unit::fahrenheit})), 75.0);
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseReading({16000.0, Unit::count})), 75.0);
  EXPECT_EQ(input->normaliseReading({12.0, Unit::milliampere}), why(RangeResult::wrongUnit));
  EXPECT_EQ(input->normaliseReading({1.0, Unit::bar}), why(RangeResult::wrongUnit));

  AnalogInputSetup counts = loopCurrent({0.0, 150.0, Unit::celsius});
  counts.readsAs = ReadsAs::counts;
  EXPECT_DOUBLE_EQ(valueOf(model(counts)->normaliseReading({75.0, Unit::celsius})), 16000.0);
  // A bare engineering range beside counts: the very unit is meant, not the one that also counts things.
  counts.units = Span{0.0, 100.0, Unit::none};
  EXPECT_DOUBLE_EQ(valueOf(model(counts)->normaliseReading({50.0, Unit::none})), 16000.0);
  EXPECT_DOUBLE_EQ(valueOf(model(counts)->normaliseReading({50.0, Unit::count})), 50.0);
  EXPECT_DOUBLE_EQ(valueOf(model(flow())->normaliseReading({8000.0, Unit::count})), 50.0);
}

TEST(AnalogInput, TellsAnErrorInEveryForm) {
  AnalogInputSetup setup = loopCurrent({-50.0, 150.0, Unit::celsius});
  setup.readsAs = ReadsAs::counts;
  const ErrorForms counts = model(setup)->errorForms(16000.0, 16032.0);
  EXPECT_DOUBLE_EQ(counts.reading, 32.0);
  EXPECT_DOUBLE_EQ(counts.counts.value(), 32.0);
  EXPECT_DOUBLE_EQ(counts.percentOfSpan, 0.1);
  EXPECT_DOUBLE_EQ(counts.signal.value(), 0.016);
  EXPECT_DOUBLE_EQ(counts.units.value(), 0.2);
  EXPECT_EQ(counts.signalUnit, Unit::milliampere);
  EXPECT_EQ(counts.engineeringUnit, Unit::celsius);

  setup.readsAs = ReadsAs::units;
  const ErrorForms units = model(setup)->errorForms(50.0, 49.8);
  EXPECT_NEAR(units.reading, -0.2, 1e-12);
  EXPECT_NEAR(units.units.value(), -0.2, 1e-12);
  EXPECT_NEAR(units.counts.value(), -32.0, 1e-9);
  EXPECT_NEAR(units.signal.value(), -0.016, 1e-12);
  EXPECT_NEAR(units.percentOfSpan, -0.1, 1e-12);

  const ErrorForms bare = model(volts(32000.0, 12))->errorForms(0.0, 5.0);
  EXPECT_FALSE(bare.units.has_value());
  EXPECT_NEAR(bare.signal.value(), 5.0 / 3200.0, 1e-15);

  // A reversed range: the reading falls as the signal rises, so the signs part.
  const ErrorForms reversed = model(loopCurrent({100.0, 0.0, Unit::percent}))->errorForms(50.0, 51.0);
  EXPECT_DOUBLE_EQ(reversed.percentOfSpan, 1.0);
  EXPECT_DOUBLE_EQ(reversed.signal.value(), -0.16);
}

// Outside check: the forms by slope must agree with what the model itself does over a small difference.
TEST(AnalogInput, SquareRootFormsFollowTheLocalSlope) {
  const auto input = model(flow());
  for (const double percent : {5.0, 25.0, 50.0, 75.0, 100.0}) {
    const double small = 1e-4;
    const ErrorForms forms = input->errorForms(percent, percent + small);
    const double signal = valueOf(input->appliedFor(percent + small)) - valueOf(input->appliedFor(percent));
    EXPECT_NEAR(forms.signal.value(), signal, 1e-4 * std::abs(signal)) << percent;
    EXPECT_NEAR(forms.counts.value(), signal * 2000.0, 1e-4 * signal * 2000.0) << percent;
    EXPECT_DOUBLE_EQ(forms.units.value(), forms.reading);
  }
  EXPECT_FALSE(input->errorForms(0.0, 1.0).signal.has_value());
  EXPECT_FALSE(model(flow(10.0))->errorForms(5.0, 6.0).signal.has_value());

  AnalogInputSetup counts = flow();
  counts.readsAs = ReadsAs::counts;
  const ErrorForms forms = model(counts)->errorForms(8000.0, 8032.0);  // 25 % of pressure, 50 % of flow
  EXPECT_DOUBLE_EQ(forms.units.value(), 0.1);                          // 0.1 % of pressure at slope 1/(2*0.5)
  EXPECT_FALSE(model(counts)->errorForms(0.0, 32.0).units.has_value());
}

TEST(AnalogInput, OneStepIsWorthMoreAtSmallFlow) {
  AnalogInputSetup setup = flow();
  setup.counts.reset();
  setup.bits = 12;
  const auto input = model(setup);
  EXPECT_NEAR(input->stepAt(100.0), 100.0 / 4095.0 / 2.0, 1e-5);
  EXPECT_NEAR(input->stepAt(50.0), 100.0 / 4095.0, 1e-4);
  EXPECT_NEAR(input->stepAt(0.0), 100.0 * std::sqrt(1.0 / 4095.0), 1e-9);
  EXPECT_EQ(input->step(), input->stepAt(100.0));
}

}  // namespace
}  // namespace spanwright
