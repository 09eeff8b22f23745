// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/couple_diagnosis.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <optional>

#include "core/units/number.h"

namespace spanwright {

namespace {

constexpr double kColdestPlace = -40.0;
constexpr double kWarmestPlace = 85.0;
constexpr double kLargestPlainSlope = 0.05;
constexpr double kClearlyBetter = 0.5;
constexpr double kApart = 1.0;  // K

constexpr std::array kAllTypes{ThermocoupleType::B, ThermocoupleType::C, ThermocoupleType::E,
                               ThermocoupleType::J, ThermocoupleType::K, ThermocoupleType::N,
                               ThermocoupleType::R, ThermocoupleType::S, ThermocoupleType::T};

/// A sum of emfs, each with its factor, or the first reason why one has no value.
class EmfSum {
 public:
  EmfSum& add(double factor, ThermocoupleType type, Celsius at) {
    const Expected emf = thermocoupleMillivolts(type, at);
    if (const auto* value = std::get_if<double>(&emf))
      sum_ += factor * *value;
    else if (!reason_)
      reason_ = std::get<RangeResult>(emf);
    return *this;
  }
  /// The temperature an input of this type tells from the sum.
  Expected celsius(ThermocoupleType type) const {
    if (reason_)
      return *reason_;
    return thermocoupleCelsius(type, Millivolts{sum_});
  }

