// SPDX-License-Identifier: GPL-3.0-or-later
//
// What each policy proposes for each routine.
#pragma once

#include "core/tasks/intervals.h"
#include "gui/models/rows_model.h"

namespace spanwright {

class IntervalsModel : public RowsModel<IntervalItem> {
  Q_OBJECT
 public:
  enum Columns { kChannel, kSubject, kPlace, kPolicy, kNow, kProposed, kChange, kVisits, kOut, kEvidence };
  explicit IntervalsModel(QObject* parent = nullptr);
  /// Is another length proposed than the one in force?
  static bool proposesChange(const IntervalItem& item);
};

}  // namespace spanwright
