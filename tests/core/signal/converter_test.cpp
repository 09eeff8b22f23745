// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/converter.h"

#include <cmath>
#include <random>

#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::kInf;
using test::kNan;
using test::numberIn;
using test::readReferenceCsv;
using test::signalReference;
using test::valueOf;

ShownReading shownOf(const Shown& shown) {
  if (const auto* reading = std::get_if<ShownReading>(&shown))
    return *reading;
  ADD_FAILURE() << rangeText(std::get<RangeResult>(shown));
  return {kNan, std::nullopt, ConverterState::inside};
}

std::optional<RangeResult> reasonOf(const Shown& shown) {
  const auto* reason = std::get_if<RangeResult>(&shown);
  return reason == nullptr ? std::nullopt : std::optional(*reason);
}

AnalogInputSetup tenVolts(int bits, std::optional<Span> counts, std::optional<Span> units) {
  AnalogInputSetup setup;
  setup.signal = {0.0, 10.0, Unit::volt};
  setup.bits = bits;
  setup.counts = counts;
  setup.units = units;
  setup.readsAs = units ? ReadsAs::units : ReadsAs::counts;
  return setup;
}

TEST(Converter, StepsAsTheReferenceSays) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("adc_resolution.csv"))) {
    AnalogInputSetup setup;
    const double span = numberIn(row, "span");
    setup.signal = {0.0, span, row.at("span_unit") == "mA" ? Unit::milliampere : Unit::volt};
    setup.units = setup.signal;
    setup.bits = static_cast<int>(numberIn(row, "bits"));
    const double step = numberIn(row, "lsb_span_over_2n_minus_1");
    const auto codes = static_cast<std::int64_t>(numberIn(row, "codes"));
    // Just below half a step is still the first code, just above is the second.
    EXPECT_EQ(shownOf(shownReading({setup}, 0.4999 * step)).code, 0);
    EXPECT_EQ(shownOf(shownReading({setup}, 0.5001 * step)).code, 1);
    EXPECT_NEAR(shownOf(shownReading({setup}, 0.5001 * step)).reading, step, 1e-9 * step);
    EXPECT_EQ(shownOf(shownReading({setup}, span)).code, codes - 1);
    EXPECT_EQ(shownOf(shownReading({setup}, span)).reading, span);
    ++checked;
  }
  EXPECT_EQ(checked, 12);
}

TEST(Converter, NamesItsEndsAndStopsThere) {
  const ChannelSetup setup{tenVolts(12, Span{0.0, 32000.0, Unit::count}, std::nullopt)};
  const double half = 0.5 * 10.0 / 4095.0;
  for (const auto& [applied, code, reading, state] :
       {std::tuple{-5.0, 0, 0.0, ConverterState::underRange},
        {-1.001 * half, 0, 0.0, ConverterState::underRange},
        {-0.999 * half, 0, 0.0, ConverterState::inside},
        {0.0, 0, 0.0, ConverterState::inside},
        {10.0, 4095, 32000.0, ConverterState::inside},
        {10.0 + 0.999 * half, 4095, 32000.0, ConverterState::inside},
        {10.0 + 1.001 * half, 4095, 32000.0, ConverterState::overRange},
        {25.0, 4095, 32000.0, ConverterState::overRange}}) {
    const ShownReading shown = shownOf(shownReading(setup, applied));
    EXPECT_EQ(shown.code, code) << applied;
    EXPECT_EQ(shown.reading, reading) << applied;
    EXPECT_EQ(shown.state, state) << applied << " " << text(shown.state);
  }
}

TEST(Converter, IsNeverMoreThanItsRoundingsAway) {
  const auto seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> volts(0.0, 10.0);
  for (const int bits : {8, 12, 16}) {
    AnalogInputSetup setup =
        tenVolts(bits, Span{0.0, 32000.0, Unit::count}, Span{-50.0, 150.0, Unit::celsius});
    setup.resolution = 0.1;
    const auto model = channelModel({setup});
    const double bound = 200.0 * (0.5 / (std::exp2(bits) - 1.0) + 0.5 / 32000.0) + 0.05;
    for (int i = 0; i < 2000; ++i) {
      const double applied = volts(random);
      const double shown = shownOf(shownReading({setup}, applied)).reading;
      ASSERT_NEAR(shown, valueOf(model->expected(applied)), bound * (1.0 + 1e-12)) << applied;
      ASSERT_NEAR(10.0 * shown, std::round(10.0 * shown), 1e-9) << applied;
    }
  }
}

