// SPDX-License-Identifier: GPL-3.0-or-later
//
// Drift histories cut into segments at every break. Plain values in, plain values out.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace spanwright {

enum class BreakCause { start, adjustment, repair, newSetup, otherSensor, otherPoints };
std::string_view text(BreakCause cause);  // "first calibration", "adjustment", "repair", "new setup",
                                          // "another sensor", "other test points"

/// One visit's outcome at one test point. `time` in years from any common origin, errors in reading units
/// (the mean over directions and runs of the point). `setup` and `sensor` tell which subject it was.
struct VisitAtPoint {
  double time = 0.0;
  std::optional<double> found;  ///< nothing: not taken or skipped
  std::optional<double> left;   ///< of what stands as left
  bool adjusted = false;
  bool repaired = false;
  int setup = 0;
  std::string sensor = {};
  int points =
      0;  ///< which set of test points it was read at; told apart only where the point itself was not read
};

struct DriftReading {
  double time = 0.0;
  double error = 0.0;
  bool asLeft = false;  ///< the as-left that opens the segment, or all that a visit without as-found gave
};

struct Segment {
  BreakCause cause = BreakCause::start;  ///< the break that opens it
  double startTime = 0.0;  ///< of the adjustment or repair that opens it, else of its first reading
  std::vector<DriftReading> readings;  ///< by time, never empty
  int setup = 0;                       ///< under which it was read
  std::string sensor = {};
};

/// Cuts one subject's visits at one point, oldest first, into segments. A segment opens with the as-left of
/// the visit after the break and goes on with every as-found until the next break; the as-found of the visit
/// that adjusts still belongs to the segment it ends. Another setup or sensor ends a segment before that
/// visit, and so do other test points (what is read off a line through others has an offset of its own). A
/// visit without adjustment adds its as-found only (its as-left repeats it), or its as-left when it has no
/// as-found. Visits that give no reading are passed over, but the breaks they made hold: an adjustment whose
/// as-left was skipped still ends the segment, and the next as-found opens the new one. A new setup counts
/// before another sensor, that before other points, a repair before an adjustment, when both happened at
/// once.
std::vector<Segment> cutSegments(const std::vector<VisitAtPoint>& visits);

}  // namespace spanwright
