// SPDX-License-Identifier: GPL-3.0-or-later
//
// A plan as weeks of days, as a list of stops, and what did not fit into it.
#pragma once

#include <QAbstractTableModel>
#include <optional>
#include <vector>

#include "core/schedule/calendar.h"
#include "core/tasks/plan.h"
#include "gui/models/rows_model.h"

namespace spanwright {

/// A row is a week, then Monday to Sunday, then the hours of that week. Every week of the plan has a row,
/// with visits or without.
class PlanWeeksModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Columns { kWeek, kMonday, kSunday = 7, kHours, kColumnCount };
  explicit PlanWeeksModel(QObject* parent = nullptr);
  /// `calendar` tells which days are closed.
  void setPlan(const SitePlan& plan, const Register& site, const WorkCalendar& calendar);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  /// Nothing for the first and last column.
  std::optional<Date> dayAt(const QModelIndex& index) const;
  QModelIndex cellOf(Date day) const;
  bool isClosed(const QModelIndex& index) const;
  /// Places in SitePlan::stops of what is done that day.
  std::vector<int> stopsAt(const QModelIndex& index) const;
  /// One line for the stop: technician, cabinet, visits, hours.
  QString lineOf(int stop) const;
  /// The same in few words for a narrow cell: who, and where to how many.
  QStringList shortLinesOf(int stop) const;
  bool hasLate(int stop) const;

 private:
  SitePlan plan_;
  const Register* site_ = nullptr;
  std::optional<WorkCalendar> calendar_;
  Date monday_;
  int weeks_ = 0;
};

/// The stops one below the other.
class PlanStopsModel : public RowsModel<PlannedStop> {
  Q_OBJECT
 public:
  enum Columns { kDay, kPerson, kCabinet, kChannels, kHours, kStandards, kNote };
  explicit PlanStopsModel(QObject* parent = nullptr);
};

class NotPlannedModel : public RowsModel<PlannedSubject> {
  Q_OBJECT
 public:
  enum Columns { kChannel, kSubject, kPlace, kState, kDue, kMinutes, kReason };
  explicit NotPlannedModel(QObject* parent = nullptr);
};

}  // namespace spanwright
