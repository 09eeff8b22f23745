// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/decide_dialog.h"

#include <QApplication>
#include <QButtonGroup>
#include <QDateEdit>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>
#include <algorithm>

#include "gui/screens/passphrase_field.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/signer_fields.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/days.h"
#include "gui/words/standard_words.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kWide = 760;
constexpr int kGap = 8;
constexpr int kLabelWidth = 190;
constexpr int kUsualAllowance = 30;  // days proposed; the person changes them
/// Stands for any reason, to ask core whether a decision lacks nothing else.
constexpr const char* kSomeReason = "-";

QString deed(StandardAct act) {
  switch (act) {
    case StandardAct::outOfService:
      return DecideDialog::tr("Take out of service");
    case StandardAct::backInService:
      return DecideDialog::tr("Back in service");
    case StandardAct::useAllowed:
      break;
  }
  return DecideDialog::tr("Allow its use");
}

QString consequence(StandardAct act) {
  switch (act) {
    case StandardAct::outOfService:
      return DecideDialog::tr("No visit takes it from that day on, whatever its certificates say.");
    case StandardAct::backInService:
      return DecideDialog::tr("Its certificates count again from that day on.");
    case StandardAct::useAllowed:
      break;
  }
  return DecideDialog::tr(
      "Used on these days without a valid certificate; every certificate issued for such a visit says so.");
}

}  // namespace

DecideDialog::DecideDialog(Session& session, const QString& serial, QWidget* parent)
    : QDialog(parent), session_(session), serial_(serial), grid_(new QGridLayout(this)) {
  setWindowTitle(tr("Decide about standard %1").arg(serial));
  setMinimumWidth(onScreen(scaled(QSize(kWide, 0))).width());
  grid_->setHorizontalSpacing(18);
  grid_->setVerticalSpacing(5);
  grid_->setColumnStretch(1, 1);
  grid_->setColumnMinimumWidth(0, scaled(kLabelWidth));
  signer_ = new SignerFields(session, scaled(kLabelWidth), this);
  makeFacts();
  makeChoices();
  makeFields();
  connect(signer_, &SignerFields::personChanged, this, [this] {
    say({});
    showChoices();
  });
  showChoices();
  signer_->setFocus();
}

void DecideDialog::makeFacts() {
  const auto add = [this](const QString& name, const QString& text) {
    const int row = grid_->rowCount();
    auto* value = new QLabel(text, this);
    value->setTextFormat(Qt::PlainText);
    value->setAccessibleName(name);
    grid_->addWidget(new QLabel(name, this), row, 0);
    grid_->addWidget(value, row, 1);
  };
  for (const StandardStatus& status : standardsOn(session_.site(), session_.today())) {
    if (fromCore(status.standard->serial) == serial_) {
      add(tr("Standard"), QStringLiteral("%1  %2").arg(serial_, fromCore(status.standard->description)));
      add(tr("State today"), status.decision == nullptr
                                 ? word(status.state)
                                 : tr("%1: %2").arg(word(status.state), fromCore(status.decision->reason)));
      add(tr("Certificate"), status.certificate == nullptr
                                 ? tr("none")
                                 : tr("%1, %2").arg(fromCore(status.certificate->number),
                                                    shownDaysLeft(status.lastDay, status.daysLeft)));
    }
  }
}

void DecideDialog::makeChoices() {
  grid_->setRowMinimumHeight(grid_->rowCount(), kGap);
  group_ = new QButtonGroup(this);
  int row = grid_->rowCount() + 1;
  for (const StandardAct act :
       {StandardAct::outOfService, StandardAct::backInService, StandardAct::useAllowed}) {
    const Choice choice{act, new QRadioButton(deed(act), this), new QLabel(this)};
    choice.text->setWordWrap(true);
    choice.text->setTextFormat(Qt::PlainText);
    grid_->addWidget(choice.button, row, 0, Qt::AlignTop);
    grid_->addWidget(choice.text, row, 1);
    group_->addButton(choice.button, static_cast<int>(act));
    choices_.push_back(choice);
    ++row;
  }
  connect(group_, &QButtonGroup::idClicked, this, [this] {
    say({});
    showFields();
  });
}

