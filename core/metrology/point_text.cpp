// SPDX-License-Identifier: GPL-3.0-or-later
//
// Names of what a test point is made of, and back.
#include <array>

#include "core/metrology/test_points.h"

namespace spanwright {
namespace {

template <typename Value, std::size_t count>
std::optional<Value> parsed(std::string_view given, const std::array<Value, count>& all) {
  for (const Value value : all) {
    if (text(value) == given) {
      return value;
    }
  }
  return std::nullopt;
}

}  // namespace

std::string_view text(Direction direction) {
  switch (direction) {
    case Direction::up:
      return "up";
    case Direction::down:
      return "down";
    case Direction::none:
      break;
  }
  return "";
}

std::string_view text(AlarmLevel level) {
  switch (level) {
    case AlarmLevel::lowLow:
      return "low-low";
    case AlarmLevel::low:
      return "low";
    case AlarmLevel::high:
      return "high";
    case AlarmLevel::highHigh:
      break;
  }
  return "high-high";
}

std::string_view text(Subject subject) {
  switch (subject) {
    case Subject::channel:
      return "channel";
    case Subject::sensor:
      return "sensor";
    case Subject::loop:
      break;
  }
  return "loop";
}

std::string_view text(PointRole role) {
  switch (role) {
    case PointRole::value:
      return "value";
    case PointRole::switchOn:
      return "switch on";
    case PointRole::switchOff:
      return "switch off";
    case PointRole::alarmTrip:
      return "alarm trip";
    case PointRole::alarmReset:
      return "alarm reset";
    case PointRole::stateOn:
      return "state on";
    case PointRole::stateOff:
      return "state off";
    case PointRole::lossOfSignal:
      break;
  }
  return "loss of communication";
}

std::string_view text(RunOrder order) {
  switch (order) {
    case RunOrder::up:
      return "up";
    case RunOrder::down:
      return "down";
    case RunOrder::upDown:
      return "up-down";
    case RunOrder::downUp:
      break;
  }
  return "down-up";
}

std::optional<Subject> parseSubject(std::string_view given) {
  return parsed(given, std::array{Subject::channel, Subject::sensor, Subject::loop});
}

std::optional<Direction> parseDirection(std::string_view given) {
  return parsed(given, std::array{Direction::none, Direction::up, Direction::down});
}

std::optional<RunOrder> parseRunOrder(std::string_view given) {
  return parsed(given, std::array{RunOrder::up, RunOrder::down, RunOrder::upDown, RunOrder::downUp});
}

}  // namespace spanwright
