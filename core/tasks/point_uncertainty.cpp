// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/point_uncertainty.h"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <map>
#include <utility>

#include "core/record/ruled_reading.h"
#include "core/tasks/connection_uncertainty.h"
#include "core/units/quantity.h"

namespace spanwright {
namespace {

/// How far beyond a range's outermost nominal values its certificate is still used, as a share of its width.
constexpr double kBeyond = 0.05;

bool electrical(Unit unit) {
  const Dimension kind = dimension(unit);
  return kind == Dimension::voltage || kind == Dimension::current || kind == Dimension::resistance;
}

bool isOutput(const VisitSheet& sheet) {
  return sheet.subject != Subject::sensor &&
         (std::holds_alternative<AnalogOutputSetup>(sheet.setup->setup.kind) ||
          std::holds_alternative<DiscreteOutputSetup>(sheet.setup->setup.kind));
}

/// Thermocouple and RTD inputs are fed with mV or ohm, or with a temperature that the standard simulates.
bool takesSimulation(const VisitSheet& sheet, const MeasuredValue& value, Unit rangeUnit) {
  if (!value.applied || sheet.subject != Subject::channel) {
    return false;
  }
  Dimension signal = Dimension::number;
  if (std::holds_alternative<ThermocoupleSetup>(sheet.setup->setup.kind)) {
    signal = Dimension::voltage;
  } else if (std::holds_alternative<RtdSetup>(sheet.setup->setup.kind)) {
    signal = Dimension::resistance;
  } else {
    return false;
  }
  const auto one = [&](Unit unit) {
    return dimension(unit) == signal || dimension(unit) == Dimension::temperature;
  };
  return one(value.unit) && one(rangeUnit);
}

bool rangeTakes(const VisitSheet& sheet, const CertificateRange& range, const MeasuredValue& value) {
  return !range.points.empty() &&
         (sameDimension(range.unit, value.unit) || takesSimulation(sheet, value, range.unit));
}

struct Reach {
  double low = 0.0, high = 0.0;
};
Reach reachOf(const CertificateRange& range) {
  const double low = range.points.front().nominal;
  const double high = range.points.back().nominal;
  const double width = high - low;
  const double more = kBeyond * (width > 0.0 ? width : std::abs(low));
  return {low - more, high + more};
}

/// `at` of the range's unit as a value of `unit`, through the sensor function when they are different
/// quantities.
std::optional<double> fromRange(const VisitSheet& sheet, double at, Unit rangeUnit, Unit unit) {
  if (sameDimension(rangeUnit, unit)) {
    return convert(at, rangeUnit, unit);
  }
  const Expected result = sheet.model->normaliseApplied({at, rangeUnit});
  const double* value = std::get_if<double>(&result);
  return value != nullptr ? std::optional(*value) : std::nullopt;
}

/// The inverse of fromRange for a sensor function: bracketed on a grid over the certificate's reach, then
/// solved (TOMS 748).
std::optional<double> throughFunction(const VisitSheet& sheet, const MeasuredValue& value,
                                      const CertificateRange& range) {
  constexpr int kGrid = 16;
  const Reach reach = reachOf(range);
  const auto missBy = [&](double at) {
    const auto here = fromRange(sheet, at, range.unit, value.unit);
    return here ? std::optional(*here - value.value) : std::nullopt;
  };
  double before = reach.low;
  auto missBefore = missBy(before);
  for (int i = 1; i <= kGrid; ++i) {
    const double at = reach.low + (reach.high - reach.low) * i / kGrid;
    const auto miss = missBy(at);
    const bool between =
        missBefore && miss && (*missBefore == 0.0 || *miss == 0.0 || (*missBefore < 0.0) != (*miss < 0.0));
    if (between) {
      bool lost = false;  // a gap in the function between two places where it has values
      const auto missOrLost = [&](double place) {
        const auto found = missBy(place);
        lost = lost || !found;
        return found.value_or(0.0);
      };
      std::uintmax_t rounds = 60;
      const auto [low, high] = boost::math::tools::toms748_solve(
          missOrLost, before, at, *missBefore, *miss, boost::math::tools::eps_tolerance<double>(45), rounds);
      return lost ? std::nullopt : std::optional(low + (high - low) / 2.0);
    }
    before = at;
    missBefore = miss;
  }
  return std::nullopt;
}

/// Where on the range's own scale the value lies, when its certificate reaches so far.
std::optional<double> placeOn(const VisitSheet& sheet, const CertificateRange& range,
                              const MeasuredValue& value) {
  if (!rangeTakes(sheet, range, value)) {
    return std::nullopt;
  }
  const auto at = sameDimension(range.unit, value.unit) ? convert(value.value, value.unit, range.unit)
                                                        : throughFunction(sheet, value, range);
  const Reach reach = reachOf(range);
  const double slack = 1e-9 * std::max(std::abs(reach.low), std::abs(reach.high));
  if (!at || !(*at >= reach.low - slack && *at <= reach.high + slack)) {
    return std::nullopt;
  }
  return at;
}

/// A figure of the certificate at `at`, linear between its values, the nearer end's beyond them.
double interpolated(const CertificateRange& range, double at, double CertificatePoint::*figure) {
  const auto& points = range.points;
  const auto above = std::find_if(points.begin(), points.end(),
                                  [&](const CertificatePoint& point) { return point.nominal >= at; });
  if (above == points.begin()) {
    return (*above).*figure;
  }
  if (above == points.end()) {
    return points.back().*figure;
  }
  const CertificatePoint& low = *(above - 1);
  const double share = (at - low.nominal) / (above->nominal - low.nominal);
  return low.*figure + share * ((*above).*figure - low.*figure);
}

/// One standard range that vouches for a value.
struct Backing {
  const Standard* standard = nullptr;
  const StandardCertificate* certificate = nullptr;
  const CertificateRange* range = nullptr;
  double at = 0.0;  ///< in the range's unit
};

std::optional<Backing> backingFor(const VisitSheet& sheet, const std::vector<const Standard*>& standards,
                                  const MeasuredValue& value) {
  for (const Standard* standard : standards) {
    const StandardCertificate* certificate = certificateOn(*standard, sheet.when.date());
    if (certificate == nullptr || !(certificate->coverageFactor > 0.0)) {
      continue;
    }
    // A standard that both feeds mV and simulates temperatures has a range for either.
    const Unit told = value.toldIn == Unit::none ? value.unit : value.toldIn;
    for (const bool asTold : {true, false}) {
      for (const CertificateRange& range : certificate->ranges) {
        if (sameDimension(range.unit, told) == asTold) {
          if (const auto at = placeOn(sheet, range, value)) {
            return Backing{standard, certificate, &range, *at};
          }
        }
      }
    }
  }
  return std::nullopt;
}

/// What the reading becomes when the standard's value is off by `shift` (in the range's unit).
std::optional<double> readingAt(const VisitSheet& sheet, const MeasuredValue& value, const Backing& backing,
                                double shift) {
  const auto moved = fromRange(sheet, backing.at + shift, backing.range->unit, value.unit);
  if (!moved || !value.applied) {
    return moved;
  }
  const Expected expected = sheet.model->expected(*moved);
  const double* reading = std::get_if<double>(&expected);
  return reading != nullptr ? std::optional(*reading) : std::nullopt;
}

/// Reading units per unit of the range, over plus and minus `spread`; over one side only at the end of what
/// the model takes.
std::optional<double> sensitivity(const VisitSheet& sheet, const MeasuredValue& value, const Backing& backing,
                                  double spread) {
  const auto here = readingAt(sheet, value, backing, 0.0);
  const auto above = readingAt(sheet, value, backing, spread);
  const auto below = readingAt(sheet, value, backing, -spread);
  if (above && below) {
    return (*above - *below) / (2.0 * spread);
  }
  if (above && here) {
    return (*above - *here) / spread;
  }
  if (below && here) {
    return (*here - *below) / spread;
  }
  return std::nullopt;
}

/// What a certificate says of the standard's error at a value of `unit`, in that unit; nothing when it does
/// not reach so far.
std::optional<double> errorOn(const StandardCertificate& certificate, double value, Unit unit) {
  for (const CertificateRange& range : certificate.ranges) {
    if (range.points.empty() || !sameDimension(range.unit, unit)) {
      continue;
    }
    const double at = convert(value, unit, range.unit).value_or(0.0);
    const Reach reach = reachOf(range);
    if (at >= reach.low && at <= reach.high) {
      return convertDifference(interpolated(range, at, &CertificatePoint::error), range.unit, unit);
    }
  }
  return std::nullopt;
}

/// Two certificates closer together than this are before and after an adjustment of the standard: their
/// difference is what was adjusted away, not a drift, and must not be extrapolated.
constexpr int kLeastDaysOfDrift = 90;

/// The newest certificate that reaches the value and is old enough to tell a drift up to `current`, or
/// nullptr.
const StandardCertificate* certificateBefore(const Standard& standard, const StandardCertificate& current,
                                             double value, Unit unit) {
  const StandardCertificate* found = nullptr;
  for (const StandardCertificate& each : standard.certificates) {
    const bool earlier = (current.issued - each.issued).days() >= kLeastDaysOfDrift &&
                         (found == nullptr || found->issued < each.issued);
    if (earlier && errorOn(each, value, unit)) {
      found = &each;
    }
  }
  return found;
}

/// Half-width of what the standard may have drifted since its certificate, in the range's unit: its change
/// from an earlier certificate to the one in use, scaled by the days since. 0 when there is no earlier one.
double driftSince(const Backing& backing, Date day) {
  const StandardCertificate& current = *backing.certificate;
  const Unit unit = backing.range->unit;
  const StandardCertificate* before = certificateBefore(*backing.standard, current, backing.at, unit);
  if (before == nullptr || day <= current.issued) {
    return 0.0;
  }
  const double now = interpolated(*backing.range, backing.at, &CertificatePoint::error);
  const double then = errorOn(*before, backing.at, unit).value_or(now);
  const auto between = static_cast<double>((current.issued - before->issued).days());
  const auto since = static_cast<double>((day - current.issued).days());
  return std::abs(now - then) * since / between;
}

/// Adds a standard's lines; false when the model has no slope there.
bool addBacking(const VisitSheet& sheet, const MeasuredValue& value, const Backing& backing,
                std::vector<BudgetLine>& lines) {
  struct Source {
    const char* name;
    double uncertainty;
  };
  const Source sources[] = {
      {"certificate of standard ", interpolated(*backing.range, backing.at, &CertificatePoint::uncertainty) /
                                       backing.certificate->coverageFactor},
      {"drift of standard ", rectangular(driftSince(backing, sheet.when.date()))},
      {"resolution of standard ", resolutionUncertainty(backing.range->resolution)}};
  for (const Source& source : sources) {
    if (!(source.uncertainty > 0.0)) {
      continue;
    }
    const auto slope = sensitivity(sheet, value, backing, source.uncertainty);
    if (!slope) {
      return false;
    }
    lines.push_back({source.name + backing.standard->serial, source.uncertainty, *slope});
  }
  return true;
}

/// The step in which the subject itself shows the reading, 0 when a standard measured it.
double shownStep(const VisitSheet& sheet, const Reading& reading, const std::vector<MeasuredValue>& values) {
  if (std::any_of(values.begin(), values.end(), [](const MeasuredValue& value) { return !value.applied; })) {
    return 0.0;
  }
  if (const double step = sheet.model->stepAt(reading.expected); step > 0.0) {
    return step;
  }
  const auto typed = parseQuantity(reading.indicatedText, DecimalSign::either);
  if (!typed) {
    return 0.0;
  }
  const double digit = std::pow(10.0, -typed->decimals);
  return convertDifference(digit, typed->unit.value_or(reading.point.readingUnit), reading.point.readingUnit)
      .value_or(0.0);
}

}  // namespace

std::vector<MeasuredValue> measuredValues(const VisitSheet& sheet, const Reading& reading) {
  MeasuredValue applied{reading.applied, reading.point.appliedUnit, true};
  const auto typed = parseQuantity(reading.appliedText, DecimalSign::either);
  if (typed && typed->unit && !sameDimension(*typed->unit, applied.unit)) {
    applied.toldIn = *typed->unit;
  }
  const MeasuredValue observed{reading.indicated, reading.point.readingUnit, false};
  const bool ownReading = reading.point.role == PointRole::value ||
                          reading.point.role == PointRole::alarmTrip ||
                          reading.point.role == PointRole::alarmReset;
  if (!ownReading || isOutput(sheet)) {
    return {observed};
  }
  if (sheet.subject == Subject::sensor && electrical(reading.point.readingUnit)) {
    return {applied, observed};
  }
  return {applied};
}

bool coversUnit(const VisitSheet& sheet, const StandardCertificate& certificate, const MeasuredValue& value) {
  return std::any_of(certificate.ranges.begin(), certificate.ranges.end(),
                     [&](const CertificateRange& range) { return rangeTakes(sheet, range, value); });
}

bool coversValue(const VisitSheet& sheet, const StandardCertificate& certificate,
                 const MeasuredValue& value) {
  return std::any_of(certificate.ranges.begin(), certificate.ranges.end(),
                     [&](const CertificateRange& range) { return placeOn(sheet, range, value).has_value(); });
}

Repeatability repeatability(const std::vector<Reading>& readings) {
  std::map<std::pair<std::string, Direction>, std::vector<double>> runs;
  for (const Reading& reading : readings) {
    if (!reading.skipped()) {
      runs[{pointKey(reading.point), reading.point.direction}].push_back(reading.error());
    }
  }
  double squares = 0.0;
  Repeatability result;
  for (const auto& [point, errors] : runs) {
    if (errors.size() < 2) {
      continue;
    }
    double mean = 0.0;
    for (const double error : errors) {
      mean += error / static_cast<double>(errors.size());
    }
    for (const double error : errors) {
      squares += (error - mean) * (error - mean);
    }
    result.degreesOfFreedom += static_cast<double>(errors.size() - 1);
  }
  if (result.degreesOfFreedom > 0.0) {
    result.standardDeviation = std::sqrt(squares / result.degreesOfFreedom);
  }
  return result;
}

namespace {

/// The lines that a single reading has; false when a value has no backing or the model no slope.
bool budgetLines(const VisitSheet& sheet, const Reading& reading,
                 const std::vector<const Standard*>& standards, std::vector<BudgetLine>& lines) {
  bool inVolts = false;
  const std::vector<MeasuredValue> values = measuredValues(sheet, reading);
  for (const MeasuredValue& value : values) {
    const auto backing = backingFor(sheet, standards, value);
    if (!backing || !addBacking(sheet, value, *backing, lines)) {
      return false;
    }
    inVolts = inVolts || dimension(backing->range->unit) == Dimension::voltage;
  }
  const auto connection = connectionLines(sheet, reading, inVolts);
  if (!connection) {
    return false;
  }
  lines.insert(lines.end(), connection->begin(), connection->end());
  if (const double step = shownStep(sheet, reading, values); step > 0.0) {
    lines.push_back({"resolution of the reading", resolutionUncertainty(step)});
  }
  return true;
}

/// What keeps the standards from vouching for a value, or nothing.
std::optional<UncertaintyGap> backingGap(const VisitSheet& sheet,
                                         const std::vector<const Standard*>& standards,
                                         const MeasuredValue& value) {
  if (standards.empty()) {
    return UncertaintyGap::noStandard;
  }
  std::vector<const StandardCertificate*> valid;
  for (const Standard* standard : standards) {
    if (const StandardCertificate* certificate = certificateOn(*standard, sheet.when.date())) {
      valid.push_back(certificate);
    }
  }
  if (valid.empty()) {
    return UncertaintyGap::noneValid;
  }
  const auto any = [&](auto covers) {
    return std::any_of(valid.begin(), valid.end(),
                       [&](const StandardCertificate* each) { return covers(sheet, *each, value); });
  };
  if (!any(coversUnit)) {
    return UncertaintyGap::otherQuantity;
  }
  return any(coversValue) ? std::nullopt : std::optional(UncertaintyGap::outOfReach);
}

}  // namespace

std::optional<Budget> pointBudget(const VisitSheet& sheet, const Reading& reading,
                                  const std::vector<const Standard*>& standards,
                                  const Repeatability& repeated) {
  if (reading.skipped()) {
    return std::nullopt;
  }
  std::vector<BudgetLine> lines;
  if (!budgetLines(sheet, reading, standards, lines)) {
    return std::nullopt;
  }
  if (repeated.degreesOfFreedom > 0.0) {
    lines.push_back({"repeatability", repeated.standardDeviation, 1.0, repeated.degreesOfFreedom});
  }
  const bool contributes = std::any_of(lines.begin(), lines.end(), [](const BudgetLine& line) {
    return line.standardUncertainty * line.sensitivity != 0.0;
  });
  return contributes ? std::optional(combine(std::move(lines))) : std::nullopt;
}

std::optional<NotJudged> whyNotJudged(const VisitSheet& sheet, const Reading& reading,
                                      const std::vector<const Standard*>& standards) {
  if (reading.skipped() || reading.verdict != Verdict::notJudged) {
    return std::nullopt;
  }
  NotJudged why{rulingOn(sheet.plan->decisionRule, reading).reason, std::nullopt, {}};
  if (reading.expandedUncertainty) {
    return why;
  }
  const std::vector<MeasuredValue> values = measuredValues(sheet, reading);
  why.value = values.front();
  for (const MeasuredValue& value : values) {
    if (const auto gap = backingGap(sheet, standards, value)) {
      return NotJudged{why.reason, gap, value};
    }
  }
  std::vector<BudgetLine> lines;
  why.gap = budgetLines(sheet, reading, standards, lines) ? UncertaintyGap::nothingToCombine
                                                          : UncertaintyGap::noSlope;
  return why;
}

void fillUncertainty(const VisitSheet& sheet, Reading& reading, const std::vector<const Standard*>& standards,
                     const Repeatability& repeated) {
  const auto budget = pointBudget(sheet, reading, standards, repeated);
  reading.expandedUncertainty = budget ? std::optional(budget->expanded) : std::nullopt;
  reading.coverageFactor = budget ? budget->coverageFactor : 2.0;
}

}  // namespace spanwright
