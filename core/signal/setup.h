// SPDX-License-Identifier: GPL-3.0-or-later
//
// How a channel is configured, one version of it, and what its electrical side does with a signal.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/units/quantity.h"

namespace spanwright {

enum class TransferKind { linear, squareRoot };

/// What an output does when its controller stops talking to it.
enum class LossBehaviour { hold, minimum, off };

/// What a channel's reading is: the converter's counts, or a value in engineering units.
enum class ReadsAs { counts, units };

/// Four alarm levels in the reading's engineering unit; a level not used is nothing.
struct AlarmLevels {
  std::optional<double> lowLow, low, high, highHigh;
  double deadBand = 0.0;  ///< a low level resets this much above, a high level this much below its trip value
};

/// On/off input: on at or above `onLevel`, off at or below `offLevel`, in volts.
/// `inputType` 1, 2 or 3 claims the limits of IEC 61131-2 at 24 V DC; 0 claims none.
struct ThresholdSetup {
  double ratedVolts = 24.0;
  double onLevel = 0.0;
  double offLevel = 0.0;
  int inputType = 0;
};

/// Voltage or current input, also a linear temperature transmitter's current on such an input.
struct AnalogInputSetup {
  Span signal;                 ///< V, mV or mA
  std::optional<Span> counts;  ///< what `signal` becomes in the controller
  int bits = 0;                ///< converter resolution over `signal`; 0 when not known
  std::optional<Span> units;   ///< what `signal` means in engineering units
  TransferKind transfer = TransferKind::linear;
  double cutOffPercent = 0.0;  ///< square root: below this percent of flow the reading is zero
  ReadsAs readsAs = ReadsAs::units;
  double resolution = 0.0;  ///< smallest step shown in engineering units; 0 when not known
  AlarmLevels alarms;
};

enum class ThermocoupleType { B, C, E, J, K, N, R, S, T };

/// Thermocouple input: reads a temperature; applied as millivolts or as simulated temperature.
struct ThermocoupleSetup {
  ThermocoupleType type = ThermocoupleType::K;
  Span range{0.0, 0.0, Unit::celsius};  ///< temperature range in use: 0 % to 100 %
  double resolution = 0.1;              ///< in the range's unit: 1 whole degrees, 0.1 tenths
  bool readsTenths = false;             ///< 100.0 degC arrives as the whole number 1000
  AlarmLevels alarms;
};

enum class RtdElement { pt100, pt1000 };

/// RTD input: reads a temperature; applied as ohms or as simulated temperature.
struct RtdSetup {
  RtdElement element = RtdElement::pt100;
  int wires = 3;  ///< 2, 3 or 4
  Span range{0.0, 0.0, Unit::celsius};
  double resolution = 0.1;
  bool readsTenths = false;
  AlarmLevels alarms;
};

/// Analog output: commanded in counts or engineering units, drives V or mA.
struct AnalogOutputSetup {
  Span signal;
  std::optional<Span> counts;
  int bits = 0;
  std::optional<Span> units;
  ReadsAs commandedAs = ReadsAs::units;
  LossBehaviour onLoss = LossBehaviour::minimum;
};

/// Discrete output: commanded on or off, drives a load.
struct DiscreteOutputSetup {
  double supplyVolts = 24.0;
  double maxDropVolts = 2.0;  ///< on: the load sees at least supply minus this
  double maxOffVolts = 1.0;   ///< off: the load sees at most this
  LossBehaviour onLoss = LossBehaviour::off;
};

using SetupKind = std::variant<ThresholdSetup, AnalogInputSetup, ThermocoupleSetup, RtdSetup,
                               AnalogOutputSetup, DiscreteOutputSetup>;

/// Everything about a setup that decides what is read for what is applied.
struct ChannelSetup {
  SetupKind kind;
  double filterSeconds = 0.0;  ///< input filter; readings settle after about five of these
};

/// "threshold-input", "analog-input", "thermocouple-input", "rtd-input", "analog-output", "discrete-output".
std::string_view kindName(const ChannelSetup& setup);

/// Alarm levels of an input that has any, else nullptr.
const AlarmLevels* alarmLevels(const ChannelSetup& setup);

/// A sensor's or transmitter's own range: from process value to what it gives.
/// For a bare thermocouple or RTD the output follows its type and `output` is unused.
struct SensorRange {
  Span process;                ///< for instance 0..100 degC
  std::optional<Span> output;  ///< for instance 4..20 mA
  TransferKind transfer = TransferKind::linear;
  std::optional<ThermocoupleType> thermocouple;
  std::optional<RtdElement> rtd;
};

/// What makes a setup impossible, each a clause ("the signal's low and high are equal"); empty when it can
/// be.
std::vector<std::string> setupFaults(const ChannelSetup& setup);
std::vector<std::string> sensorFaults(const SensorRange& range);

/// The same with the field each is about, named as in a site file ("signal", "cut_off_percent").
struct SetupFault {
  std::string field;
  std::string what;
};
std::vector<SetupFault> setupFaultsByField(const ChannelSetup& setup);
std::vector<SetupFault> sensorFaultsByField(const SensorRange& range);

/// "4-20 mA to 0-100 degC, 16 bit" - the setup in one line for lists and certificates.
std::string describe(const ChannelSetup& setup);
std::string describe(const SensorRange& range);
/// "4 mA = 0 degC, 20 mA = 250 degC" - what the ends of an analog setup's signal mean; empty for the others.
std::string describeEnds(const ChannelSetup& setup);

}  // namespace spanwright
