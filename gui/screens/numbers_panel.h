// SPDX-License-Identifier: GPL-3.0-or-later
//
// How the numbers on the pages come about, beside the page: formula, meaning and source of each.
#pragma once

#include <QDockWidget>

#include "gui/words/explanations.h"

class QTextBrowser;

namespace spanwright {

class NumbersPanel : public QDockWidget {
  Q_OBJECT
 public:
  explicit NumbersPanel(QWidget* parent = nullptr);
  /// Shows the panel with this explanation at its top.
  void explain(Explained what);
  QString shownText() const;
  /// What the heading of the current column of the table with the keys is explained by; the first explanation
  /// where there is none.
  static Explained ofFocus(const QWidget* focus);

 private:
  QTextBrowser* page_;
};

}  // namespace spanwright
