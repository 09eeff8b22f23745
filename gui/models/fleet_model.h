// SPDX-License-Identifier: GPL-3.0-or-later
//
// The channels by how soon they leave their tolerance, or how much of it they have used.
#pragma once

#include "core/tasks/fleet.h"
#include "gui/models/rows_model.h"

namespace spanwright {

class FleetModel : public RowsModel<FleetRow> {
  Q_OBJECT
 public:
  enum Columns {
    kChannel,
    kSubject,
    kPoint,
    kUsed,
    kUsedByBand,
    kInTolerance,
    kBandOut,
    kDays,
    kRate,
    kFindings,
    kBasis,
    kLineOut,
    kPlace
  };
  explicit FleetModel(QObject* parent = nullptr);
};

}  // namespace spanwright
