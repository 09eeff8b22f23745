// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/sign_dialog.h"

#include <QAccessible>
#include <QApplication>
#include <QButtonGroup>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>
#include <algorithm>
#include <string>
#include <utility>

#include "core/tasks/signing.h"
#include "gui/screens/passphrase_field.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/doubt_words.h"
#include "gui/words/life_words.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kWide = 820;
constexpr int kGap = 8;
constexpr int kDigestShown = 16;  // digits of 64
constexpr int kSign = 16;
/// Stands for any reason, to ask core whether an act lacks nothing else.
const QString kSomeReason = QStringLiteral("-");

Calibration known(const Store& store, CalibrationId id) {
  auto calibration = store.calibration(id);
  if (!calibration) {
    throw InputError(toCore(SignDialog::tr("there is no calibration %1 in the record").arg(id)),
                     toCore(SignDialog::tr("choose one that is listed")));
  }
  return *std::move(calibration);
}

/// What cannot be taken back is never chosen for a person.
bool goesOn(LifeAct act) {
  return act != LifeAct::sentBack && act != LifeAct::withdrawn;
}

QLabel* wrapped(QWidget* parent) {
  auto* label = new QLabel(parent);
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  return label;
}

}  // namespace

SignDialog::SignDialog(Session& session, CalibrationId calibration, QWidget* parent)
    : QDialog(parent),
      session_(session),
      id_(calibration),
      subject_(known(session.store(), calibration)),
      grid_(new QGridLayout(this)) {
  setWindowTitle(tr("Sign calibration %1").arg(id_));
  grid_->setHorizontalSpacing(18);
  grid_->setVerticalSpacing(5);
  grid_->setColumnStretch(1, 1);
  makeFacts();
  makeChoices();
  makeFields();
  makeFoot();
  setMinimumWidth(onScreen(scaled(QSize(kWide, 0))).width());
  takePeople();
  takeLife();
  proposePerson();
  passphrase_->setFocus();
}

QLabel* SignDialog::markOf(const QIcon& icon) {
  auto* mark = new QLabel(this);
  mark->setPixmap(icon.pixmap(scaled(QSize(kSign, kSign))));
  return mark;
}

QLabel* SignDialog::addFact(const QString& name, const QString& text, QLabel* mark) {
  const int row = grid_->rowCount();
  auto* value = wrapped(this);
  value->setText(text);
  value->setAccessibleName(name);
  grid_->addWidget(new QLabel(name, this), row, 0, Qt::AlignTop);
  if (mark == nullptr) {
    grid_->addWidget(value, row, 1);
    return value;
  }
  auto* line = new QHBoxLayout;
  line->setSpacing(6);
  line->addWidget(mark);
  line->addWidget(value, 1);
  grid_->addLayout(line, row, 1);
  return value;
}

void SignDialog::makeFacts() {
  const Register& site = session_.site();
  const Channel* channel = site.channel(subject_.channel);
  const Person* by = site.person(subject_.person);
  addFact(tr("Channel"),
          QStringLiteral("%1  %2").arg(fromCore(subject_.channel),
                                       channel != nullptr ? fromCore(channel->title) : QString()));
  addFact(tr("Calibration"), tr("%1, of the %2, %3, by %4")
                                 .arg(id_)
                                 .arg(wordInside(subject_.subject), shownMoment(subject_.performed),
                                      by != nullptr ? fromCore(by->name) : fromCore(subject_.person)));
  addFact(tr("As found"), word(subject_.foundVerdict), markOf(iconOf(subject_.foundVerdict)));
  addFact(tr("As left"), word(subject_.leftVerdict), markOf(iconOf(subject_.leftVerdict)));
  if (const auto doubts = doubtsAbout(session_.store(), subject_); !doubts.empty()) {
    addFact(tr("Looks odd"), doubtsSentence(doubts), markOf(markIcon(Mark::exclaim, Tone::attention)));
  }
  if (subject_.corrects != 0) {
    addFact(tr("Corrects"),
            tr("calibration %1: %2").arg(subject_.corrects).arg(fromCore(subject_.correctionReason)));
  }
  const QString digest = fromCore(hex(session_.store().calibrationDigest(id_)));
  auto* shortened =
      addFact(tr("Digest"), tr("%1… of its readings and standards").arg(digest.left(kDigestShown)));
  shortened->setToolTip(digest);
  shortened->setAccessibleDescription(digest);
  stateSign_ = new QLabel(this);
  state_ = addFact(tr("State"), {}, stateSign_);
  signatures_ = addFact(tr("Signatures"), {});
}

