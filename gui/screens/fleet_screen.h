// SPDX-License-Identifier: GPL-3.0-or-later
//
// The drift of all channels beside each other: which one leaves its tolerance first, which one has used most
// of it, and where something was found.
#pragma once

#include <QWidget>
#include <optional>

#include "core/tasks/fleet.h"

class QComboBox;
class QLabel;
class QLineEdit;

namespace spanwright {

class FleetModel;
class Session;
class TableView;

class FleetScreen : public QWidget {
  Q_OBJECT
 public:
  explicit FleetScreen(Session& session, QWidget* parent = nullptr);
  void refresh();
  void findChannel();
  void orderBy(FleetOrder order);
  QString currentChannel() const;
  std::optional<Subject> currentSubject() const;
  QComboBox* order() const { return order_; }
  TableView* table() const { return table_; }
  /// What was found at the chosen subject, one sentence each.
  QLabel* findings() const { return findings_; }

 signals:
  /// With the point that stands for it.
  void pointChosen(const QString& tag, spanwright::Subject subject, const QString& point);

 private:
  void takeRows();
  void narrow();
  void showFindings();
  const FleetRow* current() const;

  Session& session_;
  FleetModel* model_;
  TableView* table_;
  QComboBox* order_;
  QLineEdit* words_;
  QLabel* count_;
  QLabel* findings_;
};

}  // namespace spanwright
