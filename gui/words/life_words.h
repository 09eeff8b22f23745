// SPDX-License-Identifier: GPL-3.0-or-later
//
// What became of a calibration, in words: acts as a person chooses them, signatures as they are read.
#pragma once

#include <QString>
#include <vector>

#include "core/tasks/signing.h"

namespace spanwright {

/// What a person does: "Sign as reviewed", "Send back", "Withdraw".
QString deed(LifeAct act);
/// What follows from it, one sentence.
QString consequence(LifeAct act);
/// "Reviewed by Quinn Reviewer (qa), 25 Nov 2026 12:00 UTC: looks right."
QString signatureLine(const Signature& signature);
/// One line each; says so when there is none.
QString signatureLines(const std::vector<Signature>& all);

}  // namespace spanwright
