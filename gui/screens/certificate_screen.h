// SPDX-License-Identifier: GPL-3.0-or-later
//
// A certificate as it will be printed, page by page, and its issue as PDF.
#pragma once

#include <QWidget>
#include <optional>

#include "core/certificate/certificate.h"
#include "core/record/calibration.h"

class QComboBox;
class QLabel;
class QPushButton;
class QScrollArea;

namespace spanwright {

class Session;

class CertificateScreen : public QWidget {
  Q_OBJECT
 public:
  explicit CertificateScreen(Session& session, QWidget* parent = nullptr);
  void showCalibration(CalibrationId calibration);
  /// Reads the calibration shown again; its signatures may have changed.
  void refresh();
  /// Nothing before one was shown.
  std::optional<CalibrationId> calibration() const;
  /// Asks for a file and writes the PDF there.
  void askAndIssue();
  /// Writes the PDF; one sentence when that failed. Allots the number on the first issue.
  QString issueTo(const QString& file);
  int pageCount() const { return pages_; }
  /// The file name offered for the PDF: the certificate's number once it has one.
  QString suggestedName() const;

 signals:
  void issued(const QString& sentence);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  QString stateSentences() const;
  void draw();
  void turn(int pages);

  Session& session_;
  CalibrationId calibration_ = 0;
  bool mayIssue_ = false;
  std::optional<Certificate> certificate_;
  int page_ = 0;
  int pages_ = 0;
  QLabel *title_, *note_, *number_, *picture_;
  QScrollArea* scroll_;
  QComboBox *paper_, *zoom_;
  QPushButton *before_, *after_, *issue_;
};

}  // namespace spanwright
