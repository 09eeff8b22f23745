// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/evaluate.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace spanwright {
namespace {

Tolerance symmetric(const ToleranceSide& side) {
  return {side, side};
}

AnalogInputSetup countsInput() {
  AnalogInputSetup input;
  input.signal = {0, 10, Unit::volt};
  input.counts = Span{0, 32000, Unit::count};
  input.bits = 12;
  input.readsAs = ReadsAs::counts;
  return input;
}

AnalogInputSetup loopInput() {
  AnalogInputSetup input;
  input.signal = {4, 20, Unit::milliampere};
  input.units = Span{0, 150, Unit::celsius};
  return input;
}

/// A channel with one laid-out point to judge readings at.
class At {
 public:
  At(SetupKind kind, Tolerance tolerance) : setup_{std::move(kind)}, tolerance_(tolerance) {}

  At& point(PointRole role, std::optional<AlarmLevel> level = std::nullopt) {
    const TestScheme scheme{{0, 25, 50, 75, 100}, RunOrder::up, 1, true, true};
    for (const TestPoint& each : layOutPoints(scheme, *model_, &setup_, Subject::channel)) {
      if (each.role == role && each.alarm == level) {
        point_ = each;
        return *this;
      }
    }
    ADD_FAILURE() << "the setup has no point of role " << text(role);
    return *this;
  }

  PointResult judged(double applied, double reading) const {
    const Evaluation result = evaluatePoint(point_, *model_, &setup_, tolerance_, applied, reading);
    if (const auto* trouble = std::get_if<RangeResult>(&result)) {
      ADD_FAILURE() << "applied " << applied << ": " << rangeText(*trouble);
      return {};
    }
    return std::get<PointResult>(result);
  }
  PointResult judged(double reading) const { return judged(point_.nominalApplied, reading); }
  Evaluation evaluated(double applied, double reading) const {
    return evaluatePoint(point_, *model_, &setup_, tolerance_, applied, reading);
  }
  bool impossible(double reading) const { return readingImpossible(point_, *model_, reading); }
  const TestPoint& testPoint() const { return point_; }
  const PointModel& model() const { return *model_; }
  const ChannelSetup& setup() const { return setup_; }

