// SPDX-License-Identifier: GPL-3.0-or-later
//
// Small drawn signs, so that no state is told by colour alone and none depends on a font.
#pragma once

#include <QIcon>
#include <QPainter>

#include "core/metrology/evaluate.h"
#include "core/record/life.h"
#include "core/schedule/due.h"
#include "gui/settings/look.h"

namespace spanwright {

enum class Mark { none, check, cross, dash, exclaim, diamond, triangle, halfDisc, ring, slash };

void paintMark(QPainter& painter, const QRectF& box, Mark mark, const QColor& colour);
QIcon markIcon(Mark mark, Tone tone);

Mark markOf(DueState state);
Mark markOf(Verdict verdict);
Mark markOf(LifeState state);
QIcon iconOf(DueState state);
QIcon iconOf(Verdict verdict);
QIcon iconOf(LifeState state);
Tone toneOf(DueState state);
Tone toneOf(Verdict verdict);
Tone toneOf(LifeState state);

}  // namespace spanwright
