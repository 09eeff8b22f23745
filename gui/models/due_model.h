// SPDX-License-Identifier: GPL-3.0-or-later
//
// The due list as a table, and what narrows it.
#pragma once

#include <QSortFilterProxyModel>
#include <optional>

#include "core/tasks/status.h"
#include "gui/models/rows_model.h"

namespace spanwright {

class DueModel : public RowsModel<DueItem> {
  Q_OBJECT
 public:
  enum Columns { kState, kChannel, kPlace, kSubject, kDueOn, kProvenOn, kInterval, kReason };
  explicit DueModel(QObject* parent = nullptr);
};

/// By words in any column, by state, and by how soon.
class DueFilter : public QSortFilterProxyModel {
  Q_OBJECT
 public:
  explicit DueFilter(DueModel* model, QObject* parent = nullptr);
  void setWords(const QString& words);
  void setState(std::optional<DueState> state);
  /// Nothing due later than this day; nothing: all.
  void setUntil(std::optional<Date> until);
  const DueItem& item(const QModelIndex& shown) const;

 protected:
  bool filterAcceptsRow(int row, const QModelIndex& parent) const override;

 private:
  DueModel* model_;
  QStringList words_;
  std::optional<DueState> state_;
  std::optional<Date> until_;
};

}  // namespace spanwright
