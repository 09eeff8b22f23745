// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/settle_timer.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QSpinBox>
#include <algorithm>

#include "core/signal/settling.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/marks.h"

namespace spanwright {
namespace {

constexpr int kTickMs = 100;
constexpr int kLongestSeconds = 3600;
constexpr int kBarWidth = 70;

}  // namespace

SettleTimer::SettleTimer(QWidget* parent)
    : QWidget(parent),
      sign_(new QLabel(this)),
      text_(new QLabel(this)),
      bar_(new QProgressBar(this)),
      seconds_(new QSpinBox(this)) {
  seconds_->setRange(1, kLongestSeconds);
  seconds_->setSuffix(tr(" s"));
  seconds_->setAccessibleName(tr("Seconds to settle"));
  text_->setAccessibleName(tr("Settling"));
  bar_->setFixedWidth(scaled(kBarWidth));
  bar_->setTextVisible(false);
  bar_->setAccessibleName(tr("Settling, how far"));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(6);
  row->addWidget(sign_);
  row->addWidget(text_);
  row->addWidget(bar_);
  row->addWidget(seconds_);
  connect(seconds_, &QSpinBox::valueChanged, this, [this](int value) {
    if (!fromSetup_) {  // a setup's own seconds changed by hand are for this sheet
      kSettleSeconds.set(value);
    }
  });
  connect(&ticks_, &QTimer::timeout, this, &SettleTimer::tick);
  takeSetup(nullptr);
}

void SettleTimer::takeSetup(const ChannelSetup* setup) {
  stop();
  const auto own = setup != nullptr ? settleSeconds(*setup) : std::nullopt;
  fromSetup_ = own.has_value();
  seconds_->setValue(own.value_or(kSettleSeconds.get()));
  seconds_->setToolTip(fromSetup_ ? tr("Five time constants of the setup's filter")
                                  : tr("The setup has no filter; this number is kept"));
}

int SettleTimer::seconds() const {
  return seconds_->value();
}

QString SettleTimer::state() const {
  return text_->text();
}

void SettleTimer::show(const QString& text) {
  text_->setText(text);
}

void SettleTimer::toggle(const QString& point) {
  if (isRunning() && point == point_) {
    stop();
  } else {
    start(point, std::chrono::seconds(seconds()));
  }
}

void SettleTimer::start(const QString& point, std::chrono::milliseconds howLong) {
  point_ = point;
  end_.setRemainingTime(howLong);
  bar_->setRange(0, static_cast<int>(howLong.count()));
  bar_->show();
  sign_->setPixmap(markIcon(Mark::halfDisc, Tone::attention).pixmap(scaled(QSize(16, 16))));
  ticks_.start(std::min(kTickMs, static_cast<int>(howLong.count())));
  tick();
}

void SettleTimer::stop() {
  ticks_.stop();
  point_.clear();
  bar_->hide();
  sign_->setPixmap({});
  show(tr("Settle: F9"));
}

void SettleTimer::tick() {
  const int left = static_cast<int>(end_.remainingTime());
  bar_->setValue(bar_->maximum() - left);
  if (left > 0) {
    show(tr("%1: %2 s").arg(point_).arg((left + 999) / 1000));
    return;
  }
  ticks_.stop();
  bar_->hide();
  sign_->setPixmap(markIcon(Mark::check, Tone::good).pixmap(scaled(QSize(16, 16))));
  show(tr("%1: settled").arg(point_));
  text_->setAccessibleDescription(text_->text());
  QAccessibleEvent alert(text_, QAccessible::Alert);
  QAccessible::updateAccessibility(&alert);
  emit settled(point_);
}

}  // namespace spanwright
