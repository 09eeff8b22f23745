// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/drift_parts.h"

#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <map>
#include <utility>

namespace spanwright {

namespace {

using Parts = std::map<Subject, PoolEntry*>;

/// The entry's own rate in units of `scale`.
std::optional<DriftParts::Rate> rateOf(const Parts& parts, Subject subject, double scale) {
  const auto at = parts.find(subject);
  if (at == parts.end()) {
    return std::nullopt;
  }
  const double factor = scale / at->second->scale;
  const DriftFit& fit = *at->second->item.fit;
  return DriftParts::Rate{fit.rate * factor, *fit.rateStandardError * factor};
}

double freedomOf(const Parts& parts, const DriftParts& of) {
  double sum = 0.0;
  double weighted = 0.0;
  const auto add = [&](Subject subject, const std::optional<DriftParts::Rate>& rate) {
    const double variance = rate->standardError * rate->standardError;
    sum += variance;
    weighted += variance * variance / parts.at(subject)->item.fit->degreesOfFreedom;
  };
  add(Subject::channel, of.channel);
  add(Subject::sensor, of.sensor);
  add(Subject::loop, of.loop);
  return weighted > 0.0 ? sum * sum / weighted : 0.0;
}

void compare(const Parts& parts) {
  const auto loop = parts.find(Subject::loop);
  PoolEntry& told = loop != parts.end() ? *loop->second : *parts.at(Subject::channel);
  DriftParts out;
  out.channel = rateOf(parts, Subject::channel, told.scale);
  out.sensor = rateOf(parts, Subject::sensor, told.scale);
  out.loop = rateOf(parts, Subject::loop, told.scale);
  double variance = 0.0;
  for (const auto& rate : {out.channel, out.sensor, out.loop}) {
    variance += rate ? rate->standardError * rate->standardError : 0.0;
  }
  const auto value = [](const std::optional<DriftParts::Rate>& rate) { return rate ? rate->rate : 0.0; };
  out.difference.standardError = std::sqrt(variance);
  if (!out.loop) {
    out.follows = Subject::loop;
    out.difference.rate = value(out.channel) + value(out.sensor);
  } else {
    out.difference.rate = value(out.loop) - value(out.channel) - value(out.sensor);
    if (!out.channel || !out.sensor) {
      out.follows = out.channel ? Subject::sensor : Subject::channel;
    }
  }
  if (const double freedom = out.follows ? 0.0 : freedomOf(parts, out); freedom > 0.0) {
    const boost::math::students_t student(freedom);
    out.pValue = 2.0 * boost::math::cdf(boost::math::complement(
                           student, std::abs(out.difference.rate) / out.difference.standardError));
  }
  told.item.parts = out;
}

}  // namespace

void compareParts(std::vector<PoolEntry>& entries) {
  std::map<std::pair<std::string, std::string>, Parts> channels;
  for (PoolEntry& entry : entries) {
    if (entry.spanned && entry.item.fit && entry.item.fit->rateStandardError) {
      channels[{entry.item.channel, entry.item.point}][entry.item.subject] = &entry;
    }
  }
  for (const auto& [name, parts] : channels) {
    if (parts.size() >= 2) {
      compare(parts);
    }
  }
}

}  // namespace spanwright
