// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/signer_fields.h"

#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <algorithm>

#include "gui/screens/passphrase_field.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/words/words.h"

namespace spanwright {

QComboBox* makePersonBox(Session& session, const QString& accessibleName, QWidget* parent) {
  auto* box = new QComboBox(parent);
  box->setAccessibleName(accessibleName);
  for (const Person& each : session.site().people) {
    if (each.leftOn && *each.leftOn <= session.today()) {
      continue;
    }
    QStringList roles;
    for (const Role role : each.roles) {
      roles << word(role);
    }
    box->addItem(SignerFields::tr("%1, %2 (%3)")
                     .arg(fromCore(each.login), fromCore(each.name), roles.join(QStringLiteral(", "))),
                 fromCore(each.login));
  }
  const int last = box->findData(session.lastSigner());
  const int here = box->findData(kLastPerson.get());
  box->setCurrentIndex(last >= 0 ? last : std::max(0, here));
  return box;
}

SignerFields::SignerFields(Session& session, int labelWidth, QWidget* parent)
    : QWidget(parent),
      session_(session),
      person_(makePersonBox(session, tr("Who signs"), this)),
      passphrase_(new PassphraseField(tr("Passphrase"), this)),
      again_(new PassphraseField(tr("Passphrase once more"), this)),
      againLabel_(new QLabel(tr("&Once more"), this)),
      firstTime_(new QLabel(this)) {
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(18);
  grid->setVerticalSpacing(5);
  grid->setColumnMinimumWidth(0, labelWidth);
  grid->setColumnStretch(1, 1);
  const auto add = [grid](QLabel* label, QWidget* field) {
    const int row = grid->rowCount();
    label->setBuddy(field);
    grid->addWidget(label, row, 0);
    grid->addWidget(field, row, 1);
  };
  add(new QLabel(tr("&Who signs"), this), person_);
  add(new QLabel(tr("&Passphrase"), this), passphrase_);
  add(againLabel_, again_);
  firstTime_->setWordWrap(true);
  firstTime_->setTextFormat(Qt::PlainText);
  firstTime_->setAccessibleName(tr("First signature"));
  grid->addWidget(firstTime_, grid->rowCount(), 1);
  setFocusProxy(passphrase_);
  connect(person_, &QComboBox::currentIndexChanged, this, [this] {
    showFields();
    emit personChanged();
  });
  showFields();
}

QString SignerFields::person() const {
  return person_->currentData().toString();
}

bool SignerFields::isFirstTime() const {
  try {
    return !person().isEmpty() && !session_.store().personKey(toCore(person()));
  } catch (const std::exception&) {
    return false;  // signing says what is wrong with the record
  }
}

void SignerFields::showFields() {
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
}

QString SignerFields::take(Signer& into) {
  into.person = toCore(person());
  if (into.person.empty()) {
    return tr("Choose who signs.");
  }
  if (passphrase_->text().isEmpty()) {
    passphrase_->setFocus();
    return tr("Type the passphrase of %1.").arg(person());
  }
  Wiped typed(passphrase_->take());
  Wiped twice(again_->take());
  passphrase_->setFocus();
  if (isFirstTime() && typed.text() != twice.text()) {
    return tr("The two passphrases differ; type the same one twice.");
  }
  into.passphrase.swap(typed.text());
  return {};
}

}  // namespace spanwright
