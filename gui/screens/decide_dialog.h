// SPDX-License-Identifier: GPL-3.0-or-later
//
// One decision about a standard: out of service, back, or used without a valid certificate; signed.
#pragma once

#include <QDialog>
#include <optional>
#include <vector>

#include "core/tasks/signing.h"

class QButtonGroup;
class QDateEdit;
class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QRadioButton;

namespace spanwright {

class RefusalLine;
class Session;
class SignerFields;

class DecideDialog : public QDialog {
  Q_OBJECT
 public:
  DecideDialog(Session& session, const QString& serial, QWidget* parent = nullptr);
  /// What went wrong last; empty when nothing did.
  QString trouble() const;

 signals:
  /// It is in the record; one sentence of what.
  void decided(const QString& sentence);

 private:
  struct Choice {
    StandardAct act;
    QRadioButton* button;
    QLabel* text;  ///< what follows from it, or why it cannot be chosen
  };
  void makeFacts();
  void makeChoices();
  void makeFields();
  void showChoices();
  void showFields();
  std::optional<StandardAct> chosen() const;
  StandardEvent wanted(StandardAct act, const std::string& reason) const;
  void decide();
  void say(const QString& sentence);
  void fit();

  Session& session_;
  QString serial_;
  QGridLayout* grid_;
  QButtonGroup* group_ = nullptr;
  std::vector<Choice> choices_;
  QDateEdit *first_ = nullptr, *last_ = nullptr;
  QLabel* lastLabel_ = nullptr;
  QLineEdit* reason_ = nullptr;
  SignerFields* signer_ = nullptr;
  RefusalLine* refusal_ = nullptr;
  QPushButton* accept_ = nullptr;
};

}  // namespace spanwright
