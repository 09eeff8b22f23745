// SPDX-License-Identifier: GPL-3.0-or-later
//
// Visits fitted into weeks: hours used and free, what does not fit and why, what if. Nothing here is written
// to the record; a plan is worked out anew from what is due.
#pragma once

#include <QWidget>
#include <map>
#include <optional>

#include "core/tasks/plan.h"

class QComboBox;
class QDateEdit;
class QLabel;
class QPushButton;
class QSpinBox;
class QTabWidget;

namespace spanwright {

class NotPlannedModel;
class PlanGrid;
class PlanStopsModel;
class PlanWeeksModel;
class Session;
class TableView;

class PlanScreen : public QWidget {
  Q_OBJECT
 public:
  explicit PlanScreen(Session& session, QWidget* parent = nullptr);
  /// Works the plan out anew.
  void refresh();
  void takeRecord();

  const SitePlan& plan() const { return plan_; }
  PlanGrid* grid() const { return grid_; }
  TableView* stops() const { return stopTable_; }
  TableView* notPlanned() const { return notTable_; }
  QLabel* summary() const { return summary_; }
  /// Puts a stop on another day, as dragging does; the rest of the plan gives way where it must.
  void moveStop(int stop, Date day);
  /// The chosen stop to the working day before (-1) or after (+1) its own.
  void moveChosen(int direction);
  /// Lets go of everything that was moved or supposed.
  void startAfresh();
  /// Writes the plan for other people's calendars.
  void writeCalendar(const QString& file);
  /// Keeps the chosen stop as a round of its person.
  void makeRoundOfChosen();
  /// The chosen stop's sheet, to be printed and taken along.
  void writeSheetTo(const QString& file);

 signals:
  void channelChosen(const QString& tag);
  void done(const QString& sentence);
  void roundMade(std::int64_t round, const QString& sentence);

 private:
  QWidget* makeControls();
  QWidget* makeTabs();
  PlanQuestion question() const;
  void takePlan(const SitePlan& plan);
  void showStop(int stop);
  void askCalendar();
  void askSheet();
  const PlannedStop* chosenStop() const;

  Session& session_;
  SitePlan plan_;
  std::map<std::string, Date> moved_;  ///< by tag
  int chosen_ = -1;
  int asked_ = 0;  ///< a plan that comes after a newer question is dropped
  QDateEdit *from_ = nullptr, *awayFrom_ = nullptr, *awayUntil_ = nullptr;
  QSpinBox *weeks_ = nullptr, *hours_ = nullptr;
  QComboBox* away_ = nullptr;
  QLabel *summary_ = nullptr, *about_ = nullptr;
  QPushButton *earlier_ = nullptr, *later_ = nullptr, *afresh_ = nullptr, *calendar_ = nullptr,
              *round_ = nullptr, *sheet_ = nullptr;
  QTabWidget* tabs_ = nullptr;
  PlanWeeksModel* weeksModel_;
  PlanStopsModel* stopsModel_;
  NotPlannedModel* notModel_;
  PlanGrid* grid_ = nullptr;
  TableView *stopTable_ = nullptr, *notTable_ = nullptr;
};

}  // namespace spanwright
