// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/rounds_model.h"

#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

std::vector<RoundsModel::Column> roundColumns() {
  using Row = RoundRow;
  return {
      {RoundsModel::tr("No."),
       [](const Row& r) { return QString::number(r.round.id); },
       [](const Row& r) { return QVariant(static_cast<qlonglong>(r.round.id)); },
       {},
       true},
      {RoundsModel::tr("Round"), [](const Row& r) { return fromCore(r.round.name); }},
      {RoundsModel::tr("State"),
       [](const Row& r) { return r.round.closedUtc ? RoundsModel::tr("closed") : RoundsModel::tr("open"); },
       {},
       [](const Row& r) {
         return r.round.closedUtc ? markIcon(Mark::check, Tone::quiet) : markIcon(Mark::ring, Tone::accent);
       }},
      {RoundsModel::tr("Done"),
       [](const Row& r) { return RoundsModel::tr("%1 of %2").arg(r.done).arg(r.round.stops.size()); },
       [](const Row& r) { return QVariant(static_cast<qulonglong>(r.round.stops.size() - r.done)); },
       [](const Row& r) {
         return r.done == r.round.stops.size() ? markIcon(Mark::check, Tone::good)
                : r.done > 0                   ? markIcon(Mark::halfDisc, Tone::attention)
                                               : markIcon(Mark::ring, Tone::quiet);
       }},
      {RoundsModel::tr("For"),
       [](const Row& r) { return r.person.isEmpty() ? RoundsModel::tr("anybody") : r.person; }},
      {RoundsModel::tr("Made"),
       [](const Row& r) { return RoundsModel::tr("%1 UTC").arg(shownMoment(r.round.madeUtc)); }},
      {RoundsModel::tr("Why"), [](const Row& r) { return fromCore(r.round.reason); }},
  };
}

std::vector<StopsModel::Column> stopColumns() {
  using Row = StopRow;
  return {
      {StopsModel::tr("Stop"), [](const Row& r) { return QString::number(r.place); }, {}, {}, true},
      {StopsModel::tr("State"),
       [](const Row& r) {
         return r.progress.calibration != 0 ? StopsModel::tr("done") : StopsModel::tr("to do");
       },
       {},
       [](const Row& r) {
         return r.progress.calibration != 0 ? markIcon(Mark::check, Tone::good)
                                            : markIcon(Mark::ring, Tone::attention);
       }},
      {StopsModel::tr("Channel"), [](const Row& r) { return fromCore(r.progress.stop.channel); }},
      {StopsModel::tr("Subject"), [](const Row& r) { return word(r.progress.stop.subject); }},
      {StopsModel::tr("Place"), [](const Row& r) { return fromCore(r.progress.place); }},
      {StopsModel::tr("Title"), [](const Row& r) { return r.title; }},
      {StopsModel::tr("Calibration"),
       [](const Row& r) {
         return r.progress.calibration != 0 ? QString::number(r.progress.calibration) : QString();
       }},
  };
}

}  // namespace

RoundsModel::RoundsModel(QObject* parent) : RowsModel(roundColumns(), parent) {}
StopsModel::StopsModel(QObject* parent) : RowsModel(stopColumns(), parent) {}

std::vector<RoundStop> PickModel::picked() const {
  std::vector<RoundStop> stops;
  for (const std::size_t at : picked_) {
    stops.push_back({rows()[at].channel, rows()[at].subject});
  }
  return stops;
}

void PickModel::pick(int row, bool on) {
  const std::size_t at = placeOf(row);
  const bool changed = on ? picked_.insert(at).second : picked_.erase(at) > 0;
  if (changed) {
    emit dataChanged(index(row, 0), index(row, 0), {Qt::CheckStateRole});
    emit pickedChanged();
  }
}

QVariant PickModel::data(const QModelIndex& index, int role) const {
  if (role == Qt::CheckStateRole && index.column() == 0) {
    return picked_.contains(placeOf(index.row())) ? Qt::Checked : Qt::Unchecked;
  }
  return DueModel::data(index, role);
}

bool PickModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::CheckStateRole || index.column() != 0) {
    return false;
  }
  pick(index.row(), value.toInt() == Qt::Checked);
  return true;
}

Qt::ItemFlags PickModel::flags(const QModelIndex& index) const {
  const Qt::ItemFlags usual = DueModel::flags(index);
  return index.column() == 0 ? usual | Qt::ItemIsUserCheckable : usual;
}

}  // namespace spanwright
