// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/due_model.h"

#include <fmt/format.h>

#include <limits>
#include <map>

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

std::string DueModel::smallText(const DueItem& item) {
  return smallLetters(fmt::format("{} {} {}", item.channel, item.place, item.reason));
}

void DueModel::setDue(Rows due, SmallTexts small) {
  small_ = std::move(small);
  shareRows(std::move(due));
}

void DueModel::narrowTo(const Narrowed& by) {
  const auto words = std::make_shared<const SearchWords>(by.words);
  std::map<std::pair<Subject, DueState>, std::string> named;
  for (const Subject subject : {Subject::channel, Subject::sensor, Subject::loop}) {
    for (const DueState state :
         {DueState::unproven, DueState::overdue, DueState::inGrace, DueState::dueSoon, DueState::ok}) {
      named[{subject, state}] = smallLetters(toCore(word(subject) + u' ' + word(state)));
    }
  }
  narrow([this, by, words, named = std::move(named)](std::size_t at) {
    const DueItem& item = rows()[at];
    if ((by.state && item.due.state != *by.state) ||
        (by.until && item.due.dueOn && *item.due.dueOn > *by.until)) {
      return false;
    }
    const std::string& more = named.at({item.subject, item.due.state});
    return small_ && small_->size() == rows().size() ? words->standIn((*small_)[at], more)
                                                     : words->standIn(smallText(item), more);
  });
}

}  // namespace spanwright
