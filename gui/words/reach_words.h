// SPDX-License-Identifier: GPL-3.0-or-later
//
// What core says of the reach of a standard, in words.
#pragma once

#include <QString>

#include "core/tasks/reach.h"

namespace spanwright {

QString word(LastGoodWhy why);  ///< "the newest that does not show yet what was found" ...
/// Which certificate was the last good one, and why.
QString lastGoodSentences(const Reach& reach);
/// How many calibrations it reaches, how many change, and what the finding left open.
QString reachSentences(const Reach& reach);
/// "pass → fail"; one word when it does not change.
QString changeWord(Verdict was, Verdict becomes);
/// "visit again", "cleared by 12", "unchanged", "no visit needed"
QString thenWord(const ReachedCalibration& reached);

}  // namespace spanwright
