// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/advice.h"

#include <algorithm>
#include <cmath>
#include <limits>

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

bool squareRoot(const VisitSheet& sheet) {
  const auto* input =
      sheet.setup != nullptr ? std::get_if<AnalogInputSetup>(&sheet.setup->setup.kind) : nullptr;
  const bool byInput = input != nullptr && input->transfer == TransferKind::squareRoot;
  const bool bySensor = sheet.sensor != nullptr && sheet.sensor->range.transfer == TransferKind::squareRoot;
  return (sheet.subject != Subject::sensor && byInput) || (sheet.subject != Subject::channel && bySensor);
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
  const Correction& correction = advice.adjustment->correction;
  const double onePercent = std::abs(advice.span.width()) / 100.0;
  if (std::abs(correction.zero) >= kLeastPercent * onePercent) {
    advice.zeroShift = correction.zero;
  }
  if (std::abs(correction.span) >= kLeastPercent * onePercent) {
    advice.spanPercent = 100.0 * correction.span / advice.span.width();
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
  const ReadingScale scale{advice.span.low, advice.span.high, sheet.model->step()};
  if (const auto fault = adjustmentFault(points, scale, advice.adjustLimit, {})) {
    advice.gap = AdviceGap::unusable;
    advice.fault = *fault;
    return;
  }
  advice.adjustment = adviseAdjustment(points, scale, advice.adjustLimit);
  addCorrection(advice);
  for (std::size_t i = 0; i < readings.size(); ++i) {
    advice.predicted.push_back({readings[i]->point.sequence, advice.adjustment->predictedErrors[i]});
  }
}

struct KelvinReadings {
  std::vector<CoupleObservation> observations;
  double tolerance = std::numeric_limits<double>::infinity();  // the narrowest of all points
};

/// Nothing unless every reading is a temperature that answers a temperature.
std::optional<KelvinReadings> inKelvin(const VisitSheet& sheet, const ThermocoupleSetup& couple,
                                       const Readings& readings) {
  const double perDegree = couple.readsTenths ? 0.1 : 1.0;
  KelvinReadings found;
  for (const Reading* reading : readings) {
    // Counts of tenths are told as degrees by the setup; what was applied follows from what is expected.
    const bool counts = dimension(sheet.model->readingSpan().unit) != Dimension::temperature;
    const double scale = counts ? perDegree : 1.0;
    const Unit unit = counts ? couple.range.unit : sheet.model->readingSpan().unit;
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
  return found;
}

void addDiagnoses(VisitAdvice& advice, const VisitSheet& sheet, const Readings& readings,
                  std::optional<double> ambient) {
  const auto* couple = sheet.subject != Subject::sensor && sheet.setup != nullptr
                           ? std::get_if<ThermocoupleSetup>(&sheet.setup->setup.kind)
                           : nullptr;
  const auto kelvin = couple != nullptr ? inKelvin(sheet, *couple, readings) : std::nullopt;
  if (!kelvin || !(kelvin->tolerance > 0.0) || !std::isfinite(kelvin->tolerance)) {
    return;
  }
  const auto low = convert(couple->range.low, couple->range.unit, Unit::celsius);
  const auto high = convert(couple->range.high, couple->range.unit, Unit::celsius);
  const CoupleInput input{
      couple->type, {{std::min(*low, *high)}, {std::max(*low, *high)}}, {ambient.value_or(kUsualAmbient)}};
  const CoupleAnswer answer = diagnoseCouple(input, kelvin->observations, kelvin->tolerance);
  if (const auto* offer = std::get_if<CoupleOffer>(&answer)) {
    advice.diagnoses = offer->diagnoses;
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
  advice.span = sheet.model->readingSpan();
  advice.adjustLimit = sheet.plan->adjustLimit;
  advice.zeroDecimals =
      std::clamp(static_cast<int>(std::ceil(-std::log10(1e-5 * std::abs(advice.span.width())))), 0, 9);
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
  } else if (squareRoot(sheet)) {
    advice.gap = AdviceGap::throughRoot;
  } else {
    addAdjustment(advice, sheet, taken);
    addDiagnoses(advice, sheet, taken, ambient);
  }
  return advice;
}

std::variant<VisitAdvice, Problem> adviseCalibration(const Register& site, const Calibration& calibration,
                                                     Phase phase) {
  const auto sheet = openSheet(site, calibration.channel, calibration.subject, calibration.performed);
  if (const auto* problem = std::get_if<Problem>(&sheet)) {
    return *problem;
  }
  return adviseVisit(std::get<VisitSheet>(sheet),
                     phase == Phase::asFound ? calibration.asFound : calibration.asLeft,
                     calibration.conditions.temperature);
}

int toleranceDecimals(double fraction) {
  const double percent = 100.0 * fraction;
  return std::abs(percent - 100.0) < 0.5 && percent != 100.0 ? 1 : 0;
}

}  // namespace spanwright
