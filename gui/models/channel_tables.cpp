// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/channel_tables.h"

#include <algorithm>
#include <utility>

#include "core/tasks/signing.h"
#include "gui/words/life_words.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QVariant momentKey(Moment moment) {
  return fromCore(formatMoment(moment));
}

/// "approved", "performed, corrects 33", "superseded by 34".
QString stateWord(const CalibrationRow& row) {
  const QString state = row.supersededBy != 0
                            ? CalibrationsModel::tr("%1 by %2").arg(word(row.state)).arg(row.supersededBy)
                            : word(row.state);
  return row.corrects != 0 ? CalibrationsModel::tr("%1, corrects %2").arg(state).arg(row.corrects) : state;
}

std::vector<CalibrationsModel::Column> calibrationColumns() {
  using Row = CalibrationRow;
  using Column = CalibrationsModel::Column;
  return {
      {CalibrationsModel::tr("No."),
       [](const Row& r) { return QString::number(r.id); },
       [](const Row& r) { return QVariant(static_cast<qlonglong>(r.id)); },
       {},
       true},
      {CalibrationsModel::tr("Performed"), [](const Row& r) { return shownMoment(r.performed); },
       [](const Row& r) { return momentKey(r.performed); }},
      {CalibrationsModel::tr("State"), stateWord,
       [](const Row& r) { return QVariant(static_cast<int>(r.state)); },
       [](const Row& r) { return iconOf(r.state); }},
      {CalibrationsModel::tr("Subject"), [](const Row& r) { return word(r.subject); }},
      Column{CalibrationsModel::tr("As found"),
             [](const Row& r) { return word(r.foundVerdict); },
             {},
             [](const Row& r) { return iconOf(r.foundVerdict); }}
          .about(Explained::verdict),
      Column{CalibrationsModel::tr("As left"),
             [](const Row& r) { return word(r.leftVerdict); },
             {},
             [](const Row& r) { return iconOf(r.leftVerdict); }}
          .about(Explained::verdict),
      {CalibrationsModel::tr("Done"),
       [](const Row& r) {
         return r.repaired   ? CalibrationsModel::tr("repaired")
                : r.adjusted ? CalibrationsModel::tr("adjusted")
                             : CalibrationsModel::tr("unchanged");
       }},
      {CalibrationsModel::tr("Setup"), [](const Row& r) { return QString::number(r.setupVersion); },
       [](const Row& r) { return QVariant(r.setupVersion); }},
      {CalibrationsModel::tr("Person"), [](const Row& r) { return fromCore(r.person); }},
      {CalibrationsModel::tr("Sensor"), [](const Row& r) { return fromCore(r.sensor); }},
  };
}

std::vector<SetupsModel::Column> setupColumns() {
  using Row = SetupRow;
  return {
      {SetupsModel::tr("Setup"),
       [](const Row& r) {
         return r.inForce ? SetupsModel::tr("%1, in force").arg(r.version.version)
                          : QString::number(r.version.version);
       },
       [](const Row& r) { return QVariant(r.version.version); },
       [](const Row& r) { return r.inForce ? markIcon(Mark::check, Tone::accent) : QIcon(); }},
      {SetupsModel::tr("In force from"), [](const Row& r) { return shownMoment(r.version.inForceFrom); },
       [](const Row& r) { return momentKey(r.version.inForceFrom); }},
      {SetupsModel::tr("Configured as"),
       [](const Row& r) {
         return QStringLiteral("%1: %2").arg(kindWord(r.version.setup),
                                             shownDescription(describe(r.version.setup)));
       }},
      {SetupsModel::tr("Why"), [](const Row& r) { return fromCore(r.version.remark); }},
  };
}

std::vector<FittingsModel::Column> fittingColumns() {
  using Row = FittingRow;
  return {
      {FittingsModel::tr("Sensor"), [](const Row& r) { return fromCore(r.fitting.sensor); }},
      {FittingsModel::tr("What it is"),
       [](const Row& r) { return r.sensor ? fromCore(r.sensor->description) : QString(); }},
      {FittingsModel::tr("Range"),
       [](const Row& r) { return r.sensor ? shownDescription(describe(r.sensor->range)) : QString(); }},
      {FittingsModel::tr("From"), [](const Row& r) { return shownDate(r.fitting.from.date()); },
       [](const Row& r) { return momentKey(r.fitting.from); }},
      {FittingsModel::tr("Until"),
       [](const Row& r) {
         return r.fitting.until ? shownDate(r.fitting.until->date()) : FittingsModel::tr("now");
       }},
  };
}

std::vector<RoutinesModel::Column> routineColumns() {
  using Row = RoutineRow;
  using Column = RoutinesModel::Column;
  return {
      {RoutinesModel::tr("Subject"), [](const Row& r) { return word(r.routine.subject); }},
      Column{RoutinesModel::tr("State"),
             [](const Row& r) { return r.due ? word(r.due->due.state) : QStringLiteral("…"); },
             {},
             [](const Row& r) { return r.due ? iconOf(r.due->due.state) : QIcon(); }}
          .about(Explained::dueOn),
      Column{RoutinesModel::tr("Due on"),
             [](const Row& r) {
               return r.due && r.due->due.dueOn ? shownDate(*r.due->due.dueOn) : QStringLiteral("–");
             }}
          .about(Explained::dueOn),
      {RoutinesModel::tr("Plan"), [](const Row& r) { return r.plan; }},
      {RoutinesModel::tr("Why"), [](const Row& r) { return r.due ? fromCore(r.due->reason) : QString(); }},
  };
}

}  // namespace

std::vector<CalibrationRow> calibrationRows(const Store& store, const std::string& channel) {
  std::vector<CalibrationRow> rows;
  for (const CalibrationSummary& summary : store.calibrations(channel)) {
    const auto signedBy = signatures(store, summary.id);
    CalibrationRow row{summary, 0, 0, signatureLines(signedBy)};
    if (summary.state == LifeState::superseded) {
      row.supersededBy = signedBy.back().event.correction;
    }
    if (const auto whole = store.calibration(summary.id)) {
      row.corrects = whole->corrects;
    }
    rows.push_back(std::move(row));
  }
  std::reverse(rows.begin(), rows.end());
  return rows;
}

CalibrationsModel::CalibrationsModel(QObject* parent) : RowsModel(calibrationColumns(), parent) {}
QVariant CalibrationsModel::data(const QModelIndex& index, int role) const {
  const bool told = role == Qt::ToolTipRole || role == Qt::AccessibleDescriptionRole;
  return told && index.isValid() && index.column() == kState ? QVariant(row(index.row()).signatures)
                                                             : RowsModel::data(index, role);
}
SetupsModel::SetupsModel(QObject* parent) : RowsModel(setupColumns(), parent) {}
FittingsModel::FittingsModel(QObject* parent) : RowsModel(fittingColumns(), parent) {}
RoutinesModel::RoutinesModel(QObject* parent) : RowsModel(routineColumns(), parent) {}

}  // namespace spanwright
