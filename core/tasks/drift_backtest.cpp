// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/drift_backtest.h"

#include <cmath>
#include <iterator>
#include <map>
#include <optional>
#include <utility>

namespace spanwright {

namespace {

using Hidden = std::map<std::pair<std::string, Subject>, VisitMeans>;

/// Takes the last visit with as-found readings, and all after it, when the one before was of the same setup
/// and sensor.
void hideLast(const std::string& channel, Subject subject, std::vector<VisitMeans>& visits, Hidden& hidden) {
  while (!visits.empty() && visits.back().found.empty()) {
    visits.pop_back();
  }
  if (visits.size() < 2) {
    return;
  }
  const VisitMeans& before = *std::prev(visits.end(), 2);
  if (before.setup == visits.back().setup && before.sensor == visits.back().sensor) {
    hidden[{channel, subject}] = std::move(visits.back());
    visits.pop_back();
  }
}

std::optional<double> lineThroughAll(const DriftItem& item, double time) {
  Segment all;
  for (const Segment& segment : item.fitted) {
    all.readings.insert(all.readings.end(), segment.readings.begin(), segment.readings.end());
  }
  const auto fit = fitDrift({all});
  return fit ? std::optional(predict(*fit, time).value) : std::nullopt;
}

std::optional<HiddenReading> compared(const DriftItem& item, const VisitMeans& visit) {
  const PointMean* mean = meanAt(visit.found, item.point);
  const double tolerance = 0.5 * (item.limits.high - item.limits.low);
  if (mean == nullptr || item.fitted.empty() || !std::isfinite(tolerance) || !(tolerance > 0.0)) {
    return std::nullopt;
  }
  const auto found = mean->unit == item.unit ? std::optional(mean->error)
                                             : convertDifference(mean->error, mean->unit, item.unit);
  const double time = yearsBetween(item.origin, visit.performed);
  const auto forecast = predictAt(item, time);
  const auto line = lineThroughAll(item, time);
  if (!found || !forecast || !line) {
    return std::nullopt;
  }
  return HiddenReading{item.channel, item.subject,    item.point,
                       item.unit,    visit.performed, *found,
                       *forecast,    item.basis,      item.fitted.back().readings.back().error,
                       *line,        tolerance};
}

}  // namespace

Backtest backtestDrift(const Store& store, Date today) {
  Hidden hidden;
  const auto items = driftReportOf(
      store, today, [&](const std::string& channel, Subject subject, std::vector<VisitMeans>& visits) {
        hideLast(channel, subject, visits, hidden);
      });
  Backtest out;
  for (const DriftItem& item : items) {
    const auto visit = hidden.find({item.channel, item.subject});
    auto reading = visit == hidden.end() ? std::nullopt : compared(item, visit->second);
    if (!reading) {
      continue;
    }
    const auto error = [&](double value) { return std::abs(value - reading->found) / reading->tolerance; };
    out.forecastError += error(reading->forecast.value);
    out.lastValueError += error(reading->lastValue);
    out.straightLineError += error(reading->straightLine);
    if (reading->forecast.low) {
      ++out.withBand;
      out.inBand +=
          *reading->forecast.low <= reading->found && reading->found <= *reading->forecast.high ? 1 : 0;
    }
    out.readings.push_back(std::move(*reading));
  }
  if (const auto count = static_cast<double>(out.readings.size()); count > 0.0) {
    out.forecastError /= count;
    out.lastValueError /= count;
    out.straightLineError /= count;
  }
  return out;
}

}  // namespace spanwright
