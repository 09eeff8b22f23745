// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/sheet_edits.h"

#include <utility>

namespace spanwright {

CellEdit::CellEdit(VisitEntry& entry, const Place& place, QString text, QUndoCommand* parent)
    : QUndoCommand(parent),
      entry_(entry),
      place_(place),
      before_(place.applied ? entry.typedApplied(place.phase, place.row)
                            : entry.typed(place.phase, place.row)),
      after_(std::move(text)) {}

void CellEdit::put(const QString& text) {
  place_.applied ? entry_.setApplied(place_.phase, place_.row, text)
                 : entry_.setTyped(place_.phase, place_.row, text);
}

}  // namespace spanwright
