// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/reach_points.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "core/record/ruled_reading.h"
#include "core/tasks/point_uncertainty.h"
#include "core/tasks/stored_sheet.h"
#include "core/units/number.h"

namespace spanwright {
namespace {

/// The standard that vouches for a value: the one whose certificate of the day reaches it, else the first
/// that has its unit (a history may name one that does not reach as far).
const Standard* vouchingFor(const VisitSheet& sheet, const std::vector<const Standard*>& standards,
                            const MeasuredValue& value) {
  if (const auto backing = backingFor(sheet, standards, value)) {
    return backing->standard;
  }
  for (const Standard* standard : standards) {
    const StandardCertificate* certificate = vouchingCertificate(*standard, sheet.when.date());
    if (certificate != nullptr && coversUnit(sheet, *certificate, value)) {
      return standard;
    }
  }
  return nullptr;
}

/// The value less the error found there; nothing where the sensor function does not go so far.
std::optional<double> trueValue(const VisitSheet& sheet, const MeasuredValue& value, const Placed& placed) {
  const double error = figureAt(placed, &CertificatePoint::error);
  const auto shown = fromRange(sheet, placed.at, placed.range->unit, value.unit);
  const auto real = fromRange(sheet, placed.at - error, placed.range->unit, value.unit);
  return shown && real ? std::optional(value.value + (*real - *shown)) : std::nullopt;
}

/// The standard as if what was found had been its only certificate on that day. Without an earlier one its
/// budget has no line for drift: what it drifted to is known.
Standard foundState(const Standard& standard, const FoundErrors& found, Date day) {
  StandardCertificate state;
  state.number = found.certificate;
  state.issued = state.validFrom = state.validUntil = day;
  state.coverageFactor = found.coverageFactor;
  state.ranges = found.ranges;
  const StandardCertificate* certificate = vouchingCertificate(standard, day);
  for (CertificateRange& range : state.ranges) {
    if (range.resolution > 0.0 || certificate == nullptr) {
      continue;
    }
    const auto& known = certificate->ranges;
    const auto same = std::find_if(known.begin(), known.end(),
                                   [&](const CertificateRange& each) { return each.unit == range.unit; });
    range.resolution = same == known.end() ? 0.0 : same->resolution;
  }
  Standard result;
  result.serial = standard.serial;
  result.certificates = {std::move(state)};
  return result;
}

class Recomputation {
 public:
  Recomputation(const VisitSheet& sheet, const Standard& standard, const FoundErrors& found,
                std::vector<const Standard*> standards)
      : sheet_(sheet),
        standard_(standard),
        found_(found),
        standards_(std::move(standards)),
        foundState_(foundState(standard, found, sheet.when.date())),
        asFound_(standards_) {
    std::replace(asFound_.begin(), asFound_.end(), &standard_, &std::as_const(foundState_));
  }
  Recomputation(const Recomputation&) = delete;
  Recomputation& operator=(const Recomputation&) = delete;

  /// The readings with what becomes of them; their points are added to `points`.
  std::vector<Reading> phase(std::vector<Reading> readings, Phase phase,
                             std::vector<ReachedPoint>& points) const {
    const Repeatability repeated = repeatability(readings);
    for (Reading& reading : readings) {
      if (!reading.skipped()) {
        points.push_back(judged(reading, repeated));
        points.back().phase = phase;
      }
    }
    return readings;
  }

 private:
  ReachedPoint judged(Reading& reading, const Repeatability& repeated) const {
    ReachedPoint point;
    point.test = reading.point;
    point.label = reading.point.label;
    point.unit = reading.point.readingUnit;
    point.oldError = reading.error();
    point.was = reading.verdict;
    Reading corrected = reading;
    std::vector<Placed> used;
    for (const MeasuredValue& value : measuredValues(sheet_, reading)) {
      if (vouchingFor(sheet_, standards_, value) != &standard_) {
        continue;
      }
      if (!coversUnit(sheet_, foundState_.certificates.front(), value)) {
        point.notInFinding = true;
        continue;
      }
      const auto placed = placeOn(sheet_, found_.ranges, value);
      describeValue(point, value, placed);
      const auto real = placed ? trueValue(sheet_, value, *placed) : std::nullopt;
      if (!real) {
        point.reason = noValue(value, placed.has_value());
        continue;
      }
      // At a bare couple the standard measured less than the reading, which is referred to 0 degC.
      (value.applied ? corrected.applied : corrected.indicated) =
          value.applied ? *real : *real + (reading.indicated - value.value);
      used.push_back(*placed);
    }
    if (point.reason.empty()) {
      // A reading the standard has no part in keeps the verdict it has.
      if (used.empty()) {
        keep(point, reading);
      } else {
        judgeAgain(point, reading, corrected, used, repeated);
      }
    } else {
      point.limits = reading.limits;
    }
    reading.verdict = point.becomes;
    return point;
  }

