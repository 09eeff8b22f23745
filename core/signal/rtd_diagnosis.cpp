// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/rtd_diagnosis.h"

#include <array>
#include <cassert>

namespace spanwright {

namespace {

constexpr std::array kElements{RtdElement::pt100, RtdElement::pt1000};

Expected told(const RtdInput& input, const RtdFault& fault, Celsius applied) {
  switch (fault.kind) {
    case RtdFaultKind::openHigh:
      return RangeResult::aboveRange;
    case RtdFaultKind::openLow:
    case RtdFaultKind::shorted:
      return RangeResult::belowRange;
    case RtdFaultKind::otherElement: {
      const Expected ohms = rtdOhms(fault.actual, applied);
      return std::holds_alternative<double>(ohms) ? rtdCelsius(input.element, Ohms{std::get<double>(ohms)})
                                                  : ohms;
    }
  }
  return RangeResult::notANumber;
}

std::vector<RtdFault> faultsOf(const RtdInput& input) {
  std::vector<RtdFault> faults{{RtdFaultKind::openHigh, input.element},
                               {RtdFaultKind::openLow, input.element},
                               {RtdFaultKind::shorted, input.element}};
  for (const RtdElement element : kElements)
    if (element != input.element)
      faults.push_back({RtdFaultKind::otherElement, element});
  return faults;
}

}  // namespace

std::string describe(const RtdFault& fault) {
  switch (fault.kind) {
    case RtdFaultKind::openHigh:
      return "the element or a lead is open, the input stands at its upper end";
    case RtdFaultKind::openLow:
      return "the element or a lead is open, the input stands at its lower end";
    case RtdFaultKind::shorted:
      return "the element or its leads are shorted, the input stands at its lower end";
    case RtdFaultKind::otherElement:
      return fault.actual == RtdElement::pt100 ? "the element is a Pt100" : "the element is a Pt1000";
  }
  return "";
}

Expected predictedReading(const RtdInput& input, const RtdFault& fault, Celsius applied) {
  assert(input.range.low.value < input.range.high.value);
  return withinShown(input.range, told(input, fault, applied));
}

RtdAnswer diagnoseRtd(const RtdInput& input, const TemperatureObservations& observations,
                      double toleranceKelvin) {
  if (const auto none = undiagnosable(observations, toleranceKelvin))
    return *none;
  const std::vector<RtdFault> faults = faultsOf(input);
  std::vector<FaultModel> models;
  models.reserve(faults.size());
  for (const RtdFault& fault : faults)
    models.push_back(
        {[&input, &fault](Celsius applied) { return predictedReading(input, fault, applied); }, 0, 0});
  std::vector<RtdDiagnosis> offered;
  for (const FaultFit& fit :
       faultsThatFit(input.range, models, observations, toleranceKelvin, plainResidual(observations)))
    offered.push_back({faults[fit.model], fit.residual, fit.largest});
  if (offered.empty())
    return NoDiagnosis::noneFits;
  return offered;
}

}  // namespace spanwright
