// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a drift history says that a person must hear of: steps, loose contacts, wandering, outliers among
// rates.
#pragma once

#include "core/tasks/drift_pool.h"

namespace spanwright {

/// With fewer degrees of freedom of its own than this a point's steps and scatter rest on its group alone,
/// whose figures are estimates: three visits gave false alarms at up to five times the stated rate, six and
/// ten did not (tests/bench/drift_bench). They are not looked for there.
inline constexpr int kLeastOfItsOwn = 4;

/// The finding that explains the history best: one of step, intermittent, fast drift and growing scatter, in
/// this order, since each of the earlier ones makes the later tests fail too; robust disagreement where none
/// of them is there. A step must also be more than two of the reading's steps. Each kind is found in a quiet
/// point with probability kFalseAlarm at most; a channel is named when any of its points is.
std::vector<DriftFinding> findingsOf(const PoolEntry& entry);

}  // namespace spanwright
