// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/forms/leaving_dialog.h"

#include <QApplication>
#include <QDateEdit>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QLabel>
#include <QPushButton>

#include "core/tasks/signing.h"
#include "gui/screens/passphrase_field.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/signer_fields.h"
#include "gui/session/session.h"
#include "gui/words/days.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kWide = 560;
constexpr int kLabelWidth = 130;

}  // namespace

LeavingDialog::LeavingDialog(Session& session, const QString& login, QWidget* parent)
    : QDialog(parent),
      session_(session),
      login_(login),
      day_(new QDateEdit(this)),
      signer_(new SignerFields(session, kLabelWidth, this)),
      refusal_(new RefusalLine(this)) {
  setWindowTitle(tr("%1 has left").arg(login));
  setMinimumWidth(kWide);
  auto* grid = new QGridLayout(this);
  grid->setHorizontalSpacing(18);
  grid->setColumnMinimumWidth(0, kLabelWidth);
  grid->setColumnStretch(1, 1);
  auto* about = new QLabel(
      tr("What %1 signed stays valid; from the day on %1 signs nothing more. An administrator signs this.")
          .arg(login),
      this);
  about->setWordWrap(true);
  grid->addWidget(about, 0, 0, 1, 2);
  auto* label = new QLabel(tr("From the &day"), this);
  label->setBuddy(day_);
  day_->setDate(toQt(session.today()));
  day_->setCalendarPopup(true);
  day_->setDisplayFormat(typedDateForm());
  day_->setAccessibleName(tr("From the day"));
  grid->addWidget(label, 1, 0);
  grid->addWidget(day_, 1, 1);
  grid->addWidget(signer_, 2, 0, 1, 2);
  grid->addWidget(refusal_, 3, 0, 1, 2);
  auto* buttons = new QDialogButtonBox(this);
  buttons->addButton(tr("Sign"), QDialogButtonBox::AcceptRole)->setDefault(true);
  buttons->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  grid->addWidget(buttons, 4, 0, 1, 2);
  connect(buttons, &QDialogButtonBox::accepted, this, &LeavingDialog::keep);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  signer_->setFocus();
}

void LeavingDialog::keep() {
  Signer signer;
  if (const QString sentence = signer_->take(signer); !sentence.isEmpty()) {
    refusal_->say(sentence);
    return;
  }
  QApplication::setOverrideCursor(Qt::WaitCursor);  // a key is slow to open, on purpose
  QString wrong;
  try {
    setPersonLeft(session_.store(), toCore(login_), fromQt(day_->date()), signer);
  } catch (const InputError& refused) {
    wrong = problemSentences(refused);
  } catch (const std::exception& error) {
    wrong = asSentence(QString::fromUtf8(error.what()));
  }
  QApplication::restoreOverrideCursor();
  wipe(signer.passphrase);
  refusal_->say(wrong);
  if (wrong.isEmpty()) {
    session_.setLastSigner(fromCore(signer.person));
    accept();
    emit left(tr("%1 is entered as having left.").arg(login_));
  }
}

QString LeavingDialog::trouble() const {
  return refusal_->sentence();
}

}  // namespace spanwright
