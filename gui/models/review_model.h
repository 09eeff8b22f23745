// SPDX-License-Identifier: GPL-3.0-or-later
//
// Calibrations that wait for somebody's signature.
#pragma once

#include <vector>

#include "core/store/store.h"
#include "gui/models/rows_model.h"

namespace spanwright {

struct ReviewRow {
  CalibrationSummary summary;
  QString place;
  QString technician;  ///< by name
  QString reason;      ///< why it was sent back
};
/// Performed, then reviewed, then sent back; each oldest first. StorageError when the record cannot be read.
std::vector<ReviewRow> reviewRows(const Store& store);

class ReviewModel : public RowsModel<ReviewRow> {
  Q_OBJECT
 public:
  enum Columns { kNumber, kWaitsFor, kChannel, kPlace, kSubject, kPerformed, kPerson, kFound, kLeft, kState };
  explicit ReviewModel(QObject* parent = nullptr);
};

}  // namespace spanwright
