// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/numbers_panel.h"

#include <QAbstractItemView>
#include <QTextBrowser>

#include "gui/models/rows_model.h"

namespace spanwright {

NumbersPanel::NumbersPanel(QWidget* parent)
    : QDockWidget(tr("How numbers come about"), parent), page_(new QTextBrowser(this)) {
  setObjectName(QStringLiteral("numbers"));
  setAllowedAreas(Qt::LeftDockWidgetArea | Qt::RightDockWidgetArea);
  page_->setAccessibleName(tr("How numbers come about"));
  page_->setOpenLinks(false);
  page_->setHtml(explanationsPage());
  page_->setMinimumWidth(28 * fontMetrics().averageCharWidth());
  setWidget(page_);
}

void NumbersPanel::explain(Explained what) {
  show();
  page_->scrollToAnchor(explanationAnchor(what));
  page_->setFocus();
}

QString NumbersPanel::shownText() const {
  return page_->toPlainText();
}

Explained NumbersPanel::ofFocus(const QWidget* focus) {
  for (; focus != nullptr; focus = focus->parentWidget()) {
    const auto* view = qobject_cast<const QAbstractItemView*>(focus);
    if (view == nullptr || view->model() == nullptr) {
      continue;
    }
    const QVariant what =
        view->model()->headerData(view->currentIndex().column(), Qt::Horizontal, kExplainedRole);
    if (what.isValid()) {
      return static_cast<Explained>(what.toInt());
    }
  }
  return allExplained().front();
}

}  // namespace spanwright