 private:
  double sum_ = 0.0;
  std::optional<RangeResult> reason_;
};

/// What the input tells, whether it can show it or not.
Expected told(const CoupleInput& input, const CoupleFault& fault, Celsius applied) {
  EmfSum sum;
  switch (fault.kind) {
    case CoupleFaultKind::openHigh:
      return RangeResult::aboveRange;
    case CoupleFaultKind::openLow:
      return RangeResult::belowRange;
    case CoupleFaultKind::shorted:
      return fault.place.value;
    case CoupleFaultKind::reversed:
      return sum.add(2.0, input.type, input.terminals).add(-1.0, input.type, applied).celsius(input.type);
    case CoupleFaultKind::otherType:
      return sum.add(1.0, fault.actual, applied)
          .add(-1.0, fault.actual, input.terminals)
          .add(1.0, input.type, input.terminals)
          .celsius(input.type);
    case CoupleFaultKind::otherReference:
      return sum.add(1.0, input.type, applied)
          .add(-1.0, input.type, input.terminals)
          .add(1.0, input.type, fault.place)
          .celsius(input.type);
    case CoupleFaultKind::extensionReversed:
      return sum.add(1.0, input.type, applied)
          .add(-2.0, input.type, fault.place)
          .add(2.0, input.type, input.terminals)
          .celsius(input.type);
  }
  return RangeResult::notANumber;
}

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

/// How far the readings are from what the fault makes the input show. Where it stands at or beyond an end, a
/// reading there fits whatever it is.
Misfit misfitOf(const CoupleInput& input, const CoupleFault& fault,
                const std::vector<CoupleObservation>& observations) {
  Misfit misfit;
  for (const CoupleObservation& seen : observations) {
    const Expected predicted = predictedReading(input, fault, seen.applied);
    double residual = 0.0;
    if (const auto* value = std::get_if<double>(&predicted)) {
      residual = seen.reading.value - *value;
      ++misfit.inside;
    } else if (above(std::get<RangeResult>(predicted))) {
      residual = std::min(0.0, seen.reading.value - input.range.high.value);
    } else if (below(std::get<RangeResult>(predicted))) {
      residual = std::max(0.0, seen.reading.value - input.range.low.value);
    } else {
      misfit.possible = false;
      return misfit;
    }
    misfit.squares += residual * residual;
    misfit.largest = std::max(misfit.largest, std::abs(residual));
  }
  return misfit;
}

struct Candidate {
  CoupleFault fault;
  int fitted = 0;
  int insideNeeded = 2;
};

/// The emf all readings have too much: the least-squares answer in kelvin, to first order in the residuals,
/// so each is weighted by the slope of the function where it was read.
std::optional<double> commonEmf(const CoupleInput& input,
                                const std::vector<CoupleObservation>& observations) {
  double weights = 0.0;
  double sum = 0.0;
  for (const CoupleObservation& seen : observations) {
    const Expected read = thermocoupleMillivolts(input.type, seen.reading);
    const Expected ideal = thermocoupleMillivolts(input.type, seen.applied);
    const Expected slope = seebeckMicrovoltsPerKelvin(input.type, seen.reading);
    if (!std::holds_alternative<double>(read) || !std::holds_alternative<double>(ideal) ||
        !std::holds_alternative<double>(slope) || !(std::get<double>(slope) > 0.0))
      continue;
    const double weight = 1.0 / (std::get<double>(slope) * std::get<double>(slope));
    weights += weight;
    sum += weight * (std::get<double>(read) - std::get<double>(ideal));
  }
  if (!(weights > 0.0))
    return std::nullopt;
  return sum / weights;
}

/// The temperature whose emf is that of the terminals and `more` mV, if it can be that of a place people
/// stand at.
std::optional<Celsius> placeFor(const CoupleInput& input, double more) {
  const Expected place = thermocoupleCelsius(input.type, Millivolts{more}, input.terminals);
  const auto* value = std::get_if<double>(&place);
  if (value == nullptr || *value < kColdestPlace || *value > kWarmestPlace)
    return std::nullopt;
  return Celsius{*value};
}

std::vector<Candidate> candidatesFor(const CoupleInput& input,
                                     const std::vector<CoupleObservation>& observations) {
  std::vector<Candidate> candidates{{{CoupleFaultKind::openHigh, input.type, {}}, 0, 0},
                                    {{CoupleFaultKind::openLow, input.type, {}}, 0, 0},
                                    {{CoupleFaultKind::reversed, input.type, {}}, 0, 2}};
  for (const ThermocoupleType type : kAllTypes)
    if (type != input.type)
      candidates.push_back({{CoupleFaultKind::otherType, type, {}}, 0, 2});
  double mean = 0.0;
  for (const CoupleObservation& seen : observations)
    mean += seen.reading.value / static_cast<double>(observations.size());
  if (mean >= kColdestPlace && mean <= kWarmestPlace)
    candidates.push_back({{CoupleFaultKind::shorted, input.type, {mean}}, 1, 3});
  if (const auto emf = commonEmf(input, observations)) {
    if (const auto place = placeFor(input, *emf))
      candidates.push_back({{CoupleFaultKind::otherReference, input.type, *place}, 1, 3});
    // 2 E(r) - 2 E(h) is the common emf.
    if (const auto place = placeFor(input, -0.5 * *emf))
      candidates.push_back({{CoupleFaultKind::extensionReversed, input.type, *place}, 1, 3});
  }
  return candidates;
}

/// Residual of the errors about their best straight line whose slope is no more than kLargestPlainSlope.
double plainResidual(const std::vector<CoupleObservation>& observations) {
  const auto count = static_cast<double>(observations.size());
  double meanApplied = 0.0;
  double meanError = 0.0;
  for (const CoupleObservation& seen : observations) {
    meanApplied += seen.applied.value / count;
    meanError += (seen.reading.value - seen.applied.value) / count;
  }
  double sxx = 0.0;
  double sxy = 0.0;
  for (const CoupleObservation& seen : observations) {
    const double x = seen.applied.value - meanApplied;
    sxx += x * x;
    sxy += x * (seen.reading.value - seen.applied.value - meanError);
  }
  const double slope = std::clamp(sxy / sxx, -kLargestPlainSlope, kLargestPlainSlope);
  double squares = 0.0;
  for (const CoupleObservation& seen : observations) {
    const double left =
        seen.reading.value - seen.applied.value - meanError - slope * (seen.applied.value - meanApplied);
    squares += left * left;
  }
  return std::sqrt(squares / std::max(1.0, count - 2.0));
}

/// Applied temperatures that are a kelvin or more from every one counted before.
int distinctTemperatures(const std::vector<CoupleObservation>& observations) {
  std::vector<double> applied;
  applied.reserve(observations.size());
  for (const CoupleObservation& seen : observations)
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

std::string describe(const CoupleFault& fault) {
  const std::string place = formatFixed(fault.place.value, 1) + " degC";
  switch (fault.kind) {
    case CoupleFaultKind::openHigh:
      return "the couple or a lead is open, the input stands at its upper end";
    case CoupleFaultKind::openLow:
      return "the couple or a lead is open, the input stands at its lower end";
    case CoupleFaultKind::shorted:
      return "the leads are shorted where it is " + place;
    case CoupleFaultKind::reversed:
      return "the leads are reversed";
    case CoupleFaultKind::otherType:
      return "the couple is a type " + std::string(text(fault.actual));
    case CoupleFaultKind::otherReference:
      return "the input takes its terminals to be at " + place;
    case CoupleFaultKind::extensionReversed:
      return "the extension leads are reversed at both ends, the join being at " + place;
  }
  return "";
}

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

Expected predictedReading(const CoupleInput& input, const CoupleFault& fault, Celsius applied) {
  assert(input.range.low.value < input.range.high.value);
  const Expected reading = told(input, fault, applied);
  if (const auto* value = std::get_if<double>(&reading)) {
    if (*value < input.range.low.value)
      return RangeResult::belowRange;
    if (*value > input.range.high.value)
      return RangeResult::aboveRange;
  }
  return reading;
}

CoupleAnswer diagnoseCouple(const CoupleInput& input, const std::vector<CoupleObservation>& observations,
                            double toleranceKelvin) {
  assert(toleranceKelvin > 0.0 && std::isfinite(toleranceKelvin));
  for (const CoupleObservation& seen : observations)
    if (!std::isfinite(seen.applied.value) || !std::isfinite(seen.reading.value))
      return NoDiagnosis::notANumber;
  if (distinctTemperatures(observations) < 3)
    return NoDiagnosis::tooFewPoints;
  if (std::all_of(observations.begin(), observations.end(), [&](const CoupleObservation& seen) {
        return std::abs(seen.reading.value - seen.applied.value) <= toleranceKelvin;
      }))
    return NoDiagnosis::noError;

  CoupleOffer offer;
  offer.plainResidual = plainResidual(observations);
  if (offer.plainResidual <= toleranceKelvin)
    return NoDiagnosis::plainError;
  for (const Candidate& candidate : candidatesFor(input, observations)) {
    const Misfit misfit = misfitOf(input, candidate.fault, observations);
    if (!misfit.possible || misfit.inside < candidate.insideNeeded)
      continue;
    const double freedom = static_cast<double>(observations.size()) - candidate.fitted;
    const double residual = std::sqrt(misfit.squares / freedom);
    if (residual <= toleranceKelvin && residual <= kClearlyBetter * offer.plainResidual)
      offer.diagnoses.push_back({candidate.fault, residual, misfit.largest});
  }
  if (offer.diagnoses.empty())
    return NoDiagnosis::noneFits;
  std::stable_sort(
      offer.diagnoses.begin(), offer.diagnoses.end(),
      [](const CoupleDiagnosis& a, const CoupleDiagnosis& b) { return a.residual < b.residual; });
  return offer;
}

}  // namespace spanwright
