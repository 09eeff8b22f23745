// SPDX-License-Identifier: GPL-3.0-or-later
//
// An entry sheet to be typed into.
#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>

#include "gui/models/sheet_model.h"
#include "gui/screens/main_window.h"
#include "gui/screens/sheet_view.h"
#include "gui/screens/visit_screen.h"
#include "tests/gui/fixture.h"

namespace spanwright {

inline const QStringList kFound{"0.31",   "25.30", "50.29", "75.30", "100.31",
                                "100.32", "75.31", "50.30", "25.29", "0.30"};
inline const QStringList kLeft{"0.01",   "25.00", "49.99", "75.00", "100.02",
                               "100.01", "75.00", "50.01", "25.00", "0.00"};

class VisitTyping : public GuiTest {
 protected:
  /// A window on an empty sheet for TT-1, cautions confirmed by key.
  void begin(bool confirm = true) {
    openWindow();
    window_->showVisit("TT-1", Subject::channel);
    ASSERT_TRUE(screen().entry().isOpen());
    if (confirm) {
      ASSERT_TRUE(screen().cautions()->hasFocus());
      press(Qt::Key_Space);
      ASSERT_TRUE(screen().entry().draft().cautionsConfirmed);
      ASSERT_TRUE(screen().sheetView()->hasFocus());
    }
  }
  void typeValues(const QStringList& values) {
    for (const QString& value : values) {
      type(value);
      press(Qt::Key_Return);
    }
  }
  /// Says what was done, by keys in its box.
  void sayAdjusted() {
    auto* done = named<QComboBox>("What was done to it");
    done->setFocus();
    press(Qt::Key_Down);
    auto* text = named<QLineEdit>("What was adjusted or repaired");
    text->setFocus();
    type("zero");
  }
  VisitScreen& screen() const { return *window_->visitScreen(); }
  QString shown(int row, int column) const {
    return screen().sheetModel()->index(row, column).data().toString();
  }
};

}  // namespace spanwright
