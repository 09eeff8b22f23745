// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window in its language. Every text is made with its window, so another language is another window on
// the same record, at the same place.
#pragma once

#include <QObject>
#include <memory>

#include "gui/settings/language.h"

namespace spanwright {

class MainWindow;
class Session;

class Desktop : public QObject {
 public:
  explicit Desktop(Session& session);
  ~Desktop() override;

  /// Until the next change of language.
  MainWindow& window() { return *window_; }
  /// Keeps the choice and puts a window in this language in the place of the one there; nothing when that one
  /// must not be left.
  void speak(Language language);

 private:
  std::unique_ptr<MainWindow> makeWindow();

  Session& session_;
  std::unique_ptr<MainWindow> window_;
};

}  // namespace spanwright
