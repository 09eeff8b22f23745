// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/intervals_model.h"

#include <QLocale>

#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

using Row = IntervalItem;
using Column = IntervalsModel::Column;

const QString kNone = QStringLiteral("–");

double changeOf(const Row& row) {
  return row.proposal.days && row.nowDays > 0 ? 1.0 * *row.proposal.days / row.nowDays - 1.0 : 0.0;
}

QString changeText(const Row& row) {
  if (!IntervalsModel::proposesChange(row)) {
    return row.proposal.days ? IntervalsModel::tr("as it is") : kNone;
  }
  const double change = 100.0 * changeOf(row);
  return IntervalsModel::tr("%1 %").arg((change > 0.0 ? QStringLiteral("+") : QString()) +
                                        QLocale().toString(change, 'f', 0));
}

/// Longer and shorter by a sign as well.
QIcon changeIcon(const Row& row) {
  if (!IntervalsModel::proposesChange(row)) {
    return {};
  }
  return changeOf(row) < 0.0 ? markIcon(Mark::exclaim, Tone::attention)
                             : markIcon(Mark::diamond, Tone::accent);
}

std::vector<IntervalsModel::Column> intervalColumns() {
  return {
      {IntervalsModel::tr("Channel"), [](const Row& r) { return fromCore(r.channel); }},
      {IntervalsModel::tr("Subject"), [](const Row& r) { return word(r.subject); }},
      {IntervalsModel::tr("Place"), [](const Row& r) { return fromCore(r.place); }},
      {IntervalsModel::tr("Policy"), [](const Row& r) { return fromCore(r.policy); }},
      {IntervalsModel::tr("In force"), [](const Row& r) { return shownDays(r.nowDays); },
       [](const Row& r) { return QVariant(r.nowDays); }, nullptr, true},
      Column{IntervalsModel::tr("Proposed"),
             [](const Row& r) { return r.proposal.days ? shownDays(*r.proposal.days) : kNone; },
             [](const Row& r) { return QVariant(r.proposal.days.value_or(0)); }, nullptr, true}
          .about(Explained::proposedInterval),
      Column{IntervalsModel::tr("Change"), changeText, [](const Row& r) { return QVariant(changeOf(r)); },
             changeIcon, true}
          .about(Explained::proposedInterval),
      Column{IntervalsModel::tr("Visits"), [](const Row& r) { return QLocale().toString(r.counts.counted); },
             [](const Row& r) { return QVariant(r.counts.counted); }, nullptr, true}
          .about(Explained::outcomes),
      Column{IntervalsModel::tr("Out of tolerance"),
             [](const Row& r) { return QLocale().toString(r.counts.out); },
             [](const Row& r) { return QVariant(r.counts.out); }, nullptr, true}
          .about(Explained::outcomes),
      Column{IntervalsModel::tr("Evidence"), [](const Row& r) { return fromCore(r.proposal.evidence); }}
          .about(Explained::proposedInterval),
  };
}

}  // namespace

IntervalsModel::IntervalsModel(QObject* parent) : RowsModel(intervalColumns(), parent) {}

bool IntervalsModel::proposesChange(const IntervalItem& item) {
  return item.proposal.days && *item.proposal.days != item.nowDays;
}

}  // namespace spanwright
