// SPDX-License-Identifier: GPL-3.0-or-later
//
// Invented histories whose truth is known: like channels with rates about a group's, read with noise,
// adjusted when they stray. Used by the unit tests and by tests/bench/drift_bench.cpp.
#pragma once

#include <cmath>
#include <random>
#include <vector>

#include "core/drift/segments.h"

namespace spanwright::simulated {

enum class Noise { normal, heavyTailed };

/// In tolerances: limits are -1 and 1.
struct Kind {
  double rateMean = 0.05;
  double rateSpread = 0.10;    ///< between channels
  double scatter = 0.12;       ///< of one reading
  double scatterSpread = 0.0;  ///< sd of log scatter between channels
  bool adjusted = true;        ///< when found beyond 0.7 of the tolerance
  Noise noise = Noise::normal;
  double walk = 0.0;     ///< variance per year of a random walk, in scatter^2
  double stepAt = -1.0;  ///< visit before which the error jumps by `step`; negative: never
  double step = 0.0;
};

struct History {
  std::vector<Segment> segments;  ///< of the visits before the last
  double rate = 0.0;
  double nextTime = 0.0;
  double next = 0.0;      ///< as found at the visit after them
  double nextTrue = 0.0;  ///< without noise
  double scatter = 0.0;
};

/// Heavy tails: Student's t with 4 degrees of freedom, scaled to the same standard deviation.
inline double noiseOf(const Kind& kind, double scatter, std::mt19937_64& random) {
  if (kind.noise == Noise::normal)
    return scatter * std::normal_distribution<double>()(random);
  return scatter * std::student_t_distribution<double>(4.0)(random) / std::sqrt(2.0);
}

inline History historyOf(const Kind& kind, int visits, std::mt19937_64& random) {
  std::normal_distribution<double> standard;
  std::uniform_real_distribution<double> gap(0.8, 1.2);
  History out;
  out.rate = kind.rateMean + kind.rateSpread * standard(random);
  out.scatter = kind.scatter * std::exp(kind.scatterSpread * standard(random));
  double level = 0.1 * standard(random);
  double time = 0.0;
  double begun = 0.0;
  double walked = 0.0;
  bool open = false;
  BreakCause cause = BreakCause::start;
  for (int visit = 0; visit <= visits; ++visit) {
    if (visit == static_cast<int>(kind.stepAt))
      level += kind.step;
    const double real = level + out.rate * (time - begun) + walked;
    const double found = real + noiseOf(kind, out.scatter, random);
    if (visit == visits) {
      out.nextTime = time;
      out.next = found;
      out.nextTrue = real;
      break;
    }
    if (!open) {
      out.segments.push_back({cause, time, {}, 1, ""});
      open = true;
    }
    out.segments.back().readings.push_back({time, found, false});
    if (kind.adjusted && std::abs(found) > 0.7) {
      level = 0.05 * standard(random);
      begun = time;
      walked = 0.0;
      cause = BreakCause::adjustment;
      out.segments.push_back({cause, time, {}, 1, ""});
      out.segments.back().readings.push_back({time, level + noiseOf(kind, out.scatter, random), true});
    }
    const double years = gap(random);
    time += years;
    walked += out.scatter * std::sqrt(kind.walk * years) * standard(random);
  }
  return out;
}

}  // namespace spanwright::simulated