TEST(Converter, CountsAreWholeAsTheTradeExpects) {
  int checked = 0;
  for (const auto& row : readReferenceCsv(signalReference("common_practice.csv"))) {
    const bool wide = row.at("case") == "0-10 V input scaled to 0..32000 counts";
    if (!wide && row.at("case") != "0-10 V input scaled to 0..1000 counts")
      continue;
    const ChannelSetup setup{tenVolts(12, Span{0.0, wide ? 32000.0 : 1000.0, Unit::count}, std::nullopt)};
    const double volts = parseQuantity(row.at("given")).value().value;
    const double shown = shownOf(shownReading(setup, volts)).reading;
    EXPECT_EQ(shown, std::round(shown));
    EXPECT_NEAR(shown, numberIn(row, "expected"), wide ? 32000.0 / 4095.0 : 1.0) << row.at("given");
    ++checked;
  }
  EXPECT_EQ(checked, 6);
}

TEST(Converter, SquareRootIsTakenOfWhatTheConverterGave) {
  AnalogInputSetup setup = tenVolts(8, std::nullopt, Span{0.0, 100.0, Unit::cubicMetrePerHour});
  setup.transfer = TransferKind::squareRoot;
  // 2.5 V is 63.75 of 255 codes; the 64th gives 10 sqrt(64/255) = 50.0979.
  const ShownReading shown = shownOf(shownReading({setup}, 2.5));
  EXPECT_EQ(shown.code, 64);
  EXPECT_NEAR(shown.reading, 100.0 * std::sqrt(64.0 / 255.0), 1e-12);
}

TEST(Converter, WholeDegreesAndTenths) {
  ThermocoupleSetup whole;
  whole.range = {0.0, 400.0, Unit::celsius};
  whole.resolution = 1.0;
  EXPECT_EQ(shownOf(shownReading({whole}, 99.6)).reading, 100.0);
  EXPECT_EQ(shownOf(shownReading({whole}, 99.4)).reading, 99.0);
  EXPECT_FALSE(shownOf(shownReading({whole}, 99.4)).code.has_value());

  RtdSetup tenths;
  tenths.range = {-50.0, 200.0, Unit::celsius};
  tenths.resolution = 0.1;
  EXPECT_EQ(shownOf(shownReading({tenths}, 21.04)).reading, 21.0);
  EXPECT_EQ(shownOf(shownReading({tenths}, 21.06)).reading, 21.1);
  tenths.readsTenths = true;  // 100.0 degC is the whole number 1000
  EXPECT_EQ(shownOf(shownReading({tenths}, 100.0)).reading, 1000.0);
  EXPECT_EQ(shownOf(shownReading({tenths}, 21.06)).reading, 211.0);
}

TEST(Converter, RefusesByName) {
  AnalogInputSetup unknown = tenVolts(0, Span{0.0, 1000.0, Unit::count}, std::nullopt);
  EXPECT_EQ(shownOf(shownReading({unknown}, 10.4)).reading, 1040.0);
  EXPECT_EQ(reasonOf(shownReading({unknown}, 11.0)), RangeResult::aboveRange);
  EXPECT_EQ(reasonOf(shownReading({unknown}, -1.0)), RangeResult::belowRange);
  for (const double bad : {kNan, kInf, -kInf}) {
    EXPECT_EQ(reasonOf(shownReading({unknown}, bad)), RangeResult::notANumber);
    EXPECT_EQ(reasonOf(shownReading({tenVolts(12, Span{0.0, 1.0, Unit::count}, std::nullopt)}, bad)),
              RangeResult::notANumber);
  }
  ThermocoupleSetup couple;
  couple.range = {0.0, 400.0, Unit::celsius};
  EXPECT_EQ(reasonOf(shownReading({couple}, 500.0)), RangeResult::aboveRange);
  EXPECT_EQ(reasonOf(shownReading({DiscreteOutputSetup{}}, 1.0)), RangeResult::wrongUnit);
}

TEST(ToStep, RoundsHalvesAwayFromZero) {
  EXPECT_EQ(toStep(2.5, 1.0), 3.0);
  EXPECT_EQ(toStep(-2.5, 1.0), -3.0);
  EXPECT_EQ(toStep(0.3, 0.1), 0.3);
  EXPECT_EQ(toStep(1.26, 0.25), 1.25);
  EXPECT_EQ(toStep(17.0, 5.0), 15.0);
  EXPECT_EQ(toStep(1.2345, 0.0), 1.2345);
}

}  // namespace
}  // namespace spanwright
