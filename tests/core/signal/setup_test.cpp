// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/setup.h"

#include <functional>

#include "core/signal/settling.h"
#include "tests/core/signal/support.h"

namespace spanwright {
namespace {

using test::kInf;
using test::kNan;

AnalogInputSetup analogInput() {
  AnalogInputSetup setup;
  setup.signal = {4.0, 20.0, Unit::milliampere};
  setup.counts = Span{0.0, 32000.0, Unit::count};
  setup.bits = 16;
  setup.units = Span{0.0, 100.0, Unit::celsius};
  setup.alarms = {10.0, 20.0, 80.0, 90.0, 1.0};
  return setup;
}

ThermocoupleSetup couple() {
  ThermocoupleSetup setup;
  setup.range = {0.0, 1200.0, Unit::celsius};
  return setup;
}

RtdSetup rtd() {
  RtdSetup setup;
  setup.range = {-50.0, 150.0, Unit::celsius};
  return setup;
}

AnalogOutputSetup analogOutput() {
  AnalogOutputSetup setup;
  setup.signal = {4.0, 20.0, Unit::milliampere};
  setup.units = Span{0.0, 100.0, Unit::percent};
  setup.bits = 12;
  return setup;
}

const ThresholdSetup kThreshold{24.0, 14.0, 6.0, 0};

TEST(Setup, HasANameAndALineForEveryKind) {
  const std::tuple<ChannelSetup, const char*, const char*> cases[] = {
      {{kThreshold}, "threshold-input", "24 V input, on at 14 V, off at 6 V"},
      {{analogInput()}, "analog-input", "4-20 mA to 0-100 degC (0-32000 counts), 16 bit"},
      {{couple()}, "thermocouple-input", "type K thermocouple, 0-1200 degC"},
      {{rtd(), 0.5}, "rtd-input", "Pt100, 3 wires, -50..150 degC, filter 0.5 s"},
      {{analogOutput()}, "analog-output", "0-100 % to 4-20 mA, 12 bit, minimum on loss"},
      {{DiscreteOutputSetup{}}, "discrete-output", "24 V output, drop up to 2 V, off on loss"},
  };
  for (const auto& [setup, name, line] : cases) {
    EXPECT_EQ(kindName(setup), name);
    EXPECT_EQ(describe(setup), line);
    EXPECT_TRUE(setupFaults(setup).empty()) << setupFaults(setup)[0];
  }
  AnalogInputSetup plain = analogInput();
  plain.counts.reset();
  EXPECT_EQ(describe({plain}), "4-20 mA to 0-100 degC, 16 bit");
  AnalogInputSetup flow = plain;
  flow.transfer = TransferKind::squareRoot;
  flow.cutOffPercent = 1.5;
  EXPECT_EQ(describe({flow}), "4-20 mA to 0-100 degC, 16 bit, square root above 1.5 %");
  RtdSetup tenths = rtd();
  tenths.readsTenths = true;
  tenths.element = RtdElement::pt1000;
  EXPECT_EQ(describe({tenths}), "Pt1000, 3 wires, -50..150 degC in tenths");
}

TEST(Setup, AlarmLevelsOnlyWhereThereAreAny) {
  EXPECT_NE(alarmLevels({analogInput()}), nullptr);
  EXPECT_EQ(alarmLevels({kThreshold}), nullptr);
  EXPECT_EQ(alarmLevels({couple()}), nullptr);  // none of the four is used
  EXPECT_EQ(alarmLevels({analogOutput()}), nullptr);
  const ChannelSetup hot = [] {
    ThermocoupleSetup setup = couple();
    setup.alarms.high = 900.0;
    return ChannelSetup{setup};
  }();
  ASSERT_NE(alarmLevels(hot), nullptr);
  EXPECT_EQ(alarmLevels(hot)->high, 900.0);
}

template <typename Setup>
struct Spoil {
  std::function<void(Setup&)> by;
  const char* says;
};

template <typename Setup>
void expectFaults(const Setup& good, const std::vector<Spoil<Setup>>& cases) {
  ASSERT_TRUE(setupFaults({good}).empty());
  for (const auto& c : cases) {
    Setup bad = good;
    c.by(bad);
    const auto faults = setupFaults({bad});
    ASSERT_FALSE(faults.empty()) << c.says;
    bool found = false;
    for (const std::string& fault : faults)
      found = found || fault.find(c.says) != std::string::npos;
    EXPECT_TRUE(found) << c.says << " | " << faults[0];
  }
}

TEST(SetupFaults, AnalogInput) {
  using S = AnalogInputSetup;
  expectFaults<S>(
      analogInput(),
      {{[](S& s) { s.signal.high = 4.0; }, "the signal's low and high are equal"},
       {[](S& s) {
          *s.units = {-1e308, 1e308, Unit::celsius};
        },
        "the engineering range's low and high are too far apart"},
       {[](S& s) { s.signal.low = kNan; }, "the signal's low and high must be numbers"},
       {[](S& s) { s.signal.unit = Unit::bar; }, "the signal must be a voltage or current"},
       {[](S& s) { s.counts->high = 0.0; }, "the count range's low and high are equal"},
       {[](S& s) { s.counts->unit = Unit::volt; }, "the count range must be in counts"},
       {[](S& s) { s.units->high = 0.0; }, "the engineering range's low and high are equal"},
       {[](S& s) { s.units->high = kInf; }, "the engineering range's low and high must be numbers"},
       {[](S& s) { s.bits = 33; }, "1 to 32 bits"},
       {[](S& s) { s.bits = -1; }, "1 to 32 bits"},
       {[](S& s) { s.units.reset(); }, "a reading in engineering units needs"},
       {[](S& s) { s.counts.reset(), s.readsAs = ReadsAs::counts; }, "a reading in counts needs"},
       {[](S& s) { s.cutOffPercent = 1.0; }, "a cut-off belongs to the square root only"},
       {[](S& s) { s.transfer = TransferKind::squareRoot, s.cutOffPercent = 100.0; }, "below 100 %"},
       {[](S& s) { s.cutOffPercent = kNan; }, "below 100 %"},
       {[](S& s) { s.transfer = TransferKind::squareRoot, s.readsAs = ReadsAs::counts, s.units.reset(); },
        "the square root needs"},
       {[](S& s) { s.resolution = -0.1; }, "the resolution must not be negative"},
       {[](S& s) { s.alarms.low = 5.0; }, "the low alarm must be above the low-low alarm"},
       {[](S& s) { s.alarms.highHigh = 80.0; }, "the high-high alarm must be above the high alarm"},
       {[](S& s) { s.alarms.highHigh = 101.0; },
        "the high-high alarm at 101 lies outside the range 0 to 100"},
       {[](S& s) { s.alarms.lowLow = kNan; }, "the low-low alarm must be a number"},
       {[](S& s) { s.alarms.deadBand = -1.0; }, "dead band must not be negative"},
       {[](S& s) { s.alarms.deadBand = 100.0; }, "dead band is wider than the range"}});
}

TEST(SetupFaults, TemperatureInputs) {
  using T = ThermocoupleSetup;
  expectFaults<T>(couple(),
                  {{[](T& s) { s.range.high = 0.0; }, "low and high are equal"},
                   {[](T& s) { s.range.high = 1400.0; }, "leaves the sensor's function, -270 to 1372 degC"},
                   {[](T& s) { s.type = ThermocoupleType::T; }, "leaves the sensor's function, -270 to 400"},
                   {[](T& s) { s.range.unit = Unit::millivolt; }, "must be a temperature"},
                   {[](T& s) { s.range.low = kNan; }, "must be numbers"},
                   {[](T& s) { s.resolution = kNan; }, "the resolution must not be negative"},
                   {[](T& s) { s.alarms.high = 1300.0; }, "the high alarm at 1300 lies outside"}});
  using R = RtdSetup;
  expectFaults<R>(rtd(),
                  {{[](R& s) { s.wires = 5; }, "2, 3 or 4 wires"},
                   {[](R& s) { s.wires = 1; }, "2, 3 or 4 wires"},
                   {[](R& s) { s.range.low = -201.0; }, "leaves the sensor's function, -200 to 850 degC"},
                   {[](R& s) { s.range.high = 900.0; }, "leaves the sensor's function"},
                   {[](R& s) { s.resolution = -1.0; }, "the resolution must not be negative"}});
  ThermocoupleSetup fahrenheit = couple();
  fahrenheit.range = {-454.0, 2501.6, Unit::fahrenheit};  // -270 to 1372 degC
  EXPECT_TRUE(setupFaults({fahrenheit}).empty());
}

TEST(SetupFaults, SwitchesAndOutputs) {
  using S = ThresholdSetup;
  expectFaults<S>(kThreshold, {{[](S& s) { s.onLevel = 6.0; }, "the on level must be above the off level"},
                               {[](S& s) { s.onLevel = 25.0; }, "above the rated voltage"},
                               {[](S& s) { s.offLevel = -1.0; }, "the off level must not be below 0 V"},
                               {[](S& s) { s.ratedVolts = 0.0; }, "the rated voltage must be above 0 V"},
                               {[](S& s) { s.onLevel = kNan; }, "must be numbers"},
                               {[](S& s) { s.inputType = 4; }, "the input type must be 1, 2 or 3"},
                               {[](S& s) { s.ratedVolts = 48.0, s.inputType = 1; }, "24 V DC only"}});
  using A = AnalogOutputSetup;
  expectFaults<A>(analogOutput(),
                  {{[](A& s) { s.signal.unit = Unit::percent; }, "the signal must be a voltage or current"},
                   {[](A& s) { s.units.reset(); }, "a command in engineering units needs"},
                   {[](A& s) { s.commandedAs = ReadsAs::counts; }, "a command in counts needs"},
                   {[](A& s) { s.bits = 99; }, "1 to 32 bits"}});
  using D = DiscreteOutputSetup;
  expectFaults<D>(DiscreteOutputSetup{},
                  {{[](D& s) { s.supplyVolts = -24.0; }, "the supply must be above 0 V"},
                   {[](D& s) { s.maxDropVolts = kNan; }, "must not be negative"},
                   {[](D& s) { s.maxDropVolts = 23.0; }, "leave nothing between on and off"},
                   {[](D& s) { s.onLoss = LossBehaviour::minimum; }, "it has no minimum"}});
  EXPECT_FALSE(setupFaults({kThreshold, -1.0}).empty());
  EXPECT_FALSE(setupFaults({kThreshold, kNan}).empty());
}

TEST(SensorFaults, NamesWhatIsMissing) {
  SensorRange good;
  good.process = {0.0, 150.0, Unit::celsius};
  good.output = Span{4.0, 20.0, Unit::milliampere};
  EXPECT_TRUE(sensorFaults(good).empty());
  EXPECT_EQ(describe(good), "0-150 degC to 4-20 mA");
  const std::pair<std::function<void(SensorRange&)>, const char*> cases[] = {
      {[](SensorRange& s) { s.output.reset(); }, "needs an output"},
      {[](SensorRange& s) { s.process.high = 0.0; }, "the process range's low and high are equal"},
      {[](SensorRange& s) { s.output->high = 4.0; }, "the output's low and high are equal"},
      {[](SensorRange& s) { s.thermocouple = ThermocoupleType::K, s.rtd = RtdElement::pt100; }, "at once"},
      {[](SensorRange& s) { s.rtd = RtdElement::pt100, s.process.high = 900.0; },
       "leaves the sensor's function"},
      {[](SensorRange& s) { s.thermocouple = ThermocoupleType::K, s.process.unit = Unit::bar; },
       "must be a temperature"},
      {[](SensorRange& s) {
         s.thermocouple = ThermocoupleType::K, s.output.reset(), s.transfer = TransferKind::squareRoot;
       },
       "takes no square root"},
  };
  for (const auto& [spoil, says] : cases) {
    SensorRange bad = good;
    spoil(bad);
    const auto faults = sensorFaults(bad);
    ASSERT_EQ(faults.size(), 1u) << says;
    EXPECT_NE(faults[0].find(says), std::string::npos) << faults[0];
  }
  SensorRange bare;
  bare.process = {-40.0, 200.0, Unit::celsius};
  bare.rtd = RtdElement::pt100;
  EXPECT_EQ(describe(bare), "Pt100, -40..200 degC");
}

TEST(Settling, TakesFiveTimeConstantsOfTheFilter) {
  EXPECT_EQ(settleSeconds({analogInput(), 0.5}), 3) << "2.5 s, in whole ones";
  EXPECT_EQ(settleSeconds({analogInput(), 2.0}), 10);
  EXPECT_EQ(settleSeconds({analogInput(), 0.01}), 1);
  EXPECT_EQ(settleSeconds({analogInput(), 0.0}), std::nullopt);
}

}  // namespace
}  // namespace spanwright
