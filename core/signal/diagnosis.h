// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which faults of a sensor or its wiring the temperatures read at a visit look like; couple_diagnosis.h and
// rtd_diagnosis.h say what each fault makes an input read. A diagnosis is offered, never decided.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "core/signal/range_result.h"
#include "core/signal/thermocouple.h"

namespace spanwright {

struct TemperatureObservation {
  Celsius applied;
  Celsius reading;
};
using TemperatureObservations = std::vector<TemperatureObservation>;

/// Why nothing is offered.
enum class NoDiagnosis {
  tooFewPoints,  ///< fewer than three applied temperatures a kelvin or more apart
  noError,       ///< all errors are inside the tolerance
  plainError,    ///< a zero and a small span error explain the readings as well
  noneFits,
  notANumber
};
std::string_view text(NoDiagnosis reason);

/// `told` when it lies inside what the input can show, else belowRange or aboveRange.
Expected withinShown(const CelsiusRange& shown, const Expected& told);

/// Residual of the errors about their best straight line whose slope is at most 5 % (K, root mean square per
/// degree of freedom). Needs two different applied temperatures.
double plainResidual(const TemperatureObservations& observations);

/// What forbids a diagnosis whatever faults there are: all of NoDiagnosis but noneFits. `toleranceKelvin` is
/// above zero.
std::optional<NoDiagnosis> undiagnosable(const TemperatureObservations& observations, double toleranceKelvin);

/// One fault to try: what the input then reads (see predictedReading), how many numbers in it were fitted to
/// the readings, and how many readings must lie inside what the input can show.
struct FaultModel {
  std::function<Expected(Celsius applied)> predicted;
  int fitted = 0;
  int insideNeeded = 2;
};
struct FaultFit {
  std::size_t model = 0;  ///< its place among those tried
  double residual = 0.0;  ///< K, root mean square per degree of freedom, of what the fault leaves unexplained
  double largest = 0.0;   ///< K, the largest of it
};

/// The faults that can be offered, best first: residual within `toleranceKelvin` and half of `plain`
/// (plainResidual) or less (half and 5 %: common practice, no source). Where the input stands at or beyond an
/// end of what it can show, a reading there fits whatever it is.
std::vector<FaultFit> faultsThatFit(const CelsiusRange& shown, const std::vector<FaultModel>& models,
                                    const TemperatureObservations& observations, double toleranceKelvin,
                                    double plain);

}  // namespace spanwright
