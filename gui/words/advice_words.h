// SPDX-License-Identifier: GPL-3.0-or-later
//
// What core advises about a visit, as sentences and signs for people.
#pragma once

#include <QString>

#include "core/tasks/advice.h"
#include "gui/settings/look.h"
#include "gui/words/marks.h"

namespace spanwright {

/// "Shift zero by −0.600 °C: ..."; the diagnoses follow in a second sentence.
QString adviceSentence(const VisitAdvice& advice);
Mark markOf(const VisitAdvice& advice);
Tone toneOf(const VisitAdvice& advice);
/// "As found, % of span: zero error +0.310, span error ..."; figures the run does not show are left out.
QString figuresLine(Phase phase, const RunFigures& figures);

}  // namespace spanwright