 private:
  ChannelSetup setup_;
  Tolerance tolerance_;
  PointModelPtr model_ = channelModel(setup_);
  TestPoint point_ = layOutPoints({{0}, RunOrder::up}, *model_, &setup_, Subject::channel).front();
};

// Common practice, no source: a 12-bit 0-10 V input scaled to 0..32000 cannot tell 5 counts at 0 V from none.
TEST(Evaluate, FiveCountsAtZeroAreInsideOneStepOfTwelveBits) {
  const At input(countsInput(), symmetric({.counts = 4}));
  const PointResult result = input.judged(0.0, 5.0);
  EXPECT_EQ(result.expected, 0.0);
  EXPECT_EQ(result.error, 5.0);
  EXPECT_TRUE(result.withinOneStep);
  EXPECT_TRUE(result.flooredByStep);
  EXPECT_NEAR(result.limits.high, 32000.0 / 4095.0, 1e-9);
  EXPECT_NEAR(result.limits.low, -32000.0 / 4095.0, 1e-9);
  EXPECT_EQ(result.verdict, Verdict::pass);
  EXPECT_NEAR(result.fractionOfTolerance, 5.0 * 4095.0 / 32000.0, 1e-9);

  const PointResult two = input.judged(0.0, 9.0);
  EXPECT_FALSE(two.withinOneStep);
  EXPECT_EQ(two.verdict, Verdict::fail);

  const PointResult wide = At(countsInput(), symmetric({.counts = 16})).judged(0.0, 9.0);
  EXPECT_FALSE(wide.flooredByStep);
  EXPECT_EQ(wide.verdict, Verdict::pass);
}

// Common practice, no source: 5 V, 7.5 V and 10 V read 16000, 24000 and 32000.
TEST(Evaluate, TellsTheErrorInEveryForm) {
  AnalogInputSetup input = loopInput();
  input.counts = Span{0, 32000, Unit::count};
  const PointResult result = At(input, symmetric({.percentOfSpan = 0.25})).judged(12.0, 75.3);
  EXPECT_NEAR(result.expected, 75.0, 1e-12);
  EXPECT_NEAR(result.error, 0.3, 1e-12);
  EXPECT_NEAR(result.forms.percentOfSpan, 0.2, 1e-12);
  EXPECT_NEAR(result.forms.signal.value(), 0.032, 1e-12);
  EXPECT_NEAR(result.forms.counts.value(), 64.0, 1e-9);
  EXPECT_NEAR(result.forms.units.value(), 0.3, 1e-12);
  EXPECT_NEAR(result.limits.high, 0.375, 1e-12);
  EXPECT_NEAR(result.fractionOfTolerance, 0.8, 1e-10);
  for (const auto& [volts, counts] :
       {std::pair{5.0, 16000.0}, std::pair{7.5, 24000.0}, std::pair{10.0, 32000.0}}) {
    EXPECT_NEAR(At(countsInput(), symmetric({.counts = 16})).judged(volts, counts).error, 0.0, 1e-9);
  }
}

TEST(Evaluate, CountsOfToleranceAreConvertedThroughTheSetup) {
  AnalogInputSetup input = loopInput();
  input.counts = Span{0, 30000, Unit::count};
  const PointResult result = At(input, symmetric({.counts = 100})).judged(12.0, 75.0);
  EXPECT_NEAR(result.limits.high, 0.5, 1e-9) << "200 counts a degree";
}

// Simple acceptance, ILAC-G8:09/2019 with w = 0: on the limit is accepted. 37.6 - 37.5 is a little more than
// 0.1 in binary, which must not fail a reading that is on its limit in decimals.
TEST(Evaluate, AcceptsAReadingOnItsLimit) {
  const At input(loopInput(), symmetric({.absolute = 0.1}));
  ASSERT_GT(37.6 - 37.5, 0.1);
  for (const double reading : {37.6, 37.4}) {
    const PointResult result = input.judged(8.0, reading);
    EXPECT_EQ(result.verdict, Verdict::pass) << reading;
    EXPECT_NEAR(result.fractionOfTolerance, 1.0, 1e-9);
    EXPECT_LE(result.fractionOfTolerance, 1.0);
  }
  for (const double reading : {37.6000001, 37.3999999}) {
    EXPECT_EQ(input.judged(8.0, reading).verdict, Verdict::fail) << reading;
  }
}

TEST(Evaluate, EachSideHasItsOwnLimit) {
  const At input(loopInput(), {{.absolute = 0.5}, {.absolute = 0.2}});
  EXPECT_EQ(input.judged(12.0, 75.4).verdict, Verdict::pass);
  EXPECT_NEAR(input.judged(12.0, 75.4).fractionOfTolerance, 0.8, 1e-9);
  EXPECT_EQ(input.judged(12.0, 74.6).verdict, Verdict::fail);
  EXPECT_NEAR(input.judged(12.0, 74.6).fractionOfTolerance, 2.0, 1e-9);
  const At oneSided(loopInput(), {{.absolute = 0.5}, {}});
  EXPECT_EQ(oneSided.judged(12.0, 75.0).verdict, Verdict::pass);
  EXPECT_TRUE(std::isinf(oneSided.judged(12.0, 74.9).fractionOfTolerance));
  EXPECT_EQ(oneSided.judged(12.0, 74.9).verdict, Verdict::fail);
}

TEST(Evaluate, FractionAboveOneExactlyWhenItFails) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> applied(4.0, 20.0);
  std::uniform_real_distribution<double> error(-1.0, 1.0);
  std::uniform_real_distribution<double> limit(0.001, 0.8);
  int failed = 0;
  for (int round = 0; round < 5000; ++round) {
    const Tolerance tolerance = symmetric({.absolute = limit(random)});
    const At input(loopInput(), tolerance);
    const double signal = applied(random);
    const double right = input.judged(signal, 75.0).expected;
    const double off = error(random);
    const PointResult above = input.judged(signal, right + off);
    const PointResult below = input.judged(signal, right - off);
    EXPECT_EQ(above.verdict, below.verdict) << "mirrored errors, mirrored limits";
    EXPECT_NEAR(above.fractionOfTolerance, below.fractionOfTolerance,
                1e-9 * above.fractionOfTolerance + 1e-9);
    EXPECT_EQ(above.fractionOfTolerance > 1.0, above.verdict == Verdict::fail);
    EXPECT_NEAR(above.fractionOfTolerance, std::abs(off) / tolerance.plus.absolute, 1e-6);
    failed += above.verdict == Verdict::fail ? 1 : 0;
    // A wider tolerance never turns a pass into a fail.
    const At wider(loopInput(), symmetric({.absolute = tolerance.plus.absolute * 1.1}));
    if (above.verdict == Verdict::pass) {
      EXPECT_EQ(wider.judged(signal, right + off).verdict, Verdict::pass);
    }
  }
  EXPECT_GT(failed, 500) << "the draw should meet both verdicts";
  EXPECT_LT(failed, 4500);
}

