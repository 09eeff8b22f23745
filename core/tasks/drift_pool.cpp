// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/drift_pool.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/drift/pool.h"

namespace spanwright {

namespace {

std::string spanText(const Span& span) {
  return fmt::format("{}..{} {}", formatShortest(span.low), formatShortest(span.high), symbol(span.unit));
}

std::string transferText(TransferKind transfer) {
  return transfer == TransferKind::linear ? "linear" : "square root";
}

struct FamilyOf {
  std::string operator()(const ThresholdSetup& setup) const {
    return formatShortest(setup.ratedVolts) + " V";
  }
  std::string operator()(const AnalogInputSetup& setup) const {
    return fmt::format("{} {} {}", spanText(setup.signal), transferText(setup.transfer), setup.bits);
  }
  std::string operator()(const ThermocoupleSetup& setup) const {
    return fmt::format("couple {} {}", static_cast<int>(setup.type), spanText(setup.range));
  }
  std::string operator()(const RtdSetup& setup) const {
    return fmt::format("element {} {} wires {}", static_cast<int>(setup.element), setup.wires,
                       spanText(setup.range));
  }
  std::string operator()(const AnalogOutputSetup& setup) const {
    return fmt::format("{} {}", spanText(setup.signal), setup.bits);
  }
  std::string operator()(const DiscreteOutputSetup& setup) const {
    return formatShortest(setup.supplyVolts) + " V";
  }
};

std::string sensorFamily(const SensorRange& sensor) {
  std::string family = spanText(sensor.process) + " " + transferText(sensor.transfer);
  if (sensor.output) {
    family += " to " + spanText(*sensor.output);
  }
  if (sensor.thermocouple) {
    family += fmt::format(" couple {}", static_cast<int>(*sensor.thermocouple));
  }
  if (sensor.rtd) {
    family += fmt::format(" element {}", static_cast<int>(*sensor.rtd));
  }
  return family;
}

bool canPool(const PoolEntry& entry) {
  return !entry.family.empty() && entry.item.fit.has_value();
}

/// In units of the scale, not below what rounding to the step leaves.
double scatterOf(const PoolEntry& entry) {
  const double rounding = entry.step * entry.step / 12.0;
  const double own = entry.item.fit->residualSd ? std::pow(*entry.item.fit->residualSd, 2) : 0.0;
  return std::max(own, rounding) / (entry.scale * entry.scale);
}

using Group = std::vector<PoolEntry*>;

/// Variance of each rate with the scatter drawn towards the group's; its own where the group tells none, 0
/// where neither does.
std::vector<double> rateVariances(const Group& group) {
  std::vector<ScatterEstimate> scatters;
  for (const PoolEntry* entry : group) {
    scatters.push_back({scatterOf(*entry), std::max(0, entry->item.fit->degreesOfFreedom)});
  }
  const auto pooled = poolScatter(scatters);
  std::vector<double> variances;
  for (std::size_t i = 0; i < group.size(); ++i) {
    const double own = scatters[i].degreesOfFreedom > 0 ? scatters[i].variance : 0.0;
    variances.push_back((pooled ? pooled->shrunk[i] : own) / group[i]->item.fit->sxx);
  }
  return variances;
}

void poolGroup(const Group& group) {
  const std::vector<double> variances = rateVariances(group);
  Group told;
  std::vector<RateEstimate> estimates;
  for (std::size_t i = 0; i < group.size(); ++i) {
    if (variances[i] > 0.0) {
      told.push_back(group[i]);
      estimates.push_back({group[i]->item.fit->rate / group[i]->scale, variances[i]});
    }
  }
  const auto pooled = poolRates(estimates);
  if (!pooled) {
    return;
  }
  for (std::size_t i = 0; i < told.size(); ++i) {
    DriftItem& item = told[i]->item;
    item.pooledRate = pooled->shrunk[i] * told[i]->scale;
    item.pooledRateStandardError = std::sqrt(pooled->shrunkVariance[i]) * told[i]->scale;
    item.likeSubjects = static_cast<int>(told.size());
  }
}

}  // namespace

std::string subjectFamily(Subject subject, const ChannelSetup& setup, const SensorRange* sensor) {
  std::string family(text(subject));
  if (subject != Subject::sensor) {
    family += fmt::format(", {} {}", kindName(setup), std::visit(FamilyOf{}, setup.kind));
  }
  if (subject != Subject::channel && sensor != nullptr) {
    family += ", " + sensorFamily(*sensor);
  }
  return family;
}

void poolLikeSubjects(std::vector<PoolEntry>& entries) {
  std::map<std::string, Group> groups;
  for (PoolEntry& entry : entries) {
    if (canPool(entry)) {
      groups[fmt::format("{}, {} {}", entry.family, entry.item.point, symbol(entry.item.unit))].push_back(
          &entry);
    }
  }
  for (const auto& [name, group] : groups) {
    poolGroup(group);
  }
}

}  // namespace spanwright
