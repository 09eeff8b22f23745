// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/refusal_line.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QLabel>

#include "gui/settings/text_size.h"
#include "gui/words/marks.h"

namespace spanwright {
namespace {

constexpr int kSign = 16;

}  // namespace

RefusalLine::RefusalLine(QWidget* parent) : QWidget(parent), text_(new QLabel(this)) {
  auto* sign = new QLabel(this);
  sign->setPixmap(markIcon(Mark::triangle, Tone::bad).pixmap(scaled(QSize(kSign, kSign))));
  text_->setWordWrap(true);
  text_->setTextFormat(Qt::PlainText);
  text_->setAccessibleName(tr("Message"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(6);
  row->addWidget(sign, 0, Qt::AlignTop);
  row->addWidget(text_, 1, Qt::AlignTop);
  hide();
}

void RefusalLine::say(const QString& sentence) {
  text_->setText(sentence);
  setVisible(!sentence.isEmpty());
  if (!sentence.isEmpty()) {
    QAccessibleEvent alert(text_, QAccessible::Alert);
    QAccessible::updateAccessibility(&alert);
  }
}

QString RefusalLine::sentence() const {
  return text_->text();
}

}  // namespace spanwright