// One converter step at a tenth of full flow is worth five times one at half flow.
TEST(Evaluate, TheFloorFollowsTheSquareRoot) {
  AnalogInputSetup input = loopInput();
  input.units = Span{0, 100, Unit::cubicMetrePerHour};
  input.bits = 12;
  input.transfer = TransferKind::squareRoot;
  const At flow(input, symmetric({.absolute = 0.02}));
  const double tenth = 4.0 + 16.0 * 0.01;
  EXPECT_NEAR(flow.judged(tenth, 10.0).limits.high, 0.122, 0.002);
  EXPECT_TRUE(flow.judged(tenth, 10.0).flooredByStep);
  EXPECT_NEAR(flow.judged(8.0, 50.0).limits.high, 0.0244, 0.0002);
  EXPECT_FALSE(flow.judged(20.0, 100.0).flooredByStep);
}

// Levels on at 14 V and off at 6 V: common practice, no source.
TEST(Evaluate, SwitchLevelsAgainstTheSetup) {
  At input(ThresholdSetup{24, 14, 6, 0}, symmetric({.absolute = 0.5}));
  input.point(PointRole::switchOn);
  EXPECT_EQ(input.judged(14.3).expected, 14.0);
  EXPECT_NEAR(input.judged(14.3).error, 0.3, 1e-12);
  EXPECT_EQ(input.judged(14.5).verdict, Verdict::pass);
  EXPECT_EQ(input.judged(14.6).verdict, Verdict::fail);
  input.point(PointRole::switchOff);
  EXPECT_EQ(input.judged(6.0).expected, 6.0);
  EXPECT_EQ(input.judged(5.4).verdict, Verdict::fail);
}

// IEC 61131-2, 24 V DC: off up to 5 V, on from 15 V (type 1) or 11 V (type 3; type 2 from memory).
TEST(Evaluate, AClaimedInputTypeNarrowsTheLevels) {
  struct Case {
    int type;
    PointRole role;
    double reading;
    Verdict verdict;
  };
  const Tolerance wide = symmetric({.absolute = 12});
  for (const Case& at :
       {Case{1, PointRole::switchOn, 15.0, Verdict::pass}, Case{1, PointRole::switchOn, 15.1, Verdict::fail},
        Case{1, PointRole::switchOn, 5.1, Verdict::pass}, Case{1, PointRole::switchOn, 5.0, Verdict::fail},
        Case{1, PointRole::switchOn, 4.9, Verdict::fail}, Case{1, PointRole::switchOff, 5.0, Verdict::pass},
        Case{1, PointRole::switchOff, 4.9, Verdict::fail}, Case{1, PointRole::switchOff, 14.9, Verdict::pass},
        Case{1, PointRole::switchOff, 15.0, Verdict::fail}, Case{3, PointRole::switchOn, 11.0, Verdict::pass},
        Case{3, PointRole::switchOn, 11.1, Verdict::fail}, Case{2, PointRole::switchOn, 11.0, Verdict::pass},
        Case{2, PointRole::switchOff, 11.0, Verdict::fail}, Case{0, PointRole::switchOn, 15.1, Verdict::pass},
        Case{0, PointRole::switchOn, 4.9, Verdict::pass}}) {
    At input(ThresholdSetup{24, 9, 7, at.type}, wide);
    const PointResult result = input.point(at.role).judged(at.reading);
    EXPECT_EQ(result.verdict, at.verdict)
        << "type " << at.type << ", " << text(at.role) << " at " << at.reading << " V";
    EXPECT_EQ(result.fractionOfTolerance > 1.0, at.verdict == Verdict::fail);
  }
  // Levels that lie outside the type themselves fail even when they are met exactly.
  const At model(ThresholdSetup{24, 16, 4, 0}, wide);
  const ChannelSetup claimed{ThresholdSetup{24, 16, 4, 1}};
  for (const auto& [role, reading] :
       {std::pair{PointRole::switchOn, 16.0}, std::pair{PointRole::switchOff, 4.0}}) {
    TestPoint point = model.testPoint();
    point.role = role;
    const auto result =
        std::get<PointResult>(evaluatePoint(point, model.model(), &claimed, wide, reading, reading));
    EXPECT_EQ(result.error, 0.0);
    EXPECT_EQ(result.verdict, Verdict::fail) << text(role);
    EXPECT_TRUE(std::isinf(result.fractionOfTolerance)) << "no error of either sign puts it right by less";
  }
  // The plan's tolerance still counts where it is the narrower one.
  At narrow(ThresholdSetup{24, 9, 7, 1}, symmetric({.absolute = 0.5}));
  narrow.point(PointRole::switchOn);
  EXPECT_EQ(narrow.judged(9.6).verdict, Verdict::fail);
  EXPECT_NEAR(narrow.judged(9.2).limits.high, 0.5, 1e-12);
}

