// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/couple_diagnosis.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <optional>

#include "core/units/number.h"

namespace spanwright {

namespace {

constexpr double kColdestPlace = -40.0;
constexpr double kWarmestPlace = 85.0;

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
    case CoupleFaultKind::copperLeads:
      return sum.add(1.0, input.type, applied).add(1.0, input.type, fault.place).celsius(input.type);
  }
  return RangeResult::notANumber;
}

struct Candidate {
  CoupleFault fault;
  int fitted = 0;
  int insideNeeded = 2;
};

/// The emf all readings have too much: the least-squares answer in kelvin, to first order in the residuals,
/// so each is weighted by the slope of the function where it was read.
std::optional<double> commonEmf(const CoupleInput& input, const TemperatureObservations& observations) {
  double weights = 0.0;
  double sum = 0.0;
  for (const TemperatureObservation& seen : observations) {
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

std::vector<Candidate> candidatesFor(const CoupleInput& input, const TemperatureObservations& observations) {
  std::vector<Candidate> candidates{{{CoupleFaultKind::openHigh, input.type, {}}, 0, 0},
                                    {{CoupleFaultKind::openLow, input.type, {}}, 0, 0},
                                    {{CoupleFaultKind::reversed, input.type, {}}, 0, 2}};
  for (const ThermocoupleType type : kAllTypes)
    if (type != input.type)
      candidates.push_back({{CoupleFaultKind::otherType, type, {}}, 0, 2});
  double mean = 0.0;
  for (const TemperatureObservation& seen : observations)
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
    case CoupleFaultKind::copperLeads:
      return "the mV were fed through copper leads to terminals at " + place +
             ", and the reference junction is not given";
  }
  return "";
}

Expected predictedReading(const CoupleInput& input, const CoupleFault& fault, Celsius applied) {
  assert(input.range.low.value < input.range.high.value);
  return withinShown(input.range, told(input, fault, applied));
}

CoupleAnswer diagnoseCouple(const CoupleInput& input, const TemperatureObservations& observations,
                            double toleranceKelvin) {
  if (const auto none = undiagnosable(observations, toleranceKelvin))
    return *none;
  CoupleOffer offer;
  offer.plainResidual = plainResidual(observations);
  const std::vector<Candidate> candidates = candidatesFor(input, observations);
  std::vector<FaultModel> models;
  models.reserve(candidates.size());
  for (const Candidate& candidate : candidates)
    models.push_back(
        {[&input, &candidate](Celsius applied) { return predictedReading(input, candidate.fault, applied); },
         candidate.fitted, candidate.insideNeeded});
  for (const FaultFit& fit :
       faultsThatFit(input.range, models, observations, toleranceKelvin, offer.plainResidual))
    offer.diagnoses.push_back({candidates[fit.model].fault, fit.residual, fit.largest});
  if (offer.diagnoses.empty())
    return NoDiagnosis::noneFits;
  return offer;
}

std::optional<CoupleDiagnosis> diagnoseCopperLeads(const CoupleInput& input,
                                                   const TemperatureObservations& observations,
                                                   double toleranceKelvin, std::optional<Celsius> ambient) {
  const bool allInside = std::all_of(
      observations.begin(), observations.end(), [toleranceKelvin](const TemperatureObservation& seen) {
        return std::abs(seen.reading.value - seen.applied.value) <= toleranceKelvin;
      });
  const auto emf = allInside ? std::nullopt : commonEmf(input, observations);
  const Expected place =
      emf ? thermocoupleCelsius(input.type, Millivolts{*emf}) : Expected(RangeResult::notANumber);
  const double* terminals = std::get_if<double>(&place);
  const double coldest = ambient ? ambient->value - 5.0 : 10.0;
  const double warmest = ambient ? ambient->value + 15.0 : 40.0;
  if (terminals == nullptr || *terminals < coldest || *terminals > warmest)
    return std::nullopt;
  const CoupleFault fault{CoupleFaultKind::copperLeads, input.type, {*terminals}};
  const FaultModel model{[&](Celsius applied) { return predictedReading(input, fault, applied); }, 1, 3};
  const auto fits = faultsThatFit(input.range, {model}, observations, toleranceKelvin,
                                  std::numeric_limits<double>::infinity());
  if (fits.empty())
    return std::nullopt;
  return CoupleDiagnosis{fault, fits.front().residual, fits.front().largest};
}

}  // namespace spanwright
