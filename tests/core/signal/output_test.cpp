// SPDX-License-Identifier: GPL-3.0-or-later
//
// Analog and discrete outputs, and the threshold input, which is read in volts as well.
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

AnalogOutputSetup valve(ReadsAs commandedAs) {
  AnalogOutputSetup setup;
  setup.signal = {4.0, 20.0, Unit::milliampere};
  setup.counts = Span{0.0, 32000.0, Unit::count};
  setup.units = Span{0.0, 100.0, Unit::percent};
  setup.commandedAs = commandedAs;
  setup.bits = 12;
  return setup;
}

TEST(AnalogOutput, DrivesWhatItIsCommanded) {
  for (const ReadsAs as : {ReadsAs::counts, ReadsAs::units}) {
    const auto output = channelModel({valve(as)});
    const double full = as == ReadsAs::counts ? 32000.0 : 100.0;
    EXPECT_EQ(output->appliedSpan().high, full);
    EXPECT_DOUBLE_EQ(valueOf(output->expected(0.0)), 4.0);
    EXPECT_DOUBLE_EQ(valueOf(output->expected(0.25 * full)), 8.0);
    EXPECT_DOUBLE_EQ(valueOf(output->expected(full)), 20.0);
    EXPECT_DOUBLE_EQ(valueOf(output->normaliseApplied({50.0, Unit::percent})), 0.5 * full);
    EXPECT_DOUBLE_EQ(valueOf(output->normaliseApplied({16000.0, Unit::count})), 0.5 * full);
    EXPECT_EQ(output->normaliseApplied({12.0, Unit::milliampere}), why(RangeResult::wrongUnit));
    EXPECT_DOUBLE_EQ(valueOf(output->normaliseReading({0.012, Unit::ampere})), 12.0);
    EXPECT_EQ(output->normaliseReading({50.0, Unit::percent}), why(RangeResult::wrongUnit));
    EXPECT_EQ(output->expected(1.06 * full), why(RangeResult::aboveRange));
    EXPECT_EQ(output->expected(-0.06 * full), why(RangeResult::belowRange));
    EXPECT_EQ(output->expected(kNan), why(RangeResult::notANumber));
    EXPECT_EQ(output->appliedFor(kInf), why(RangeResult::notANumber));
    EXPECT_EQ(output->appliedFor(22.0), why(RangeResult::aboveRange));
    const ErrorForms forms = output->errorForms(12.0, 12.016);
    EXPECT_NEAR(forms.signal.value(), 0.016, 1e-12);
    EXPECT_NEAR(forms.counts.value(), 32.0, 1e-8);
    EXPECT_NEAR(forms.units.value(), 0.1, 1e-12);
    EXPECT_NEAR(forms.percentOfSpan, 0.1, 1e-12);
    expectThereAndBack(*output);
  }
}

TEST(AnalogOutput, StepsLikeItsConverter) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("adc_resolution.csv"))) {
    AnalogOutputSetup setup;
    setup.signal = {0.0, numberIn(row, "span"), parseUnit(row.at("span_unit")).value()};
    setup.units = Span{0.0, 100.0, Unit::percent};
    setup.bits = static_cast<int>(numberIn(row, "bits"));
    const double wanted = numberIn(row, "lsb_span_over_2n_minus_1");
    EXPECT_NEAR(channelModel({setup})->step(), wanted, 1e-9 * wanted);
    ++checked;
  }
  EXPECT_EQ(checked, 12);
  AnalogOutputSetup coarse = valve(ReadsAs::counts);
  coarse.counts->high = 1000.0;
  EXPECT_DOUBLE_EQ(channelModel({coarse})->step(), 0.016);  // a command is a whole count
}

TEST(DiscreteOutput, IsOffOrOn) {
  const auto output = channelModel({DiscreteOutputSetup{}});
  EXPECT_EQ(output->appliedSpan(), (Span{0.0, 1.0, Unit::none}));
  EXPECT_EQ(output->readingSpan(), (Span{0.0, 24.0, Unit::volt}));
  EXPECT_EQ(valueOf(output->expected(0.0)), 0.0);
  EXPECT_EQ(valueOf(output->expected(1.0)), 24.0);
  for (const double bad : {0.5, -1.0, 2.0})
    EXPECT_EQ(output->expected(bad), why(RangeResult::notAState));
  EXPECT_EQ(output->expected(kNan), why(RangeResult::notANumber));
  EXPECT_EQ(valueOf(output->appliedFor(24.0)), 1.0);
  EXPECT_EQ(output->appliedFor(12.0), why(RangeResult::notAState));
  EXPECT_EQ(output->normaliseApplied({0.5, Unit::none}), why(RangeResult::notAState));
  EXPECT_EQ(valueOf(output->normaliseApplied({1.0, Unit::none})), 1.0);
  EXPECT_EQ(output->normaliseApplied({24.0, Unit::volt}), why(RangeResult::wrongUnit));
  EXPECT_DOUBLE_EQ(valueOf(output->normaliseReading({23500.0, Unit::millivolt})), 23.5);
  EXPECT_DOUBLE_EQ(output->errorForms(24.0, 23.4).signal.value(), 23.4 - 24.0);
  EXPECT_DOUBLE_EQ(output->errorForms(24.0, 22.8).percentOfSpan, 100.0 * (22.8 - 24.0) / 24.0);
}

TEST(ThresholdInput, ReadsTheVoltageAtWhichItSwitched) {
  const auto input = channelModel({ThresholdSetup{24.0, 14.0, 6.0, 0}});
  EXPECT_EQ(input->appliedSpan(), (Span{0.0, 24.0, Unit::volt}));
  EXPECT_DOUBLE_EQ(valueOf(input->expected(14.0)), 14.0);
  EXPECT_DOUBLE_EQ(valueOf(input->normaliseReading({14200.0, Unit::millivolt})), 14.2);
  EXPECT_EQ(input->normaliseReading({14.0, Unit::milliampere}), why(RangeResult::wrongUnit));
  EXPECT_EQ(input->expected(26.0), why(RangeResult::aboveRange));
  EXPECT_EQ(input->expected(-2.0), why(RangeResult::belowRange));
  EXPECT_EQ(input->expected(kNan), why(RangeResult::notANumber));
  EXPECT_NEAR(input->errorForms(14.0, 14.24).percentOfSpan, 1.0, 1e-12);
  EXPECT_EQ(input->step(), 0.0);
  expectThereAndBack(*input);
}

TEST(RangeText, NamesEveryResultDifferently) {
  std::map<std::string, int> texts;
  for (const auto result : {RangeResult::belowRange, RangeResult::aboveRange, RangeResult::belowFunction,
                            RangeResult::aboveFunction, RangeResult::notMonotonic, RangeResult::wrongUnit,
                            RangeResult::notANumber, RangeResult::notAState})
    ++texts[std::string(rangeText(result))];
  EXPECT_EQ(texts.size(), 8u);
  EXPECT_FALSE(texts.contains(""));
}

}  // namespace
}  // namespace spanwright
