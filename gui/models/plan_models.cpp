// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/plan_models.h"

#include <QLocale>
#include <algorithm>
#include <limits>

#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

using boost::gregorian::days;

QString hoursOf(int minutes) {
  return PlanStopsModel::tr("%1 h").arg(QLocale().toString(minutes / 60.0, 'f', 1));
}

QString nameOf(const Register& site, const std::string& login) {
  const Person* person = site.person(login);
  return fromCore(person != nullptr ? person->name : login);
}

QString lastPart(const std::string& path) {
  const auto at = path.rfind(" / ");
  return fromCore(at == std::string::npos ? path : path.substr(at + 3));
}

Date mondayOf(Date day) {
  return day - days((day.day_of_week().as_number() + 6) % 7);
}

QString channelsOf(const PlannedStop& stop) {
  QStringList tags;
  for (const PlannedSubject& visit : stop.visits) {
    tags << (visit.subject == Subject::channel
                 ? fromCore(visit.channel)
                 : QStringLiteral("%1 (%2)").arg(fromCore(visit.channel), wordInside(visit.subject)));
  }
  return tags.join(QStringLiteral(", "));
}

QString noteOf(const PlannedStop& stop) {
  QStringList notes;
  for (const PlannedSubject& visit : stop.visits) {
    if (!visit.reason.empty()) {
      notes << QStringLiteral("%1: %2").arg(fromCore(visit.channel), fromCore(visit.reason));
    }
  }
  return notes.join(QStringLiteral("; "));
}

bool anyLate(const PlannedStop& stop) {
  return std::any_of(stop.visits.begin(), stop.visits.end(),
                     [](const PlannedSubject& visit) { return visit.time == PlanTime::late; });
}

std::vector<PlanStopsModel::Column> stopColumns() {
  using Column = PlanStopsModel::Column;
  using Row = PlannedStop;
  return {
      {PlanStopsModel::tr("Day"), [](const Row& r) { return shownDate(r.day); },
       [](const Row& r) { return QVariant(static_cast<int>(r.day.julian_day())); },
       [](const Row& r) { return anyLate(r) ? markIcon(Mark::exclaim, Tone::bad) : QIcon(); }},
      {PlanStopsModel::tr("Technician"), [](const Row& r) { return fromCore(r.person); }},
      {PlanStopsModel::tr("Cabinet"), [](const Row& r) { return fromCore(r.cabinet); }},
      {PlanStopsModel::tr("Channels"), channelsOf},
      Column{PlanStopsModel::tr("Hours"), [](const Row& r) { return hoursOf(r.minutes()); },
             [](const Row& r) { return QVariant(r.minutes()); }, nullptr, true}
          .about(Explained::planned),
      {PlanStopsModel::tr("Standards to take"),
       [](const Row& r) {
         QStringList serials;
         for (const std::string& serial : r.standards) {
           serials << fromCore(serial);
         }
         return serials.join(QStringLiteral(", "));
       }},
      {PlanStopsModel::tr("Not by its due day, because"), noteOf},
  };
}

std::vector<NotPlannedModel::Column> notPlannedColumns() {
  using Column = NotPlannedModel::Column;
  using Row = PlannedSubject;
  return {
      {NotPlannedModel::tr("Channel"), [](const Row& r) { return fromCore(r.channel); }},
      {NotPlannedModel::tr("Subject"), [](const Row& r) { return word(r.subject); }},
      {NotPlannedModel::tr("Place"), [](const Row& r) { return fromCore(r.place); }},
      {NotPlannedModel::tr("State"), [](const Row& r) { return word(r.state); },
       [](const Row& r) { return QVariant(static_cast<int>(r.state)); },
       [](const Row& r) { return iconOf(r.state); }},
      Column{NotPlannedModel::tr("Due on"),
             [](const Row& r) { return r.due ? shownDate(*r.due) : QStringLiteral("–"); },
             [](const Row& r) {
               return r.due ? QVariant(static_cast<int>(r.due->julian_day()))
                            : QVariant(std::numeric_limits<int>::max());
             }}
          .about(Explained::dueOn),
      Column{NotPlannedModel::tr("Hours"), [](const Row& r) { return hoursOf(r.minutes); },
             [](const Row& r) { return QVariant(r.minutes); }, nullptr, true}
          .about(Explained::planned),
      {NotPlannedModel::tr("Why it does not fit"),
       [](const Row& r) { return asSentence(fromCore(r.reason)); }},
  };
}

}  // namespace

