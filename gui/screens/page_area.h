// SPDX-License-Identifier: GPL-3.0-or-later
//
// The room for the pages: each fills it, and one that needs more, as with large text, is scrolled.
#pragma once

#include <QScrollArea>

class QStackedWidget;

namespace spanwright {

class PageArea : public QScrollArea {
  Q_OBJECT
 public:
  /// Takes the pages.
  explicit PageArea(QStackedWidget* pages, QWidget* parent = nullptr);

 protected:
  void resizeEvent(QResizeEvent* event) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  /// As large as the room, and no smaller than the page shown needs to be.
  void fit();
  QStackedWidget* pages_;
};

}  // namespace spanwright