TEST(Evaluate, AlarmsTripAtTheLevelAndResetADeadBandAway) {
  AnalogInputSetup input = loopInput();
  input.alarms = {60, 70, 90, 95, 1};
  struct Case {
    PointRole role;
    AlarmLevel level;
    double expected;
  };
  for (const Case& at :
       {Case{PointRole::alarmTrip, AlarmLevel::high, 90}, Case{PointRole::alarmReset, AlarmLevel::high, 89},
        Case{PointRole::alarmTrip, AlarmLevel::highHigh, 95},
        Case{PointRole::alarmReset, AlarmLevel::highHigh, 94},
        Case{PointRole::alarmTrip, AlarmLevel::low, 70}, Case{PointRole::alarmReset, AlarmLevel::low, 71},
        Case{PointRole::alarmTrip, AlarmLevel::lowLow, 60},
        Case{PointRole::alarmReset, AlarmLevel::lowLow, 61}}) {
    At channel(input, symmetric({.absolute = 0.3}));
    channel.point(at.role, at.level);
    EXPECT_NEAR(channel.judged(at.expected + 0.2).expected, at.expected, 1e-12);
    EXPECT_EQ(channel.judged(at.expected + 0.3).verdict, Verdict::pass) << at.expected;
    EXPECT_EQ(channel.judged(at.expected - 0.4).verdict, Verdict::fail) << at.expected;
  }
}

TEST(Evaluate, DiscreteStatesAgainstTheSetup) {
  // 24 V supply, at most 2 V lost, at most 1 V left when off; the plan's own tolerance has no part in it.
  At output(DiscreteOutputSetup{24, 2, 1, LossBehaviour::off}, symmetric({.absolute = 0.001}));
  struct Case {
    PointRole role;
    double volts;
    Verdict verdict;
  };
  for (const Case& at :
       {Case{PointRole::stateOn, 24.0, Verdict::pass}, Case{PointRole::stateOn, 22.0, Verdict::pass},
        Case{PointRole::stateOn, 21.9, Verdict::fail}, Case{PointRole::stateOn, 26.4, Verdict::pass},
        Case{PointRole::stateOn, 26.5, Verdict::fail}, Case{PointRole::stateOff, 0.0, Verdict::pass},
        Case{PointRole::stateOff, 1.0, Verdict::pass}, Case{PointRole::stateOff, 1.1, Verdict::fail},
        Case{PointRole::stateOff, -1.1, Verdict::fail}, Case{PointRole::lossOfSignal, 0.4, Verdict::pass},
        Case{PointRole::lossOfSignal, 23.8, Verdict::fail}}) {
    EXPECT_EQ(output.point(at.role).judged(at.volts).verdict, at.verdict)
        << text(at.role) << " at " << at.volts;
  }
  At holding(DiscreteOutputSetup{24, 2, 1, LossBehaviour::hold}, symmetric({.absolute = 1}));
  holding.point(PointRole::lossOfSignal);
  EXPECT_EQ(holding.judged(23.8).verdict, Verdict::pass);
  EXPECT_EQ(holding.judged(0.0).verdict, Verdict::fail);
}

TEST(Evaluate, AnalogOutputsOnLossOfCommunication) {
  AnalogOutputSetup setup;
  setup.signal = {4, 20, Unit::milliampere};
  setup.units = Span{0, 100, Unit::percent};
  const auto expectedFor = [&](LossBehaviour behaviour) {
    setup.onLoss = behaviour;
    return At(setup, symmetric({.percentOfSpan = 0.25})).point(PointRole::lossOfSignal).judged(4.0);
  };
  EXPECT_EQ(expectedFor(LossBehaviour::minimum).expected, 4.0);
  EXPECT_EQ(expectedFor(LossBehaviour::minimum).verdict, Verdict::pass);
  EXPECT_EQ(expectedFor(LossBehaviour::hold).expected, 12.0);
  EXPECT_EQ(expectedFor(LossBehaviour::hold).verdict, Verdict::fail);
  EXPECT_EQ(expectedFor(LossBehaviour::off).expected, 0.0);
  EXPECT_EQ(expectedFor(LossBehaviour::off).verdict, Verdict::fail);
}

