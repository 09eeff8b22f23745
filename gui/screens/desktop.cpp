// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/desktop.h"

#include <QApplication>

#include "gui/screens/main_window.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"

namespace spanwright {

Desktop::Desktop(Session& session) : session_(session), window_(makeWindow()) {}
Desktop::~Desktop() = default;

std::unique_ptr<MainWindow> Desktop::makeWindow() {
  auto window = std::make_unique<MainWindow>(session_);
  // Queued: the window that asks is still inside its menu.
  connect(window.get(), &MainWindow::languageAsked, this, &Desktop::speak, Qt::QueuedConnection);
  connect(window.get(), &MainWindow::lookAsked, this, &Desktop::wear, Qt::QueuedConnection);
  connect(window.get(), &MainWindow::textSizeAsked, this, &Desktop::write, Qt::QueuedConnection);
  return window;
}

void Desktop::speak(Language language) {
  renew([language] {
    kLanguage.set(codeOf(language));
    applyLanguage(language);
  });
}

void Desktop::wear(Look look) {
  renew([look] {
    kLook.set(codeOf(look));
    applyLook(*qApp, look);
  });
}

void Desktop::write(int textSize) {
  renew([textSize] {
    kTextSize.set(textSize);
    applyTextSize(*qApp, textSize);
  });
}

void Desktop::renew(const std::function<void()>& change) {
  const std::optional<LeftOff> place = window_->leaveOff();
  if (!place) {
    return;
  }
  if (session_.isOpen()) {
    session_.worker().cancel();  // its answers would go to the old window; the new one asks again
  }
  change();
  std::unique_ptr<MainWindow> old = std::move(window_);
  window_ = makeWindow();
  window_->goOn(*place);
  window_->setGeometry(old->geometry());
  window_->setWindowState(old->windowState());
  window_->setVisible(old->isVisible());
}

}  // namespace spanwright
