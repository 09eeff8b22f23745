// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/fleet_model.h"

#include <fmt/format.h>

#include <QLocale>
#include <cmath>
#include <limits>
#include <map>

#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

using Row = FleetRow;
using Column = FleetModel::Column;

const QString kNone = QStringLiteral("–");

/// What is not there comes after everything that is.
QVariant keyOf(const std::optional<double>& value, double whenNone) {
  return QVariant(value.value_or(whenNone));
}
QString dayText(const std::optional<Date>& day) {
  return day ? shownDate(*day) : kNone;
}
QVariant dayKey(const std::optional<Date>& day) {
  return day ? QVariant(static_cast<int>(day->julian_day())) : QVariant(std::numeric_limits<int>::max());
}
QString percent(const std::optional<double>& share, int digits = 0) {
  if (!share) {
    return kNone;
  }
  return std::isinf(*share) ? QStringLiteral("∞")
                            : FleetModel::tr("%1 %").arg(QLocale().toString(100.0 * *share, 'f', digits));
}

/// Outside, within the last third, or well inside: by a sign, not only by the number.
QIcon signOf(const std::optional<double>& used) {
  constexpr double kMuch = 0.7;  // the usual adjust limit
  if (!used) {
    return {};
  }
  return *used > 1.0     ? markIcon(Mark::cross, Tone::bad)
         : *used > kMuch ? markIcon(Mark::triangle, Tone::attention)
                         : markIcon(Mark::check, Tone::good);
}

QString findingsText(const Row& row) {
  if (row.findings.empty()) {
    return {};
  }
  const QString first = fromCore(row.findings.front().words);
  return row.findings.size() == 1
             ? first
             : FleetModel::tr("%1 (and %2 more)").arg(first).arg(row.findings.size() - 1);
}

std::vector<FleetModel::Column> fleetColumns() {
  return {
      {FleetModel::tr("Channel"), [](const Row& r) { return fromCore(r.channel); }},
      {FleetModel::tr("Subject"), [](const Row& r) { return word(r.subject); }},
      {FleetModel::tr("Worst point"),
       [](const Row& r) { return followedPointWord(r.point, r.pointPercent); }},
      Column{FleetModel::tr("Tolerance used"), [](const Row& r) { return percent(r.used); },
             [](const Row& r) { return keyOf(r.used, -1.0); }, [](const Row& r) { return signOf(r.used); },
             true}
          .about(Explained::usedTolerance),
      Column{FleetModel::tr("by the band"), [](const Row& r) { return percent(r.usedByBand); },
             [](const Row& r) { return keyOf(r.usedByBand, -1.0); }, nullptr, true}
          .about(Explained::usedTolerance),
      Column{FleetModel::tr("In tolerance"), [](const Row& r) { return percent(r.inTolerance, 1); },
             [](const Row& r) { return keyOf(r.inTolerance, 2.0); }, nullptr, true}
          .about(Explained::inTolerance),
      Column{FleetModel::tr("Band leaves on"), [](const Row& r) { return dayText(r.bandOutOn); },
             [](const Row& r) { return dayKey(r.bandOutOn); }}
          .about(Explained::leavesOn),
      Column{FleetModel::tr("Days"),
             [](const Row& r) {
               return r.daysToForecast ? QLocale().toString(qlonglong{*r.daysToForecast}) : kNone;
             },
             [](const Row& r) {
               return QVariant(qlonglong{r.daysToForecast.value_or(std::numeric_limits<int>::max())});
             },
             nullptr, true}
          .about(Explained::leavesOn),
      Column{FleetModel::tr("Drift per year"),
             [](const Row& r) {
               return r.ratePerYear
                          ? QStringLiteral("%1 %2").arg(shownRate(*r.ratePerYear), shownUnit(r.unit))
                          : kNone;
             },
             [](const Row& r) { return keyOf(r.ratePerYear, 0.0); }, nullptr, true}
          .about(Explained::pooledRate),
      Column{FleetModel::tr("Found"), findingsText,
             [](const Row& r) {
               return r.findings.empty() ? QVariant(2.0) : QVariant(r.findings.front().pValue);
             },
             [](const Row& r) {
               return r.findings.empty() ? QIcon() : markIcon(Mark::exclaim, Tone::attention);
             }}
          .about(Explained::finding),
      Column{FleetModel::tr("Told from"), [](const Row& r) { return word(r.basis); }}.about(Explained::band),
      Column{FleetModel::tr("Line leaves on"), [](const Row& r) { return dayText(r.lineOutOn); },
             [](const Row& r) { return dayKey(r.lineOutOn); }}
          .about(Explained::leavesOn),
      {FleetModel::tr("Place"), [](const Row& r) { return fromCore(r.place); }},
  };
}

}  // namespace

FleetModel::FleetModel(QObject* parent) : RowsModel(fleetColumns(), parent) {}

std::string FleetModel::smallText(const FleetRow& row) {
  return smallLetters(fmt::format("{} {} {}", row.channel, row.place, toCore(findingsText(row))));
}

void FleetModel::setFleet(Rows fleet, SmallTexts small) {
  small_ = std::move(small);
  shareRows(std::move(fleet));
}

void FleetModel::narrowTo(const QString& words) {
  const auto wanted = std::make_shared<const SearchWords>(words);
  std::map<Subject, std::string> named;
  for (const Subject subject : {Subject::channel, Subject::sensor, Subject::loop}) {
    named[subject] = smallLetters(toCore(word(subject)));
  }
  narrow([this, wanted, named = std::move(named)](std::size_t at) {
    return wanted->standIn((*small_)[at], named.at(rows()[at].subject));
  });
}

}  // namespace spanwright
