// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/influence.h"

#include <algorithm>
#include <cmath>

namespace spanwright {

namespace {

// A leverage nearer to 1 than this means the reading alone decides something: nothing is left to compare
// with.
constexpr double kDecidesAlone = 1e-9;

}  // namespace

std::vector<PointInfluence> influences(const std::vector<Segment>& segments, const DriftFit& fit) {
  std::vector<PointInfluence> out;
  if (!fit.residualSd || !(*fit.residualSd > 0.0) || fit.throughZero)
    return out;
  const double s2 = *fit.residualSd * *fit.residualSd;
  const auto coefficients = static_cast<double>(segments.size() + 1);
  for (std::size_t s = 0; s < segments.size(); ++s) {
    const auto& readings = segments[s].readings;
    const auto count = static_cast<double>(readings.size());
    double mean = 0.0;
    for (const DriftReading& reading : readings)
      mean += (reading.time - readings.front().time) / count;
    mean += readings.front().time;
    for (std::size_t i = 0; i < readings.size(); ++i) {
      const double away = readings[i].time - mean;
      const double leverage = 1.0 / count + away * away / fit.sxx;
      const double left = 1.0 - leverage;
      if (left < kDecidesAlone)
        continue;
      const double residual = readings[i].error - fit.intercepts[s] - fit.rate * readings[i].time;
      out.push_back({s, i, readings[i].time, readings[i].asLeft, leverage,
                     fit.rate - away * residual / (fit.sxx * left),
                     residual * residual * leverage / (coefficients * s2 * left * left)});
    }
  }
  return out;
}

std::optional<PointInfluence> mostInfluential(const std::vector<Segment>& segments, const DriftFit& fit) {
  const std::vector<PointInfluence> all = influences(segments, fit);
  const auto most =
      std::max_element(all.begin(), all.end(), [&](const PointInfluence& a, const PointInfluence& b) {
        return std::abs(a.rateWithout - fit.rate) < std::abs(b.rateWithout - fit.rate);
      });
  return most == all.end() ? std::nullopt : std::optional(*most);
}

}  // namespace spanwright
