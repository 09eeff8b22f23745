// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/test_points.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace spanwright {
namespace {

using testing::ElementsAre;

ChannelSetup loopInput() {
  AnalogInputSetup input;
  input.signal = {4, 20, Unit::milliampere};
  input.units = Span{0, 150, Unit::celsius};
  input.counts = Span{0, 32000, Unit::count};
  input.bits = 16;
  input.resolution = 0.1;
  return {input};
}

ChannelSetup withAlarms(ReadsAs readsAs = ReadsAs::units) {
  ChannelSetup setup = loopInput();
  auto& input = std::get<AnalogInputSetup>(setup.kind);
  input.alarms = {60, 70, 90, 95, 1};
  input.readsAs = readsAs;
  return setup;
}

std::vector<TestPoint> points(const ChannelSetup& setup, const TestScheme& scheme) {
  return layOutPoints(scheme, *channelModel(setup), &setup, Subject::channel);
}

std::vector<std::string> labels(const std::vector<TestPoint>& points) {
  std::vector<std::string> result;
  for (const TestPoint& point : points) {
    result.push_back(point.label);
  }
  return result;
}

TEST(LayOut, RunsThePercentsInTheirOrder) {
  const ChannelSetup setup = loopInput();
  EXPECT_THAT(labels(points(setup, {{0, 50, 100}, RunOrder::up})),
              ElementsAre("0 % up", "50 % up", "100 % up"));
  EXPECT_THAT(labels(points(setup, {{0, 50, 100}, RunOrder::down})),
              ElementsAre("100 % down", "50 % down", "0 % down"));
  EXPECT_THAT(labels(points(setup, {{0, 50, 100}, RunOrder::upDown})),
              ElementsAre("0 % up", "50 % up", "100 % up", "100 % down", "50 % down", "0 % down"));
  EXPECT_THAT(labels(points(setup, {{0, 100}, RunOrder::downUp, 2})),
              ElementsAre("100 % down, run 1", "0 % down, run 1", "0 % up, run 1", "100 % up, run 1",
                          "100 % down, run 2", "0 % down, run 2", "0 % up, run 2", "100 % up, run 2"));
}

TEST(LayOut, NumbersLinesAndGivesNominalsInTheAppliedUnit) {
  const auto all = points(loopInput(), {{0, 12.5, 25, 100}, RunOrder::upDown, 3});
  ASSERT_EQ(all.size(), 24U);
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(all[i].sequence, static_cast<int>(i) + 1);
    EXPECT_EQ(all[i].run, static_cast<int>(i) / 8 + 1);
    EXPECT_EQ(all[i].appliedUnit, Unit::milliampere);
    EXPECT_EQ(all[i].readingUnit, Unit::celsius);
    EXPECT_DOUBLE_EQ(all[i].nominalApplied, 4.0 + 16.0 * all[i].percent / 100.0);
  }
  EXPECT_EQ(all[1].label, "12.5 % up, run 1");
  EXPECT_EQ(pointKey(all[1]), "12.5");
}

// low + (high - low) is not always high in binary.
TEST(LayOut, EndsOfTheSpanAreExact) {
  ChannelSetup setup = loopInput();
  std::get<AnalogInputSetup>(setup.kind).signal = {4.1, 20.2, Unit::milliampere};
  const auto all = points(setup, {{0, 100}, RunOrder::up});
  ASSERT_NE(4.1 + (20.2 - 4.1), 20.2);
  EXPECT_EQ(all[0].nominalApplied, 4.1);
  EXPECT_EQ(all[1].nominalApplied, 20.2);
}