TEST(Evaluate, RefusesWhatCannotBeJudged) {
  const double nan = std::nan("");
  const double infinite = std::numeric_limits<double>::infinity();
  const At input(loopInput(), symmetric({.absolute = 0.1}));
  EXPECT_EQ(std::get<RangeResult>(input.evaluated(12.0, nan)), RangeResult::notANumber);
  EXPECT_EQ(std::get<RangeResult>(input.evaluated(12.0, infinite)), RangeResult::notANumber);
  EXPECT_EQ(std::get<RangeResult>(input.evaluated(nan, 75.0)), RangeResult::notANumber);
  EXPECT_EQ(std::get<RangeResult>(input.evaluated(3.0, 0.0)), RangeResult::belowRange);
  EXPECT_EQ(std::get<RangeResult>(input.evaluated(21.0, 150.0)), RangeResult::aboveRange);
  // A point of another kind than the setup, or without one.
  TestPoint point = input.testPoint();
  for (const PointRole role :
       {PointRole::switchOn, PointRole::stateOff, PointRole::alarmTrip, PointRole::lossOfSignal}) {
    point.role = role;
    EXPECT_EQ(std::get<RangeResult>(expectPoint(point, input.model(), &input.setup(), {}, 12.0)),
              RangeResult::wrongUnit);
    EXPECT_EQ(std::get<RangeResult>(expectPoint(point, input.model(), nullptr, {}, 12.0)),
              RangeResult::wrongUnit);
  }
}

TEST(ExpectPoint, ShowsTheSameAsJudgingWill) {
  const Tolerance tolerance = symmetric({.percentOfReading = 0.5, .percentOfSpan = 0.1});
  const At input(loopInput(), tolerance);
  for (const double applied : {4.0, 7.3, 12.0, 20.0, 20.5}) {
    const PointResult shown = std::get<PointResult>(
        expectPoint(input.testPoint(), input.model(), &input.setup(), tolerance, applied));
    const PointResult judged = input.judged(applied, 80.0);
    EXPECT_EQ(shown.expected, judged.expected);
    EXPECT_EQ(shown.limits.low, judged.limits.low);
    EXPECT_EQ(shown.limits.high, judged.limits.high);
    EXPECT_EQ(shown.verdict, Verdict::notJudged);
  }
}

TEST(ReadingImpossible, TenPercentBeyondWhatAConverterGives) {
  const At input(loopInput(), symmetric({.absolute = 0.1}));
  for (const double possible : {0.0, -15.0, 165.0, 75.0}) {
    EXPECT_FALSE(input.impossible(possible)) << possible;
  }
  for (const double impossible : {-15.1, 165.1, 750.0, std::nan("")}) {
    EXPECT_TRUE(input.impossible(impossible)) << impossible;
  }
  AnalogInputSetup reversed = loopInput();
  reversed.units = Span{150, 0, Unit::celsius};
  EXPECT_FALSE(At(reversed, symmetric({.absolute = 0.1})).impossible(160.0));
  EXPECT_TRUE(At(reversed, symmetric({.absolute = 0.1})).impossible(-20.0));
}

// What a meter shows at an output is whatever is there: a dead 4-20 mA output reads 0 mA, and that must be
// recordable.
TEST(ReadingImpossible, AMeterShowsADeadOutput) {
  AnalogOutputSetup setup;
  setup.signal = {4, 20, Unit::milliampere};
  setup.units = Span{0, 100, Unit::percent};
  const At output(setup, symmetric({.percentOfSpan = 0.25}));
  EXPECT_FALSE(output.impossible(0.0));
  EXPECT_EQ(output.judged(0.0).verdict, Verdict::fail);
  EXPECT_FALSE(output.impossible(24.0));
  EXPECT_FALSE(output.impossible(-0.02)) << "a meter's own zero";
  EXPECT_TRUE(output.impossible(-41.0));
  EXPECT_TRUE(output.impossible(402.0)) << "a lost decimal sign";
}

TEST(Overall, FailsWithAnyFailAndPassesWithAnyPass) {
  using enum Verdict;
  EXPECT_EQ(overall({}), notJudged);
  EXPECT_EQ(overall({notJudged, notJudged}), notJudged);
  EXPECT_EQ(overall({notJudged, pass}), pass);
  EXPECT_EQ(overall({pass, fail, pass}), fail);
  EXPECT_EQ(overall({fail, notJudged}), fail);
  EXPECT_EQ(text(pass), "pass");
  EXPECT_EQ(text(fail), "fail");
  EXPECT_EQ(text(notJudged), "not judged");
}

}  // namespace
}  // namespace spanwright
