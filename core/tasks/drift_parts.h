// SPDX-License-Identifier: GPL-3.0-or-later
//
// Sensor drift, channel drift and loop drift told apart, and compared where the record holds more than one.
#pragma once

#include "core/tasks/drift_pool.h"

namespace spanwright {

/// Fills `parts` where the record holds at least two of sensor, channel and loop of one channel at one point,
/// in the loop's item, or else in the channel's. A loop's rate ought to be the sum of its parts' as fractions
/// of span: the three are compared, of two the third is worked out. Only for linear parts (a root or a couple
/// passes a part of span on as another one). Rates are those of each one's own fit, the p-value is of
/// Student's distribution with Welch and Satterthwaite's degrees of freedom (JCGM 100:2008 G.4).
void compareParts(std::vector<PoolEntry>& entries);

}  // namespace spanwright
