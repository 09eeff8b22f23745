// SPDX-License-Identifier: GPL-3.0-or-later
//
// The standards' own state: which may be used on a day, and how their certificates have moved.
#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "core/drift/control_chart.h"
#include "core/record/register.h"

namespace spanwright {

enum class StandardState { valid, expiresSoon, expired, noCertificate, useAllowed, outOfService };
/// "valid", "expires soon", "expired", "no certificate yet", "use allowed", "out of service"
std::string_view text(StandardState state);

struct StandardStatus {
  const Standard* standard = nullptr;
  /// Valid on the day; for an expired standard the one that ran longest.
  const StandardCertificate* certificate = nullptr;
  std::optional<Date> lastDay;  ///< through which it may be used without a gap, or was last allowed to be
  int daysLeft = 0;             ///< from the day to the last one, 0 on it; negative: expired so long ago
  StandardState state = StandardState::noCertificate;
  const StandardEvent* decision = nullptr;  ///< what takes it out of service or allows its use that day
};

/// Every standard on that day, by serial. Soon is within the calendar's dueSoonDays. A following certificate
/// already in the register prolongs the last day. Certificates that begin later count only so.
std::vector<StandardStatus> standardsOn(const Register& site, Date day);

/// One value of a standard's certificates over time.
struct ChartedValue {
  Unit unit = Unit::none;
  double nominal = 0.0;
  std::vector<const StandardCertificate*> certificates;           ///< that have it, by date of issue
  std::vector<double> errors;                                     ///< theirs, in `unit`
  std::variant<ControlChart, ChartGap> chart = ChartGap::tooFew;  ///< of the errors
};
/// For every unit and nominal value on any certificate issued by `day`, ascending within a unit, units in the
/// order they appear. An error as found and one after adjustment both count: an adjustment shows as a jump.
std::vector<ChartedValue> certificateCharts(const Standard& standard, Date day);

}  // namespace spanwright
