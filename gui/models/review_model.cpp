// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/review_model.h"

#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QString waitsFor(const ReviewRow& row) {
  switch (row.summary.state) {
    case LifeState::performed:
      return ReviewModel::tr("review");
    case LifeState::reviewed:
      return ReviewModel::tr("approval");
    default:
      return ReviewModel::tr("its technician");
  }
}

QString stateWord(const ReviewRow& row) {
  return row.reason.isEmpty() ? word(row.summary.state)
                              : ReviewModel::tr("%1: %2").arg(word(row.summary.state), row.reason);
}

std::vector<ReviewModel::Column> reviewColumns() {
  using Row = ReviewRow;
  using Column = ReviewModel::Column;
  return {
      {ReviewModel::tr("No."), [](const Row& r) { return QString::number(r.summary.id); }, {}, {}, true},
      {ReviewModel::tr("Waits for"), waitsFor,
       [](const Row& r) { return QVariant(static_cast<int>(r.summary.state)); },
       [](const Row& r) { return iconOf(r.summary.state); }},
      {ReviewModel::tr("Channel"), [](const Row& r) { return fromCore(r.summary.channel); }},
      {ReviewModel::tr("Place"), [](const Row& r) { return r.place; }},
      {ReviewModel::tr("Subject"), [](const Row& r) { return word(r.summary.subject); }},
      {ReviewModel::tr("Performed"), [](const Row& r) { return shownMoment(r.summary.performed); }},
      {ReviewModel::tr("By"), [](const Row& r) { return r.technician; }},
      Column{ReviewModel::tr("As found"),
             [](const Row& r) { return word(r.summary.foundVerdict); },
             {},
             [](const Row& r) { return iconOf(r.summary.foundVerdict); }}
          .about(Explained::verdict),
      Column{ReviewModel::tr("As left"),
             [](const Row& r) { return word(r.summary.leftVerdict); },
             {},
             [](const Row& r) { return iconOf(r.summary.leftVerdict); }}
          .about(Explained::verdict),
      {ReviewModel::tr("State"), stateWord},
  };
}

}  // namespace

ReviewModel::ReviewModel(QObject* parent) : RowsModel(reviewColumns(), parent) {}

std::vector<ReviewRow> reviewRows(const Store& store) {
  std::vector<ReviewRow> rows;
  for (const LifeState state : {LifeState::performed, LifeState::reviewed, LifeState::sentBack}) {
    for (const CalibrationSummary& each : store.inState(state)) {
      const Channel* channel = store.site().channel(each.channel);
      const Person* person = store.site().person(each.person);
      rows.push_back(
          {each, channel != nullptr ? fromCore(channel->place) : QString(),
           fromCore(person != nullptr ? person->name : each.person),
           state == LifeState::sentBack ? fromCore(store.life(each.id).back().reason) : QString()});
    }
  }
  return rows;
}

}  // namespace spanwright
