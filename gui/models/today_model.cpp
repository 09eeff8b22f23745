// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/today_model.h"

#include <QFont>

#include "gui/words/marks.h"
#include "gui/words/standard_words.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr quintptr kGroup = 0;  // internal id of a group; a line has its group's number plus one

QString nameOf(const Register& site, const std::string& login) {
  const Person* person = site.person(login);
  return fromCore(person != nullptr ? person->name : login);
}

QString placeOf(const Register& site, const std::string& tag) {
  const Channel* channel = site.channel(tag);
  return channel != nullptr ? fromCore(channel->place) : QString();
}

QString whatOf(const std::string& channel, Subject subject) {
  return QStringLiteral("%1  %2").arg(fromCore(channel), wordInside(subject));
}

}  // namespace

TodayModel::TodayModel(QObject* parent) : QAbstractItemModel(parent) {}

void TodayModel::setToday(const Today& today, const Register& site, Known known) {
  beginResetModel();
  groups_.clear();
  if (today.concerns.visits) {
    addRounds(today);
    addVisits(today, site);
  }
  if (today.concerns.reviews) {
    addReviews(today, site);
  }
  if (today.concerns.due) {
    addDue(today, site, known.due);
    addSteps(today, known.drift);
  }
  addStandards(today);
  endResetModel();
}

void TodayModel::addRounds(const Today& today) {
  Group group{
      tr("Rounds to walk"), markIcon(Mark::ring, Tone::accent), today.rounds.size(), true, ToRound{}, {}};
  for (const RoundToWalk& each : today.rounds) {
    const bool begun = each.done > 0;
    group.lines.push_back(
        {each.next ? markIcon(begun ? Mark::halfDisc : Mark::ring, begun ? Tone::attention : Tone::accent)
                   : markIcon(Mark::check, Tone::good),
         {fromCore(each.round.name), each.next ? fromCore(each.next->place) : QString(),
          tr("%1 of %2 done").arg(each.done).arg(each.round.stops.size()),
          each.next ? tr("next %1; F8 goes there").arg(fromCore(each.next->stop.channel))
                    : tr("every stop is done; the round can be closed")},
         ToRound{each.round.id}});
  }
  groups_.push_back(std::move(group));
}

void TodayModel::addVisits(const Today& today, const Register& site) {
  Group drafts{
      tr("Drafts to finish"), markIcon(Mark::halfDisc, Tone::attention), today.drafts.size(), true, {}, {}};
  for (const Draft& each : today.drafts) {
    drafts.lines.push_back(
        {markIcon(Mark::halfDisc, Tone::attention),
         {whatOf(each.channel, each.subject), placeOf(site, each.channel),
          tr("begun %1").arg(shownMoment(each.started)),
          counted(static_cast<int>(each.values.size()), tr("1 value typed"), tr("%1 values typed"))},
         ToDraft{each.id}});
  }
  groups_.push_back(std::move(drafts));
  Group back{tr("Sent back"), iconOf(LifeState::sentBack), today.sentBack.size(), true, ToReview{}, {}};
  for (const SentBack& each : today.sentBack) {
    Line line = lineOf(each.calibration, site);
    line.text[kNote] = tr("%1: %2").arg(nameOf(site, each.by), fromCore(each.reason));
    back.lines.push_back(std::move(line));
  }
  groups_.push_back(std::move(back));
  Group open{tr("To sign"), iconOf(LifeState::recorded), today.toSign.size(), true, {}, {}};
  for (const CalibrationSummary& each : today.toSign) {
    open.lines.push_back(lineOf(each, site));
  }
  groups_.push_back(std::move(open));
}

TodayModel::Line TodayModel::lineOf(const CalibrationSummary& calibration, const Register& site) {
  return {iconOf(calibration.state),
          {whatOf(calibration.channel, calibration.subject), placeOf(site, calibration.channel),
           tr("performed %1").arg(shownMoment(calibration.performed)),
           tr("by %1; as found %2, as left %3")
               .arg(nameOf(site, calibration.person), word(calibration.foundVerdict),
                    word(calibration.leftVerdict))},
          ToCalibration{fromCore(calibration.channel), calibration.id}};
}

void TodayModel::addReviews(const Today& today, const Register& site) {
  const auto add = [&](const QString& name, const std::vector<CalibrationSummary>& waiting, LifeState state) {
    Group group{name, iconOf(state), waiting.size(), true, ToReview{}, {}};
    for (const CalibrationSummary& each : waiting) {
      group.lines.push_back(lineOf(each, site));
    }
    groups_.push_back(std::move(group));
  };
  add(tr("To review"), today.toReview, LifeState::performed);
  add(tr("To approve"), today.toApprove, LifeState::reviewed);
}

