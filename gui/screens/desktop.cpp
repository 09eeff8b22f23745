// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/desktop.h"

#include "gui/screens/main_window.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"

namespace spanwright {

Desktop::Desktop(Session& session) : session_(session), window_(makeWindow()) {}
Desktop::~Desktop() = default;

std::unique_ptr<MainWindow> Desktop::makeWindow() {
  auto window = std::make_unique<MainWindow>(session_);
  // Queued: the window that asks is still inside its menu.
  connect(window.get(), &MainWindow::languageAsked, this, &Desktop::speak, Qt::QueuedConnection);
  return window;
}

void Desktop::speak(Language language) {
  const std::optional<LeftOff> place = window_->leaveOff();
  if (!place) {
    return;
  }
  kLanguage.set(codeOf(language));
  if (session_.isOpen()) {
    session_.worker().cancel();  // its answers would go to the old window; the new one asks again
  }
  applyLanguage(language);
  std::unique_ptr<MainWindow> old = std::move(window_);
  window_ = makeWindow();
  window_->goOn(*place);
  window_->setGeometry(old->geometry());
  window_->setWindowState(old->windowState());
  window_->setVisible(old->isVisible());
}

}  // namespace spanwright
