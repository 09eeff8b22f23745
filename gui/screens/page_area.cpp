// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/page_area.h"

#include <QApplication>
#include <QEvent>
#include <QLayout>
#include <QScrollBar>
#include <QStackedWidget>
#include <algorithm>

namespace spanwright {

PageArea::PageArea(QStackedWidget* pages, QWidget* parent) : QScrollArea(parent), pages_(pages) {
  setFrameShape(QFrame::NoFrame);
  setFocusPolicy(Qt::NoFocus);  // it follows the keys, they never stop here
  pages->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Ignored);
  setWidget(pages);
  pages->installEventFilter(this);
  connect(qApp, &QApplication::focusChanged, this, [this](QWidget*, QWidget* now) {
    if (now != nullptr && pages_->isAncestorOf(now)) {
      ensureWidgetVisible(now);
    }
  });
  connect(pages, &QStackedWidget::currentChanged, this, [this] {
    fit();
    verticalScrollBar()->setValue(0);
    horizontalScrollBar()->setValue(0);
  });
}

void PageArea::resizeEvent(QResizeEvent* event) {
  QScrollArea::resizeEvent(event);
  fit();
}

bool PageArea::eventFilter(QObject* watched, QEvent* event) {
  if (watched == pages_ && event->type() == QEvent::LayoutRequest) {
    fit();
  }
  return QScrollArea::eventFilter(watched, event);
}

void PageArea::fit() {
  const QWidget* page = pages_->currentWidget();
  if (page == nullptr) {
    return;
  }
  // Wrapped texts need height by width, which the area of the toolkit takes for the height they would like.
  const auto least = [page](int width) {
    const QLayout* layout = page->layout();
    const QSize size = page->minimumSizeHint();
    const int wide = std::max(width, size.width());
    const int high = layout != nullptr && layout->hasHeightForWidth()
                         ? std::max(size.height(), layout->minimumHeightForWidth(wide))
                         : size.height();
    return QSize(wide, high);
  };
  QSize room = maximumViewportSize();
  const int bar = verticalScrollBar()->sizeHint().width();
  const bool down = least(room.width()).height() > room.height();
  room.rwidth() -= down ? bar : 0;
  const bool across = least(room.width()).width() > room.width();
  room.rheight() -= across ? bar : 0;
  if (!down && least(room.width()).height() > room.height()) {
    room.rwidth() -= bar;
  }
  pages_->resize(least(room.width()).expandedTo(room));
}

}  // namespace spanwright
