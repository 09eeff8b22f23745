// SPDX-License-Identifier: GPL-3.0-or-later
//
// A plan's test points laid out for one subject, in the order a technician does them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/metrology/tolerance.h"
#include "core/signal/point_model.h"
#include "core/signal/setup.h"

namespace spanwright {

enum class Direction { none, up, down };
enum class RunOrder { up, down, upDown, downUp };

/// What a point asks for.
enum class PointRole {
  value,  ///< apply a value, observe a reading
  switchOn,
  switchOff,  ///< ramp, observe the voltage at which the input turned on / off
  alarmTrip,
  alarmReset,  ///< ramp, observe the reading at which the alarm came / went
  stateOn,
  stateOff,     ///< command a state, observe volts at the load
  lossOfSignal  ///< interrupt communication, observe what the output does
};

enum class AlarmLevel { lowLow, low, high, highHigh };
enum class Subject { channel, sensor, loop };

/// What is to be tested, independent of any channel; part of a plan.
struct TestScheme {
  std::vector<double> percents;  ///< nominal points in % of applied span, ascending, without repeats
  RunOrder order = RunOrder::up;
  int repeats = 1;      ///< how many times the whole order is run
  bool alarms = false;  ///< also the trip and reset of every alarm level in use
  bool loss = false;    ///< outputs: also loss of communication
};

/// One line of a visit's sheet.
struct TestPoint {
  int sequence = 0;  ///< 1.. in the order done
  PointRole role = PointRole::value;
  double percent = 0.0;  ///< nominal, % of applied span (of reading span for switch and alarm points)
  Direction direction = Direction::none;
  int run = 1;
  std::optional<AlarmLevel> alarm;
  std::string label;  ///< "25 % up", "on", "high-high trip", "loss of communication"; "25 % up, run 2"
  /// In appliedUnit. Value points: what to apply or command. Switch and alarm points: where the ramp should
  /// find the change. States: the command. Loss of communication: the command before it is interrupted (50 %
  /// of span).
  double nominalApplied = 0.0;
  Unit appliedUnit = Unit::none;
  Unit readingUnit = Unit::none;
};

/// The points of `scheme` for `model`, in the order they are done. Threshold and discrete setups take their
/// points from the setup itself (on, off; states) and ignore the percents. Up-down is every percent rising,
/// then every percent falling, so that the end point is taken from both sides; `repeats` runs the whole order
/// again. Alarms follow once, in the order of the ramps: rising high trip, high-high trip; falling high-high
/// reset, high reset, low trip, low-low trip; rising low-low reset, low reset. Loss of communication comes
/// last. `setup` may be nullptr for a sensor on its own; for that subject it is not looked at.
std::vector<TestPoint> layOutPoints(const TestScheme& scheme, const PointModel& model,
                                    const ChannelSetup* setup, Subject subject);

/// The reading, in the model's reading unit, at which the alarm should come (or, with `reset`, go): the
/// level, or the level less (high levels) or plus (low levels) the dead band. The level must be in use.
Expected alarmReading(const PointModel& model, const ChannelSetup& setup, AlarmLevel level, bool reset);

/// Key of a point irrespective of direction and run: "25", "on", "high-high trip". Drift is followed per key.
std::string pointKey(const TestPoint& point);

/// The point a history row means, found among `points` not yet in `taken` (by sequence): same role/key when
/// `key` is given; otherwise the value point whose nominal is nearest to `applied`, at most 2 % of span away;
/// direction must agree when given. Nothing when there is none.
const TestPoint* matchPoint(const std::vector<TestPoint>& points, const std::vector<int>& taken,
                            const PointModel& model, std::optional<std::string_view> key,
                            std::optional<double> applied, Direction direction);

std::string_view text(Direction direction);  // "up", "down", ""
std::string_view text(AlarmLevel level);     // "low-low" ...
std::string_view text(Subject subject);      // "channel", "sensor", "loop"
std::string_view text(PointRole role);
std::string_view text(RunOrder order);  // "up", "down", "up-down", "down-up"
std::optional<Subject> parseSubject(std::string_view text);
std::optional<Direction> parseDirection(std::string_view text);
std::optional<RunOrder> parseRunOrder(std::string_view text);

}  // namespace spanwright