void SignDialog::makeChoices() {
  grid_->setRowMinimumHeight(grid_->rowCount(), kGap);
  const int first = grid_->rowCount();
  person_ = new QComboBox(this);
  person_->setAccessibleName(tr("Who signs"));
  auto* label = new QLabel(tr("&Who signs"), this);
  label->setBuddy(person_);
  grid_->addWidget(label, first, 0);
  grid_->addWidget(person_, first, 1);
  group_ = new QButtonGroup(this);
  for (const LifeAct act :
       {LifeAct::performed, LifeAct::reviewed, LifeAct::approved, LifeAct::sentBack, LifeAct::withdrawn}) {
    const Choice choice{act, new QRadioButton(deed(act), this), wrapped(this)};
    const int row = grid_->rowCount();
    grid_->addWidget(choice.button, row, 0, Qt::AlignTop);
    grid_->addWidget(choice.text, row, 1);
    group_->addButton(choice.button, static_cast<int>(act));
    choices_.push_back(choice);
  }
  connect(person_, &QComboBox::currentIndexChanged, this, [this] {
    say({});
    showChoices();
  });
  connect(group_, &QButtonGroup::idClicked, this, [this] {
    say({});
    showFields();
  });
}

void SignDialog::makeFields() {
  grid_->setRowMinimumHeight(grid_->rowCount(), kGap);
  const auto add = [this](QLabel* label, QLineEdit* field) {
    const int row = grid_->rowCount();
    label->setBuddy(field);
    grid_->addWidget(label, row, 0);
    grid_->addWidget(field, row, 1);
  };
  reasonLabel_ = new QLabel(this);
  reason_ = new QLineEdit(this);
  add(reasonLabel_, reason_);
  passphrase_ = new PassphraseField(tr("Passphrase"), this);
  add(new QLabel(tr("&Passphrase"), this), passphrase_);
  againLabel_ = new QLabel(tr("&Once more"), this);
  again_ = new PassphraseField(tr("Passphrase once more"), this);
  add(againLabel_, again_);
  firstTime_ = wrapped(this);
  firstTime_->setAccessibleName(tr("First signature"));
  grid_->addWidget(firstTime_, grid_->rowCount(), 1);
}

void SignDialog::makeFoot() {
  grid_->setRowMinimumHeight(grid_->rowCount(), kGap);
  sign_ = markOf(markIcon(Mark::triangle, Tone::bad));
  trouble_ = wrapped(this);
  trouble_->setAccessibleName(tr("Message"));
  auto* line = new QHBoxLayout;
  line->setSpacing(6);
  line->addWidget(sign_, 0, Qt::AlignTop);
  line->addWidget(trouble_, 1, Qt::AlignTop);
  grid_->addLayout(line, grid_->rowCount(), 1);
  auto* buttons = new QDialogButtonBox(this);
  accept_ = buttons->addButton(tr("Sign"), QDialogButtonBox::AcceptRole);
  accept_->setDefault(true);
  buttons->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  grid_->addWidget(buttons, grid_->rowCount(), 0, 1, 2);
  grid_->setRowStretch(grid_->rowCount(), 1);
  connect(buttons, &QDialogButtonBox::accepted, this, &SignDialog::sign);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  say({});
}

void SignDialog::fit() {
  grid_->activate();
  const int wide = std::max(width(), onScreen(scaled(QSize(kWide, 0))).width());
  resize(wide, grid_->totalHeightForWidth(wide));
}

void SignDialog::takePeople() {
  const QSignalBlocker quiet(person_);
  for (const Person& each : session_.site().people) {
    if (each.leftOn && *each.leftOn <= session_.today()) {
      continue;
    }
    QStringList roles;
    for (const Role role : each.roles) {
      roles << word(role);
    }
    person_->addItem(tr("%1, %2 (%3)").arg(fromCore(each.login), fromCore(each.name), roles.join(", ")),
                     fromCore(each.login));
  }
  const int last = person_->findData(session_.lastSigner());
  const int maker = person_->findData(fromCore(subject_.person));
  person_->setCurrentIndex(last >= 0 ? last : maker >= 0 ? maker : 0);
}

void SignDialog::proposePerson() {
  const auto signsNow = [this](const QString& login) {
    return std::any_of(choices_.begin(), choices_.end(), [&](const Choice& each) {
      return goesOn(each.act) && !actFault(session_.site(), subject_, events_,
                                           {each.act, toCore(login), toCore(kSomeReason), session_.today()});
    });
  };
  for (int at = -1; at < person_->count(); ++at) {  // who is proposed already before everybody else
    const int one = at < 0 ? person_->currentIndex() : at;
    if (signsNow(person_->itemData(one).toString())) {
      person_->setCurrentIndex(one);
      return;
    }
  }
}

void SignDialog::takeLife() {
  try {
    const auto all = signatures(session_.store(), id_);
    events_.clear();
    for (const Signature& each : all) {
      events_.push_back(each.event);
    }
    signatures_->setText(signatureLines(all));
  } catch (const std::exception& error) {
    say(asSentence(QString::fromUtf8(error.what())));
  }
  const LifeState state = stateAfter(events_);
  stateSign_->setPixmap(iconOf(state).pixmap(scaled(QSize(kSign, kSign))));
  state_->setText(word(state));
  showChoices();
}

