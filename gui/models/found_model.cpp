// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/found_model.h"

#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

using Row = FoundRow;

std::vector<FoundModel::Column> foundColumns() {
  return {
      {FoundModel::tr("Channel"), [](const Row& r) { return fromCore(r.tag); }},
      {FoundModel::tr("What it measures"), [](const Row& r) { return fromCore(r.title); }},
      {FoundModel::tr("State"),
       [](const Row& r) {
         return r.retired ? FoundModel::tr("retired")
                : r.state ? word(*r.state)
                          : FoundModel::tr("no routine");
       },
       {},
       [](const Row& r) { return r.state && !r.retired ? iconOf(*r.state) : QIcon(); }},
      {FoundModel::tr("Sensor"), [](const Row& r) { return fromCore(r.sensors); }},
      {FoundModel::tr("Place"), [](const Row& r) { return fromCore(r.place); }},
      {FoundModel::tr("Due on"), [](const Row& r) { return r.dueOn ? shownDate(*r.dueOn) : QString(); }},
  };
}

}  // namespace

FoundModel::FoundModel(QObject* parent) : RowsModel(foundColumns(), parent) {}

std::optional<int> FoundModel::rowOf(const QString& tag) const {
  for (int at = 0; at < rowCount(); ++at) {
    if (fromCore(row(at).tag) == tag) {
      return at;
    }
  }
  return std::nullopt;
}

FoundRow foundRow(const Channel& channel, const std::vector<DueItem>& due) {
  FoundRow row;
  row.tag = channel.tag;
  row.title = channel.title;
  row.place = channel.place;
  row.retired = channel.retired;
  for (auto fitting = channel.fittings.rbegin(); fitting != channel.fittings.rend(); ++fitting) {
    row.sensors += (row.sensors.empty() ? "" : ", ") + fitting->sensor;
  }
  row.state = channelState(due, channel.tag);
  for (const DueItem& item : due) {
    if (item.due.dueOn && (!row.dueOn || *item.due.dueOn < *row.dueOn)) {
      row.dueOn = item.due.dueOn;
    }
  }
  return row;
}

}  // namespace spanwright
