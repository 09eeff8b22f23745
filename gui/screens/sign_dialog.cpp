// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/sign_dialog.h"

#include <QAccessible>
#include <QApplication>
#include <QButtonGroup>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>
#include <QVBoxLayout>

#include "core/tasks/signing.h"
#include "gui/screens/passphrase_field.h"
#include "gui/session/session.h"
#include "gui/words/life_words.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kWide = 760;
constexpr int kDigestShown = 16;  // digits of 64
constexpr int kSign = 16;
/// Stands for any reason, to ask core whether an act lacks nothing else.
const QString kSomeReason = QStringLiteral("-");

QLabel* wrapped(QWidget* parent) {
  auto* label = new QLabel(parent);
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  return label;
}

}  // namespace

SignDialog::SignDialog(Session& session, CalibrationId calibration, QWidget* parent)
    : QDialog(parent), session_(session), id_(calibration) {
  setWindowTitle(tr("Sign calibration %1").arg(id_));
  auto* column = new QVBoxLayout(this);
  column->setSpacing(10);
  subject_ = session_.store().calibration(id_);
  column->addWidget(makeFacts());
  column->addWidget(makeChoices());
  column->addWidget(makeFields());
  column->addWidget(makeFoot());
  setMinimumWidth(kWide);
  takePeople();
  takeLife();
  passphrase_->setFocus();
}

void SignDialog::addFact(QFormLayout* form, const QString& name, const QString& text, const QIcon& icon) {
  auto* value = wrapped(this);
  value->setText(text);
  value->setAccessibleName(name);
  if (icon.isNull()) {
    form->addRow(name, value);
    return;
  }
  auto* row = new QHBoxLayout;
  auto* mark = new QLabel(this);
  mark->setPixmap(icon.pixmap(kSign, kSign));
  row->addWidget(mark);
  row->addWidget(value, 1);
  form->addRow(name, row);
}

QWidget* SignDialog::makeFacts() {
  auto* box = new QWidget(this);
  auto* form = new QFormLayout(box);
  form->setContentsMargins(0, 0, 0, 0);
  form->setVerticalSpacing(4);
  form->setHorizontalSpacing(16);
  if (!subject_) {
    addFact(form, tr("Calibration"), tr("There is no calibration %1 in the record.").arg(id_));
  } else {
    const Register& site = session_.site();
    const Channel* channel = site.channel(subject_->channel);
    const Person* by = site.person(subject_->person);
    addFact(form, tr("Channel"),
            QStringLiteral("%1  %2").arg(fromCore(subject_->channel),
                                         channel ? fromCore(channel->title) : QString()));
    addFact(form, tr("Calibration"),
            tr("%1, of the %2, %3, by %4")
                .arg(id_)
                .arg(word(subject_->subject).toLower(), shownMoment(subject_->performed),
                     by != nullptr ? fromCore(by->name) : fromCore(subject_->person)));
    addFact(form, tr("As found"), word(subject_->foundVerdict), iconOf(subject_->foundVerdict));
    addFact(form, tr("As left"), word(subject_->leftVerdict), iconOf(subject_->leftVerdict));
    if (subject_->corrects != 0) {
      addFact(form, tr("Corrects"),
              tr("calibration %1: %2").arg(subject_->corrects).arg(fromCore(subject_->correctionReason)));
    }
    const QString digest = fromCore(hex(session_.store().calibrationDigest(id_)));
    auto* shortened = wrapped(box);
    shortened->setText(tr("%1… of its readings and what they rest on").arg(digest.left(kDigestShown)));
    shortened->setToolTip(digest);
    shortened->setAccessibleName(tr("Digest"));
    shortened->setAccessibleDescription(digest);
    form->addRow(tr("Digest"), shortened);
  }
  auto* row = new QHBoxLayout;
  stateSign_ = new QLabel(box);
  state_ = wrapped(box);
  state_->setAccessibleName(tr("State"));
  row->addWidget(stateSign_);
  row->addWidget(state_, 1);
  form->addRow(tr("State"), row);
  signatures_ = wrapped(box);
  signatures_->setAccessibleName(tr("Signatures"));
  form->addRow(tr("Signatures"), signatures_);
  return box;
}

