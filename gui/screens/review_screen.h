// SPDX-License-Identifier: GPL-3.0-or-later
//
// What waits for a signature: to be reviewed, to be approved, to be signed again by who made it.
#pragma once

#include <QWidget>
#include <optional>

#include "core/record/calibration.h"

class QLabel;
class QPushButton;
class QStackedWidget;

namespace spanwright {

class ReviewModel;
class Session;
class TableView;

class ReviewScreen : public QWidget {
  Q_OBJECT
 public:
  explicit ReviewScreen(Session& session, QWidget* parent = nullptr);
  /// Reads the record again; the row chosen stays chosen, or the one that took its place.
  void refresh();
  std::optional<CalibrationId> currentCalibration() const;
  int waiting() const;

 signals:
  void calibrationChosen(const QString& tag, spanwright::CalibrationId calibration);
  void signAsked(spanwright::CalibrationId calibration);

 private:
  void choose(int row);

  Session& session_;
  ReviewModel* model_;
  TableView* table_;
  QStackedWidget* stack_;
  QLabel *count_, *nothing_;
  QPushButton *show_, *sign_;
};

}  // namespace spanwright
