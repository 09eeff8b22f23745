// SPDX-License-Identifier: GPL-3.0-or-later
//
// Weeks and days of a plan. A stop is dragged to another day with the mouse; the keys for it are the
// screen's.
#pragma once

#include <QTableView>
#include <optional>

#include "core/units/time.h"

namespace spanwright {

class PlanWeeksModel;

class PlanGrid : public QTableView {
  Q_OBJECT
 public:
  /// What is dragged: the stop's number in the plan, as text.
  static constexpr auto kStopMime = "application/x-spanwright-stop";

  explicit PlanGrid(PlanWeeksModel* model, QWidget* parent = nullptr);
  /// Rows as high as their fullest day.
  void fitRows();
  void chooseStop(int stop);
  /// Of the current day: the one clicked, else its first; nothing on an empty day.
  std::optional<int> currentStop() const;

 signals:
  void stopChosen(int stop);
  void stopMoved(int stop, spanwright::Date day);
  /// Enter, or a double click.
  void stopOpened(int stop);

 protected:
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dragMoveEvent(QDragMoveEvent* event) override;
  void dropEvent(QDropEvent* event) override;
  void currentChanged(const QModelIndex& current, const QModelIndex& before) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  std::optional<int> stopUnder(const QPoint& place) const;
  /// Where what is dragged may be let go; nothing where it may not.
  std::optional<Date> dayFor(const QDropEvent& event) const;

  PlanWeeksModel* model_;
  std::optional<int> chosen_;
  std::optional<int> dragged_;
  QPoint pressed_;
};

}  // namespace spanwright
