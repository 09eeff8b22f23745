// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a subject was left at before a visit.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/visit.h"

namespace spanwright {

/// Whose visits follow each other: one subject of a channel under one setup; of a sensor and a loop also with
/// one sensor.
struct VisitSubject {
  std::string channel;
  Subject subject = Subject::channel;
  int setupVersion = 0;
  std::string sensor;  ///< not looked at for the channel
};

VisitSubject subjectOf(const VisitSheet& sheet);

/// Its calibrations that count (core/record/life.h) and were performed before `before`, newest first.
std::vector<CalibrationId> visitsBefore(const Store& store, const VisitSubject& subject, Moment before);
/// The newest of them; nothing when there is none.
std::optional<Calibration> visitBefore(const Store& store, const VisitSubject& subject, Moment before);

/// What of `earlier` stands as left at the point of that key (pointKey): of the same side and run where it
/// was read so, else of the same side, else of any; nullptr when the point was not read.
const Reading* leftAt(const Calibration& earlier, const TestPoint& point);

}  // namespace spanwright
