// SPDX-License-Identifier: GPL-3.0-or-later
//
// The journal, newest first. Entries are fetched a page at a time as they are looked at, so that its length
// does not matter.
#pragma once

#include <QAbstractTableModel>
#include <functional>
#include <optional>
#include <unordered_map>
#include <vector>

#include "core/tasks/journal_view.h"

namespace spanwright {

class JournalModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Columns { kNumber, kAt, kPerson, kAct, kAbout, kDetail, kColumnCount };
  explicit JournalModel(QObject* parent = nullptr);

  /// Every entry up to `last`, or those of `found` (newest first). `store` must live until the next call or
  /// clear().
  void show(const Store& store, std::int64_t last, std::optional<std::vector<std::int64_t>> found = {});
  void clear();
  /// nullopt when the record could not be read; `troubled` has said so.
  std::optional<JournalEntry> entry(int row) const;

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

 signals:
  void troubled(const QString& sentence) const;

 private:
  struct Shown {
    JournalEntry entry;
    QString about;
  };
  const Shown* shown(int row) const;
  std::int64_t numberAt(int row) const;
  void fetch(std::int64_t number) const;

  const Store* store_ = nullptr;
  std::int64_t last_ = 0;
  std::optional<std::vector<std::int64_t>> found_;
  mutable std::unordered_map<std::int64_t, Shown> cache_;
};

}  // namespace spanwright
