// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/due_model.h"

#include <algorithm>

#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QVariant dayKey(const std::optional<Date>& day) {
  // A date that is not there sorts after every date that is.
  return day ? QVariant(static_cast<int>(day->julian_day())) : QVariant(std::numeric_limits<int>::max());
}
QString dayText(const std::optional<Date>& day) {
  return day ? shownDate(*day) : QStringLiteral("–");
}

std::vector<DueModel::Column> dueColumns() {
  using Column = DueModel::Column;
  return {
      Column{DueModel::tr("State"), [](const DueItem& i) { return word(i.due.state); },
             [](const DueItem& i) { return QVariant(static_cast<int>(i.due.state)); },
             [](const DueItem& i) { return iconOf(i.due.state); }}
          .about(Explained::dueOn),
      {DueModel::tr("Channel"), [](const DueItem& i) { return fromCore(i.channel); }},
      {DueModel::tr("Place"), [](const DueItem& i) { return fromCore(i.place); }},
      {DueModel::tr("Subject"), [](const DueItem& i) { return word(i.subject); }},
      Column{DueModel::tr("Due on"), [](const DueItem& i) { return dayText(i.due.dueOn); },
             [](const DueItem& i) { return dayKey(i.due.dueOn); }}
          .about(Explained::dueOn),
      {DueModel::tr("Proven on"), [](const DueItem& i) { return dayText(i.due.provenOn); },
       [](const DueItem& i) { return dayKey(i.due.provenOn); }},
      Column{DueModel::tr("Interval"), [](const DueItem& i) { return shownDays(i.intervalDays); },
             [](const DueItem& i) { return QVariant(i.intervalDays); }}
          .about(Explained::proposedInterval),
      {DueModel::tr("Why"), [](const DueItem& i) { return fromCore(i.reason); }},
  };
}

}  // namespace

DueModel::DueModel(QObject* parent) : RowsModel(dueColumns(), parent) {}

DueFilter::DueFilter(DueModel* model, QObject* parent) : QSortFilterProxyModel(parent), model_(model) {
  setSortRole(kSortRole);
  setSourceModel(model);
}

void DueFilter::setWords(const QString& words) {
  words_ = words.simplified().split(u' ', Qt::SkipEmptyParts);
  invalidateFilter();
}

void DueFilter::setState(std::optional<DueState> state) {
  state_ = state;
  invalidateFilter();
}

void DueFilter::setUntil(std::optional<Date> until) {
  until_ = until;
  invalidateFilter();
}

const DueItem& DueFilter::item(const QModelIndex& shown) const {
  return model_->row(mapToSource(shown).row());
}

bool DueFilter::filterAcceptsRow(int row, const QModelIndex&) const {
  const DueItem& item = model_->row(row);
  if (state_ && item.due.state != *state_) {
    return false;
  }
  if (until_ && item.due.dueOn && *item.due.dueOn > *until_) {
    return false;
  }
  const QString all = fromCore(item.channel + ' ' + item.place + ' ' + item.reason) + u' ' +
                      word(item.subject) + u' ' + word(item.due.state);
  return std::all_of(words_.begin(), words_.end(),
                     [&all](const QString& each) { return all.contains(each, Qt::CaseInsensitive); });
}

}  // namespace spanwright
