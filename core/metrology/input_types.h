// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a voltage means to an on/off input.
#pragma once

#include <optional>
#include <string_view>

namespace spanwright {

/// Voltage limits of one input type of IEC 61131-2 at 24 V DC, in volts: sure to be off from `offLow` to
/// `offHigh`, sure to be on from `onLow` to `onHigh`, limits included. (Its current limits are not covered
/// here.)
struct InputTypeLimits {
  double offLow = 0.0, offHigh = 0.0;
  double onLow = 0.0, onHigh = 0.0;
};

/// Type 1: off -3..5, on 15..30. Types 2 and 3: off -3..5, on 11..30 (those of type 2 from memory).
/// Nothing for any other type.
std::optional<InputTypeLimits> inputTypeLimits(int inputType);

enum class InputState { off, indeterminate, on, outOfRange };
std::string_view text(InputState state);  // "off", "indeterminate", "on", "out_of_range"

/// The state an input of this type must show at `volts`; needs finite volts. Limits count as inside.
InputState inputState(const InputTypeLimits& limits, double volts);

/// The state of an input with its own levels: on at or above `onLevel`, off at or below `offLevel`; between
/// them it keeps `wasOn`, and is indeterminate when that is not known.
InputState inputState(double onLevel, double offLevel, double volts, std::optional<bool> wasOn);

}  // namespace spanwright
