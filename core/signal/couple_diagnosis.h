// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a thermocouple input reads when the couple or its wiring is wrong, and which such fault the readings
// of a visit look like.
//
// The input adds E(terminals) of its own type to what it measures and turns the sum into a temperature. With
// A the input's type, T the junction, r the terminals:
//   reversed at the input    emf -(E_A(T) - E_A(r))
//   another type B           emf E_B(T) - E_B(r)
//   reference taken as x     sum E_A(T) - E_A(r) + E_A(x)
//   extension reversed       emf E_A(T) - 2 E_A(h) + E_A(r), h where couple and extension are joined
//   mV through copper leads  sum E_A(T) + E_A(r), where the mV fed were meant to be E_A(T) - E_A(r)
//   shorted at s             emf E_A(s) - E_A(r): the input shows the place of the short
//   open                     whatever the input does on a broken wire: stuck at or beyond one end of its
//   range
// Source: the law of the series circuit of homogeneous wires, and the reference functions of thermocouple.h.
//
// A diagnosis is offered, never decided: it says that the readings look so.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/signal/diagnosis.h"
#include "core/signal/thermocouple.h"

namespace spanwright {

enum class CoupleFaultKind {
  openHigh,  ///< broken, stuck at the upper end
  openLow,   ///< broken, stuck at the lower end
  shorted,
  reversed,
  otherType,
  otherReference,  ///< the input takes its terminals for warmer or colder than they are
  extensionReversed,
  copperLeads  ///< the mV fed are emf at the terminals, and were taken as emf referred to 0 degC
};

struct CoupleFault {
  CoupleFaultKind kind = CoupleFaultKind::reversed;
  ThermocoupleType actual = ThermocoupleType::K;  ///< otherType: what is really there
  /// shorted: where the short is; otherReference: what the input takes its terminals for; extensionReversed:
  /// where couple and extension are joined; copperLeads: the terminals. Not used by the others.
  Celsius place;
};
/// "the couple is a type J", "the leads are reversed": a clause.
std::string describe(const CoupleFault& fault);

/// The input a couple is connected to.
struct CoupleInput {
  ThermocoupleType type = ThermocoupleType::K;  ///< what it is set up for
  CelsiusRange range;                           ///< what it can show, low below high
  Celsius terminals{23.0};                      ///< their true temperature
};

/// What the input reads with this fault for a junction at `applied`. A temperature outside what the input can
/// show, or its function, is belowRange, aboveRange, belowFunction or aboveFunction: the input then stands at
/// or beyond that end. An open couple gives belowRange or aboveRange.
Expected predictedReading(const CoupleInput& input, const CoupleFault& fault, Celsius applied);

struct CoupleDiagnosis {
  CoupleFault fault;
  double residual = 0.0;  ///< K, root mean square per degree of freedom, of what the fault leaves unexplained
  double largest = 0.0;   ///< K, the largest of it
};

struct CoupleOffer {
  std::vector<CoupleDiagnosis> diagnoses;  ///< best first, never empty
  double plainResidual = 0.0;              ///< K, what a plain error leaves unexplained
};
using CoupleAnswer = std::variant<CoupleOffer, NoDiagnosis>;

/// Tries every fault on the readings by least squares. The place of a short (-40..85 degC) and what the input
/// takes its terminals for (-40..85 degC) are fitted; for extensionReversed the place of the join is (it
/// cannot be told from otherReference by readings alone: the two are offered together). A fault is offered
/// when
/// - its residual is within `toleranceKelvin` (above zero), at least two readings more than it has fitted
/// numbers lie
///   inside what the input can show (for an open couple none need), and
/// - it is clearly better than a plain error, a zero and a span error of at most 5 % of the applied
/// temperature: half
///   its residual or less, while the plain error leaves more than the tolerance. (5 % and half: common
///   practice, no source.)
CoupleAnswer diagnoseCouple(const CoupleInput& input, const TemperatureObservations& observations,
                            double toleranceKelvin);

/// For an input that was fed with mV taken as emf referred to 0 degC: do its readings look as if the mV had
/// gone through copper leads to terminals at some temperature? That is fitted; the residual must be within
/// `toleranceKelvin`, three readings must lie inside what the input can show, one error at least must be
/// beyond the tolerance, and the temperature must be one of a cabinet: 5 K below to 15 K above `ambient`, 10
/// to 40 degC where that is not known (common practice, no source). It need not be better than a plain error:
/// over a short range the two look alike, and asking how the mV were fed costs less than adjusting by them.
std::optional<CoupleDiagnosis> diagnoseCopperLeads(const CoupleInput& input,
                                                   const TemperatureObservations& observations,
                                                   double toleranceKelvin, std::optional<Celsius> ambient);

}  // namespace spanwright
