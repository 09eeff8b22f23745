// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window and the forms that fill and change the register, and records dragged in.
#include <QAction>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QFileInfo>
#include <QMimeData>

#include "gui/forms/channel_forms.h"
#include "gui/forms/leaving_dialog.h"
#include "gui/forms/new_site_form.h"
#include "gui/forms/register_dialog.h"
#include "gui/forms/register_form.h"
#include "gui/screens/certificate_screen.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/fleet_screen.h"
#include "gui/screens/intervals_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/plan_screen.h"
#include "gui/screens/site_screen.h"
#include "gui/screens/standard_certificate_dialog.h"
#include "gui/screens/start_screen.h"
#include "gui/screens/today_screen.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

/// The record file that is dragged; empty for anything else.
QString draggedRecord(const QMimeData* data) {
  if (data == nullptr || data->urls().size() != 1 || !data->urls().front().isLocalFile()) {
    return {};
  }
  const QString file = data->urls().front().toLocalFile();
  return QFileInfo(file).isFile() ? file : QString();
}

}  // namespace

void MainWindow::connectRegister() {
  setAcceptDrops(true);
  site_->setEditMenu(edit_);
  connect(start_, &StartScreen::siteAsked, this, &MainWindow::openNewSite);
  connect(action(CommandId::newSite), &QAction::triggered, this, &MainWindow::openNewSite);
  connect(action(CommandId::changeChosen), &QAction::triggered, this, &MainWindow::changeChosen);
  connect(action(CommandId::newSetup), &QAction::triggered, this, &MainWindow::openNewSetup);
  connect(action(CommandId::fitSensor), &QAction::triggered, this, &MainWindow::openFitting);
  connect(action(CommandId::newPlace), &QAction::triggered, this, [this] {
    const QString place = currentScreen() == site_ ? site_->currentPlace() : QString();
    openRegisterForm(
        new RegisterForm(session_, RegisterKind::place, TypedFields{{"within", toCore(place)}}, this));
  });
  connect(action(CommandId::newChannel), &QAction::triggered, this, [this] {
    const QString place = currentScreen() == site_ ? site_->currentPlace() : QString();
    openRegisterForm(
        new RegisterForm(session_, RegisterKind::channel, TypedFields{{"place", toCore(place)}}, this));
  });
  connect(action(CommandId::changeSite), &QAction::triggered, this, [this] {
    openRegisterForm(
        new RegisterForm(session_, RegisterKind::site, fromCore(session_.site().site.code), this));
  });
  connect(action(CommandId::showRegister), &QAction::triggered, this,
          [this] { openRegister(RegisterKind::person); });
}

void MainWindow::enableRegister() {
  const bool open = session_.isOpen();
  for (const CommandId id :
       {CommandId::changeChosen, CommandId::newSetup, CommandId::fitSensor, CommandId::newPlace,
        CommandId::newChannel, CommandId::showRegister, CommandId::changeSite}) {
    action(id)->setEnabled(open && currentScreen() != visit_);
  }
}

void MainWindow::openNewSite() {
  if (visit_->mayLeave()) {
    openDialog(new NewSiteForm(session_, this));
  }
}

QString MainWindow::channelAtHand() const {
  if (currentScreen() == channel_ || currentScreen() == certificate_) {
    return channel_->channel();
  }
  return currentScreen() == due_     ? due_->currentChannel()
         : currentScreen() == fleet_ ? fleet_->currentChannel()
         : currentScreen() == today_ ? today_->currentChannel()
         : currentScreen() == site_  ? site_->currentChannel()
                                     : QString();
}

void MainWindow::openRegisterForm(RegisterForm* form) {
  connect(form, &RegisterForm::added, this, &MainWindow::takeRegister);
  connect(form, &FormDialog::saved, this,
          [this](const QString& sentence, const QString&) { takeRegister(sentence); });
  openDialog(form);
}

void MainWindow::changeChosen() {
  if (currentScreen() == site_ && site_->placeChosen()) {
    openRegisterForm(new RegisterForm(session_, RegisterKind::place, site_->currentPlace(), this));
    return;
  }
  const QString tag = channelAtHand();
  if (tag.isEmpty()) {
    bar_->showNotice(tr("Choose a channel or a place first."));
    return;
  }
  openRegisterForm(new RegisterForm(session_, RegisterKind::channel, tag, this));
}

void MainWindow::openNewSetup() {
  const QString tag = channelAtHand();
  if (tag.isEmpty()) {
    bar_->showNotice(tr("Choose a channel first."));
    return;
  }
  auto* form = new NewSetupForm(session_, tag, this);
  connect(form, &FormDialog::saved, this,
          [this](const QString& sentence, const QString&) { takeRegister(sentence); });
  openDialog(form);
}

void MainWindow::openFitting() {
  const QString tag = channelAtHand();
  if (tag.isEmpty()) {
    bar_->showNotice(tr("Choose a channel first."));
    return;
  }
  auto* form = new FittingForm(session_, tag, this);
  connect(form, &FormDialog::saved, this,
          [this](const QString& sentence, const QString&) { takeRegister(sentence); });
  openDialog(form);
}

void MainWindow::openRegister(RegisterKind kind) {
  auto* dialog = new RegisterDialog(session_, kind, this);
  connect(dialog, &RegisterDialog::changed, this, &MainWindow::takeRegister);
  connect(dialog, &RegisterDialog::certificateAsked, this, [this, dialog](const QString& serial) {
    auto* form = new StandardCertificateDialog(session_, serial, dialog);
    connect(form, &StandardCertificateDialog::added, dialog, &RegisterDialog::take);
    openDialog(form);
  });
  connect(dialog, &RegisterDialog::leavingAsked, this, [this, dialog](const QString& login) {
    auto* form = new LeavingDialog(session_, login, dialog);
    connect(form, &LeavingDialog::left, dialog, &RegisterDialog::take);
    openDialog(form);
  });
  openDialog(dialog);
}

void MainWindow::takeRegister(const QString& sentence) {
  setWindowTitle(QStringLiteral("%1 – Spanwright").arg(fromCore(session_.site().site.name)));
  if (!visit_->entry().isOpen()) {
    visit_->takeRecord();  // its lists; a visit begun keeps the register it was begun under
  }
  today_->takePeople();
  intervals_->takeRecord();
  plan_->takeRecord();
  takeNews(sentence);
  QWidget* screen = currentScreen();
  if (screen == site_) {
    site_->refresh();
  } else if (screen == channel_) {
    channel_->refresh();
  } else if (screen == due_) {
    due_->refresh();
  } else if (screen == plan_) {
    plan_->refresh();
  } else if (screen == intervals_) {
    intervals_->refresh();
  } else if (screen == certificate_) {
    certificate_->refresh();
  } else if (screen == today_) {
    today_->refresh();
  }
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
  if (!draggedRecord(event->mimeData()).isEmpty()) {
    event->acceptProposedAction();
  }
}

void MainWindow::dropEvent(QDropEvent* event) {
  const QString file = draggedRecord(event->mimeData());
  if (!file.isEmpty() && visit_->mayLeave()) {
    event->acceptProposedAction();
    session_.open(file);  // what is no record is told in the bar
  }
}

}  // namespace spanwright
