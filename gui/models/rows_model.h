// SPDX-License-Identifier: GPL-3.0-or-later
//
// A table of plain rows where each column is one line: heading, what is shown, what it sorts by, and its
// sign.
#pragma once

#include <QAbstractTableModel>
#include <QIcon>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

#include "gui/words/explanations.h"

namespace spanwright {

/// Sort proxies sort by this role.
inline constexpr int kSortRole = Qt::UserRole + 1;
/// Of a heading: which explanation its numbers have, as an int; nothing where they are not computed.
inline constexpr int kExplainedRole = Qt::UserRole + 2;

/// What a heading with an explanation answers to a role.
inline QVariant explainedHeading(Explained what, int role) {
  if (role == Qt::ToolTipRole) {
    return shortExplanation(what);
  }
  return role == kExplainedRole ? QVariant(static_cast<int>(what)) : QVariant();
}

template <typename Row>
class RowsModel : public QAbstractTableModel {
 public:
  struct Column {
    using Text = std::function<QString(const Row&)>;
    using Key = std::function<QVariant(const Row&)>;
    using Icon = std::function<QIcon(const Row&)>;
    /// Without a sort key it sorts by text; `isNumber` sets it to the right.
    Column(QString name, Text shown, Key key = nullptr, Icon sign = nullptr, bool isNumber = false)
        : heading(std::move(name)),
          text(std::move(shown)),
          sortKey(std::move(key)),
          icon(std::move(sign)),
          number(isNumber) {}
    /// Its numbers are computed: how, is told beside the heading.
    Column about(Explained what) && {
      explained = what;
      return std::move(*this);
    }
    QString heading;
    Text text;
    Key sortKey;
    Icon icon;
    bool number;
    std::optional<Explained> explained;
  };

  RowsModel(std::vector<Column> columns, QObject* parent)
      : QAbstractTableModel(parent), columns_(std::move(columns)) {}

  void setRows(std::vector<Row> rows) {
    beginResetModel();
    rows_ = std::move(rows);
    endResetModel();
  }
  const std::vector<Row>& rows() const { return rows_; }
  const Row& row(int at) const { return rows_.at(static_cast<std::size_t>(at)); }

  int rowCount(const QModelIndex& parent = {}) const override {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
  }
  int columnCount(const QModelIndex& parent = {}) const override {
    return parent.isValid() ? 0 : static_cast<int>(columns_.size());
  }
  QVariant data(const QModelIndex& index, int role) const override {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
      return {};
    }
    const Column& column = columns_[static_cast<std::size_t>(index.column())];
    const Row& at = row(index.row());
    switch (role) {
      case Qt::DisplayRole:
      case Qt::ToolTipRole:
        return column.text(at);
      case Qt::DecorationRole:
        return column.icon ? QVariant(column.icon(at)) : QVariant();
      case Qt::TextAlignmentRole:
        return QVariant(Qt::AlignVCenter | (column.number ? Qt::AlignRight : Qt::AlignLeft));
      case kSortRole:
        return column.sortKey ? column.sortKey(at) : QVariant(column.text(at));
      default:
        return {};
    }
  }
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override {
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount()) {
      return {};
    }
    const Column& column = columns_[static_cast<std::size_t>(section)];
    if (role == Qt::DisplayRole) {
      return column.heading;
    }
    if (role == Qt::TextAlignmentRole) {
      return QVariant(Qt::AlignVCenter | (column.number ? Qt::AlignRight : Qt::AlignLeft));
    }
    return column.explained ? explainedHeading(*column.explained, role) : QVariant();
  }

 private:
  std::vector<Column> columns_;
  std::vector<Row> rows_;
};

}  // namespace spanwright
