// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/visit_before.h"

#include <algorithm>

#include "core/record/life.h"

namespace spanwright {

VisitSubject subjectOf(const VisitSheet& sheet) {
  return {sheet.channel->tag, sheet.subject, sheet.setup != nullptr ? sheet.setup->version : 0,
          sheet.sensor != nullptr ? sheet.sensor->serial : std::string()};
}

std::vector<CalibrationId> visitsBefore(const Store& store, const VisitSubject& subject, Moment before) {
  std::vector<CalibrationId> ids;
  for (const CalibrationSummary& each : store.calibrations(subject.channel)) {
    const bool same = each.subject == subject.subject && each.setupVersion == subject.setupVersion &&
                      (subject.subject == Subject::channel || each.sensor == subject.sensor);
    if (same && counts(each.state) && each.performed < before) {
      ids.push_back(each.id);
    }
  }
  std::reverse(ids.begin(), ids.end());
  return ids;
}

std::optional<Calibration> visitBefore(const Store& store, const VisitSubject& subject, Moment before) {
  const auto ids = visitsBefore(store, subject, before);
  return ids.empty() ? std::nullopt : store.calibration(ids.front());
}

const Reading* leftAt(const Calibration& earlier, const TestPoint& point) {
  const Reading* best = nullptr;
  int bestAlike = -1;
  for (const Reading& reading : earlier.standingAsLeft()) {
    if (reading.skipped() || reading.point.role != point.role || pointKey(reading.point) != pointKey(point)) {
      continue;
    }
    const int alike =
        (reading.point.direction == point.direction ? 2 : 0) + (reading.point.run == point.run ? 1 : 0);
    if (alike > bestAlike) {
      best = &reading;
      bestAlike = alike;
    }
  }
  return best;
}

}  // namespace spanwright
