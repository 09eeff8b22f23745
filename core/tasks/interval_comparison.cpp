// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "core/tasks/intervals.h"
#include "core/tasks/status.h"

namespace spanwright {

namespace {

constexpr double kLeastScatter = 0.01;  // of tolerance; readings that never differ are a converter's step

/// Of one reading: its own, else that of like subjects.
std::optional<double> scatterOf(const DriftItem& item) {
  if (item.fit && item.fit->residualSd) {
    return item.fit->residualSd;
  }
  return item.group.tooSmall ? std::nullopt : std::optional(item.group.scatter);
}

/// The point in fractions of the narrower side of its tolerance; nothing when its rate or scatter is not
/// known, or no side has a width.
std::optional<SimulatedPoint> simulated(const DriftItem& item) {
  const std::optional<double> scatter = scatterOf(item);
  const double width = std::min(item.limits.high > 0.0 ? item.limits.high : 0.0,
                                item.limits.low < 0.0 ? -item.limits.low : 0.0);
  if (!item.fit || !scatter || !(width > 0.0) || std::isinf(width)) {
    return std::nullopt;
  }
  const double rate = item.pooledRate.value_or(item.fit->rate);
  const double error = item.pooledRate ? item.pooledRateStandardError.value_or(0.0)
                                       : item.fit->rateStandardError.value_or(0.0);
  return SimulatedPoint{rate / width, error / width, std::max(kLeastScatter, *scatter / width)};
}

SimulatedRule ruleOf(const IntervalPolicy& policy) {
  switch (policy.kind) {
    case PolicyKind::fixed:
      break;
    case PolicyKind::staircase:
      return StaircaseRule{policy.lengthen, policy.shorten};
    case PolicyKind::reliability:
      return ReliabilityRule{policy.target, policy.confidence, policy.leastOutcomes};
    case PolicyKind::forecast:
      return ForecastRule{};
  }
  return AsItIs{};
}

}  // namespace

FleetComparison comparePolicies(const Store& store, Date today, const SimulationPlan& plan) {
  const Register& site = store.site();
  std::map<std::pair<std::string, Subject>, std::vector<SimulatedPoint>> points;
  for (const DriftItem& item : driftReport(store, "", today)) {
    if (const auto point = simulated(item)) {
      points[{item.channel, item.subject}].push_back(*point);
    }
  }
  FleetComparison comparison;
  comparison.plan = plan;
  std::vector<SimulatedSubject> fleet;
  for (const IntervalItem& item : intervalReport(store, "", today)) {
    comparison.observed += item.counts.counted;
    comparison.observedIn += item.counts.counted - item.counts.out;
    const auto at = points.find({item.channel, item.subject});
    if (at == points.end()) {
      ++comparison.leftOut;
      continue;
    }
    const Channel& channel = *site.channel(item.channel);
    const Plan* const routinePlan = site.plan(routineFor(channel, item.subject)->plan);
    fleet.push_back(
        {item.group, item.nowDays, routinePlan != nullptr ? routinePlan->adjustLimit : 1.0, at->second});
  }
  comparison.subjects = static_cast<int>(fleet.size());
  comparison.policies.push_back({"", std::nullopt, simulateFleet(fleet, {AsItIs{}, {}}, plan)});
  for (const IntervalPolicy& policy : site.intervals) {
    if (policy.kind != PolicyKind::fixed) {
      comparison.policies.push_back(
          {policy.code, policy.kind,
           simulateFleet(fleet, {ruleOf(policy), {policy.minimumDays, policy.maximumDays}}, plan)});
    }
  }
  return comparison;
}

}  // namespace spanwright