  void describeValue(ReachedPoint& point, const MeasuredValue& value,
                     const std::optional<Placed>& placed) const {
    if (point.standardValue) {
      return;  // both sides of a sensor by one standard: the applied one is told
    }
    point.standardValue = placed ? placed->at : value.value;
    point.standardUnit = placed ? placed->range->unit : value.unit;
    if (const StandardCertificate* certificate = vouchingCertificate(standard_, sheet_.when.date())) {
      point.certificateError = errorOn(*certificate, *point.standardValue, point.standardUnit);
    }
    if (placed) {
      point.foundError = figureAt(*placed, &CertificatePoint::error);
      point.beyondFound = beyondPoints(*placed);
    }
  }

  static std::string noValue(const MeasuredValue& value, bool placed) {
    const std::string text = formatQuantity(value.value, value.unit);
    return placed ? fmt::format("{} less what was found is nothing the setup can be judged at", text)
                  : fmt::format("what was found does not reach {}", text);
  }

  void keep(ReachedPoint& point, const Reading& reading) const {
    point.newError = reading.error();
    point.limits = reading.limits;
    point.becomes = reading.verdict;
    const auto again = evaluated(reading.point, reading.applied, reading.indicated);
    if (const auto* result = std::get_if<PointResult>(&again)) {
      point.fractionOfTolerance = result->fractionOfTolerance;
    }
  }

  void judgeAgain(ReachedPoint& point, const Reading& before, Reading& corrected,
                  const std::vector<Placed>& used, const Repeatability& repeated) const {
    const Evaluation evaluation = evaluated(before.point, corrected.applied, corrected.indicated);
    if (const auto* why = std::get_if<RangeResult>(&evaluation)) {
      point.limits = before.limits;
      point.reason = fmt::format("nothing can be expected with what was found: it is {}", rangeText(*why));
      return;
    }
    const auto& result = std::get<PointResult>(evaluation);
    corrected.expected = result.expected;
    corrected.limits = result.limits;
    fillFoundUncertainty(corrected, used, repeated);
    const Ruling ruling = rulingOn(sheet_.plan->decisionRule, ruledError(corrected), result.verdict);
    point.newError = result.error;
    point.limits = result.limits;
    point.fractionOfTolerance = result.fractionOfTolerance;
    point.becomes = ruling.verdict;
    point.reason = ruling.verdict == Verdict::notJudged ? ruling.reason : std::string();
  }

  Evaluation evaluated(const TestPoint& point, double applied, double indicated) const {
    return evaluatePoint(point, *sheet_.model, &sheet_.setup->setup, sheet_.plan->tolerance, applied,
                         indicated);
  }

  /// With the finding in the certificate's place; as it stands where the finding states none.
  void fillFoundUncertainty(Reading& corrected, const std::vector<Placed>& used,
                            const Repeatability& repeated) const {
    const bool stated = std::all_of(used.begin(), used.end(), [](const Placed& placed) {
      const auto& points = placed.range->points;
      return std::all_of(points.begin(), points.end(),
                         [](const CertificatePoint& point) { return point.uncertainty > 0.0; });
    });
    if (stated) {
      fillUncertainty(sheet_, corrected, asFound_, repeated);
    }
  }

  const VisitSheet& sheet_;
  const Standard& standard_;
  const FoundErrors& found_;
  std::vector<const Standard*> standards_;
  Standard foundState_;
  std::vector<const Standard*> asFound_;  ///< standards_ with foundState_ in the standard's place
};

}  // namespace

ReachedCalibration recomputed(const Register& site, const Standard& standard, const FoundErrors& found,
                              const Calibration& calibration) {
  ReachedCalibration reached;
  reached.id = calibration.id;
  reached.channel = calibration.channel;
  if (const Channel* channel = site.channel(calibration.channel)) {
    reached.place = channel->place;
  }
  reached.subject = calibration.subject;
  reached.performed = calibration.performed;
  for (const UsedStandard& used : calibration.standards) {
    if (used.serial == standard.serial) {
      reached.certificate = used.certificate;
    }
  }
  reached.asFound.was = calibration.foundVerdict;
  reached.asLeft.was = calibration.leftVerdict;
  reached.leftApart = !calibration.asLeft.empty();
  const auto sheet = storedSheet(site, calibration);
  if (const auto* missing = std::get_if<Problem>(&sheet)) {
    reached.reason = missing->what;
    return reached;
  }
  const Recomputation again(std::get<VisitSheet>(sheet), standard, found, standardsOf(site, calibration));
  reached.asFound.becomes = overall(again.phase(calibration.asFound, Phase::asFound, reached.points));
  reached.asLeft.becomes = reached.leftApart
                               ? overall(again.phase(calibration.asLeft, Phase::asLeft, reached.points))
                               : reached.asFound.becomes;
  return reached;
}

}  // namespace spanwright