void DecideDialog::makeFields() {
  const auto add = [this](QLabel* label, QWidget* field) {
    const int row = grid_->rowCount();
    label->setBuddy(field);
    grid_->addWidget(label, row, 0);
    grid_->addWidget(field, row, 1, Qt::AlignVCenter);
    return label;
  };
  grid_->setRowMinimumHeight(grid_->rowCount(), kGap);
  const auto makeDay = [this](const QString& name, int ahead) {
    auto* field = new QDateEdit(toQt(session_.today()).addDays(ahead), this);
    field->setCalendarPopup(true);
    field->setDisplayFormat(typedDateForm());
    field->setAccessibleName(name);
    return field;
  };
  first_ = makeDay(tr("First day"), 0);
  last_ = makeDay(tr("Last day"), kUsualAllowance);
  reason_ = new QLineEdit(this);
  reason_->setAccessibleName(tr("Reason, needed"));
  reason_->setPlaceholderText(tr("Why; it is signed with it"));
  add(new QLabel(tr("&From"), this), first_);
  lastLabel_ = add(new QLabel(tr("&To"), this), last_);
  add(new QLabel(tr("&Reason"), this), reason_);
  grid_->addWidget(signer_, grid_->rowCount(), 0, 1, 2);
  refusal_ = new RefusalLine(this);
  grid_->addWidget(refusal_, grid_->rowCount(), 1);
  auto* buttons = new QDialogButtonBox(this);
  accept_ = buttons->addButton(tr("Decide"), QDialogButtonBox::AcceptRole);
  accept_->setDefault(true);
  buttons->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  grid_->addWidget(buttons, grid_->rowCount(), 0, 1, 2);
  grid_->setRowStretch(grid_->rowCount(), 1);
  connect(buttons, &QDialogButtonBox::accepted, this, &DecideDialog::decide);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  for (QDateEdit* each : {first_, last_}) {
    connect(each, &QDateEdit::dateChanged, this, [this] {
      last_->setMinimumDate(first_->date());
      showChoices();
    });
  }
}

StandardEvent DecideDialog::wanted(StandardAct act, const std::string& reason) const {
  StandardEvent event;
  event.standard = toCore(serial_);
  event.act = act;
  event.firstDay = fromQt(first_->date());
  if (act == StandardAct::useAllowed) {
    event.lastDay = fromQt(last_->date());
  }
  event.person = toCore(signer_->person());
  event.reason = reason;
  return event;
}

void DecideDialog::showChoices() {
  const auto before = chosen();
  bool kept = false;
  for (const Choice& each : choices_) {
    const auto fault = decisionFault(session_.site(), wanted(each.act, kSomeReason), session_.today());
    each.button->setEnabled(!fault);
    each.text->setText(fault ? problemSentence(*fault) : consequence(each.act));
    each.button->setAccessibleDescription(each.text->text());
    kept = kept || (!fault && each.act == before);
  }
  if (!kept) {
    group_->setExclusive(false);  // else what was checked cannot be unchecked
    for (const Choice& each : choices_) {
      each.button->setChecked(false);
    }
    group_->setExclusive(true);
  }
  showFields();
}

void DecideDialog::showFields() {
  const auto act = chosen();
  for (QWidget* each : std::initializer_list<QWidget*>{lastLabel_, last_}) {
    each->setVisible(act == StandardAct::useAllowed);
  }
  accept_->setText(act ? deed(*act) : tr("Decide"));
  fit();
}

std::optional<StandardAct> DecideDialog::chosen() const {
  const int id = group_->checkedId();
  return id < 0 ? std::nullopt : std::optional(static_cast<StandardAct>(id));
}

void DecideDialog::decide() {
  const auto act = chosen();
  if (!act) {
    say(tr("Choose what is decided."));
    return;
  }
  const StandardEvent event = wanted(*act, toCore(reason_->text()));
  if (const auto fault = decisionFault(session_.site(), event, session_.today())) {
    reason_->setFocus();
    say(problemSentence(*fault));
    return;
  }
  Signer signer;
  if (const QString sentence = signer_->take(signer); !sentence.isEmpty()) {
    say(sentence);
    return;
  }
  QApplication::setOverrideCursor(Qt::WaitCursor);  // a key is slow to open, on purpose
  QString wrong;
  try {
    decideOnStandard(session_.store(), event, signer);
  } catch (const InputError& refused) {
    wrong = problemSentences(refused);
  } catch (const std::exception& error) {
    wrong = asSentence(QString::fromUtf8(error.what()));
  }
  wipe(signer.passphrase);
  QApplication::restoreOverrideCursor();
  if (!wrong.isEmpty()) {
    showChoices();
    say(wrong);
    return;
  }
  session_.setLastSigner(signer_->person());
  accept();
  emit decided(tr("Standard %1 is %2 from %3: signed by %4.")
                   .arg(serial_, word(event.act), shownDate(event.firstDay), signer_->person()));
}

void DecideDialog::say(const QString& sentence) {
  refusal_->say(sentence);
  fit();
}

void DecideDialog::fit() {
  grid_->activate();
  const int wide = std::max(width(), onScreen(scaled(QSize(kWide, 0))).width());
  resize(wide, grid_->totalHeightForWidth(wide));
}

QString DecideDialog::trouble() const {
  return refusal_->sentence();
}

}  // namespace spanwright
