// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/advice.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/record/reference_junction.h"
#include "core/signal/scaling.h"
#include "core/units/number.h"

namespace spanwright {
namespace {

constexpr double kUsualAmbient = 23.0;  // degC, the reference temperature of most instruments
constexpr double kLeastPercent = 0.0005;

using Readings = std::vector<const Reading*>;

Readings valueReadings(const std::vector<Reading>& readings) {
  Readings found;
  for (const Reading& reading : readings) {
    if (reading.point.role == PointRole::value && !reading.skipped()) {
      found.push_back(&reading);
    }
  }
  return found;
}

/// A square root between what can be set and what is read.
struct RootBefore {
  Span before;  ///< the span before the root
  RootTransfer transfer;
  double shownStep = 0.0;  ///< of the reading, after the root
};

/// An input that reads counts takes its root, if any, after the reading.
std::optional<RootBefore> rootOf(const VisitSheet& sheet) {
  const auto* input = sheet.subject != Subject::sensor && sheet.setup != nullptr
                          ? std::get_if<AnalogInputSetup>(&sheet.setup->setup.kind)
                          : nullptr;
  if (input != nullptr && input->transfer == TransferKind::squareRoot && input->readsAs == ReadsAs::units) {
    return RootBefore{
        input->signal, {input->cutOffPercent, converterStep(input->bits, input->counts)}, input->resolution};
  }
  if (sheet.subject != Subject::channel && sheet.sensor != nullptr &&
      sheet.sensor->range.transfer == TransferKind::squareRoot) {
    return RootBefore{sheet.sensor->range.process, {}, sheet.model->step()};
  }
  return std::nullopt;
}

int missingPoints(const VisitSheet& sheet, const std::vector<Reading>& readings) {
  return static_cast<int>(
      std::count_if(sheet.points.begin(), sheet.points.end(), [&](const TestPoint& point) {
        return point.role == PointRole::value &&
               std::none_of(readings.begin(), readings.end(),
                            [&](const Reading& reading) { return reading.point.sequence == point.sequence; });
      }));
}

void addFigures(VisitAdvice& advice, const Readings& readings) {
  std::vector<RunReading> run;
  for (const Reading* reading : readings) {
    run.push_back({reading->expected, reading->indicated, reading->point.direction, reading->point.run});
  }
  if (!runFault(run, advice.span.low, advice.span.high)) {
    advice.figures = runFigures(run, advice.span.low, advice.span.high);
  }
}

void addCorrection(VisitAdvice& advice) {
  const Span& span = advice.correctionSpan;
  Correction correction = advice.adjustment->correction;
  if (advice.beforeRoot) {  // told in fractions of span
    correction = {correction.zero * span.width(), correction.span * span.width()};
  }
  const double onePercent = std::abs(span.width()) / 100.0;
  advice.zeroDecimals = std::clamp(static_cast<int>(std::ceil(-std::log10(onePercent / 1000.0))), 0, 9);
  if (std::abs(correction.zero) >= kLeastPercent * onePercent) {
    advice.zeroShift = correction.zero;
  }
  if (std::abs(correction.span) >= kLeastPercent * onePercent) {
    advice.spanPercent = 100.0 * correction.span / span.width();
  }
  if (advice.adjusts() && !advice.zeroShift && !advice.spanPercent && correction.zero != 0.0) {
    // The tolerance is narrower still, so there is something to say all the same, in two digits.
    advice.zeroShift = correction.zero;
    advice.zeroDecimals =
        std::clamp(1 - static_cast<int>(std::floor(std::log10(std::abs(correction.zero)))), 0, 12);
  }
}

void addAdjustment(VisitAdvice& advice, const VisitSheet& sheet, const Readings& readings) {
  std::vector<AdjustmentPoint> points;
  for (const Reading* reading : readings) {
    points.push_back({reading->expected, reading->indicated, reading->limits, reading->point.direction});
  }
  const auto root = rootOf(sheet);
  const ReadingScale scale{advice.span.low, advice.span.high, root ? root->shownStep : sheet.model->step()};
  const auto fault = root ? rootAdjustmentFault(points, scale, root->transfer, advice.adjustLimit, {})
                          : adjustmentFault(points, scale, advice.adjustLimit, {});
  if (fault) {
    advice.gap = AdviceGap::unusable;
    advice.fault = *fault;
    return;
  }
  advice.beforeRoot = root.has_value();
  if (root) {
    advice.correctionSpan = root->before;
    advice.adjustment = adviseRootAdjustment(points, scale, root->transfer, advice.adjustLimit);
  } else {
    advice.adjustment = adviseAdjustment(points, scale, advice.adjustLimit);
  }
  addCorrection(advice);
  for (std::size_t i = 0; i < readings.size(); ++i) {
    advice.predicted.push_back({readings[i]->point.sequence, advice.adjustment->predictedErrors[i]});
  }
}

struct KelvinReadings {
  TemperatureObservations observations;
  double tolerance = std::numeric_limits<double>::infinity();  // the narrowest of all points
};

/// Nothing unless every reading is a temperature that answers a temperature.
std::optional<KelvinReadings> inKelvin(const VisitSheet& sheet, Unit rangeUnit, bool readsTenths,
                                       const Readings& readings) {
  KelvinReadings found;
  // Counts of tenths are told as degrees by the setup; what was applied follows from what is expected.
  const bool counts = dimension(sheet.model->readingSpan().unit) != Dimension::temperature;
  const double scale = counts && readsTenths ? 0.1 : 1.0;
  const Unit unit = counts ? rangeUnit : sheet.model->readingSpan().unit;
  for (const Reading* reading : readings) {
    const auto applied = convert(reading->expected * scale, unit, Unit::celsius);
    const auto shown = convert(reading->indicated * scale, unit, Unit::celsius);
    const double limit = std::min(-reading->limits.low, reading->limits.high);
    const auto tolerance = convertDifference(limit * scale, unit, Unit::kelvin);
    if (!applied || !shown || !tolerance) {
      return std::nullopt;
    }
    found.observations.push_back({{*applied}, {*shown}});
    found.tolerance = std::min(found.tolerance, *tolerance);
  }
  return found.tolerance > 0.0 && std::isfinite(found.tolerance) ? std::optional(found) : std::nullopt;
}

CelsiusRange shownRange(const Span& range) {
  const auto low = convert(range.low, range.unit, Unit::celsius);
  const auto high = convert(range.high, range.unit, Unit::celsius);
  return {{std::min(*low, *high)}, {std::max(*low, *high)}};
}

/// Readings cannot tell it from some other faults; where mV were typed it is the likeliest, so it comes
/// first.
void addCopperLeads(VisitAdvice& advice, const VisitSheet& sheet, const Readings& readings,
                    const KelvinReadings& kelvin, const CoupleInput& input, std::optional<double> ambient) {
  const bool fed = std::all_of(readings.begin(), readings.end(), [&](const Reading* reading) {
    return toldInMillivolts(sheet.subject, *reading);
  });
  if (!fed || sheet.referenceJunction || sheet.subject != Subject::channel) {
    return;
  }
  const auto around = ambient ? std::optional(Celsius{*ambient}) : std::nullopt;
  if (const auto copper = diagnoseCopperLeads(input, kelvin.observations, kelvin.tolerance, around)) {
    advice.diagnoses.push_back({copper->fault, copper->residual});
  }
}

void addDiagnoses(VisitAdvice& advice, const VisitSheet& sheet, const Readings& readings,
                  std::optional<double> ambient) {
  if (sheet.subject == Subject::sensor || sheet.setup == nullptr) {
    return;
  }
  if (const auto* couple = std::get_if<ThermocoupleSetup>(&sheet.setup->setup.kind)) {
    if (const auto kelvin = inKelvin(sheet, couple->range.unit, couple->readsTenths, readings)) {
      const double terminals = sheet.referenceJunction.value_or(ambient.value_or(kUsualAmbient));
      const CoupleInput input{couple->type, shownRange(couple->range), {terminals}};
      addCopperLeads(advice, sheet, readings, *kelvin, input, ambient);
      const CoupleAnswer answer = diagnoseCouple(input, kelvin->observations, kelvin->tolerance);
      if (const auto* offer = std::get_if<CoupleOffer>(&answer)) {
        for (const CoupleDiagnosis& each : offer->diagnoses) {
          advice.diagnoses.push_back({each.fault, each.residual});
        }
      }
    }
  } else if (const auto* rtd = std::get_if<RtdSetup>(&sheet.setup->setup.kind)) {
    if (const auto kelvin = inKelvin(sheet, rtd->range.unit, rtd->readsTenths, readings)) {
      const RtdAnswer answer =
          diagnoseRtd({rtd->element, shownRange(rtd->range)}, kelvin->observations, kelvin->tolerance);
      if (const auto* offer = std::get_if<std::vector<RtdDiagnosis>>(&answer)) {
        for (const RtdDiagnosis& each : *offer) {
          advice.diagnoses.push_back({each.fault, each.residual});
        }
      }
    }
  }
}

bool onePlaceOnly(const Readings& readings, const Span& span) {
  const auto [least, most] =
      std::minmax_element(readings.begin(), readings.end(),
                          [](const Reading* a, const Reading* b) { return a->expected < b->expected; });
  return (*most)->expected - (*least)->expected <= kSamePointPercent / 100.0 * std::abs(span.width());
}

}  // namespace

bool VisitAdvice::cannotHelp() const {
  if (!adjustment) {
    return false;
  }
  switch (adjustment->advice) {
    case AdjustmentAdvice::adjust:
    case AdjustmentAdvice::notNeeded:
    case AdjustmentAdvice::withinScatter:
      return false;
    case AdjustmentAdvice::noGain:
      return adjustment->worstNow > 1.0;
    case AdjustmentAdvice::notRepeatable:
    case AdjustmentAdvice::hysteresis:
    case AdjustmentAdvice::stepTooCoarse:
    case AdjustmentAdvice::beyondTrim:
    case AdjustmentAdvice::nonLinear:
      return true;
  }
  return false;
}

VisitAdvice adviseVisit(const VisitSheet& sheet, const std::vector<Reading>& readings,
                        std::optional<double> ambient) {
  VisitAdvice advice;
  advice.span = advice.correctionSpan = sheet.model->readingSpan();
  advice.adjustLimit = sheet.plan->adjustLimit;
  const Readings taken = valueReadings(readings);
  if (!taken.empty()) {
    addFigures(advice, taken);
  }
  advice.missing = missingPoints(sheet, readings);
  if (std::none_of(sheet.points.begin(), sheet.points.end(),
                   [](const TestPoint& point) { return point.role == PointRole::value; })) {
    advice.gap = AdviceGap::noValuePoints;
  } else if (advice.missing > 0) {
    advice.gap = AdviceGap::unfinished;
  } else if (taken.empty() || onePlaceOnly(taken, advice.span)) {
    advice.gap = AdviceGap::tooFewPoints;
  } else {
    addAdjustment(advice, sheet, taken);
    addDiagnoses(advice, sheet, taken, ambient);
  }
  return advice;
}

std::variant<VisitAdvice, Problem> adviseCalibration(const Register& site, const Calibration& calibration,
                                                     Phase phase) {
  auto opened = openSheet(site, calibration.channel, calibration.subject, calibration.performed);
  if (auto* problem = std::get_if<Problem>(&opened)) {
    return std::move(*problem);
  }
  auto& sheet = std::get<VisitSheet>(opened);
  sheet.referenceJunction = calibration.conditions.referenceJunction;
  return adviseVisit(sheet, phase == Phase::asFound ? calibration.asFound : calibration.asLeft,
                     calibration.conditions.temperature);
}

std::string describe(const SensorDiagnosis& diagnosis) {
  return std::visit([](const auto& fault) { return describe(fault); }, diagnosis.fault);
}

int toleranceDecimals(double fraction) {
  const double percent = 100.0 * fraction;
  return std::abs(percent - 100.0) < 0.5 && percent != 100.0 ? 1 : 0;
}

}  // namespace spanwright
