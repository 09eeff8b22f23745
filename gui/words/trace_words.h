// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a calibration and each of its readings rest on, as pages of rich text.
#pragma once

#include <QString>

#include "core/tasks/trace.h"

namespace spanwright {

/// Of the visit as a whole: who, when, setup, plan, standards, what was done, signatures, and what is
/// missing.
QString visitPage(const CalibrationTrace& trace, const QString& signatures);
/// Of one reading: what was typed, what was expected and why, what the standards vouch for, the budget, and
/// whether a recomputation agrees.
QString readingPage(const CalibrationTrace& trace, const TracedReading& traced);
/// "agrees with a recomputation from what was typed", or how many numbers do not.
QString agreementSentence(const CalibrationTrace& trace);

}  // namespace spanwright
