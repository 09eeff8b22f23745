// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is asked about a reading, as a sentence for people.
#pragma once

#include <QString>

#include "core/tasks/doubts.h"

namespace spanwright {

/// "9.18 for 9.81?"; `other` is the point a reading is thought to belong to, `step` that of readings.
QString doubtQuestion(const Doubt& doubt, const Reading& reading, const TestPoint& other, bool withRun,
                      double step);

/// Begins with a capital, and ends with its own sign or a full stop.
QString asQuestion(const QString& clause);

/// Every question about a stored calibration, each with its point and phase; empty when there is none.
QString doubtsSentence(const std::vector<DoubtfulReading>& doubts);

}  // namespace spanwright
