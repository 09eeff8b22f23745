// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/input_types.h"

namespace spanwright {

std::optional<InputTypeLimits> inputTypeLimits(int inputType) {
  switch (inputType) {
    case 1:
      return InputTypeLimits{-3.0, 5.0, 15.0, 30.0};
    case 2:
    case 3:
      return InputTypeLimits{-3.0, 5.0, 11.0, 30.0};
    default:
      return std::nullopt;
  }
}

std::string_view text(InputState state) {
  switch (state) {
    case InputState::off:
      return "off";
    case InputState::indeterminate:
      return "indeterminate";
    case InputState::on:
      return "on";
    case InputState::outOfRange:
      return "out_of_range";
  }
  return "";
}

InputState inputState(const InputTypeLimits& limits, double volts) {
  if (volts < limits.offLow || volts > limits.onHigh) {
    return InputState::outOfRange;
  }
  if (volts <= limits.offHigh) {
    return InputState::off;
  }
  return volts >= limits.onLow ? InputState::on : InputState::indeterminate;
}

InputState inputState(double onLevel, double offLevel, double volts, std::optional<bool> wasOn) {
  if (volts >= onLevel) {
    return InputState::on;
  }
  if (volts <= offLevel) {
    return InputState::off;
  }
  if (!wasOn) {
    return InputState::indeterminate;
  }
  return *wasOn ? InputState::on : InputState::off;
}

}  // namespace spanwright
