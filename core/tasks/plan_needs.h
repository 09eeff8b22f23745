// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the standards of a visit have to vouch for, and which of them can, day by day.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/schedule/plan.h"
#include "core/tasks/visit.h"

namespace spanwright {

/// Days on which a standard may be used on the strength of one certificate.
struct UsableDays {
  std::size_t standard = 0;  ///< index in the register
  DaySpan days;
  const StandardCertificate* certificate = nullptr;
};

/// Every standard of the register between two days (both included), as standardUse decides for each of them,
/// less the days it is away (by serial).
std::vector<UsableDays> usableDays(const Register& site, DaySpan within,
                                   const std::map<std::string, std::vector<DaySpan>>& away);

/// One need for each quantity that a standard applies or measures at the sheet's points, told by what is
/// expected there: "4 to 20 mA". A certificate serves it when it reaches every value (placeOn), temperatures
/// at thermocouple inputs not on a range of volts; where no standard ever reaches all of them, every value is
/// a need of its own. First choice are standards of the model of those used last (`lastUsed`, serials): the
/// register does not say what a standard can feed and what it can only measure, but who used it knew.
std::vector<StandardNeed> standardNeeds(const VisitSheet& sheet, const std::vector<UsableDays>& usable,
                                        const std::vector<std::string>& lastUsed);

/// Serials to begin the sheet with, by serial: for each need the one of `lastUsed` that serves it on the
/// sheet's day, earlier ones before later ones, or the only standard that does. Nothing for a need that
/// several serve when none of them was used.
std::vector<std::string> offeredStandards(const VisitSheet& sheet, const std::vector<std::string>& lastUsed);

/// To six digits, without zeros at the end: "4", "0.333333".
std::string plainNumber(double value);

}  // namespace spanwright