void TodayModel::addDue(const Today& today, const Register& site, bool known) {
  for (const DueGroup& due : today.due) {
    Group group{word(due.state), iconOf(due.state), due.count, known, ToDueList{due.state}, {}};
    for (const DueItem& each : due.first) {
      group.lines.push_back({iconOf(due.state),
                             {whatOf(each.channel, each.subject), placeOf(site, each.channel),
                              each.due.dueOn ? tr("due %1").arg(shownDate(*each.due.dueOn)) : tr("due now"),
                              fromCore(each.reason)},
                             ToChannel{fromCore(each.channel)}});
    }
    if (due.count > due.first.size()) {
      group.lines.push_back(
          moreOf(due.count - due.first.size(), tr("in the due list"), ToDueList{due.state}));
    }
    groups_.push_back(std::move(group));
  }
}

TodayModel::Line TodayModel::moreOf(std::size_t more, const QString& where, const TodayTarget& target) {
  return {{}, {counted(static_cast<int>(more), tr("1 more"), tr("%1 more")), {}, {}, where}, target};
}

void TodayModel::addSteps(const Today& today, bool known) {
  const StepGroup& steps = today.steps;
  Group group{tr("Steps nobody recorded"),
              markIcon(Mark::exclaim, Tone::attention),
              steps.count,
              known,
              ToSteps{},
              {}};
  for (const StepToSee& each : steps.first) {
    group.lines.push_back(
        {markIcon(Mark::exclaim, Tone::attention),
         {whatOf(each.channel, each.subject), fromCore(each.place),
          each.finding.before ? tr("by %1").arg(shownDate(*each.finding.before)) : QString(),
          asSentence(fromCore(each.finding.words))},
         ToChannel{fromCore(each.channel)}});
  }
  if (steps.count > steps.first.size()) {
    group.lines.push_back(moreOf(steps.count - steps.first.size(), tr("on the page of drift"), ToSteps{}));
  }
  groups_.push_back(std::move(group));
}

void TodayModel::addStandards(const Today& today) {
  Group group{tr("Standards running out or out of use"),
              iconOf(StandardState::outOfService),
              today.standards.size(),
              true,
              ToStandard{},
              {}};
  for (const StandardToSee& each : today.standards) {
    const QString state = word(each.state);
    group.lines.push_back(
        {iconOf(each.state),
         {fromCore(each.serial), fromCore(each.description), shownDaysLeft(each.lastDay, each.daysLeft),
          each.reason.empty() ? state : tr("%1: %2").arg(state, fromCore(each.reason))},
         ToStandard{fromCore(each.serial)}});
  }
  groups_.push_back(std::move(group));
}

TodayTarget TodayModel::target(const QModelIndex& index) const {
  if (!index.isValid()) {
    return {};
  }
  if (index.internalId() == kGroup) {
    return groups_.at(static_cast<std::size_t>(index.row())).target;
  }
  return groups_.at(index.internalId() - 1).lines.at(static_cast<std::size_t>(index.row())).target;
}

QModelIndex TodayModel::index(int row, int column, const QModelIndex& parent) const {
  if (!hasIndex(row, column, parent)) {
    return {};
  }
  return createIndex(row, column, parent.isValid() ? static_cast<quintptr>(parent.row()) + 1 : kGroup);
}

QModelIndex TodayModel::parent(const QModelIndex& index) const {
  return !index.isValid() || index.internalId() == kGroup
             ? QModelIndex()
             : createIndex(static_cast<int>(index.internalId()) - 1, 0, kGroup);
}

int TodayModel::rowCount(const QModelIndex& parent) const {
  if (!parent.isValid()) {
    return static_cast<int>(groups_.size());
  }
  return parent.internalId() == kGroup && parent.column() == 0
             ? static_cast<int>(groups_.at(static_cast<std::size_t>(parent.row())).lines.size())
             : 0;
}

int TodayModel::columnCount(const QModelIndex&) const {
  return kColumnCount;
}

QString TodayModel::groupText(const Group& group) {
  if (!group.known) {
    return tr("%1: being worked out").arg(group.name);
  }
  return group.count == 0 ? tr("%1: none").arg(group.name)
                          : QStringLiteral("%1: %2").arg(group.name).arg(group.count);
}

QVariant TodayModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) {
    return {};
  }
  if (index.internalId() == kGroup) {
    const Group& group = groups_.at(static_cast<std::size_t>(index.row()));
    if (role == Qt::FontRole) {
      QFont font;
      font.setBold(group.count > 0);
      return font;
    }
    if (index.column() != kWhat) {
      return {};
    }
    if (role == Qt::DecorationRole) {
      return group.count > 0 ? group.icon : markIcon(Mark::check, Tone::quiet);
    }
    return role == Qt::DisplayRole ? groupText(group) : QVariant();
  }
  const Line& line = groups_.at(index.internalId() - 1).lines.at(static_cast<std::size_t>(index.row()));
  switch (role) {
    case Qt::DisplayRole:
    case Qt::ToolTipRole:
      return line.text[index.column()];
    case Qt::DecorationRole:
      return index.column() == kWhat ? QVariant(line.icon) : QVariant();
    default:
      return {};
  }
}

QVariant TodayModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
    return {};
  }
  switch (section) {
    case kWhat:
      return tr("What");
    case kWhere:
      return tr("Where");
    case kWhen:
      return tr("When");
    case kNote:
      return tr("Note");
    default:
      return {};
  }
}

}  // namespace spanwright