std::optional<Problem> SignDialog::faultOf(LifeAct act, const QString& reason) const {
  return actFault(session_.site(), subject_, events_,
                  {act, toCore(person()), toCore(reason), session_.today()});
}

bool SignDialog::needsReason(LifeAct act) const {
  return faultOf(act, {}).has_value() && !faultOf(act, kSomeReason);
}

void SignDialog::showChoices() {
  const auto before = chosen();
  QRadioButton* first = nullptr;
  bool kept = false;
  for (const Choice& each : choices_) {
    const auto fault = faultOf(each.act, kSomeReason);
    each.button->setEnabled(!fault);
    each.text->setText(fault ? problemSentence(*fault) : consequence(each.act));
    each.button->setAccessibleDescription(each.text->text());
    kept = kept || (!fault && each.act == before);
    first = first == nullptr && !fault && goesOn(each.act) ? each.button : first;
  }
  if (!kept) {
    group_->setExclusive(false);  // else what was checked cannot be unchecked
    for (const Choice& each : choices_) {
      each.button->setChecked(each.button == first);
    }
    group_->setExclusive(true);
  }
  showFields();
}

void SignDialog::showFields() {
  const auto act = chosen();
  const bool needed = act && needsReason(*act);
  reasonLabel_->setText(needed ? tr("&Reason") : tr("&Remark"));
  reason_->setPlaceholderText(needed ? tr("Why; it is signed with it")
                                     : tr("May stay empty; it is signed with it"));
  reason_->setAccessibleName(needed ? tr("Reason, needed") : tr("Remark"));
  const bool first = isFirstTime();
  firstTime_->setText(
      first ? tr("%1 has no key yet. Signing makes one under the passphrase typed here, at least %2 "
                 "characters; nobody can read it back, and it is asked for at each signature.")
                  .arg(person())
                  .arg(kShortestPassphrase)
            : QString());
  for (QWidget* each : std::initializer_list<QWidget*>{again_, againLabel_, firstTime_}) {
    each->setVisible(first);
  }
  accept_->setText(act ? deed(*act) : tr("Sign"));
  accept_->setEnabled(act.has_value());
  fit();
}

std::optional<LifeAct> SignDialog::chosen() const {
  const int id = group_->checkedId();
  return id < 0 ? std::nullopt : std::optional(static_cast<LifeAct>(id));
}

QString SignDialog::person() const {
  return person_->currentData().toString();
}

bool SignDialog::isFirstTime() const {
  try {
    return !person().isEmpty() && !session_.store().personKey(toCore(person()));
  } catch (const std::exception&) {
    return false;  // signing says what is wrong with the record
  }
}

QString SignDialog::notReady() {
  const auto act = chosen();
  if (!act) {
    return tr("Choose what to sign.");
  }
  if (const auto fault = faultOf(*act, reason_->text())) {
    if (needsReason(*act)) {
      reason_->setFocus();
    }
    return problemSentence(*fault);
  }
  if (passphrase_->text().isEmpty()) {
    passphrase_->setFocus();
    return tr("Type the passphrase of %1.").arg(person());
  }
  return {};
}

void SignDialog::sign() {
  if (QString sentence = notReady(); !sentence.isEmpty()) {
    say(sentence);
    return;
  }
  const bool first = isFirstTime();
  Signer signer{toCore(person()), {}, {}};
  Wiped typed(passphrase_->take());
  Wiped twice(again_->take());
  passphrase_->setFocus();
  if (first && typed.text() != twice.text()) {
    say(tr("The two passphrases differ; type the same one twice."));
    return;
  }
  signer.passphrase.swap(typed.text());
  QApplication::setOverrideCursor(Qt::WaitCursor);  // a key is slow to open, on purpose
  QString wrong, done;
  try {
    const LifeEvent event =
        signCalibration(session_.store(), id_, *chosen(), signer, toCore(reason_->text()));
    done = tr("Calibration %1 of %2 is %3: signed by %4, %5 UTC.")
               .arg(id_)
               .arg(fromCore(subject_.channel), word(event.act), fromCore(event.person),
                    shownMoment(event.atUtc));
  } catch (const InputError& refused) {
    wrong = problemSentences(refused);
  } catch (const std::exception& error) {
    wrong = asSentence(QString::fromUtf8(error.what()));
  }
  wipe(signer.passphrase);
  QApplication::restoreOverrideCursor();
  if (!wrong.isEmpty()) {
    takeLife();
    say(wrong);
    return;
  }
  session_.setLastSigner(person());
  accept();
  emit signedNow(done);
}

void SignDialog::say(const QString& sentence) {
  trouble_->setText(sentence);
  sign_->setVisible(!sentence.isEmpty());
  trouble_->setVisible(!sentence.isEmpty());
  fit();
  if (!sentence.isEmpty()) {
    QAccessibleEvent alert(trouble_, QAccessible::Alert);
    QAccessible::updateAccessibility(&alert);
  }
}

QString SignDialog::trouble() const {
  return trouble_->text();
}

}  // namespace spanwright
