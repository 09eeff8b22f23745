// SPDX-License-Identifier: GPL-3.0-or-later
//
// One calibration recomputed with what was found of one of its standards; internal to the reach of a
// standard. Rules: reach.h.
#pragma once

#include "core/tasks/reach.h"

namespace spanwright {

/// `site` and `standard` are those of the record. Says nothing yet of visits.
ReachedCalibration recomputed(const Register& site, const Standard& standard, const FoundErrors& found,
                              const Calibration& calibration);

}  // namespace spanwright
