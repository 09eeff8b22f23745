// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/journal_model.h"

#include <algorithm>
#include <utility>

#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr std::int64_t kPage = 64;
constexpr std::size_t kKept = 2048;  // entries in memory; more are dropped and fetched again

}  // namespace

JournalModel::JournalModel(QObject* parent) : QAbstractTableModel(parent) {}

void JournalModel::show(const Store& store, std::int64_t last,
                        std::optional<std::vector<std::int64_t>> found) {
  beginResetModel();
  store_ = &store;
  last_ = last;
  found_ = std::move(found);
  cache_.clear();
  endResetModel();
}

void JournalModel::clear() {
  beginResetModel();
  store_ = nullptr;
  last_ = 0;
  found_.reset();
  cache_.clear();
  endResetModel();
}

std::int64_t JournalModel::numberAt(int row) const {
  return found_ ? found_->at(static_cast<std::size_t>(row)) : last_ - row;
}

void JournalModel::fetch(std::int64_t number) const {
  if (cache_.size() > kKept) {
    cache_.clear();
  }
  // What words found lies scattered; the whole journal is read a page at a time.
  const std::int64_t first = found_ ? number : std::max<std::int64_t>(1, number - kPage + 1);
  for (JournalEntry& entry : journalEntries(*store_, first, number)) {
    Shown& shown = cache_[entry.entry];
    shown.about = fromCore(aboutText(*store_, entry));
    shown.entry = std::move(entry);
  }
}

const JournalModel::Shown* JournalModel::shown(int row) const {
  const std::int64_t number = numberAt(row);
  auto at = cache_.find(number);
  if (at == cache_.end()) {
    try {
      fetch(number);
    } catch (const std::exception& error) {
      emit troubled(asSentence(QString::fromUtf8(error.what())));
    }
    at = cache_.find(number);
  }
  return at == cache_.end() ? nullptr : &at->second;
}

std::optional<JournalEntry> JournalModel::entry(int row) const {
  if (row < 0 || row >= rowCount()) {
    return std::nullopt;
  }
  const Shown* at = shown(row);
  return at == nullptr ? std::nullopt : std::optional(at->entry);
}

int JournalModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(found_ ? std::ssize(*found_) : last_);
}

int JournalModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : kColumnCount;
}

QVariant JournalModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) {
    return {};
  }
  if (role == Qt::TextAlignmentRole) {
    return QVariant(Qt::AlignVCenter | (index.column() == kNumber ? Qt::AlignRight : Qt::AlignLeft));
  }
  if (role != Qt::DisplayRole && role != Qt::ToolTipRole) {
    return {};
  }
  const Shown* at = shown(index.row());
  if (at == nullptr) {
    return {};
  }
  switch (index.column()) {
    case kNumber:
      return QString::number(at->entry.entry);
    case kAt:
      return shownMoment(at->entry.atUtc);
    case kPerson:
      return at->entry.person.empty() ? tr("the program") : fromCore(at->entry.person);
    case kAct:
      return fromCore(at->entry.act);
    case kAbout:
      return at->about;
    case kDetail:
      return fromCore(at->entry.detail);
    default:
      return {};
  }
}

QVariant JournalModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || (role != Qt::DisplayRole && role != Qt::TextAlignmentRole)) {
    return {};
  }
  if (role == Qt::TextAlignmentRole) {
    return QVariant(Qt::AlignVCenter | (section == kNumber ? Qt::AlignRight : Qt::AlignLeft));
  }
  switch (section) {
    case kNumber:
      return tr("Entry");
    case kAt:
      return tr("When (UTC)");
    case kPerson:
      return tr("Who");
    case kAct:
      return tr("Did");
    case kAbout:
      return tr("About");
    case kDetail:
      return tr("Detail");
    default:
      return {};
  }
}

}  // namespace spanwright
