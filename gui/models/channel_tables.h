// SPDX-License-Identifier: GPL-3.0-or-later
//
// The small tables of a channel's page: its calibrations, setups, fittings and routines.
#pragma once

#include <string>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/status.h"
#include "gui/models/rows_model.h"

namespace spanwright {

struct CalibrationRow : CalibrationSummary {
  CalibrationId corrects = 0;      ///< 0: none
  CalibrationId supersededBy = 0;  ///< 0: none
  QString signatures;              ///< one line each
};
/// Of a channel, latest first. StorageError when the record cannot be read.
std::vector<CalibrationRow> calibrationRows(const Store& store, const std::string& channel);
class CalibrationsModel : public RowsModel<CalibrationRow> {
  Q_OBJECT
 public:
  enum Columns { kNumber, kPerformed, kState };
  explicit CalibrationsModel(QObject* parent = nullptr);
  /// The tip of a state is who signed.
  QVariant data(const QModelIndex& index, int role) const override;
};

struct SetupRow {
  SetupVersion version;  ///< a copy: the register may be read again while it is shown
  bool inForce = false;
};
class SetupsModel : public RowsModel<SetupRow> {
  Q_OBJECT
 public:
  explicit SetupsModel(QObject* parent = nullptr);
};

struct FittingRow {
  Fitting fitting;
  std::optional<Sensor> sensor;  ///< nothing when the register does not know it
};
class FittingsModel : public RowsModel<FittingRow> {
  Q_OBJECT
 public:
  explicit FittingsModel(QObject* parent = nullptr);
};

struct RoutineRow {
  Routine routine;
  QString plan;  ///< code and revision
  std::optional<DueItem> due;
};
class RoutinesModel : public RowsModel<RoutineRow> {
  Q_OBJECT
 public:
  explicit RoutinesModel(QObject* parent = nullptr);
};

}  // namespace spanwright
