// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/visit_header.h"

#include <QAbstractListModel>
#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <algorithm>

#include "core/record/reference_junction.h"
#include "core/units/number.h"
#include "core/units/quantity.h"
#include "gui/session/session.h"
#include "gui/settings/look.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/days.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

/// Shows in the box what is wrong with its text; nothing is when `sentence` is empty.
void markWrong(QLineEdit* box, const QString& sentence) {
  QPalette palette = box->parentWidget()->palette();
  if (!sentence.isEmpty()) {
    palette.setColor(QPalette::Text, toneColour(Tone::bad));
  }
  box->setPalette(palette);
  box->setToolTip(sentence);
}

/// A number typed for a condition; nothing when the text is not one, and the box says so.
std::optional<double> conditionOf(QLineEdit* box) {
  const auto number = parseNumber(toCore(box->text()), DecimalSign::either);
  const bool wrong = !number && !box->text().trimmed().isEmpty();
  markWrong(box,
            wrong ? VisitHeader::tr("\"%1\" is not a number; it is not kept.").arg(box->text()) : QString());
  return number ? std::optional(number->value) : std::nullopt;
}

/// The channels to choose from. The box's own list makes an item of each, which takes a second for a hundred
/// thousand.
class ChannelChoices : public QAbstractListModel {
 public:
  ChannelChoices(const Register& site, QObject* parent) : QAbstractListModel(parent) {
    for (const Channel& channel : site.channels) {
      if (!channel.retired && !channel.routines.empty()) {
        tags_ << fromCore(channel.tag);
        titles_ << fromCore(channel.title);
      }
    }
  }
  int rowCount(const QModelIndex& parent) const override {
    return parent.isValid() ? 0 : static_cast<int>(tags_.size());
  }
  QVariant data(const QModelIndex& index, int role) const override {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid)) {
      return {};
    }
    switch (role) {
      case Qt::DisplayRole:
      case Qt::EditRole:
        return QStringLiteral("%1  %2").arg(tags_[index.row()], titles_[index.row()]);
      case Qt::UserRole:
        return tags_[index.row()];
      default:
        return {};
    }
  }

 private:
  QStringList tags_, titles_;
};

}  // namespace

VisitHeader::VisitHeader(Session& session, VisitEntry& entry, QWidget* parent)
    : QWidget(parent), entry_(entry), session_(session) {
  QWidget* boxes[] = {makeWho(), makeUnderTest(), makeMeans(), makeCautions()};
  constexpr int kShares[] = {3, 7, 6, 6};
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setSpacing(8);
  const int inRow = sideBySide() == Qt::Horizontal ? 4 : 2;
  for (int i = 0; i < 4; ++i) {
    grid->addWidget(boxes[i], i / inRow, i % inRow);
    grid->setColumnStretch(i % inRow, inRow == 4 ? kShares[i] : 1);
  }
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);  // as high as its wrapped texts need
}

void VisitHeader::fillLists() {
  const Register& site = session_.site();
  filling_ = true;
  channel_->setModel(new ChannelChoices(site, channel_));  // which deletes the one before
  person_->clear();
  for (const Person& person : site.people) {
    const bool technician =
        std::find(person.roles.begin(), person.roles.end(), Role::technician) != person.roles.end();
    if (technician && !person.leftOn) {
      person_->addItem(fromCore(person.name), fromCore(person.login));
    }
  }
  filling_ = false;
}

void VisitHeader::fillSubjects(const Channel* channel) {
  subject_->clear();
  if (channel == nullptr) {
    return;
  }
  for (const Routine& routine : channel->routines) {
    subject_->addItem(word(routine.subject), static_cast<int>(routine.subject));
  }
}

Moment VisitHeader::when() const {
  const QDateTime at = when_->dateTime();
  return parseMoment(toCore(at.toString(Qt::ISODate))).value_or(Moment());
}

void VisitHeader::ask() {
  if (filling_ || channel_->currentIndex() < 0) {
    return;
  }
  const QString tag = channel_->currentData().toString();
  const Channel* channel = session_.site().channel(toCore(tag));
  Subject wanted = static_cast<Subject>(subject_->currentData().toInt());
  if (channel != nullptr && routineFor(*channel, wanted) == nullptr && !channel->routines.empty()) {
    wanted = channel->routines.front().subject;
  }
  emit sheetAsked(tag, wanted, when());
}

