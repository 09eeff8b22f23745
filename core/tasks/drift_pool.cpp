// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/drift_pool.h"

#include <fmt/format.h>

#include <functional>
#include <map>

#include "core/drift/like_subjects.h"

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

using Entries = std::vector<PoolEntry*>;

bool widened(const DriftItem& item) {
  return item.growth && item.growth->pValue < kWidenBelow;
}

double squared(double value) {
  return value * value;
}

/// What its own readings say, in units of the scale.
std::optional<DriftBasis> basisOf(const PoolEntry& entry) {
  auto basis = driftBasis(entry.item.fitted, widened(entry.item) ? entry.item.growth->ratio : 0.0);
  if (basis) {
    basis->rate /= entry.scale;
    basis->level /= entry.scale;
    basis->residualVariance /= squared(entry.scale);
  }
  return basis;
}

DriftBand inReadingUnits(DriftBand band, double scale) {
  band.rate *= scale;
  band.level *= scale;
  band.rateVariance *= squared(scale);
  if (band.scatter) {
    *band.scatter *= scale;
  }
  return band;
}

void keepOwnBand(PoolEntry& entry) {
  const auto basis = basisOf(entry);
  const auto band = basis ? ownBand(*basis) : std::nullopt;
  entry.item.band = band ? std::optional(inReadingUnits(*band, entry.scale)) : std::nullopt;
  entry.item.basis = band ? BandBasis::own : BandBasis::none;
}

void take(const GroupDrift& group, const PooledDrift& pooled, PoolEntry& entry) {
  DriftItem& item = entry.item;
  item.group.tooSmall = false;
  item.group.size = group.size;
  item.group.rateMean = group.rateMean * entry.scale;
  item.group.rateSpread = group.rateSpread * entry.scale;
  item.group.scatter = group.scatter * entry.scale;
  item.group.scatterDegreesOfFreedom = group.scatterDegreesOfFreedom;
  item.pooledRate = pooled.band.rate * entry.scale;
  item.pooledRateStandardError = pooled.rateStandardError * entry.scale;
  item.likeSubjects = group.size;
  entry.known = {pooled.priorVariance * squared(entry.scale), pooled.priorDegreesOfFreedom,
                 squared(entry.step) / 12.0};
  entry.scatterPValue = pooled.scatterPValue;
  entry.ratePValue = pooled.ratePValue;
  if (!pooled.scatterApart) {
    item.band = inReadingUnits(pooled.band, entry.scale);
    item.basis = BandBasis::likeSubjects;
  }
}

/// Pools `group` and gives what comes of it to those of them that `takes` names.
void poolGroup(const std::string& name, const Entries& group,
               const std::function<bool(const PoolEntry&)>& takes) {
  std::vector<DriftBasis> bases;
  std::vector<double> least;
  Entries pooledOnes;
  int telling = 0;
  for (PoolEntry* entry : group) {
    const auto basis = widened(entry->item) ? std::nullopt : basisOf(*entry);
    if (basis) {
      bases.push_back(*basis);
      least.push_back(squared(entry->step / entry->scale) / 12.0);
      pooledOnes.push_back(entry);
      telling += basis->tellsRate() ? 1 : 0;
    }
  }
  const auto pooled = poolDrift(bases, least);
  for (PoolEntry* entry : group) {
    if (takes(*entry)) {
      entry->item.group.name = name;
      entry->item.group.size = telling;
    }
  }
  for (std::size_t i = 0; pooled && i < pooledOnes.size(); ++i) {
    if (takes(*pooledOnes[i])) {
      take(pooled->group, pooled->subjects[i], *pooledOnes[i]);
    }
  }
}

void poolFamily(const std::string& name, const Entries& group) {
  std::map<std::string, Entries> areas;
  for (PoolEntry* entry : group) {
    areas[entry->area].push_back(entry);
  }
  const auto stands = [&](const PoolEntry& entry) { return areas.at(entry.area).size() >= kEnoughInArea; };
  bool rest = false;
  for (const auto& [area, members] : areas) {
    if (members.size() >= kEnoughInArea && areas.size() > 1) {
      poolGroup(fmt::format("{}, {}", name, area), members, [](const PoolEntry&) { return true; });
    } else {
      rest = true;
    }
  }
  if (rest) {
    poolGroup(name, group, [&](const PoolEntry& entry) { return areas.size() == 1 || !stands(entry); });
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

void poolLikeSubjects(std::vector<PoolEntry>& entries, Pooling pooling) {
  std::map<std::string, Entries> groups;
  for (PoolEntry& entry : entries) {
    keepOwnBand(entry);
    if (pooling == Pooling::likeSubjects && !entry.family.empty() && !entry.item.fitted.empty()) {
      // Parts of span are compared whatever the unit; else like with like.
      const std::string unit = entry.spansCompared ? "" : fmt::format(", {}", symbol(entry.item.unit));
      groups[fmt::format("{}, at {}{}", entry.family, entry.item.point, unit)].push_back(&entry);
    }
  }
  for (const auto& [name, group] : groups) {
    poolFamily(name, group);
  }
}

}  // namespace spanwright
