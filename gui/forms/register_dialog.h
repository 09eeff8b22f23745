// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lists of the register that have no page of their own, each with what is in it: look, add, change.
#pragma once

#include <QDialog>

#include "core/tasks/register_changes.h"

class QLineEdit;
class QListWidget;
class QPushButton;
class QTableWidget;

namespace spanwright {

class Session;

class RegisterDialog : public QDialog {
  Q_OBJECT
 public:
  explicit RegisterDialog(Session& session, RegisterKind first = RegisterKind::person,
                          QWidget* parent = nullptr);
  void showKind(RegisterKind kind);
  void choose(const QString& name);
  /// Shows what was changed, and passes it on.
  void take(const QString& sentence);
  int count() const;

 signals:
  /// Something was changed; one sentence of what.
  void changed(const QString& sentence);
  /// A certificate is wanted for this standard.
  void certificateAsked(const QString& serial);
  /// This person has left.
  void leavingAsked(const QString& login);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  RegisterKind kind() const;
  QString current() const;
  void refresh();
  void narrow();
  void add();
  void change();
  void openForm(class RegisterForm* form);

  Session& session_;
  QListWidget* kinds_;
  QLineEdit* words_;
  QTableWidget* table_;
  QPushButton *add_, *change_, *more_;
};

}  // namespace spanwright
