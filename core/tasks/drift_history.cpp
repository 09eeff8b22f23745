// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/drift_history.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <string>
#include <utility>

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

/// Error at `percent` by the straight line through the value points of a visit; nothing with fewer than two
/// places, or in another unit.
std::optional<double> offLine(const std::vector<PointMean>& means, double percent, Unit unit) {
  std::vector<std::pair<double, double>> points;
  for (const PointMean& mean : means) {
    const auto error = mean.role == PointRole::value ? errorIn(&mean, unit) : std::nullopt;
    if (error) {
      points.emplace_back(mean.percent, *error);
    }
  }
  double x = 0.0;
  double y = 0.0;
  for (const auto& [at, error] : points) {
    x += at / static_cast<double>(points.size());
    y += error / static_cast<double>(points.size());
  }
  double sxx = 0.0;
  double sxy = 0.0;
  for (const auto& [at, error] : points) {
    sxx += (at - x) * (at - x);
    sxy += (at - x) * (error - y);
  }
  if (!(sxx > 0.0)) {
    return std::nullopt;
  }
  return y + sxy / sxx * (percent - x);
}

/// The value points a visit was read at, as text; empty when it shares one with the plan or has none.
std::string otherPoints(const VisitMeans& visit, const PlanPoints& plan) {
  std::string points;
  for (const auto* means : {&visit.found, &visit.left}) {
    for (const PointMean& mean : *means) {
      if (plan.contains(mean.key)) {
        return {};
      }
      if (mean.role == PointRole::value) {
        points += mean.key + ";";
      }
    }
  }
  return points;
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

PointHistory pointHistory(const std::vector<VisitMeans>& visits, std::string_view key, Unit unit,
                          const PlanPoints& plan) {
  PointHistory history;
  std::vector<VisitAtPoint> at;
  std::vector<std::string> layouts{""};  // sets of points, the plan's first
  const auto planned = plan.find(key);
  for (const VisitMeans& visit : visits) {
    const PointMean* found = meanAt(visit.found, key);
    const PointMean* left = meanAt(visit.left, key);
    // Visits without the point go along: their adjustments are breaks for it too.
    at.push_back({0.0, errorIn(found, unit), errorIn(left, unit), visit.adjusted, visit.repaired, visit.setup,
                  visit.sensor});
    const std::string others = planned == plan.end() ? std::string() : otherPoints(visit, plan);
    if (others.empty() && visit.found.empty() && visit.left.empty() && at.size() > 1) {
      at.back().points = std::prev(at.end(), 2)->points;  // nothing was read: no other points either
    } else if (!others.empty()) {
      at.back().found = offLine(visit.found, planned->second, unit);
      at.back().left = offLine(visit.left, planned->second, unit);
      auto layout = std::find(layouts.begin(), layouts.end(), others);
      layout = layout == layouts.end() ? layouts.insert(layout, others) : layout;
      at.back().points = static_cast<int>(layout - layouts.begin());
      history.otherPlanVisits += at.back().found || at.back().left ? 1 : 0;
    }
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
