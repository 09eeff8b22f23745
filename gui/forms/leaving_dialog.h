// SPDX-License-Identifier: GPL-3.0-or-later
//
// A person works here no longer, which an administrator signs.
#pragma once

#include <QDialog>

class QDateEdit;

namespace spanwright {

class RefusalLine;
class Session;
class SignerFields;

class LeavingDialog : public QDialog {
  Q_OBJECT
 public:
  LeavingDialog(Session& session, const QString& login, QWidget* parent = nullptr);
  /// What went wrong last; empty when nothing did.
  QString trouble() const;

 signals:
  void left(const QString& sentence);

 private:
  void keep();

  Session& session_;
  QString login_;
  QDateEdit* day_;
  SignerFields* signer_;
  RefusalLine* refusal_;
};

}  // namespace spanwright
