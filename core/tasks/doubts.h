// SPDX-License-Identifier: GPL-3.0-or-later
//
// Readings to be asked about, held against the sheet and the visits before.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/metrology/doubt.h"
#include "core/store/store.h"
#include "core/tasks/visit.h"

namespace spanwright {

/// By pointKey.
using UsualErrors = std::map<std::string, UsualError, std::less<>>;

/// Only so many of the latest visits are looked at.
inline constexpr std::size_t kUsualMost = 8;

/// What errors were usual for this subject under this setup and sensor before the sheet's moment, as found
/// and as left, of calibrations that count.
UsualErrors usualErrors(const Store& store, const VisitSheet& sheet);

/// doubtOf of a judged reading on its sheet; a skipped one gives none. Where a value is expected at its
/// nominal, not as applied: other points of the sheet.
std::optional<Doubt> doubtAbout(const VisitSheet& sheet, const UsualErrors& usual, const Reading& reading);

struct DoubtfulReading {
  Phase phase = Phase::asFound;
  Reading reading;
  Doubt doubt;
  TestPoint other;  ///< of DoubtKind::otherPoint
};
/// The same of a stored calibration, by what it was judged on and the visits before it: what was typed
/// against a question, or never asked about since it was imported. Empty when the register no longer holds
/// what it was judged on.
std::vector<DoubtfulReading> doubtsAbout(const Store& store, const Calibration& calibration);

}  // namespace spanwright
