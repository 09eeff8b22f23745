// SPDX-License-Identifier: GPL-3.0-or-later
//
// One calibration with all it rests on: its readings, and beside them where the chosen number comes from.
#pragma once

#include <QWidget>
#include <optional>

#include "core/tasks/trace.h"

class QLabel;
class QPushButton;
class QTextBrowser;

namespace spanwright {

class Session;
class TableView;
class TraceModel;

class TraceScreen : public QWidget {
  Q_OBJECT
 public:
  explicit TraceScreen(Session& session, QWidget* parent = nullptr);
  void showCalibration(CalibrationId calibration);
  /// Reads the record again; the reading chosen stays chosen.
  void refresh();
  /// 0 when none is shown.
  CalibrationId calibration() const { return calibration_; }
  QString channel() const;
  /// The pages as plain text.
  QString visitText() const;
  QString readingText() const;
  TableView* table() const { return table_; }

 signals:
  void signAsked(spanwright::CalibrationId calibration);
  void certificateAsked(spanwright::CalibrationId calibration);
  void calibrationAsked(spanwright::CalibrationId calibration);
  void channelAsked(const QString& tag, spanwright::CalibrationId calibration);

 private:
  QWidget* makeHead();
  QWidget* makePages();
  void take(const CalibrationTrace& trace);
  void showReading();

  Session& session_;
  CalibrationId calibration_ = 0;
  std::optional<CalibrationTrace> trace_;
  TraceModel* model_;
  TableView* table_;
  QLabel *title_ = nullptr, *agreement_ = nullptr, *agreementSign_ = nullptr;
  QTextBrowser *visit_ = nullptr, *reading_ = nullptr;
  QPushButton *sign_ = nullptr, *certificate_ = nullptr, *before_ = nullptr, *channel_ = nullptr;
};

}  // namespace spanwright
