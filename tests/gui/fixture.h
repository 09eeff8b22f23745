// SPDX-License-Identifier: GPL-3.0-or-later
//
// A small invented site in a record of its own for each test, and a window on it.
#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QStringList>
#include <QTemporaryDir>
#include <QWidget>
#include <memory>
#include <string>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/visit.h"
#include "gui/session/arguments.h"

namespace spanwright {

class MainWindow;
class Session;

/// Two cabinets; TT-1 (4-20 mA to 0-100 degC, five points up and down, read to 0.01), PT-2 of the same kind,
/// XS-3 a 24 V threshold input, and OLD-4, retired. One technician, one mA standard, one V standard.
Register smallSite();

/// A visit to TT-1: as found at every point off by `found` degC, and as left by `left` when given.
ProposedVisit visitTo(const std::string& channel, const std::string& when, double found,
                      std::optional<double> left = std::nullopt);

class GuiTest : public ::testing::Test {
 protected:
  GuiTest();
  ~GuiTest() override;

  QString recordFile() const { return folder_.filePath(QStringLiteral("small.spanwright")); }
  /// Makes the record, with these visits in it.
  void makeRecord(const std::vector<ProposedVisit>& visits = {}, const Register& site = smallSite());
  /// A window with the record open and nothing under way.
  void openWindow();
  void closeWindow();
  /// Keys go to this window from now on; no window manager sees to it here.
  static bool makeActive(QWidget* window);
  /// Types into whatever has the focus, as a person does; counts the keys.
  void type(const QString& text);
  void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier);
  int keys() const { return keys_; }
  /// Questions asked so far; each is answered with `answer_`.
  QStringList asked_;
  bool answer_ = false;
  /// Keeps a picture of the window when the variable SPANWRIGHT_PICTURES names a folder, to be looked at.
  void keepPicture(const QString& name) const;
  /// The same of a dialog, in every look.
  static void keepLooks(QWidget* dialog, const QString& name);
  /// The descendant of the window with this accessible name.
  template <typename T>
  T* named(const QString& name) const;

  QTemporaryDir folder_;
  FixedClock clock_;
  std::unique_ptr<Session> session_;
  std::unique_ptr<MainWindow> window_;

 private:
  QWidget* root() const;
  int keys_ = 0;
};

template <typename T>
T* GuiTest::named(const QString& name) const {
  for (T* each : root()->findChildren<T*>()) {
    if (each->accessibleName() == name) {
      return each;
    }
  }
  return nullptr;
}

}  // namespace spanwright
