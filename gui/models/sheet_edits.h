// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was typed into an entry sheet, step by step, so that it can be taken back. A step taken back is on
// disk like anything typed.
#pragma once

#include <QUndoCommand>

#include "gui/models/visit_entry.h"

namespace spanwright {

/// One cell's text changed.
class CellEdit : public QUndoCommand {
 public:
  struct Place {
    Phase phase = Phase::asFound;
    int row = 0;
    int column = 0;  ///< of the sheet's table
    bool applied = false;
  };
  CellEdit(VisitEntry& entry, const Place& place, QString text, QUndoCommand* parent = nullptr);
  void undo() override { put(before_); }
  void redo() override { put(after_); }
  const Place& place() const { return place_; }

 private:
  void put(const QString& text);

  VisitEntry& entry_;
  Place place_;
  QString before_, after_;
};

}  // namespace spanwright
