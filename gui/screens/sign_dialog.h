// SPDX-License-Identifier: GPL-3.0-or-later
//
// One signature under one calibration: what is signed, by whom, as what, why, and the passphrase.
#pragma once

#include <QDialog>
#include <optional>
#include <vector>

#include "core/record/life.h"

class QButtonGroup;
class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QRadioButton;

namespace spanwright {

class PassphraseField;
class Session;

class SignDialog : public QDialog {
  Q_OBJECT
 public:
  /// InputError when there is no such calibration, StorageError when the record cannot be read.
  SignDialog(Session& session, CalibrationId calibration, QWidget* parent = nullptr);
  CalibrationId calibration() const { return id_; }
  /// What went wrong last, as the dialog shows it; empty when nothing did.
  QString trouble() const;

 signals:
  /// It is in the record; one sentence of what.
  void signedNow(const QString& sentence);

 private:
  struct Choice {
    LifeAct act;
    QRadioButton* button;
    QLabel* text;  ///< what follows from it, or why it cannot be chosen
  };

  void makeFacts();
  void makeChoices();
  void makeFields();
  void makeFoot();
  QLabel* addFact(const QString& name, const QString& text, QLabel* mark = nullptr);
  QLabel* markOf(const QIcon& icon);
  /// As high as its sentences need.
  void fit();
  void takePeople();
  /// Reads what was signed by now; somebody else may have.
  void takeLife();
  /// Nobody who could sign nothing here, unless that is so of everybody.
  void proposePerson();
  void showChoices();
  void showFields();
  std::optional<LifeAct> chosen() const;
  std::optional<Problem> faultOf(LifeAct act, const QString& reason) const;
  bool needsReason(LifeAct act) const;
  QString person() const;
  bool isFirstTime() const;
  void sign();
  /// Nothing when the fields can be tried; else the sentence, with the focus where it is to be mended.
  QString notReady();
  void say(const QString& sentence);

  Session& session_;
  CalibrationId id_;
  Calibration subject_;
  std::vector<LifeEvent> events_;
  QGridLayout* grid_;
  QLabel *state_ = nullptr, *stateSign_ = nullptr, *signatures_ = nullptr;
  QComboBox* person_ = nullptr;
  QButtonGroup* group_ = nullptr;
  std::vector<Choice> choices_;
  QLabel *reasonLabel_ = nullptr, *againLabel_ = nullptr, *firstTime_ = nullptr;
  QLineEdit* reason_ = nullptr;
  PassphraseField *passphrase_ = nullptr, *again_ = nullptr;
  QLabel *sign_ = nullptr, *trouble_ = nullptr;
  QPushButton* accept_ = nullptr;
};

}  // namespace spanwright
