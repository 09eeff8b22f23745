// SPDX-License-Identifier: GPL-3.0-or-later
//
// A person changes their own passphrase, or sets the first one.
#pragma once

#include <QDialog>

class QComboBox;
class QLabel;

namespace spanwright {

class PassphraseField;
class RefusalLine;
class Session;

class PassphraseDialog : public QDialog {
  Q_OBJECT
 public:
  explicit PassphraseDialog(Session& session, QWidget* parent = nullptr);
  /// What went wrong last; empty when nothing did.
  QString trouble() const;

 signals:
  void changed(const QString& sentence);

 private:
  QString person() const;
  bool isFirst() const;
  void showFields();
  void change();

  Session& session_;
  QComboBox* person_;
  QLabel *oldLabel_, *note_;
  PassphraseField *old_, *next_, *again_;
  RefusalLine* refusal_;
};

}  // namespace spanwright
