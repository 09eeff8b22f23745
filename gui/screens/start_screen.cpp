// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/start_screen.h"

#include <QBoxLayout>
#include <QFileInfo>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"

namespace spanwright {
namespace {

constexpr int kColumnWidth = 430;

QLabel* heading(const QString& text, double times, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  QFont font = label->font();
  font.setPointSizeF(font.pointSizeF() * times);
  font.setBold(true);
  label->setFont(font);
  return label;
}

/// A button with a line of explanation under its name.
QPushButton* makeOffer(const QString& text, const QString& explanation, QWidget* parent) {
  auto* button = new QPushButton(parent);
  button->setMinimumHeight(scaled(68));
  button->setAccessibleName(text);
  button->setAccessibleDescription(explanation);
  auto* column = new QVBoxLayout(button);
  column->setContentsMargins(16, 8, 16, 8);
  column->setSpacing(2);
  auto* name = heading(text, 1.05, button);
  auto* about = new QLabel(explanation, button);
  about->setWordWrap(true);
  for (QLabel* label : {name, about}) {
    label->setAttribute(Qt::WA_TransparentForMouseEvents);
    column->addWidget(label);
  }
  return button;
}

}  // namespace

StartScreen::StartScreen(QWidget* parent)
    : QWidget(parent), recent_(new QListWidget(this)), noRecent_(new QLabel(this)) {
  auto* actions = new QVBoxLayout;
  actions->setSpacing(10);
  actions->addWidget(heading(tr("What would you like to do?"), 1.2, this));
  const auto offer = [this, actions](const QString& text, const QString& explanation,
                                     void (StartScreen::*wanted)()) {
    auto* button = makeOffer(text, explanation, this);
    connect(button, &QAbstractButton::clicked, this, wanted);
    actions->addWidget(button);
  };
  offer(tr("Open a record"), tr("A site's record file on a disk of this machine"), &StartScreen::openAsked);
  offer(tr("Describe a new site"), tr("By form: its name and first person; the rest follows in the window"),
        &StartScreen::siteAsked);
  offer(tr("Make a record from a site file"), tr("That names places, channels, plans and standards"),
        &StartScreen::newAsked);
  offer(tr("Try the sample record"), tr("Your own copy of an invented creamery with years of history"),
        &StartScreen::sampleAsked);
  actions->addStretch();

  auto* past = new QVBoxLayout;
  past->setSpacing(10);
  past->addWidget(heading(tr("Recent records"), 1.2, this));
  recent_->setAccessibleName(tr("Recent records"));
  recent_->setAlternatingRowColors(true);
  recent_->setSpacing(4);
  recent_->setTextElideMode(Qt::ElideMiddle);
  noRecent_->setText(tr("None yet. A record you open is listed here."));
  noRecent_->setWordWrap(true);
  past->addWidget(recent_, 1);
  past->addWidget(noRecent_);
  past->addStretch();

  auto* columns =
      new QBoxLayout(sideBySide() == Qt::Horizontal ? QBoxLayout::LeftToRight : QBoxLayout::TopToBottom);
  columns->setSpacing(48);
  columns->addStretch();
  for (QVBoxLayout* column : {actions, past}) {
    auto* holder = new QWidget(this);
    holder->setFixedWidth(scaled(kColumnWidth));
    column->setContentsMargins(0, 0, 0, 0);
    holder->setLayout(column);
    columns->addWidget(holder, 0, sideBySide() == Qt::Horizontal ? Qt::Alignment() : Qt::AlignHCenter);
  }
  columns->addStretch();

  auto* purpose =
      new QLabel(tr("As found, as left, and what it means: the calibration record of a site's measuring "
                    "channels, each proof tied to the setup it was made under."),
                 this);
  purpose->setWordWrap(true);
  purpose->setAlignment(Qt::AlignHCenter);
  auto* name = heading(QStringLiteral("Spanwright"), 2.2, this);
  name->setAlignment(Qt::AlignHCenter);

  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(32, 24, 32, 24);
  whole->addStretch(1);
  whole->addWidget(name);
  whole->addWidget(purpose);
  whole->addSpacing(28);
  whole->addLayout(columns, 4);
  whole->addStretch(1);
  const auto choose = [this](const QListWidgetItem* item) {
    emit recordChosen(item->data(Qt::UserRole).toString());
  };
  connect(recent_, &QListWidget::itemActivated, this, choose);
  refresh();
}

void StartScreen::refresh() {
  recent_->clear();
  for (const QString& file : kRecentRecords.get()) {
    const QFileInfo info(file);
    auto* item = new QListWidgetItem(
        QStringLiteral("%1\n%2").arg(info.completeBaseName(), info.absolutePath()), recent_);
    item->setData(Qt::UserRole, file);
    item->setToolTip(file);
    item->setSizeHint({0, scaled(46)});
    if (!info.exists()) {
      item->setText(tr("%1 (no longer there)\n%2").arg(info.completeBaseName(), info.absolutePath()));
      item->setFlags(item->flags() & ~Qt::ItemIsEnabled);
    }
  }
  recent_->setVisible(recent_->count() > 0);
  noRecent_->setVisible(recent_->count() == 0);
}

}  // namespace spanwright
