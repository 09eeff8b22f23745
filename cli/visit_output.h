// SPDX-License-Identifier: GPL-3.0-or-later
//
// How commands print one visit: its points, its run figures and what they advise.
#pragma once

#include <iosfwd>

#include "cli/common.h"
#include "core/record/calibration.h"
#include "core/tasks/advice.h"

namespace spanwright {

/// The visit with all its points, the run figures of both phases and the advice of the as-found readings.
Json visitJson(const Register& site, const Calibration& calibration);

/// Every point of both phases as a table; before it the reference junction where mV of a couple were told.
void printPoints(std::ostream& out, const Register& site, const Calibration& calibration);
/// The run figures in % of span, as found and, when it was taken, as left; one sentence when there are none.
void printFigures(std::ostream& out, const Register& site, const Calibration& calibration);
/// The advice of the as-found readings in one sentence; nothing once as-left ones were taken.
void printAdvice(std::ostream& out, const Register& site, const Calibration& calibration);

}  // namespace spanwright
