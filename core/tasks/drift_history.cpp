// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/drift_history.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace spanwright {

namespace {

std::vector<PointMean> meansOf(const std::vector<Reading>& readings) {
  std::vector<PointMean> means;
  for (const Reading& reading : readings) {
    if (reading.skipped() || !std::isfinite(reading.error())) {
      continue;
    }
    const std::string key = pointKey(reading.point);
    auto at =
        std::find_if(means.begin(), means.end(), [&](const PointMean& mean) { return mean.key == key; });
    if (at == means.end()) {
      means.push_back({key, reading.point.role, reading.point.percent, reading.point.readingUnit, 0.0, 0,
                       reading.limits});
      at = std::prev(means.end());
    }
    ++at->count;
    at->error += (reading.error() - at->error) / at->count;
  }
  return means;
}

std::optional<double> errorIn(const PointMean* mean, Unit unit) {
  if (mean == nullptr) {
    return std::nullopt;
  }
  return mean->unit == unit ? mean->error : convertDifference(mean->error, mean->unit, unit);
}

}  // namespace

VisitMeans visitMeans(const Calibration& calibration) {
  VisitMeans visit;
  visit.performed = calibration.performed;
  visit.adjusted = calibration.adjustment.adjusted;
  visit.repaired = calibration.adjustment.repaired;
  visit.setup = calibration.setupVersion;
  if (calibration.subject != Subject::channel) {
    visit.sensor = calibration.sensor;
  }
  visit.found = meansOf(calibration.asFound);
  visit.left = calibration.asLeft.empty() ? visit.found : meansOf(calibration.asLeft);
  return visit;
}

const PointMean* meanAt(const std::vector<PointMean>& means, std::string_view key) {
  const auto at =
      std::find_if(means.begin(), means.end(), [&](const PointMean& mean) { return mean.key == key; });
  return at == means.end() ? nullptr : &*at;
}

PointHistory pointHistory(const std::vector<VisitMeans>& visits, std::string_view key, Unit unit) {
  PointHistory history;
  std::vector<VisitAtPoint> at;
  for (const VisitMeans& visit : visits) {
    const PointMean* found = meanAt(visit.found, key);
    const PointMean* left = meanAt(visit.left, key);
    // Visits without the point go along: their adjustments are breaks for it too.
    at.push_back({0.0, errorIn(found, unit), errorIn(left, unit), visit.adjusted, visit.repaired, visit.setup,
                  visit.sensor});
    if (at.back().found || at.back().left) {
      history.origin = history.origin.is_special() ? visit.performed : history.origin;
    } else if (found != nullptr || left != nullptr) {
      ++history.otherUnitVisits;
    }
  }
  if (history.origin.is_special()) {
    return history;
  }
  for (std::size_t i = 0; i < visits.size(); ++i) {
    at[i].time = yearsBetween(history.origin, visits[i].performed);
  }
  history.segments = cutSegments(at);
  return history;
}

}  // namespace spanwright
