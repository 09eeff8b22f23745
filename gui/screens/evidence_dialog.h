// SPDX-License-Identifier: GPL-3.0-or-later
//
// A bundle of evidence for a reviewer who has not the record: of what, where to, and what came of it.
#pragma once

#include <QDialog>

#include "core/tasks/evidence.h"

class QCheckBox;
class QComboBox;
class QDateEdit;
class QLabel;
class QLineEdit;
class QProgressBar;
class QPushButton;
class QRadioButton;

namespace spanwright {

class RefusalLine;
class Session;

class EvidenceDialog : public QDialog {
  Q_OBJECT
 public:
  /// `channel`: proposed; may be empty.
  EvidenceDialog(Session& session, const QString& channel, QWidget* parent = nullptr);
  /// Where the bundle goes: a folder, or a zip when the name ends in ".zip".
  void setPlace(const QString& place);
  void start();
  void reject() override;
  /// What came of it, as it is shown; empty until then.
  QString result() const;
  /// What went wrong last; empty when nothing did.
  QString trouble() const;

 private:
  EvidenceScope scope() const;
  void choosePlace();
  void showFields();
  void take(const EvidenceMade& made);
  void setRunning(bool running);

  Session& session_;
  QRadioButton *ofChannel_, *ofPeriod_, *ofRound_;
  QRadioButton *asZip_, *asFolder_;
  QLineEdit *channel_, *place_;
  QComboBox* round_;
  QCheckBox *fromGiven_, *toGiven_;
  QDateEdit *from_, *to_;
  QPushButton *make_, *choose_;
  QProgressBar* progress_;
  QLabel* result_;
  RefusalLine* refusal_;
  bool running_ = false;
};

}  // namespace spanwright
