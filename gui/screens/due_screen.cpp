// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/due_screen.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kAnyTime = -1;

}  // namespace

DueScreen::DueScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      model_(new DueModel(this)),
      table_(new TableView(tr("Due list"), this)),
      state_(new QComboBox(this)),
      within_(new QComboBox(this)),
      words_(new QLineEdit(this)),
      count_(new QLabel(this)) {
  state_->addItem(tr("Every state"), -1);
  for (const DueState state :
       {DueState::unproven, DueState::overdue, DueState::inGrace, DueState::dueSoon, DueState::ok}) {
    state_->addItem(iconOf(state), word(state), static_cast<int>(state));
  }
  state_->setAccessibleName(tr("State"));
  within_->addItem(tr("At any time"), kAnyTime);
  for (const int days : {0, 7, 30, 60, 90, 180, 365}) {
    within_->addItem(days == 0 ? tr("Due now") : tr("Within %1 days").arg(days), days);
  }
  within_->setCurrentIndex(std::max(0, within_->findData(kDueWithinDays.get())));
  within_->setAccessibleName(tr("How soon"));
  words_->setPlaceholderText(tr("Narrow by channel, place or reason"));
  words_->setClearButtonEnabled(true);
  words_->setAccessibleName(tr("Narrow by words"));

  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(state_);
  row->addWidget(within_);
  row->addWidget(words_, 1);
  row->addWidget(count_);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 12, 14, 12);
  whole->setSpacing(10);
  whole->addLayout(row);
  whole->addWidget(table_, 1);
  table_->setModel(model_);
  table_->setSortingEnabled(true);
  table_->sortByColumn(-1, Qt::AscendingOrder);  // as core has it: most pressing first

  connect(state_, &QComboBox::currentIndexChanged, this, &DueScreen::narrow);
  connect(within_, &QComboBox::activated, this,
          [this] { kDueWithinDays.set(within_->currentData().toInt()); });
  connect(within_, &QComboBox::currentIndexChanged, this, &DueScreen::narrow);
  connect(words_, &QLineEdit::textChanged, this, &DueScreen::narrow);
  connect(table_, &TableView::chosen, this, [this](const QModelIndex& index) {
    emit channelChosen(fromCore(model_->row(index.row()).channel));
  });
  // What is not seen takes what is due when it is shown.
  connect(&session_, &Session::dueChanged, this, [this] {
    if (isVisible()) {
      refresh();
    }
  });
}

void DueScreen::refresh() {
  if (model_->given() != session_.dueRows()) {
    model_->setDue(session_.dueRows(), session_.dueTexts());
  }
  narrow();
  table_->fitToContent();
}

void DueScreen::narrow() {
  const int state = state_->currentData().toInt();
  const int days = within_->currentData().toInt();
  DueModel::Narrowed by;
  by.words = words_->text();
  by.state = state < 0 ? std::nullopt : std::optional(static_cast<DueState>(state));
  by.until = days == kAnyTime ? std::nullopt : std::optional(session_.today() + boost::gregorian::days(days));
  model_->narrowTo(by);
  count_->setText(tr("%1 of %2 shown").arg(model_->rowCount()).arg(model_->rows().size()));
}

void DueScreen::showState(std::optional<DueState> state) {
  words_->clear();
  within_->setCurrentIndex(within_->findData(kAnyTime));
  state_->setCurrentIndex(state_->findData(state ? static_cast<int>(*state) : -1));
  table_->setFocus();
}

void DueScreen::findChannel() {
  words_->setFocus(Qt::ShortcutFocusReason);
  words_->selectAll();
}

QString DueScreen::currentChannel() const {
  const QModelIndex at = table_->currentIndex();
  return at.isValid() ? fromCore(model_->row(at.row()).channel) : QString();
}

std::optional<Subject> DueScreen::currentSubject() const {
  const QModelIndex at = table_->currentIndex();
  return at.isValid() ? std::optional(model_->row(at.row()).subject) : std::nullopt;
}

}  // namespace spanwright
