// SPDX-License-Identifier: GPL-3.0-or-later
//
// The calibrations a bad standard reached, the points of one, and the channels to visit again.
#pragma once

#include "core/tasks/reach.h"
#include "gui/models/rows_model.h"

namespace spanwright {

class ReachedModel : public RowsModel<ReachedCalibration> {
  Q_OBJECT
 public:
  enum Columns { kNumber, kChannel, kPerformed, kFound, kLeft, kThen, kWorst, kWas, kBecomes };
  explicit ReachedModel(QObject* parent = nullptr);
};

class ReachedPointsModel : public RowsModel<ReachedPoint> {
  Q_OBJECT
 public:
  enum Columns { kPoint, kVerdict, kWas, kBecomes, kCertificateError, kFoundError, kReason };
  explicit ReachedPointsModel(QObject* parent = nullptr);
};

struct ReachVisitRow {
  int place = 0;  ///< in walking order, from 1
  ReachVisit visit;
  QString title;
};
class ReachVisitsModel : public RowsModel<ReachVisitRow> {
  Q_OBJECT
 public:
  enum Columns { kPlaceInOrder, kChannel, kSubject, kPlace, kTitle, kInDoubt };
  explicit ReachVisitsModel(QObject* parent = nullptr);
};

}  // namespace spanwright
