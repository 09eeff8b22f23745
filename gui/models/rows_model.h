// SPDX-License-Identifier: GPL-3.0-or-later
//
// A table of plain rows where each column is one line: heading, what is shown, what it sorts by, and its
// sign. It narrows and sorts itself: a proxy between it and the view would copy and ask for every cell of a
// hundred thousand rows at every letter.
#pragma once

#include <QAbstractTableModel>
#include <QIcon>
#include <algorithm>
#include <functional>
#include <memory>
#include <numeric>
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

  using Rows = std::shared_ptr<const std::vector<Row>>;
  /// Whether the row at this place in rows() is shown.
  using Wanted = std::function<bool(std::size_t)>;

  void setRows(std::vector<Row> rows) {
    shareRows(std::make_shared<const std::vector<Row>>(std::move(rows)));
  }
  /// Rows that somebody else holds as well; never nothing.
  void shareRows(Rows rows) {
    beginResetModel();
    rows_ = std::move(rows);
    arrange();
    endResetModel();
  }
  const Rows& given() const { return rows_; }
  /// All of them as they were given, also those not shown.
  const std::vector<Row>& rows() const { return *rows_; }
  /// The one shown at this place, and its place in rows().
  const Row& row(int at) const { return rows_->at(placeOf(at)); }
  std::size_t placeOf(int shown) const { return shown_.at(static_cast<std::size_t>(shown)); }

  /// Shows these rows only, from now on; nothing: all.
  void narrow(Wanted wanted) {
    wanted_ = std::move(wanted);
    rearrange();
  }
  /// By a column, rows alike staying in their order; -1: as they were given.
  void sort(int column, Qt::SortOrder order = Qt::AscendingOrder) override {
    sortedBy_ = column;
    sortOrder_ = order;
    rearrange();
  }

  int rowCount(const QModelIndex& parent = {}) const override {
    return parent.isValid() ? 0 : static_cast<int>(shown_.size());
  }
  int columnCount(const QModelIndex& parent = {}) const override {
    return parent.isValid() ? 0 : static_cast<int>(columns_.size());
  }
  QVariant data(const QModelIndex& index, int role) const override {
    if (!index.isValid()) {
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
  /// What a row sorts by, worked out once for a sorting.
  struct Key {
    bool number = false;
    double value = 0.0;
    QString text;
    bool operator<(const Key& other) const {
      return number && other.number ? value < other.value : text < other.text;
    }
  };
  Key keyOf(const Column& column, const Row& row) const {
    if (!column.sortKey) {
      return {false, 0.0, column.text(row)};
    }
    const QVariant key = column.sortKey(row);
    const int type = key.typeId();
    const bool number = type != QMetaType::QString && key.canConvert<double>();
    return {number, number ? key.toDouble() : 0.0, number ? QString() : key.toString()};
  }

  void arrange() {
    shown_.clear();
    for (std::size_t at = 0; at < rows_->size(); ++at) {
      if (!wanted_ || wanted_(at)) {
        shown_.push_back(at);
      }
    }
    if (sortedBy_ < 0 || sortedBy_ >= columnCount()) {
      return;
    }
    const Column& column = columns_[static_cast<std::size_t>(sortedBy_)];
    std::vector<Key> keys;
    keys.reserve(shown_.size());
    for (const std::size_t at : shown_) {
      keys.push_back(keyOf(column, (*rows_)[at]));
    }
    std::vector<std::size_t> places(shown_.size());
    std::iota(places.begin(), places.end(), std::size_t{0});
    const bool down = sortOrder_ == Qt::DescendingOrder;
    std::stable_sort(places.begin(), places.end(), [&](std::size_t a, std::size_t b) {
      return down ? keys[b] < keys[a] : keys[a] < keys[b];
    });
    for (std::size_t& place : places) {
      place = shown_[place];
    }
    shown_ = std::move(places);
  }

  /// Arranges anew; what is chosen stays chosen as long as it is shown.
  void rearrange() {
    emit layoutAboutToBeChanged();
    const QModelIndexList before = persistentIndexList();
    std::vector<std::size_t> held;
    for (const QModelIndex& index : before) {
      held.push_back(shown_[static_cast<std::size_t>(index.row())]);
    }
    arrange();
    QModelIndexList after;
    for (qsizetype i = 0; i < before.size(); ++i) {
      const auto found = std::find(shown_.begin(), shown_.end(), held[static_cast<std::size_t>(i)]);
      after << (found == shown_.end()
                    ? QModelIndex()
                    : createIndex(static_cast<int>(found - shown_.begin()), before[i].column()));
    }
    changePersistentIndexList(before, after);
    emit layoutChanged();
  }

  std::vector<Column> columns_;
  Rows rows_ = std::make_shared<const std::vector<Row>>();
  std::vector<std::size_t> shown_;
  Wanted wanted_;
  int sortedBy_ = -1;
  Qt::SortOrder sortOrder_ = Qt::AscendingOrder;
};

}  // namespace spanwright
