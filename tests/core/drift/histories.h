// SPDX-License-Identifier: GPL-3.0-or-later
//
// Segments to fit: typed, read from a reference file, or random.
#pragma once

#include <random>
#include <string>
#include <utility>
#include <vector>

#include "core/drift/segments.h"
#include "tests/core/drift/reference_csv.h"

namespace spanwright {

inline Segment line(const std::vector<std::pair<double, double>>& points) {
  Segment segment;
  for (const auto& [time, error] : points)
    segment.readings.push_back({time, error, false});
  return segment;
}

inline Segment lineFrom(const std::string& file, const std::string& x, const std::string& y) {
  Segment segment;
  for (const auto& row : reference::table(file))
    segment.readings.push_back({reference::number(row.at(x)), reference::number(row.at(y)), false});
  return segment;
}

/// Rate 0.2 a year, scatter 0.05, each segment with `fewest` to `most` readings and its own level.
inline std::vector<Segment> randomHistory(std::mt19937& random, int segments, int fewest, int most) {
  std::vector<Segment> out;
  std::normal_distribution<double> noise(0.0, 0.05);
  std::uniform_real_distribution<double> gap(0.3, 1.5);
  double time = 0.0;
  for (int s = 0; s < segments; ++s) {
    const double level = noise(random) * 10.0;
    Segment segment;
    const int count = fewest + static_cast<int>(random() % static_cast<unsigned>(most - fewest + 1));
    for (int i = 0; i < count; ++i) {
      segment.readings.push_back({time, level + 0.2 * time + noise(random), i == 0});
      time += gap(random);
    }
    out.push_back(segment);
  }
  return out;
}

}  // namespace spanwright
