// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a fleet's visits would find under a policy for its intervals, simulated on what is known of its drift.
//
// Assumed: each point's error is what was left, plus a constant rate, plus normal scatter of one reading; the
// rate is drawn once in each run from its estimate and standard error; points drift on their own; a visit
// that finds a point beyond the adjust limit or out of tolerance brings all points to zero, and one that
// does not leaves them; no setup or sensor changes, nothing breaks suddenly, and every visit is made on its
// day. Proposals are taken as soon as they are made.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "core/schedule/proposal.h"

namespace spanwright {

/// Fractions of tolerance: an error is in tolerance from -1 to 1. Rates per year.
struct SimulatedPoint {
  double rate = 0.0;
  double rateStandardError = 0.0;  ///< not negative
  double scatter = 0.0;            ///< standard deviation of one reading, above 0
};
struct SimulatedSubject {
  std::string group;  ///< subjects of one group are pooled by a reliability policy
  int startDays = 365;
  double adjustLimit = 0.7;  ///< of tolerance
  std::vector<SimulatedPoint> points;
};

/// Every subject keeps the interval it starts with.
struct AsItIs {};
/// The next interval ends before the band of the known rate and scatter leaves tolerance.
struct ForecastRule {};
using SimulatedRule = std::variant<AsItIs, StaircaseRule, ReliabilityRule, ForecastRule>;
struct SimulatedPolicy {
  SimulatedRule rule;
  IntervalLimits limits;
};

struct SimulationPlan {
  int years = 10;
  int runs = 100;
  std::uint64_t seed = 1;
};

struct FleetOutcome {
  long visits = 0;                ///< in all runs
  double inTolerance = 0.0;       ///< share of visits that found everything in tolerance
  double standardError = 0.0;     ///< of that share, from the spread between runs
  double visitsPerYear = 0.0;     ///< of the whole fleet
  double meanIntervalDays = 0.0;  ///< at the end of the runs
};

/// The same seed gives the same outcome. No subjects, no years or no runs: nothing visited. Subjects without
/// points are passed over.
FleetOutcome simulateFleet(const std::vector<SimulatedSubject>& fleet, const SimulatedPolicy& policy,
                           const SimulationPlan& plan);

}  // namespace spanwright
