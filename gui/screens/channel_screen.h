// SPDX-License-Identifier: GPL-3.0-or-later
//
// One channel: how it was set up over time, what sat on it, what is due, its calibrations and what they show.
#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/tasks/status.h"

class QComboBox;
class QLabel;
class QPushButton;
class QTabWidget;

namespace spanwright {

struct LaterBreak;
class CalibrationsModel;
class FittingsModel;
class PlotView;
class RoutinesModel;
class Session;
class SetupsModel;
class TableView;

class ChannelScreen : public QWidget {
  Q_OBJECT
 public:
  explicit ChannelScreen(Session& session, QWidget* parent = nullptr);
  /// With a subject its first point is drawn, else the one that leaves its tolerance first.
  void showChannel(const QString& tag, std::optional<Subject> subject = std::nullopt);
  /// With this test point drawn (as in DriftItem).
  void showPoint(const QString& tag, Subject subject, const QString& point);
  /// The channel with this of its calibrations chosen.
  void showCalibration(const QString& tag, CalibrationId calibration);
  /// Up and Down choose among the calibrations from now on.
  void focusCalibrations();
  /// The test point drawn, as its box says it.
  QString shownPoint() const;
  void refresh();
  QString channel() const { return tag_; }
  /// The calibration chosen in the table, else the latest; nothing when there is none.
  std::optional<CalibrationId> currentCalibration() const;
  std::optional<Subject> currentSubject() const;
  PlotView* timePlot() const { return timePlot_; }
  PlotView* inputPlot() const { return inputPlot_; }
  QLabel* runFigures() const { return runFigures_; }
  /// Who signed the chosen calibration, one line each.
  QLabel* signatures() const { return signatures_; }

 signals:
  void visitAsked(const QString& tag, std::optional<spanwright::Subject> subject);
  void certificateAsked(spanwright::CalibrationId calibration);
  void signAsked(spanwright::CalibrationId calibration);

 private:
  QWidget* makeHead();
  QWidget* makeCharts();
  QWidget* makeTables();
  QWidget* makeCalibrations();
  void takeRegister();
  void takeRoutines();
  void takeCalibrations();
  void takeDrift(const QString& tag, const std::vector<DriftItem>& items, bool ownOnly);
  std::vector<LaterBreak> laterBreaks(const DriftItem& item) const;
  void drawTime();
  void chooseCalibration(CalibrationId calibration);
  void showChosen();
  void drawInput();
  void showRunFigures(const Calibration& calibration);
  /// `keep`: the point that is drawn goes on being drawn.
  void fillPoints(bool keep);

  Session& session_;
  QString tag_;
  std::vector<DriftItem> drift_;
  bool driftKnown_ = false;
  bool ownOnly_ = false;           // what is known of drift leans on no like channels yet
  bool pointChosen_ = false;       // by a person
  std::optional<Subject> wanted_;  // whose first point is to be drawn
  QString wantedPoint_;            // or this one of it
  QLabel *runFigures_ = nullptr, *signatures_ = nullptr;
  QLabel *title_ = nullptr, *place_ = nullptr, *stateSign_ = nullptr, *state_ = nullptr, *figures_ = nullptr;
  QComboBox* point_ = nullptr;
  QTabWidget* charts_ = nullptr;
  PlotView *timePlot_ = nullptr, *inputPlot_ = nullptr;
  CalibrationsModel* calibrations_;
  SetupsModel* setups_;
  FittingsModel* fittings_;
  RoutinesModel* routines_;
  TableView *calibrationTable_ = nullptr, *setupTable_ = nullptr, *fittingTable_ = nullptr,
            *routineTable_ = nullptr;
  QTabWidget* tables_ = nullptr;
  QPushButton *enter_ = nullptr, *sign_ = nullptr, *certificate_ = nullptr;
};

}  // namespace spanwright
