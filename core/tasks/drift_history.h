// SPDX-License-Identifier: GPL-3.0-or-later
//
// From calibrations to what a drift fit needs: one error per visit and test point, cut into segments.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/drift/segments.h"
#include "core/record/calibration.h"

namespace spanwright {

/// All readings of one visit at one point, over directions and runs.
struct PointMean {
  std::string key;
  PointRole role = PointRole::value;
  double percent = 0.0;
  Unit unit = Unit::none;
  double error = 0.0;  ///< mean, in `unit`
  int count = 0;       ///< readings it is the mean of
  ErrorLimits limits;  ///< as judged then
};

/// One visit; skipped points are simply not there.
struct VisitMeans {
  Moment performed;
  bool adjusted = false;
  bool repaired = false;
  int setup = 0;
  std::string sensor;  ///< empty for the channel alone, which does not depend on it
  std::vector<PointMean> found;
  std::vector<PointMean> left;  ///< of what stands as left
};

/// Visits of one channel by subject, oldest first.
using ChannelHistory = std::map<Subject, std::vector<VisitMeans>>;

VisitMeans visitMeans(const Calibration& calibration);

/// The mean at a point, or nullptr when the visit has none.
const PointMean* meanAt(const std::vector<PointMean>& means, std::string_view key);

/// Everything a subject's visits say at one point.
struct PointHistory {
  Moment origin;  ///< of the first reading
  std::vector<Segment> segments;
  int otherUnitVisits = 0;  ///< visits whose reading cannot be told in the unit asked for
  int otherPlanVisits = 0;  ///< visits read off the straight line through their own points
};

/// Value points of the plan in force: key and place in percent of the range.
using PlanPoints = std::map<std::string, double, std::less<>>;

/// Errors in `unit`; times in years since the first reading that can be told in it. No segments when there is
/// none. Points match by their key, which holds the nominal value. A visit by an earlier plan that has none
/// of the present plan's value points is reduced to its zero and span, the straight line by least squares
/// through its errors against percent of range, and read off that at the point; such readings form segments
/// of their own (BreakCause::otherPoints), so they tell the rate and not the level.
PointHistory pointHistory(const std::vector<VisitMeans>& visits, std::string_view key, Unit unit,
                          const PlanPoints& plan = {});

}  // namespace spanwright
