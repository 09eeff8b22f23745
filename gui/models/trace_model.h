// SPDX-License-Identifier: GPL-3.0-or-later
//
// The readings of one calibration with what was computed from each, and what the visit before had left.
#pragma once

#include "core/tasks/trace.h"
#include "gui/models/rows_model.h"

namespace spanwright {

class TraceModel : public RowsModel<TracedReading> {
  Q_OBJECT
 public:
  explicit TraceModel(QObject* parent = nullptr);
};

}  // namespace spanwright
