// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet a stored calibration was judged on, so that its readings can be judged again.
#pragma once

#include <variant>
#include <vector>

#include "core/tasks/visit.h"

namespace spanwright {

/// By what the calibration itself names: setup version, sensor, plan and revision, not by what is in force.
/// Its `points` are empty: the readings carry theirs. A Problem says what the register no longer holds.
std::variant<VisitSheet, Problem> storedSheet(const Register& site, const Calibration& calibration);

/// The register's standards among those the calibration names, in its order; what is not there is left out.
std::vector<const Standard*> standardsOf(const Register& site, const Calibration& calibration);
/// The standard's certificate of that number, or nullptr.
const StandardCertificate* certificateNumbered(const Standard& standard, std::string_view number);

}  // namespace spanwright
