// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/message_bar.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <utility>

#include "gui/settings/text_size.h"
#include "gui/words/marks.h"

namespace spanwright {

MessageBar::MessageBar(QWidget* parent)
    : QFrame(parent),
      sign_(new QLabel(this)),
      text_(new QLabel(this)),
      first_(new QPushButton(this)),
      second_(new QPushButton(this)),
      close_(new QPushButton(tr("Dismiss"), this)) {
  setFrameShape(QFrame::StyledPanel);
  setAutoFillBackground(true);
  setBackgroundRole(QPalette::AlternateBase);
  text_->setWordWrap(true);
  text_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  text_->setAccessibleName(tr("Message"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(12, 6, 12, 6);
  row->setSpacing(10);
  row->addWidget(sign_);
  row->addWidget(text_, 1);
  row->addWidget(first_);
  row->addWidget(second_);
  row->addWidget(close_);
  connect(first_, &QPushButton::clicked, this, [this] {
    hide();
    if (const auto work = std::exchange(doFirst_, {})) {
      work();
    }
  });
  connect(second_, &QPushButton::clicked, this, [this] {
    hide();
    if (const auto work = std::exchange(doSecond_, {})) {
      work();
    }
  });
  for (QPushButton* each : {first_, second_, close_}) {
    each->setFocusPolicy(Qt::TabFocus);  // a click on it leaves the keys where they are
  }
  connect(close_, &QPushButton::clicked, this, &QWidget::hide);
  hide();
}

void MessageBar::say(Tone tone, const QString& sentence) {
  sign_->setPixmap(markIcon(tone == Tone::bad    ? Mark::triangle
                            : tone == Tone::good ? Mark::check
                                                 : Mark::ring,
                            tone)
                       .pixmap(scaled(QSize(16, 16))));
  passes_ = true;
  text_->setText(sentence);
  first_->hide();
  second_->hide();
  doFirst_ = {};
  doSecond_ = {};
  show();
  QAccessibleEvent alert(text_, QAccessible::Alert);
  QAccessible::updateAccessibility(&alert);
}

void MessageBar::showTrouble(const QString& sentence) {
  say(Tone::bad, sentence);
}
void MessageBar::showAlarm(const QString& sentence) {
  say(Tone::bad, sentence);
  passes_ = false;
}
void MessageBar::showNews(const QString& sentence) {
  say(Tone::good, sentence);
}

void MessageBar::showNotice(const QString& sentence) {
  say(Tone::attention, sentence);
}

void MessageBar::showOffer(const QString& sentence, const QString& first, std::function<void()> doFirst,
                           const QString& second, std::function<void()> doSecond) {
  say(Tone::attention, sentence);
  passes_ = false;
  first_->setText(first);
  first_->show();
  doFirst_ = std::move(doFirst);
  second_->setText(second);
  second_->setVisible(!second.isEmpty());
  doSecond_ = std::move(doSecond);
}

void MessageBar::passNews() {
  setHidden(isHidden() || passes_);
}

QString MessageBar::sentence() const {
  return isHidden() ? QString() : text_->text();
}

}  // namespace spanwright
