// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which intervals the policies propose, on which evidence, and their acceptance by a named person.
#pragma once

#include <QWidget>

#include "core/tasks/intervals.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QSortFilterProxyModel;
class QSpinBox;

namespace spanwright {

class IntervalsModel;
class Session;
class TableView;

class IntervalsScreen : public QWidget {
  Q_OBJECT
 public:
  explicit IntervalsScreen(Session& session, QWidget* parent = nullptr);
  void refresh();
  void takeRecord();
  TableView* table() const { return table_; }
  QLabel* evidence() const { return evidence_; }
  /// What went wrong with the last acceptance; empty when nothing did.
  QString trouble() const;

 signals:
  void channelChosen(const QString& tag);
  /// It is in the record; one sentence of what.
  void accepted(const QString& sentence);

 private:
  QWidget* makeAcceptance();
  void narrow();
  void showChosen();
  void accept();
  const IntervalItem* current() const;

  Session& session_;
  IntervalsModel* model_;
  QSortFilterProxyModel* filter_;
  TableView* table_;
  QCheckBox* changesOnly_;
  QLabel *count_, *evidence_, *trouble_ = nullptr;
  QSpinBox* days_ = nullptr;
  QComboBox* person_ = nullptr;
  QLineEdit* reason_ = nullptr;
  QPushButton* accept_ = nullptr;
};

}  // namespace spanwright
