// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/passphrase_dialog.h"

#include <QApplication>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>

#include "core/tasks/signing.h"
#include "gui/screens/passphrase_field.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/signer_fields.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kWide = 560;

}  // namespace

PassphraseDialog::PassphraseDialog(Session& session, QWidget* parent)
    : QDialog(parent),
      session_(session),
      person_(makePersonBox(session, tr("Whose passphrase"), this)),
      oldLabel_(new QLabel(tr("&Passphrase now"), this)),
      note_(new QLabel(this)),
      old_(new PassphraseField(tr("Passphrase now"), this)),
      next_(new PassphraseField(tr("New passphrase"), this)),
      again_(new PassphraseField(tr("New passphrase once more"), this)),
      refusal_(new RefusalLine(this)) {
  setWindowTitle(tr("Change my passphrase"));
  setMinimumWidth(onScreen(scaled(QSize(kWide, 0))).width());
  auto* grid = new QGridLayout(this);
  grid->setHorizontalSpacing(18);
  grid->setVerticalSpacing(8);
  grid->setColumnStretch(1, 1);
  const auto add = [grid](QLabel* label, QWidget* field) {
    const int row = grid->rowCount();
    label->setBuddy(field);
    grid->addWidget(label, row, 0);
    grid->addWidget(field, row, 1);
  };
  add(new QLabel(tr("&Who"), this), person_);
  add(oldLabel_, old_);
  add(new QLabel(tr("&New passphrase"), this), next_);
  add(new QLabel(tr("&Once more"), this), again_);
  note_->setWordWrap(true);
  grid->addWidget(note_, grid->rowCount(), 0, 1, 2);
  grid->addWidget(refusal_, grid->rowCount(), 0, 1, 2);
  auto* buttons = new QDialogButtonBox(this);
  buttons->addButton(tr("Change"), QDialogButtonBox::AcceptRole)->setDefault(true);
  buttons->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  grid->addWidget(buttons, grid->rowCount(), 0, 1, 2);
  connect(buttons, &QDialogButtonBox::accepted, this, &PassphraseDialog::change);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  connect(person_, &QComboBox::currentIndexChanged, this, [this] {
    refusal_->say({});
    showFields();
  });
  showFields();
}

QString PassphraseDialog::person() const {
  return person_->currentData().toString();
}

bool PassphraseDialog::isFirst() const {
  try {
    return !person().isEmpty() && !session_.store().personKey(toCore(person()));
  } catch (const std::exception&) {
    return false;  // changing says what is wrong with the record
  }
}

void PassphraseDialog::showFields() {
  const bool first = isFirst();
  for (QWidget* each : std::initializer_list<QWidget*>{old_, oldLabel_}) {
    each->setVisible(!first);
  }
  note_->setText(
      (first ? tr("%1 has no key yet; this makes one. ").arg(person()) : QString()) +
      tr("At least %1 characters. Nobody can read it back; whoever forgets it asks an administrator for a "
         "new one. What was signed before stays valid.")
          .arg(kShortestPassphrase));
  (first ? next_ : old_)->setFocus();
}

void PassphraseDialog::change() {
  const bool first = isFirst();
  if (!first && old_->text().isEmpty()) {
    old_->setFocus();
    refusal_->say(tr("Type the passphrase of %1 as it is now.").arg(person()));
    return;
  }
  Wiped was(old_->take());
  Wiped next(next_->take());
  Wiped twice(again_->take());
  (first ? next_ : old_)->setFocus();
  if (next.text() != twice.text()) {
    refusal_->say(tr("The two new passphrases differ; type the same one twice."));
    return;
  }
  QApplication::setOverrideCursor(Qt::WaitCursor);  // a key is slow to open, on purpose
  Signer signer;
  signer.person = toCore(person());
  signer.passphrase.swap(was.text());
  QString wrong;
  try {
    changePassphrase(session_.store(), signer, next.text());
  } catch (const InputError& refused) {
    wrong = problemSentences(refused);
  } catch (const std::exception& error) {
    wrong = asSentence(QString::fromUtf8(error.what()));
  }
  wipe(signer.passphrase);
  QApplication::restoreOverrideCursor();
  refusal_->say(wrong);
  if (wrong.isEmpty()) {
    accept();
    emit changed(first ? tr("%1 has a passphrase and can sign.").arg(person())
                       : tr("The passphrase of %1 is changed.").arg(person()));
  }
}

QString PassphraseDialog::trouble() const {
  return refusal_->sentence();
}

}  // namespace spanwright
