// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window in its language, colours and size of text. All of them are made with the window, so another
// language is another window on the same record, at the same place.
#pragma once

#include <QObject>
#include <functional>
#include <memory>

#include "gui/settings/language.h"
#include "gui/settings/look.h"

namespace spanwright {

class MainWindow;
class Session;

class Desktop : public QObject {
 public:
  explicit Desktop(Session& session);
  ~Desktop() override;

  /// Until the next change.
  MainWindow& window() { return *window_; }
  /// Keeps the choice and puts a window in this language in the place of the one there; nothing when that one
  /// must not be left.
  void speak(Language language);
  /// The same in these colours.
  void wear(Look look);
  /// The same in this size of text, in percent.
  void write(int textSize);

 private:
  std::unique_ptr<MainWindow> makeWindow();
  /// `change` happens between the window there and the one in its place.
  void renew(const std::function<void()>& change);

  Session& session_;
  std::unique_ptr<MainWindow> window_;
};

}  // namespace spanwright
