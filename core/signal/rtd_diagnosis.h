// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an RTD input reads when the element or its wiring is wrong, and which such fault the readings of a
// visit look like.
//
// The input turns the resistance it measures into a temperature by its own element. With T the element's
// temperature:
//   another element B   resistance R_B(T)
//   shorted             next to no resistance: below everything an element has, so the lower end
//   open                whatever the input does without current or on a broken wire: one end of what it can
//   show
// A broken lead of three or four is open to the input, or, when it only carried the compensation, adds a
// fixed resistance, as do two leads of three bridged to each other. That looks like a plain zero error and is
// told by no reading: it is not offered. Source: Ohm's law, and the element's function of rtd.h.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "core/signal/diagnosis.h"
#include "core/signal/rtd.h"

namespace spanwright {

enum class RtdFaultKind {
  openHigh,  ///< broken, stands at the upper end
  openLow,   ///< broken, stands at the lower end
  shorted,
  otherElement
};

struct RtdFault {
  RtdFaultKind kind = RtdFaultKind::openHigh;
  RtdElement actual = RtdElement::pt100;  ///< otherElement: what is really there
};
/// "the element is a Pt1000", "the element or its leads are shorted, ...": a clause.
std::string describe(const RtdFault& fault);

struct RtdInput {
  RtdElement element = RtdElement::pt100;  ///< what it is set up for
  CelsiusRange range;                      ///< what it can show, low below high
};

/// What the input reads with this fault for an element at `applied`; belowRange, aboveRange, belowFunction,
/// aboveFunction: it stands at or beyond that end.
Expected predictedReading(const RtdInput& input, const RtdFault& fault, Celsius applied);

struct RtdDiagnosis {
  RtdFault fault;
  double residual = 0.0;  ///< K, as in FaultFit
  double largest = 0.0;   ///< K
};
using RtdAnswer = std::variant<std::vector<RtdDiagnosis>, NoDiagnosis>;

/// Tries every fault on the readings; best first, never empty. Faults that put the input at an end need no
/// reading inside what it can show, so that those which read alike are offered together.
RtdAnswer diagnoseRtd(const RtdInput& input, const TemperatureObservations& observations,
                      double toleranceKelvin);

}  // namespace spanwright
