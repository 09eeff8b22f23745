// SPDX-License-Identifier: GPL-3.0-or-later
//
// The due list, narrowed by state, days and words.
#pragma once

#include <QWidget>
#include <optional>

#include "gui/models/due_model.h"

class QComboBox;
class QLabel;
class QLineEdit;

namespace spanwright {

class Session;
class TableView;

class DueScreen : public QWidget {
  Q_OBJECT
 public:
  explicit DueScreen(Session& session, QWidget* parent = nullptr);
  void refresh();
  /// Shows one state only, with no limit of days; nothing: all.
  void showState(std::optional<DueState> state);
  void findChannel();
  QString currentChannel() const;
  std::optional<Subject> currentSubject() const;

 signals:
  void channelChosen(const QString& tag);

 private:
  void narrow();

  Session& session_;
  DueModel* model_;
  TableView* table_;
  QComboBox* state_;
  QComboBox* within_;
  QLineEdit* words_;
  QLabel* count_;
};

}  // namespace spanwright
