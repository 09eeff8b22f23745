// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who signs, and with which passphrase; typed twice where it makes the person's first key.
#pragma once

#include <QWidget>

#include "core/tasks/signing.h"

class QComboBox;
class QLabel;

namespace spanwright {

class PassphraseField;
class Session;

/// The people who work here today, by login; the last signer or who works is chosen.
QComboBox* makePersonBox(Session& session, const QString& accessibleName, QWidget* parent);

class SignerFields : public QWidget {
  Q_OBJECT
 public:
  /// Labels are as wide as `labelWidth`, so that they stand under those above.
  SignerFields(Session& session, int labelWidth, QWidget* parent = nullptr);
  QString person() const;
  /// What was typed, and the fields are empty. Wipe the passphrase when done; a sentence when it cannot be
  /// tried.
  QString take(Signer& into);

 signals:
  void personChanged();

 private:
  bool isFirstTime() const;
  void showFields();

  Session& session_;
  QComboBox* person_;
  PassphraseField *passphrase_, *again_;
  QLabel *againLabel_, *firstTime_;
};

}  // namespace spanwright
