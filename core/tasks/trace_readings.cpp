// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/trace_readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/tasks/point_uncertainty.h"
#include "core/units/number.h"

namespace spanwright {
namespace {

/// Differences below this share of the numbers are another machine's rounding.
constexpr double kSame = 1e-9;

bool same(double a, double b) {
  return a == b || std::abs(a - b) <= kSame * std::max(std::abs(a), std::abs(b));
}

/// An error is a small difference of large numbers: it is held against those.
bool same(const ErrorLimits& a, const ErrorLimits& b) {
  return same(a.low, b.low) && same(a.high, b.high);
}

bool same(std::optional<double> a, std::optional<double> b) {
  return a.has_value() == b.has_value() && (!a || same(*a, *b));
}

std::string shown(std::optional<double> value) {
  return value ? formatShortest(*value) : "none";
}

class Difference {
 public:
  explicit Difference(std::vector<std::string>& said) : said_(said) {}
  void number(const char* what, std::optional<double> stored, std::optional<double> again) {
    if (!same(stored, again)) {
      said_.push_back(
          fmt::format("{} is stored as {}, recomputed it is {}", what, shown(stored), shown(again)));
    }
  }
  void verdict(Verdict stored, Verdict again) {
    if (stored != again) {
      said_.push_back(
          fmt::format("the verdict is stored as {}, recomputed it is {}", text(stored), text(again)));
    }
  }
  void limits(const ErrorLimits& stored, const ErrorLimits& again) {
    if (!same(stored, again)) {
      said_.push_back(fmt::format("the limits are stored as {} to {}, recomputed they are {} to {}",
                                  formatShortest(stored.low), formatShortest(stored.high),
                                  formatShortest(again.low), formatShortest(again.high)));
    }
  }

 private:
  std::vector<std::string>& said_;
};

std::vector<TracedValue> tracedValues(const VisitSheet& sheet, const Reading& reading,
                                      const std::vector<const Standard*>& standards) {
  std::vector<TracedValue> values;
  for (const MeasuredValue& measured : measuredValues(sheet, reading)) {
    TracedValue value;
    value.applied = measured.applied;
    value.value = measured.value;
    value.unit = measured.unit;
    if (const auto backing = backingFor(sheet, standards, measured)) {
      value.standard = backing->standard->serial;
      value.certificate = backing->certificate->number;
      value.at = backing->placed.at;
      value.certificateUnit = backing->placed.range->unit;
      value.error = figureAt(backing->placed, &CertificatePoint::error);
      value.uncertainty = figureAt(backing->placed, &CertificatePoint::uncertainty);
      value.coverageFactor = backing->certificate->coverageFactor;
    }
    values.push_back(std::move(value));
  }
  return values;
}

/// What the texts give now, before the uncertainty; the stored reading where they are not understood.
Reading fromTexts(const VisitSheet& sheet, const Reading& stored, std::vector<std::string>& differs) {
  if (stored.skipped()) {
    return stored;
  }
  const auto judged = judge(sheet, stored.point, {stored.appliedText, stored.indicatedText, ""}, {});
  if (const auto* trouble = std::get_if<TypedProblem>(&judged)) {
    differs.push_back("from what was typed nothing can be recomputed: " + trouble->what);
    return stored;
  }
  return std::get<Reading>(judged);
}

void compare(const Reading& stored, const Reading& again, std::vector<std::string>& differs) {
  Difference difference(differs);
  difference.number("the applied value", stored.applied, again.applied);
  difference.number("the reading", stored.indicated, again.indicated);
  difference.number("the expected reading", stored.expected, again.expected);
  difference.limits(stored.limits, again.limits);
  difference.number("the expanded uncertainty", stored.expandedUncertainty, again.expandedUncertainty);
  difference.number("the coverage factor", stored.coverageFactor, again.coverageFactor);
  difference.verdict(stored.verdict, again.verdict);
}

}  // namespace

std::vector<TracedReading> tracedReadings(const VisitSheet& sheet, const std::vector<Reading>& readings,
                                          Phase phase, const std::vector<const Standard*>& standards,
                                          Verdict& verdict) {
  std::vector<TracedReading> traced;
  std::vector<Reading> again;
  for (const Reading& reading : readings) {
    traced.push_back({phase, reading, {}, std::nullopt, {}, {}});
    again.push_back(fromTexts(sheet, reading, traced.back().differs));
  }
  const Repeatability repeated = repeatability(again);
  for (std::size_t i = 0; i < again.size(); ++i) {
    if (again[i].skipped() || !traced[i].differs.empty()) {
      continue;
    }
    traced[i].values = tracedValues(sheet, again[i], standards);
    traced[i].budget = pointBudget(sheet, again[i], standards, repeated);
    fillUncertainty(sheet, again[i], standards, repeated);
    judgeByRule(sheet, again[i]);
    compare(readings[i], again[i], traced[i].differs);
  }
  verdict = overall(again);
  return traced;
}

}  // namespace spanwright
