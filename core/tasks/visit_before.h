// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a subject was left at before a visit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/store/store.h"

namespace spanwright {

/// Whose visits follow each other: one subject of a channel under one setup; of a sensor and a loop also with
/// one sensor.
struct VisitSubject {
  std::string channel;
  Subject subject = Subject::channel;
  int setupVersion = 0;
  std::string sensor;  ///< not looked at for the channel
};

/// Its last calibration that counts (core/record/life.h) and was performed before `before`; nothing when
/// there is none.
std::optional<Calibration> visitBefore(const Store& store, const VisitSubject& subject, Moment before);

/// What of `earlier` stands as left at the point of that key (pointKey), taken from the same side where it
/// says so, else from any; nullptr when the point was not read.
const Reading* leftAt(const Calibration& earlier, const TestPoint& point);

}  // namespace spanwright