/// The tag without its dashes, or words that are found once; the box itself takes only the whole text.
void VisitHeader::takeTypedChannel() {
  const QString typed = channel_->lineEdit()->text().trimmed();
  if (typed.isEmpty() || channel_->findText(typed, Qt::MatchFixedString) >= 0) {
    return;
  }
  const auto bare = [](QString tag) {
    return tag.removeIf([](QChar c) { return !c.isLetterOrNumber(); }).toLower();
  };
  const FoundChannels found = session_.find(typed, 1);
  const QString first = found.tags.empty() ? QString() : fromCore(found.tags.front());
  const int at = found.matched == 1 || bare(first) == bare(typed) ? channel_->findData(first) : -1;
  if (at < 0) {
    channel_->lineEdit()->selectAll();
    emit unclear(found.matched > 1
                     ? tr("%1 channels match \"%2\"; type more of the tag.").arg(found.matched).arg(typed)
                     : tr("No channel in use matches \"%1\".").arg(typed));
    return;
  }
  channel_->setCurrentIndex(at);
  ask();
}

void VisitHeader::showChoice(const QString& channel, Subject subject, Moment moment) {
  filling_ = true;
  channel_->setCurrentIndex(channel_->findData(channel));
  channel_->lineEdit()->setCursorPosition(0);  // the tag, not the end of the title
  fillSubjects(session_.site().channel(toCore(channel)));
  subject_->setCurrentIndex(subject_->findData(static_cast<int>(subject)));
  when_->setDateTime(toQt(moment));
  for (QLabel* label : {setup_, sensor_, plan_, tolerance_, procedure_}) {
    label->setText(QStringLiteral("–"));
  }
  standards_->clear();
  noStandards_->hide();
  cautionText_->clear();
  confirm_->setChecked(false);
  confirm_->setEnabled(false);
  junctionRow_->hide();
  filling_ = false;
}

void VisitHeader::takeSheet(Moment moment) {
  const VisitSheet& sheet = entry_.sheet();
  const Draft draft = entry_.draft();
  showChoice(fromCore(draft.channel), draft.subject, moment);
  filling_ = true;
  const Unit reading = sheet.model->readingSpan().unit;
  setup_->setText(
      sheet.setup == nullptr
          ? QStringLiteral("–")
          : tr("%1: %2").arg(sheet.setup->version).arg(shownDescription(describe(sheet.setup->setup))));
  sensor_->setText(sheet.sensor == nullptr
                       ? tr("none fitted")
                       : QStringLiteral("%1, %2").arg(fromCore(sheet.sensor->serial),
                                                      shownDescription(describe(sheet.sensor->range))));
  plan_->setText(
      tr("%1 rev %2, %3")
          .arg(fromCore(sheet.plan->code), fromCore(sheet.plan->revision), fromCore(sheet.plan->title)));
  tolerance_->setText(tr("%1; adjust above %2 % of it")
                          .arg(shownDescription(describe(sheet.plan->tolerance, reading)))
                          .arg(qRound(sheet.plan->adjustLimit * 100.0)));
  procedure_->setText(sheet.plan->procedure.empty() ? QStringLiteral("–") : fromCore(sheet.plan->procedure));
  QString cautions;
  for (const std::string& caution : sheet.plan->cautions) {
    cautions += QStringLiteral("• ") + fromCore(caution) + u'\n';
  }
  cautions +=
      tr("• The site's own procedures and the responsible people decide whether work may begin; this program "
         "does not know that it is safe.");
  cautionText_->setText(cautions);
  confirm_->setEnabled(true);
  confirm_->setChecked(draft.cautionsConfirmed);
  const int known = person_->findData(draft.person.empty() ? kLastPerson.get() : fromCore(draft.person));
  person_->setCurrentIndex(std::max(known, 0));
  const auto number = [](const std::optional<double>& value) {
    return value ? shownValue(*value, 0.1) : QString();
  };
  temperature_->setText(number(draft.conditions.temperature));
  humidity_->setText(number(draft.conditions.humidity));
  note_->setText(fromCore(draft.conditions.note));
  junctionRow_->setVisible(sheet.couple() ||
                           draft.conditions.referenceJunction);  // what is there can be cleared
  junction_->setText(number(draft.conditions.referenceJunction));
  junction();
  fillStandards();
  filling_ = false;
  if (draft.person.empty()) {
    entry_.setPerson(person_->currentData().toString());
  }
}

