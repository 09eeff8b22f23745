// SPDX-License-Identifier: GPL-3.0-or-later
//
// The reach of a bad standard in three steps: what was found, what it reached, what to do.
#pragma once

#include <QWidget>
#include <map>
#include <optional>

#include "core/tasks/reach.h"
#include "core/tasks/typed_finding.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTabBar;

namespace spanwright {

class FoundForm;
class ReachVisitsModel;
class ReachedModel;
class ReachedPointsModel;
class RefusalLine;
class Session;
class TableView;

/// Where the page was left.
struct ReachPlace {
  QString serial;
  TypedFinding typed;
  int step = 0;  ///< from 0
};

class ReachScreen : public QWidget {
  Q_OBJECT
 public:
  explicit ReachScreen(Session& session, QWidget* parent = nullptr);
  /// Of this standard; what was typed about it since the record was opened is there again.
  void showStandard(const QString& serial);
  /// Reads the register again.
  void refresh();
  /// Forgets everything: another record is open, or none.
  void drop();
  QString standard() const { return serial_; }
  ReachPlace leaveOff() const;
  void goOn(const ReachPlace& place);

  /// From 0; works out what is not known yet for what is typed.
  void goToStep(int step);
  int step() const;
  FoundForm* form() const { return form_; }
  const std::optional<Reach>& reach() const { return reach_; }
  /// What is said of the result.
  QString summary() const;
  TableView* calibrations() const { return table_; }
  TableView* points() const { return pointTable_; }
  TableView* visits() const { return visitTable_; }
  /// Writes the channels to visit again as a CSV table.
  void writeList(const QString& file);

 signals:
  void calibrationChosen(const QString& tag, spanwright::CalibrationId calibration);
  void roundMade(std::int64_t round, const QString& sentence);
  void decisionAsked(const QString& serial);
  void done(const QString& sentence);

 private:
  QWidget* makeBusy();
  QWidget* makeReached();
  QWidget* makePoints();
  QWidget* makeToDo();
  void showStep(int step);
  void workOut(const FoundErrors& found, int thenStep);
  void take(const Reach& reach);
  void refuse(const QString& sentence);
  void endWork();
  void showRows();
  void showPoints();
  void showVisits();
  void fillPeople();
  void makeTheRound();
  void askList();

  Session& session_;
  QString serial_;
  std::map<QString, ReachPlace> kept_;  ///< by serial, of the standards not shown
  std::optional<Reach> reach_;          ///< of what was typed then:
  TypedFinding workedOut_;
  int asked_ = 0;   ///< a result that comes after a newer question is dropped
  int wanted_ = 0;  ///< the step to show once it is worked out
  bool working_ = false;
  QLabel *heading_, *busyText_ = nullptr, *summary_ = nullptr, *chosen_ = nullptr, *toDo_ = nullptr;
  QTabBar* tabs_;
  QStackedWidget* pages_;
  FoundForm* form_;
  ReachedModel* model_;
  ReachedPointsModel* pointModel_;
  ReachVisitsModel* visitModel_;
  TableView *table_ = nullptr, *pointTable_ = nullptr, *visitTable_ = nullptr;
  QCheckBox* onlyChanged_ = nullptr;
  QLineEdit* name_ = nullptr;
  QComboBox* person_ = nullptr;
  QPushButton *make_ = nullptr, *save_ = nullptr;
  RefusalLine* refusal_ = nullptr;
};

}  // namespace spanwright
