// SPDX-License-Identifier: GPL-3.0-or-later
//
// Importing histories: choose a mapping and files, look at what would happen, then accept it.
#pragma once

#include <QDialog>

#include "core/tasks/history_import.h"

class QCheckBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;

namespace spanwright {

class Session;

class ImportDialog : public QDialog {
  Q_OBJECT
 public:
  explicit ImportDialog(Session& session, QWidget* parent = nullptr);

 private:
  void chooseMapping();
  void chooseFiles();
  void start(bool dryRun);
  void take(const ImportOutcome& outcome, bool dryRun);
  void showReadiness();

  Session& session_;
  QLineEdit* mapping_;
  QListWidget* files_;
  QLabel* result_;
  QListWidget* rejected_;
  QCheckBox* keepGood_;
  QPushButton *look_, *accept_;
  bool looked_ = false;
  bool running_ = false;
  std::size_t refused_ = 0;
};

}  // namespace spanwright
