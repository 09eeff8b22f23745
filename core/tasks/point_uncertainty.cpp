// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/point_uncertainty.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "core/record/ruled_reading.h"
#include "core/tasks/connection_uncertainty.h"
#include "core/units/quantity.h"

namespace spanwright {
namespace {

/// What the reading becomes when the standard's value is off by `shift` (in the range's unit).
std::optional<double> readingAt(const VisitSheet& sheet, const MeasuredValue& value, const Backing& backing,
                                double shift) {
  const auto moved = fromRange(sheet, backing.placed.at + shift, backing.placed.range->unit, value.unit);
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
  const Unit unit = backing.placed.range->unit;
  const StandardCertificate* before = certificateBefore(*backing.standard, current, backing.placed.at, unit);
  if (before == nullptr || day <= current.issued) {
    return 0.0;
  }
  const double now = figureAt(backing.placed, &CertificatePoint::error);
  const double then = errorOn(*before, backing.placed.at, unit).value_or(now);
  const auto between = static_cast<double>((current.issued - before->issued).days());
  const auto since = static_cast<double>((day - current.issued).days());
  return std::abs(now - then) * since / between;
}

/// Adds a standard's lines; false when the model has no slope there.
bool addBacking(const VisitSheet& sheet, const MeasuredValue& value, const Backing& backing,
                std::vector<BudgetLine>& lines) {
  struct Source {
    std::string name;
    double uncertainty;
  };
  const Source sources[] = {
      {certificateLine(*backing.standard),
       figureAt(backing.placed, &CertificatePoint::uncertainty) / backing.certificate->coverageFactor},
      {"drift of standard " + backing.standard->serial, rectangular(driftSince(backing, sheet.when.date()))},
      {"resolution of standard " + backing.standard->serial,
       resolutionUncertainty(backing.placed.range->resolution)}};
  for (const Source& source : sources) {
    if (!(source.uncertainty > 0.0)) {
      continue;
    }
    const auto slope = sensitivity(sheet, value, backing, source.uncertainty);
    if (!slope) {
      return false;
    }
    lines.push_back({source.name, source.uncertainty, *slope});
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

std::string certificateLine(const Standard& standard) {
  return "certificate of standard " + standard.serial;
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
    inVolts = inVolts || dimension(backing->placed.range->unit) == Dimension::voltage;
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
    if (const StandardCertificate* certificate = vouchingCertificate(*standard, sheet.when.date())) {
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