void VisitHeader::fillStandards() {
  const auto usable = entry_.usableStandards();
  const auto& chosen = entry_.draft().standards;
  std::vector<std::string> inHand;
  for (const QString& serial : kLastStandards.get()) {
    inHand.push_back(toCore(serial));
  }
  const auto offers = chosen.empty() ? entry_.offeredStandards(inHand) : chosen;
  std::vector<std::string> checked;
  for (const Standard* standard : usable) {
    const auto* certificate = standardUse(*standard, entry_.sheet().when.date()).certificate;
    const QString until = certificate != nullptr ? shownDate(certificate->validUntil) : QStringLiteral("–");
    auto* item =
        new QListWidgetItem(tr("%1, valid until %2").arg(fromCore(standard->serial), until), standards_);
    item->setToolTip(tr("%1: %2, certificate %3, valid until %4")
                         .arg(fromCore(standard->serial), fromCore(standard->description),
                              certificate != nullptr ? fromCore(certificate->number) : QString(), until));
    item->setData(Qt::UserRole, fromCore(standard->serial));
    const bool ticked = std::find(offers.begin(), offers.end(), standard->serial) != offers.end();
    item->setCheckState(ticked ? Qt::Checked : Qt::Unchecked);
    if (ticked) {
      checked.push_back(standard->serial);
    }
  }

  if (standards_->count() > 0) {
    standards_->setCurrentRow(0);  // Space needs a current one to tick
  }
  noStandards_->setVisible(usable.empty());
  noStandards_->setText(tr("No standard with a certificate valid on %1 covers this sheet.")
                            .arg(shownDate(entry_.sheet().when.date())));
  if (checked != chosen) {
    entry_.setStandards(checked);
  }
}

void VisitHeader::goTo(VisitPart part) {
  QWidget* wanted = nullptr;
  switch (part) {
    case VisitPart::channel:
      wanted = channel_;
      channel_->lineEdit()->selectAll();
      break;
    case VisitPart::when:
      wanted = when_;
      break;
    case VisitPart::person:
      wanted = person_;
      break;
    case VisitPart::standards:
      wanted = standards_;
      break;
    case VisitPart::conditions:
      wanted = temperature_;
      break;
    case VisitPart::junction:
      wanted = junction_;
      break;
    case VisitPart::cautions:
      wanted = confirm_;
      break;
  }
  wanted->setFocus(Qt::ShortcutFocusReason);
}

void VisitHeader::takeConditions() {
  if (filling_ || !entry_.isOpen()) {
    return;
  }
  entry_.setConditions(
      {conditionOf(temperature_), conditionOf(humidity_), toCore(note_->text().trimmed()), junction()});
}

/// In degC, as typed with or without a unit; what is wrong with it is shown in its box.
std::optional<double> VisitHeader::junction() const {
  const QString text = junction_->text().trimmed();
  const auto typed = parseQuantity(toCore(text), DecimalSign::either);
  auto celsius = typed ? convert(typed->value, typed->unit.value_or(Unit::celsius), Unit::celsius)
                       : std::optional<double>();
  if (!celsius) {
    markWrong(junction_,
              text.isEmpty() ? QString() : tr("\"%1\" is not a temperature; it is not kept.").arg(text));
    return std::nullopt;
  }
  if (!junction_->isModified()) {
    celsius = entry_.draft().conditions.referenceJunction.value_or(*celsius);  // the shown digits are rounded
  }
  const auto fault = junctionFault(*celsius, entry_.sheet().couple());
  markWrong(junction_, fault ? problemSentence(*fault) : QString());
  return celsius;
}

void VisitHeader::confirm(bool confirmed) {
  if (filling_ || !entry_.isOpen()) {
    return;
  }
  // The values stand on the confirmation: a second Alt+P in mid-visit must not take it from under them.
  if (!confirmed && entry_.anyTyped()) {
    const QSignalBlocker quiet(confirm_);
    confirm_->setChecked(true);
    emit cautionsKept();
    return;
  }
  entry_.setCautionsConfirmed(confirmed);
  if (confirmed) {
    emit cautionsConfirmed();
  }
}

}  // namespace spanwright
