// SPDX-License-Identifier: GPL-3.0-or-later
//
// What tests of dialogs over the window have in common.
#pragma once

#include <QDialog>
#include <QTest>

#include "gui/screens/main_window.h"
#include "tests/gui/fixture.h"

namespace spanwright {

class DialogTest : public GuiTest {
 protected:
  template <typename Dialog>
  Dialog* dialog() const {
    return window_->findChild<Dialog*>();
  }
  template <typename Dialog>
  bool gone() const {
    return QTest::qWaitFor([this] { return dialog<Dialog>() == nullptr; });
  }
  /// The descendant of `parent` with this accessible name.
  template <typename T>
  static T* part(const QWidget* parent, const QString& name) {
    for (T* each : parent->findChildren<T*>()) {
      if (each->accessibleName() == name) {
        return each;
      }
    }
    return nullptr;
  }
  /// The button or box of `parent` with this text, keys left out.
  template <typename T>
  static T* labelled(const QWidget* parent, const QString& text) {
    for (T* each : parent->findChildren<T*>()) {
      if (QString(each->text()).remove(u'&') == text) {
        return each;
      }
    }
    return nullptr;
  }
};

}  // namespace spanwright
