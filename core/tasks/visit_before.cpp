// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/visit_before.h"

#include "core/record/life.h"

namespace spanwright {

std::optional<Calibration> visitBefore(const Store& store, const VisitSubject& subject, Moment before) {
  CalibrationId last = 0;
  for (const CalibrationSummary& each : store.calibrations(subject.channel)) {
    const bool same = each.subject == subject.subject && each.setupVersion == subject.setupVersion &&
                      (subject.subject == Subject::channel || each.sensor == subject.sensor);
    if (same && counts(each.state) && each.performed < before) {
      last = each.id;
    }
  }
  return last == 0 ? std::nullopt : store.calibration(last);
}

const Reading* leftAt(const Calibration& earlier, const TestPoint& point) {
  const Reading* otherSide = nullptr;
  for (const Reading& reading : earlier.standingAsLeft()) {
    if (reading.skipped() || reading.point.role != point.role || pointKey(reading.point) != pointKey(point)) {
      continue;
    }
    if (reading.point.direction == point.direction) {
      return &reading;
    }
    otherSide = otherSide == nullptr ? &reading : otherSide;
  }
  return otherSide;
}

}  // namespace spanwright
