// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rounds with their progress, the stops of one, and due items to choose from for a new one.
#pragma once

#include <set>

#include "core/tasks/rounds.h"
#include "gui/models/due_model.h"
#include "gui/models/rows_model.h"

namespace spanwright {

struct RoundRow {
  Round round;
  QString person;  ///< by name
  std::size_t done = 0;
};
class RoundsModel : public RowsModel<RoundRow> {
  Q_OBJECT
 public:
  enum Columns { kNumber, kName, kState, kDone, kPerson, kMade, kReason };
  explicit RoundsModel(QObject* parent = nullptr);
};

struct StopRow {
  StopProgress progress;
  int place = 0;  ///< in walking order, from 1
  QString title;
};
class StopsModel : public RowsModel<StopRow> {
  Q_OBJECT
 public:
  enum Columns { kOrder, kState, kChannel, kSubject, kPlace, kTitle, kCalibration };
  explicit StopsModel(QObject* parent = nullptr);
};

/// The due list with a box to tick before each item.
class PickModel : public DueModel {
  Q_OBJECT
 public:
  using DueModel::DueModel;
  std::vector<RoundStop> picked() const;
  /// A row that is shown; it stays picked when it is shown no longer.
  void pick(int row, bool on);

  QVariant data(const QModelIndex& index, int role) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;

 signals:
  void pickedChanged();

 private:
  std::set<std::size_t> picked_;  // places in rows()
};

}  // namespace spanwright
