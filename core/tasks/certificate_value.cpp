// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/certificate_value.h"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "core/record/reference_junction.h"
#include "core/signal/thermocouple.h"
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

struct Covered {
  double low = 0.0, high = 0.0;
};
Covered coveredBy(const CertificateRange& range) {
  const double low = range.points.front().nominal;
  const double high = range.points.back().nominal;
  const double width = high - low;
  const double more = kBeyond * (width > 0.0 ? width : std::abs(low));
  return {low - more, high + more};
}

/// The inverse of fromRange for a sensor function: bracketed on a grid over the certificate's reach, then
/// solved (TOMS 748).
std::optional<double> throughFunction(const VisitSheet& sheet, const MeasuredValue& value,
                                      const CertificateRange& range) {
  constexpr int kGrid = 16;
  const Covered reach = coveredBy(range);
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
std::optional<double> placeOnRange(const VisitSheet& sheet, const CertificateRange& range,
                                   const MeasuredValue& value) {
  if (!rangeTakes(sheet, range, value)) {
    return std::nullopt;
  }
  const auto at = sameDimension(range.unit, value.unit) ? convert(value.value, value.unit, range.unit)
                                                        : throughFunction(sheet, value, range);
  const Covered reach = coveredBy(range);
  const double slack = 1e-9 * std::max(std::abs(reach.low), std::abs(reach.high));
  if (!at || !(*at >= reach.low - slack && *at <= reach.high + slack)) {
    return std::nullopt;
  }
  return at;
}

/// What the terminals' temperature added to the mV that the standard measured, in the reading's unit.
double addedEmf(const VisitSheet& sheet, const Reading& reading) {
  const auto couple =
      sheet.referenceJunction && sheet.subject == Subject::sensor ? sheet.couple() : std::nullopt;
  if (!couple || !toldInMillivolts(sheet.subject, reading)) {
    return 0.0;
  }
  const Expected emf = thermocoupleMillivolts(*couple, sheet.junction());
  const double* value = std::get_if<double>(&emf);
  return value != nullptr ? convert(*value, Unit::millivolt, reading.point.readingUnit).value_or(0.0) : 0.0;
}

}  // namespace

std::vector<MeasuredValue> measuredValues(const VisitSheet& sheet, const Reading& reading) {
  MeasuredValue applied{reading.applied, reading.point.appliedUnit, true};
  const auto typed = parseQuantity(reading.appliedText, DecimalSign::either);
  if (typed && typed->unit && !sameDimension(*typed->unit, applied.unit)) {
    applied.toldIn = *typed->unit;
  }
  const MeasuredValue observed{reading.indicated - addedEmf(sheet, reading), reading.point.readingUnit,
                               false};
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
  return placeOn(sheet, certificate.ranges, value).has_value();
}

std::optional<double> fromRange(const VisitSheet& sheet, double at, Unit rangeUnit, Unit unit) {
  if (sameDimension(rangeUnit, unit)) {
    return convert(at, rangeUnit, unit);
  }
  const Expected result = sheet.model->normaliseApplied({at, rangeUnit}, sheet.junction());
  const double* value = std::get_if<double>(&result);
  return value != nullptr ? std::optional(*value) : std::nullopt;
}

std::optional<Placed> placeOn(const VisitSheet& sheet, const std::vector<CertificateRange>& ranges,
                              const MeasuredValue& value) {
  // A standard that both feeds mV and simulates temperatures has a range for either.
  const Unit told = value.toldIn == Unit::none ? value.unit : value.toldIn;
  for (const bool asTold : {true, false}) {
    for (const CertificateRange& range : ranges) {
      if (sameDimension(range.unit, told) != asTold) {
        continue;
      }
      if (const auto at = placeOnRange(sheet, range, value)) {
        return Placed{&range, *at};
      }
    }
  }
  return std::nullopt;
}

double figureAt(const Placed& placed, double CertificatePoint::*figure) {
  const auto& points = placed.range->points;
  const double at = placed.at;
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

bool beyondPoints(const Placed& placed) {
  const auto& points = placed.range->points;
  const double slack = 1e-9 * std::max(std::abs(points.front().nominal), std::abs(points.back().nominal));
  return placed.at < points.front().nominal - slack || placed.at > points.back().nominal + slack;
}

std::optional<Backing> backingFor(const VisitSheet& sheet, const std::vector<const Standard*>& standards,
                                  const MeasuredValue& value) {
  for (const Standard* standard : standards) {
    const StandardCertificate* certificate = vouchingCertificate(*standard, sheet.when.date());
    if (certificate == nullptr || !(certificate->coverageFactor > 0.0)) {
      continue;
    }
    if (const auto placed = placeOn(sheet, certificate->ranges, value)) {
      return Backing{standard, certificate, *placed};
    }
  }
  return std::nullopt;
}

std::optional<double> errorOn(const StandardCertificate& certificate, double value, Unit unit) {
  for (const CertificateRange& range : certificate.ranges) {
    if (range.points.empty() || !sameDimension(range.unit, unit)) {
      continue;
    }
    const double at = convert(value, unit, range.unit).value_or(0.0);
    const Covered reach = coveredBy(range);
    if (at >= reach.low && at <= reach.high) {
      return convertDifference(figureAt({&range, at}, &CertificatePoint::error), range.unit, unit);
    }
  }
  return std::nullopt;
}

}  // namespace spanwright