TEST(LayOut, AlarmsFollowInTheOrderOfTheRamps) {
  const TestScheme scheme{{0, 100}, RunOrder::up, 2, true};
  const auto all = points(withAlarms(), scheme);
  EXPECT_THAT(labels(all), ElementsAre("0 % up, run 1", "100 % up, run 1", "0 % up, run 2", "100 % up, run 2",
                                       "high trip", "high-high trip", "high-high reset", "high reset",
                                       "low trip", "low-low trip", "low-low reset", "low reset"));
  const std::vector<Direction> ramp{Direction::up,   Direction::up,   Direction::down, Direction::down,
                                    Direction::down, Direction::down, Direction::up,   Direction::up};
  for (std::size_t i = 4; i < all.size(); ++i) {
    EXPECT_EQ(all[i].direction, ramp[i - 4]) << all[i].label;
  }
  EXPECT_NEAR(all[4].percent, 60.0, 1e-12) << "90 degC of 0..150";
  EXPECT_NEAR(all[4].nominalApplied, 13.6, 1e-12);

  ChannelSetup only = loopInput();
  std::get<AnalogInputSetup>(only.kind).alarms = {std::nullopt, 70, 90, std::nullopt, 1};
  EXPECT_THAT(labels(points(only, {{50}, RunOrder::up, 1, true})),
              ElementsAre("50 % up", "high trip", "high reset", "low trip", "low reset"));
  EXPECT_EQ(points(loopInput(), scheme).size(), 4U) << "no level in use";
  EXPECT_EQ(points(withAlarms(), {{0}, RunOrder::up, 1, false}).size(), 1U) << "not asked for";
}

TEST(LayOut, AlarmReadingsAllowForTheDeadBandAndTheCounts) {
  struct Case {
    AlarmLevel level;
    bool reset;
    double degrees;
  };
  const ChannelSetup inUnits = withAlarms();
  const ChannelSetup inCounts = withAlarms(ReadsAs::counts);
  for (const Case& at : {Case{AlarmLevel::lowLow, false, 60}, Case{AlarmLevel::lowLow, true, 61},
                         Case{AlarmLevel::low, false, 70}, Case{AlarmLevel::low, true, 71},
                         Case{AlarmLevel::high, false, 90}, Case{AlarmLevel::high, true, 89},
                         Case{AlarmLevel::highHigh, false, 95}, Case{AlarmLevel::highHigh, true, 94}}) {
    const Expected units = alarmReading(*channelModel(inUnits), inUnits, at.level, at.reset);
    EXPECT_NEAR(std::get<double>(units), at.degrees, 1e-12);
    const Expected counts = alarmReading(*channelModel(inCounts), inCounts, at.level, at.reset);
    EXPECT_NEAR(std::get<double>(counts), at.degrees / 150.0 * 32000.0, 1e-9);
  }
}

TEST(LayOut, SwitchAndStatePointsComeFromTheSetup) {
  const ChannelSetup threshold{ThresholdSetup{24, 14, 6, 0}};
  const auto levels = points(threshold, {{0, 50, 100}, RunOrder::upDown, 2});
  EXPECT_THAT(labels(levels), ElementsAre("on, run 1", "off, run 1", "on, run 2", "off, run 2"));
  EXPECT_EQ(levels[0].role, PointRole::switchOn);
  EXPECT_EQ(levels[0].direction, Direction::up);
  EXPECT_EQ(levels[0].nominalApplied, 14.0);
  EXPECT_EQ(levels[1].direction, Direction::down);
  EXPECT_EQ(levels[1].nominalApplied, 6.0);
  EXPECT_EQ(levels[1].readingUnit, Unit::volt);
  EXPECT_NEAR(levels[1].percent, 25.0, 1e-12);

  const ChannelSetup discrete{DiscreteOutputSetup{}};
  EXPECT_THAT(labels(points(discrete, {{}, RunOrder::up, 1, false, true})),
              ElementsAre("on", "off", "loss of communication"));
  EXPECT_THAT(labels(points(discrete, {{}, RunOrder::up})), ElementsAre("on", "off"));
}

TEST(LayOut, AnalogOutputsCommandAndLoseCommunicationLast) {
  AnalogOutputSetup output;
  output.signal = {4, 20, Unit::milliampere};
  output.units = Span{0, 100, Unit::percent};
  const ChannelSetup setup{output};
  const auto all = points(setup, {{0, 100}, RunOrder::up, 1, false, true});
  EXPECT_THAT(labels(all), ElementsAre("0 % up", "100 % up", "loss of communication"));
  EXPECT_EQ(all[1].nominalApplied, 100.0);
  EXPECT_EQ(all[1].appliedUnit, Unit::percent);
  EXPECT_EQ(all[1].readingUnit, Unit::milliampere);
  EXPECT_EQ(all[2].nominalApplied, 50.0);
}

