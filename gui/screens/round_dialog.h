// SPDX-License-Identifier: GPL-3.0-or-later
//
// A new round from due items: which, its name, the day and who walks it.
#pragma once

#include <QDialog>

class QComboBox;
class QDateEdit;
class QLabel;
class QLineEdit;

namespace spanwright {

class PickModel;
class RefusalLine;
class Session;
class TableView;

class RoundDialog : public QDialog {
  Q_OBJECT
 public:
  explicit RoundDialog(Session& session, QWidget* parent = nullptr);
  /// What went wrong last; empty when nothing did.
  QString trouble() const;

 signals:
  /// It is in the record; one sentence of what.
  void made(std::int64_t round, const QString& sentence);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void narrow();
  void tickShown();
  void toggle();
  void showCount();
  void make();

  Session& session_;
  PickModel* model_;
  QLineEdit *name_, *words_;
  QDateEdit* day_;
  QComboBox *person_, *within_;
  QLabel* count_;
  TableView* table_;
  RefusalLine* refusal_;
};

}  // namespace spanwright
