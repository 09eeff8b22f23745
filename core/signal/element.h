// SPDX-License-Identifier: GPL-3.0-or-later
//
// Inside the room: a couple or a platinum element seen as one function from temperature to signal.
#pragma once

#include <variant>

#include "core/signal/range_result.h"
#include "core/signal/setup.h"

namespace spanwright {

class Element {
 public:
  explicit Element(ThermocoupleType type) : kind_(type) {}
  explicit Element(RtdElement element) : kind_(element) {}

  bool isCouple() const { return std::holds_alternative<ThermocoupleType>(kind_); }
  /// mV for a couple, ohm for platinum.
  Unit signalUnit() const { return isCouple() ? Unit::millivolt : Unit::ohm; }
  Celsius low() const;
  Celsius high() const;

  Expected signal(Celsius at) const;
  /// `referenceJunction` matters for a couple only.
  Expected celsius(double signal, Celsius referenceJunction = {0.0}) const;
  /// Signal units per kelvin.
  Expected slope(Celsius at) const;
  /// Why the signal at `at` does not tell the temperature, or `at` itself.
  Expected told(Celsius at) const;

 private:
  std::variant<ThermocoupleType, RtdElement> kind_;
};

}  // namespace spanwright