TEST(LayOut, ASensorOnItsOwnHasOnlyItsValues) {
  const SensorRange sensor{.process = {0, 150, Unit::celsius},
                           .output = Span{4, 20, Unit::milliampere},
                           .transfer = TransferKind::linear,
                           .thermocouple = std::nullopt,
                           .rtd = std::nullopt};
  const ChannelSetup setup = withAlarms();
  const TestScheme scheme{{0, 100}, RunOrder::up, 1, true, true};
  EXPECT_THAT(labels(layOutPoints(scheme, *sensorModel(sensor), nullptr, Subject::sensor)),
              ElementsAre("0 % up", "100 % up"));
  EXPECT_EQ(layOutPoints(scheme, *sensorModel(sensor), &setup, Subject::sensor).size(), 2U);
}

class Match : public testing::Test {
 protected:
  const TestPoint* find(std::optional<std::string_view> key, std::optional<double> applied = std::nullopt,
                        Direction direction = Direction::none) const {
    return matchPoint(all_, taken_, *model_, key, applied, direction);
  }
  int sequence(std::optional<std::string_view> key, std::optional<double> applied = std::nullopt,
               Direction direction = Direction::none) const {
    const TestPoint* point = find(key, applied, direction);
    return point == nullptr ? 0 : point->sequence;
  }

  ChannelSetup setup_ = withAlarms();
  PointModelPtr model_ = channelModel(setup_);
  std::vector<TestPoint> all_ = points(setup_, {{0, 25, 50, 75, 100}, RunOrder::upDown, 1, true});
  std::vector<int> taken_;
};

TEST_F(Match, ByKeyInTheOrderOfThePlan) {
  for (const char* key : {"25", "25.0", " 25 % ", "25%", "25,0"}) {
    EXPECT_EQ(sequence(key), 2) << key;
  }
  EXPECT_EQ(sequence("25", std::nullopt, Direction::down), 9);
  EXPECT_EQ(sequence("High trip"), 11);
  EXPECT_EQ(sequence("high-high trip"), 12);
  EXPECT_EQ(sequence("high trip", std::nullopt, Direction::down), 0);
  taken_ = {2};
  EXPECT_EQ(sequence("25"), 9);
  taken_ = {2, 9};
  EXPECT_EQ(sequence("25"), 0);
  for (const char* key : {"30", "", "%", "on", "25 degC", "2 5"}) {
    EXPECT_EQ(sequence(key), 0) << key;
  }
}

TEST_F(Match, ByTheNearestAppliedValue) {
  EXPECT_EQ(sequence(std::nullopt, 8.0), 2);
  EXPECT_EQ(sequence(std::nullopt, 8.3), 2) << "1.9 % of span away";
  EXPECT_EQ(sequence(std::nullopt, 8.32), 2) << "just 2 %";
  EXPECT_EQ(sequence(std::nullopt, 8.33), 0) << "2.1 %";
  EXPECT_EQ(sequence(std::nullopt, 8.0, Direction::down), 9);
  EXPECT_EQ(sequence(std::nullopt, 13.6), 0) << "an alarm's level is no value point";
  EXPECT_EQ(sequence(std::nullopt), 0);
  // Two plan points within reach: the nearer one wins, whatever the order.
  all_ = points(setup_, {{50, 51, 52}, RunOrder::up});
  EXPECT_EQ(sequence(std::nullopt, 12.15), 2);
}

TEST(Texts, ReadBack) {
  for (const Subject subject : {Subject::channel, Subject::sensor, Subject::loop}) {
    EXPECT_EQ(parseSubject(text(subject)), subject);
  }
  for (const Direction direction : {Direction::none, Direction::up, Direction::down}) {
    EXPECT_EQ(parseDirection(text(direction)), direction);
  }
  for (const RunOrder order : {RunOrder::up, RunOrder::down, RunOrder::upDown, RunOrder::downUp}) {
    EXPECT_EQ(parseRunOrder(text(order)), order);
  }
  for (const char* unknown : {"Up", "up ", "upwards", "both"}) {
    EXPECT_FALSE(parseDirection(unknown)) << unknown;
    EXPECT_FALSE(parseRunOrder(unknown)) << unknown;
    EXPECT_FALSE(parseSubject(unknown)) << unknown;
  }
  EXPECT_FALSE(parseSubject(""));
  EXPECT_FALSE(parseRunOrder(""));
}

}  // namespace
}  // namespace spanwright
