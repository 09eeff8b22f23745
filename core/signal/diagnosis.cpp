// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/diagnosis.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace spanwright {

namespace {

constexpr double kLargestPlainSlope = 0.05;
constexpr double kClearlyBetter = 0.5;
constexpr double kApart = 1.0;  // K

bool below(RangeResult result) {
  return result == RangeResult::belowRange || result == RangeResult::belowFunction;
}
bool above(RangeResult result) {
  return result == RangeResult::aboveRange || result == RangeResult::aboveFunction;
}

struct Misfit {
  double squares = 0.0;
  double largest = 0.0;
  int inside = 0;  ///< readings with a predicted temperature
  bool possible = true;
};

Misfit misfitOf(const CelsiusRange& shown, const FaultModel& model,
                const TemperatureObservations& observations) {
  Misfit misfit;
  for (const TemperatureObservation& seen : observations) {
    const Expected predicted = model.predicted(seen.applied);
    double residual = 0.0;
    if (const auto* value = std::get_if<double>(&predicted)) {
      residual = seen.reading.value - *value;
      ++misfit.inside;
    } else if (above(std::get<RangeResult>(predicted))) {
      residual = std::min(0.0, seen.reading.value - shown.high.value);
    } else if (below(std::get<RangeResult>(predicted))) {
      residual = std::max(0.0, seen.reading.value - shown.low.value);
    } else {
      misfit.possible = false;
      return misfit;
    }
    misfit.squares += residual * residual;
    misfit.largest = std::max(misfit.largest, std::abs(residual));
  }
  return misfit;
}

/// Applied temperatures that are a kelvin or more from every one counted before.
int distinctTemperatures(const TemperatureObservations& observations) {
  std::vector<double> applied;
  applied.reserve(observations.size());
  for (const TemperatureObservation& seen : observations)
    applied.push_back(seen.applied.value);
  std::sort(applied.begin(), applied.end());
  int distinct = 0;
  double last = 0.0;
  for (const double value : applied) {
    if (distinct == 0 || value - last >= kApart) {
      ++distinct;
      last = value;
    }
  }
  return distinct;
}

}  // namespace

std::string_view text(NoDiagnosis reason) {
  switch (reason) {
    case NoDiagnosis::tooFewPoints:
      return "fewer than three different temperatures were applied";
    case NoDiagnosis::noError:
      return "all errors are inside the tolerance";
    case NoDiagnosis::plainError:
      return "a plain zero and span error explains the readings as well";
    case NoDiagnosis::noneFits:
      return "no known fault gives such readings";
    case NoDiagnosis::notANumber:
      return "a temperature is not a number";
  }
  return "";
}

Expected withinShown(const CelsiusRange& shown, const Expected& told) {
  if (const auto* value = std::get_if<double>(&told)) {
    if (*value < shown.low.value)
      return RangeResult::belowRange;
    if (*value > shown.high.value)
      return RangeResult::aboveRange;
  }
  return told;
}

double plainResidual(const TemperatureObservations& observations) {
  const auto count = static_cast<double>(observations.size());
  double meanApplied = 0.0;
  double meanError = 0.0;
  for (const TemperatureObservation& seen : observations) {
    meanApplied += seen.applied.value / count;
    meanError += (seen.reading.value - seen.applied.value) / count;
  }
  double sxx = 0.0;
  double sxy = 0.0;
  for (const TemperatureObservation& seen : observations) {
    const double x = seen.applied.value - meanApplied;
    sxx += x * x;
    sxy += x * (seen.reading.value - seen.applied.value - meanError);
  }
  const double slope = std::clamp(sxy / sxx, -kLargestPlainSlope, kLargestPlainSlope);
  double squares = 0.0;
  for (const TemperatureObservation& seen : observations) {
    const double left =
        seen.reading.value - seen.applied.value - meanError - slope * (seen.applied.value - meanApplied);
    squares += left * left;
  }
  return std::sqrt(squares / std::max(1.0, count - 2.0));
}

std::optional<NoDiagnosis> undiagnosable(const TemperatureObservations& observations,
                                         double toleranceKelvin) {
  assert(toleranceKelvin > 0.0 && std::isfinite(toleranceKelvin));
  for (const TemperatureObservation& seen : observations)
    if (!std::isfinite(seen.applied.value) || !std::isfinite(seen.reading.value))
      return NoDiagnosis::notANumber;
  if (distinctTemperatures(observations) < 3)
    return NoDiagnosis::tooFewPoints;
  if (std::all_of(observations.begin(), observations.end(), [&](const TemperatureObservation& seen) {
        return std::abs(seen.reading.value - seen.applied.value) <= toleranceKelvin;
      }))
    return NoDiagnosis::noError;
  if (plainResidual(observations) <= toleranceKelvin)
    return NoDiagnosis::plainError;
  return std::nullopt;
}

std::vector<FaultFit> faultsThatFit(const CelsiusRange& shown, const std::vector<FaultModel>& models,
                                    const TemperatureObservations& observations, double toleranceKelvin,
                                    double plain) {
  std::vector<FaultFit> fits;
  for (std::size_t i = 0; i < models.size(); ++i) {
    const Misfit misfit = misfitOf(shown, models[i], observations);
    if (!misfit.possible || misfit.inside < models[i].insideNeeded)
      continue;
    const double freedom = static_cast<double>(observations.size()) - models[i].fitted;
    const double residual = std::sqrt(misfit.squares / freedom);
    if (residual <= toleranceKelvin && residual <= kClearlyBetter * plain)
      fits.push_back({i, residual, misfit.largest});
  }
  std::stable_sort(fits.begin(), fits.end(),
                   [](const FaultFit& a, const FaultFit& b) { return a.residual < b.residual; });
  return fits;
}

}  // namespace spanwright
