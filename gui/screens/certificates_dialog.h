// SPDX-License-Identifier: GPL-3.0-or-later
//
// Certificates of a round: what will be issued and what not and why, and issuing it in one go.
#pragma once

#include <QDialog>

#include "core/tasks/issue_round.h"
#include "gui/models/rows_model.h"

class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;

namespace spanwright {

class RefusalLine;
class Session;
class TableView;

class CertificatesModel : public RowsModel<RoundCertificate> {
  Q_OBJECT
 public:
  enum Columns { kDeed, kChannel, kSubject, kCalibration, kState, kWhy };
  explicit CertificatesModel(QObject* parent = nullptr);
};

class CertificatesDialog : public QDialog {
  Q_OBJECT
 public:
  CertificatesDialog(Session& session, const Round& round, QWidget* parent = nullptr);
  void setFolder(const QString& folder);
  void issue();
  void reject() override;
  /// What went wrong last; empty when nothing did.
  QString trouble() const;

 signals:
  /// They are in the folder; one sentence of what.
  void issued(const QString& sentence);

 private:
  void chooseFolder();
  std::vector<CalibrationId> wanted() const;
  void setRunning(bool running);

  Session& session_;
  CertificatesModel* model_;
  TableView* table_;
  QLabel* summary_;
  QLineEdit* folder_;
  QPushButton *choose_, *issue_;
  QProgressBar* progress_;
  RefusalLine* refusal_;
  bool running_ = false, stopped_ = false;
};

}  // namespace spanwright