PlanWeeksModel::PlanWeeksModel(QObject* parent) : QAbstractTableModel(parent) {}

void PlanWeeksModel::setPlan(const SitePlan& plan, const Register& site, const WorkCalendar& calendar) {
  beginResetModel();
  plan_ = plan;
  site_ = &site;
  calendar_ = calendar;
  monday_ = mondayOf(plan.from);
  weeks_ = static_cast<int>((mondayOf(plan.until) - monday_).days() / 7) + 1;
  endResetModel();
}

int PlanWeeksModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : weeks_;
}
int PlanWeeksModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : kColumnCount;
}

std::optional<Date> PlanWeeksModel::dayAt(const QModelIndex& index) const {
  if (!index.isValid() || index.column() < kMonday || index.column() > kSunday) {
    return std::nullopt;
  }
  return monday_ + days(7 * index.row() + index.column() - kMonday);
}

QModelIndex PlanWeeksModel::cellOf(Date day) const {
  const long after = weeks_ > 0 ? (day - monday_).days() : -1;
  return after < 0 || after >= 7L * weeks_
             ? QModelIndex()
             : index(static_cast<int>(after / 7), static_cast<int>(after % 7) + kMonday);
}

bool PlanWeeksModel::isClosed(const QModelIndex& index) const {
  const auto day = dayAt(index);
  return day && (!calendar_->isWorkingDay(*day) || *day < plan_.from || *day > plan_.until);
}

std::vector<int> PlanWeeksModel::stopsAt(const QModelIndex& index) const {
  std::vector<int> at;
  if (const auto day = dayAt(index)) {
    for (std::size_t i = 0; i < plan_.stops.size(); ++i) {
      if (plan_.stops[i].day == *day) {
        at.push_back(static_cast<int>(i));
      }
    }
  }
  return at;
}

QString PlanWeeksModel::lineOf(int stop) const {
  const PlannedStop& at = plan_.stops.at(static_cast<std::size_t>(stop));
  return tr("%1: %2, %3, %4")
      .arg(nameOf(*site_, at.person), lastPart(at.cabinet),
           counted(static_cast<int>(at.visits.size()), tr("1 visit"), tr("%1 visits")),
           hoursOf(at.minutes()));
}

QStringList PlanWeeksModel::shortLinesOf(int stop) const {
  const PlannedStop& at = plan_.stops.at(static_cast<std::size_t>(stop));
  return {nameOf(*site_, at.person),
          tr("%1: %2").arg(lastPart(at.cabinet),
                           counted(static_cast<int>(at.visits.size()), tr("1 visit"), tr("%1 visits")))};
}

bool PlanWeeksModel::hasLate(int stop) const {
  return anyLate(plan_.stops.at(static_cast<std::size_t>(stop)));
}

QVariant PlanWeeksModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() ||
      (role != Qt::DisplayRole && role != Qt::ToolTipRole && role != Qt::AccessibleTextRole)) {
    return {};
  }
  const Date first = monday_ + days(7 * index.row());
  if (index.column() == kWeek) {
    return tr("Week %1\n%2").arg(first.week_number()).arg(shownDate(first));
  }
  if (index.column() == kHours) {
    QStringList lines;
    for (const PlannedWeek& week : plan_.weeks) {
      if (week.week == isoWeek(first)) {
        lines << tr("%1: %2 of %3")
                     .arg(nameOf(*site_, week.person), hoursOf(week.planned), hoursOf(week.hours));
      }
    }
    return lines.join(u'\n');
  }
  QStringList lines;
  if (role != Qt::DisplayRole) {
    lines << shownDate(*dayAt(index)) + (isClosed(index) ? tr(", not a day of this plan") : QString());
  }
  for (const int stop : stopsAt(index)) {
    lines << lineOf(stop) + (hasLate(stop) ? tr(" (late)") : QString());
  }
  return lines.join(u'\n');
}

QVariant PlanWeeksModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
    return {};
  }
  if (section == kWeek) {
    return tr("Week");
  }
  if (section == kHours) {
    return tr("Hours planned");
  }
  return QLocale().dayName(section - kMonday + 1);
}

PlanStopsModel::PlanStopsModel(QObject* parent) : RowsModel(stopColumns(), parent) {}
NotPlannedModel::NotPlannedModel(QObject* parent) : RowsModel(notPlannedColumns(), parent) {}

}  // namespace spanwright
