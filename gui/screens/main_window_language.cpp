// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is chosen under View, and how a window goes on where another one was left.
#include <QAction>
#include <QActionGroup>
#include <QMenu>
#include <algorithm>
#include <iterator>
#include <utility>

#include "gui/screens/certificate_screen.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/trace_screen.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"

namespace spanwright {

void MainWindow::addLanguages(QMenu* menu) {
  QMenu* languages = menu->addMenu(tr("&Language"));
  auto* group = new QActionGroup(this);
  for (const Language language : allLanguages()) {
    QAction* choice = languages->addAction(nameOf(language));
    choice->setCheckable(true);
    choice->setChecked(language == currentLanguage());
    choice->setStatusTip(tr("The language of the window, with its dates and numbers"));
    group->addAction(choice);
    connect(choice, &QAction::triggered, this, [this, language] { emit languageAsked(language); });
  }
}

void MainWindow::addLooks(QMenu* menu) {
  auto* group = new QActionGroup(this);
  for (const auto& [id, look] : {std::pair(CommandId::lightLook, Look::light),
                                 {CommandId::darkLook, Look::dark},
                                 {CommandId::contrastLook, Look::contrast}}) {
    QAction* choice = action(id);
    choice->setCheckable(true);
    choice->setChecked(look == currentLook());
    group->addAction(choice);
    menu->addAction(choice);
    connect(choice, &QAction::triggered, this, [this, look = look] { emit lookAsked(look); });
  }
  menu->addSeparator();
}

void MainWindow::addTextSizes(QMenu* menu) {
  const auto& sizes = allTextSizes();
  const auto now = std::find(sizes.begin(), sizes.end(), currentTextSize());
  QAction* larger = action(CommandId::largerText);
  QAction* smaller = action(CommandId::smallerText);
  larger->setEnabled(now != sizes.end() && std::next(now) != sizes.end());
  smaller->setEnabled(now != sizes.begin());
  connect(larger, &QAction::triggered, this, [this, now] { emit textSizeAsked(*std::next(now)); });
  connect(smaller, &QAction::triggered, this, [this, now] { emit textSizeAsked(*std::prev(now)); });
  menu->addActions({larger, smaller});
  QMenu* choices = menu->addMenu(tr("Text &size"));
  auto* group = new QActionGroup(this);
  for (const int size : sizes) {
    QAction* choice = choices->addAction(tr("%1 %").arg(size));
    choice->setCheckable(true);
    choice->setChecked(size == currentTextSize());
    group->addAction(choice);
    connect(choice, &QAction::triggered, this, [this, size] { emit textSizeAsked(size); });
  }
  menu->addSeparator();
}

std::optional<LeftOff> MainWindow::leaveOff() {
  LeftOff place;
  if (!session_.isOpen()) {
    return place;
  }
  if (!visit_->mayLeave()) {
    return std::nullopt;
  }
  for (const QAction* each : places_->actions()) {
    if (each->isChecked()) {
      place.page = static_cast<int>(places_->actions().indexOf(each));
    }
  }
  if (currentScreen() == channel_) {
    place.channel = channel_->channel();
    place.calibration = channel_->currentCalibration();
  } else if (currentScreen() == certificate_) {
    place.channel = channel_->channel();
    place.certificate = certificate_->calibration();
  } else if (currentScreen() == trace_) {
    place.trace = trace_->calibration();
  } else if (currentScreen() == reach_) {
    place.reach = reach_->leaveOff();
  } else if (currentScreen() == visit_) {
    place.visit = visit_->entry().draft();
  }
  visit_->dropRecord();
  return place;
}

void MainWindow::goOn(const LeftOff& place) {
  if (!session_.isOpen()) {
    return;
  }
  takeRecord();
  session_.refresh();
  if (place.page) {
    places_->actions().at(*place.page)->trigger();
  }
  if (place.calibration) {
    goTo(channel_);
    channel_->showCalibration(place.channel, *place.calibration);
  } else if (!place.channel.isEmpty()) {
    showChannel(place.channel);
  }
  if (place.certificate) {
    showCertificate(*place.certificate);
  }
  if (place.trace) {
    showTrace(*place.trace);
  }
  if (place.reach) {
    showReach(place.reach->serial);
    reach_->goOn(*place.reach);
  }
  if (place.visit) {
    goOnWithVisit(*place.visit);
  }
}

void MainWindow::goOnWithVisit(const Draft& visit) {
  bar_->hide();  // it offers the very draft
  if (visit.id != 0) {
    resumeDraft(visit.id);
    return;
  }
  goTo(visit_);
  if (visit.channel.empty()) {
    visit_->chooseChannel();
  } else {
    visit_->resume(visit);
  }
}

}  // namespace spanwright
