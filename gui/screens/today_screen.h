// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a record opens with: what needs doing today for the person who works.
#pragma once

#include <QWidget>

#include "gui/models/today_model.h"

class QComboBox;
class QLabel;
class QTreeView;

namespace spanwright {

class Session;

class TodayScreen : public QWidget {
  Q_OBJECT
 public:
  explicit TodayScreen(Session& session, QWidget* parent = nullptr);
  /// The people of the record, and who works as it was remembered; refresh() shows what concerns them.
  void takePeople();
  /// Reads the record again.
  void refresh();
  /// Login of who works; empty: nobody in particular.
  QString person() const;
  /// Of the due line chosen; empty when another kind of line is.
  QString currentChannel() const;

 signals:
  void targetChosen(const spanwright::TodayTarget& target);

 private:
  void choose(const QModelIndex& index);

  Session& session_;
  TodayModel* model_;
  QLabel* heading_;
  QComboBox* person_;
  QTreeView* tree_;
};

}  // namespace spanwright
