// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/drift/segments.h"

#include <cassert>
#include <utility>

namespace spanwright {

namespace {

/// Collects readings; a break only takes effect with the first reading after it, so no segment is ever empty.
class Cutter {
 public:
  void breakHere(BreakCause cause, std::optional<double> at) {
    open_ = false;
    cause_ = cause;
    breakTime_ = at;
  }

  void add(const VisitAtPoint& visit, double error, bool asLeft) {
    if (!open_) {
      segments_.push_back({cause_, breakTime_.value_or(visit.time), {}, visit.setup, visit.sensor});
      open_ = true;
    }
    segments_.back().readings.push_back({visit.time, error, asLeft});
  }

  std::vector<Segment> take() { return std::move(segments_); }

 private:
  std::vector<Segment> segments_;
  bool open_ = false;
  BreakCause cause_ = BreakCause::start;
  std::optional<double> breakTime_;
};

}  // namespace

std::string_view text(BreakCause cause) {
  switch (cause) {
    case BreakCause::start:
      return "first calibration";
    case BreakCause::adjustment:
      return "adjustment";
    case BreakCause::repair:
      return "repair";
    case BreakCause::newSetup:
      return "new setup";
    case BreakCause::otherSensor:
      return "another sensor";
    case BreakCause::otherPoints:
      return "other test points";
  }
  return "";
}

std::vector<Segment> cutSegments(const std::vector<VisitAtPoint>& visits) {
  Cutter cutter;
  const VisitAtPoint* before = nullptr;
  for (const VisitAtPoint& visit : visits) {
    assert(before == nullptr || visit.time >= before->time);
    if (before != nullptr && visit.setup != before->setup) {
      cutter.breakHere(BreakCause::newSetup, std::nullopt);
    } else if (before != nullptr && visit.sensor != before->sensor) {
      cutter.breakHere(BreakCause::otherSensor, std::nullopt);
    } else if (before != nullptr && visit.points != before->points) {
      cutter.breakHere(BreakCause::otherPoints, std::nullopt);
    }
    before = &visit;

    const bool touched = visit.adjusted || visit.repaired;
    if (visit.found) {
      cutter.add(visit, *visit.found, false);
    } else if (visit.left && !touched) {
      cutter.add(visit, *visit.left, true);
    }
    if (touched) {
      cutter.breakHere(visit.repaired ? BreakCause::repair : BreakCause::adjustment, visit.time);
      if (visit.left)
        cutter.add(visit, *visit.left, true);
    }
  }
  return cutter.take();
}

}  // namespace spanwright