QWidget* SignDialog::makeChoices() {
  auto* box = new QWidget(this);
  auto* grid = new QGridLayout(box);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(16);
  grid->setVerticalSpacing(6);
  grid->setColumnStretch(1, 1);
  person_ = new QComboBox(box);
  person_->setAccessibleName(tr("Who signs"));
  auto* label = new QLabel(tr("&Who signs"), box);
  label->setBuddy(person_);
  grid->addWidget(label, 0, 0);
  grid->addWidget(person_, 0, 1);
  group_ = new QButtonGroup(this);
  for (const LifeAct act :
       {LifeAct::performed, LifeAct::reviewed, LifeAct::approved, LifeAct::sentBack, LifeAct::withdrawn}) {
    const Choice choice{act, new QRadioButton(deed(act), box), wrapped(box)};
    const int row = grid->rowCount();
    grid->addWidget(choice.button, row, 0, Qt::AlignTop);
    grid->addWidget(choice.text, row, 1);
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
  return box;
}

QWidget* SignDialog::makeFields() {
  auto* box = new QWidget(this);
  auto* form = new QFormLayout(box);
  form->setContentsMargins(0, 0, 0, 0);
  form->setVerticalSpacing(6);
  form->setHorizontalSpacing(16);
  reason_ = new QLineEdit(box);
  reasonLabel_ = new QLabel(box);
  reasonLabel_->setBuddy(reason_);
  form->addRow(reasonLabel_, reason_);
  passphrase_ = new PassphraseField(tr("Passphrase"), box);
  auto* label = new QLabel(tr("&Passphrase"), box);
  label->setBuddy(passphrase_);
  form->addRow(label, passphrase_);
  again_ = new PassphraseField(tr("Passphrase once more"), box);
  againLabel_ = new QLabel(tr("&Once more"), box);
  againLabel_->setBuddy(again_);
  form->addRow(againLabel_, again_);
  firstTime_ = wrapped(box);
  firstTime_->setAccessibleName(tr("First signature"));
  form->addRow(QString(), firstTime_);
  return box;
}

QWidget* SignDialog::makeFoot() {
  auto* box = new QWidget(this);
  sign_ = new QLabel(box);
  sign_->setPixmap(markIcon(Mark::triangle, Tone::bad).pixmap(kSign, kSign));
  trouble_ = wrapped(box);
  trouble_->setAccessibleName(tr("Message"));
  auto* buttons = new QDialogButtonBox(box);
  accept_ = buttons->addButton(tr("Sign"), QDialogButtonBox::AcceptRole);
  accept_->setDefault(true);
  buttons->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->addWidget(sign_, 0, Qt::AlignTop);
  row->addWidget(trouble_, 1, Qt::AlignTop);
  row->addWidget(buttons, 0, Qt::AlignBottom);
  connect(buttons, &QDialogButtonBox::accepted, this, &SignDialog::sign);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  say({});
  return box;
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
  const int maker = subject_ ? person_->findData(fromCore(subject_->person)) : -1;
  person_->setCurrentIndex(last >= 0 ? last : maker >= 0 ? maker : 0);
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
  stateSign_->setPixmap(iconOf(state).pixmap(kSign, kSign));
  state_->setText(word(state));
  showChoices();
}

std::optional<Problem> SignDialog::faultOf(LifeAct act, const QString& reason) const {
  if (!subject_) {
    return Problem{{}, "there is no such calibration", "choose one that is listed"};
  }
  return actFault(session_.site(), *subject_, events_,
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
    each.text->setEnabled(!fault);
    each.button->setAccessibleDescription(each.text->text());
    kept = kept || (!fault && each.act == before);
    // What cannot be taken back is never chosen for a person.
    const bool signs = each.act != LifeAct::sentBack && each.act != LifeAct::withdrawn;
    first = first == nullptr && !fault && signs ? each.button : first;
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
               .arg(fromCore(subject_->channel), word(event.act), fromCore(event.person),
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
  if (!sentence.isEmpty()) {
    QAccessibleEvent alert(trouble_, QAccessible::Alert);
    QAccessible::updateAccessibility(&alert);
  }
}

QString SignDialog::trouble() const {
  return trouble_->text();
}

}  // namespace spanwright
