// SPDX-License-Identifier: GPL-3.0-or-later
//
// Is the record what was entered? Recomputed in the background; what was found stands in a list that can be
// copied.
#pragma once

#include <QDialog>

#include "core/store/verify.h"

class QLabel;
class QLineEdit;
class QListWidget;
class QProgressBar;
class QPushButton;

namespace spanwright {

struct HandedOutCertificate;
struct RecordAndCertificate;
class Session;

class CheckDialog : public QDialog {
  Q_OBJECT
 public:
  explicit CheckDialog(Session& session, QWidget* parent = nullptr);
  /// A certificate to compare as well, as its file is called; empty: none.
  void setCertificate(const QString& file);
  void start();
  void reject() override;
  /// Everything the dialog says of the last check, one line each.
  QString asText() const;

 private:
  void chooseCertificate();
  void take(RecordAndCertificate found, const HandedOutCertificate& held);
  void showFindings(const RecordCheck& check);
  void addLine(const QString& text, const QIcon& icon);
  void setRunning(bool running);
  void say(const QString& sentence, const QIcon& icon);

  Session& session_;
  QLineEdit* certificate_;
  QPushButton *choose_, *check_, *copy_;
  QProgressBar* progress_;
  QLabel *sign_, *result_, *figures_;
  QListWidget* list_;
  bool running_ = false;
};

}  // namespace spanwright
