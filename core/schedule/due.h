// SPDX-License-Identifier: GPL-3.0-or-later
//
// When a subject is due again, and what state that puts it in today.
#pragma once

#include <optional>
#include <string_view>

#include "core/schedule/calendar.h"
#include "core/units/time.h"

namespace spanwright {

/// From the most pressing to the least.
enum class DueState { unproven, overdue, inGrace, dueSoon, ok };
std::string_view text(DueState state);  // "unproven", "overdue", "in_grace", "due_soon", "ok"

/// A fixed interval: `months` when positive (same day of month, clipped), else `days`.
struct FixedInterval {
  int days = 0;
  int months = 0;
};

struct DueRules {
  int dueSoonDays = 30;
  int graceDays = 14;
};

struct Due {
  DueState state = DueState::unproven;
  /// A working day where there is one (see dueState); nothing when unproven with no day known since when.
  std::optional<Date> dueOn;
  std::optional<Date> provenOn;  ///< of the last passing as-left under the setup in force
};

/// `provenOn`: day of the last passing as-left under the setup (and sensor) in force, nothing when there is
/// none. `failedSince`: a later calibration under it did not pass as left; then it is unproven whatever came
/// before. Due on provenOn + interval, moved to the working day on or before (never later than the interval
/// allows). overdue after due + grace, in grace after due, due soon within dueSoonDays before due. An
/// unproven subject is due at once: `dueOn` is the first working day on or after `unprovenSince`.
Due dueState(std::optional<Date> provenOn, bool failedSince, std::optional<Date> unprovenSince,
             FixedInterval interval, const WorkCalendar& calendar, const DueRules& rules, Date today);

/// Last day the interval covers. Asserts months 1..1200, or months 0 and days 1..36525.
Date intervalEnd(Date from, FixedInterval interval);

}  // namespace spanwright
