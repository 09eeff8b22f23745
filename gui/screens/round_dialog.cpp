// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/round_dialog.h"

#include <QComboBox>
#include <QDateEdit>
#include <QDialogButtonBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "gui/models/rounds_model.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/signer_fields.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/days.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr QSize kSize{980, 600};

}  // namespace

RoundDialog::RoundDialog(Session& session, QWidget* parent)
    : QDialog(parent),
      session_(session),
      model_(new PickModel(this)),
      name_(new QLineEdit(this)),
      words_(new QLineEdit(this)),
      day_(new QDateEdit(toQt(session.today()), this)),
      person_(makePersonBox(session, tr("Who walks it"), this)),
      within_(new QComboBox(this)),
      count_(new QLabel(this)),
      table_(new TableView(tr("Due items"), this)),
      refusal_(new RefusalLine(this)) {
  setWindowTitle(tr("New round"));
  resize(onScreen(scaled(kSize)));
  model_->setDue(session.dueRows(), session.dueTexts());
  name_->setAccessibleName(tr("Name"));
  name_->setText(tr("Round of %1").arg(shownDate(session.today())));
  day_->setAccessibleName(tr("Day"));
  day_->setCalendarPopup(true);
  day_->setDisplayFormat(typedDateForm());
  person_->insertItem(0, tr("anybody"), QString());
  words_->setPlaceholderText(tr("Narrow by channel, place or reason"));
  words_->setClearButtonEnabled(true);
  words_->setAccessibleName(tr("Narrow by words"));
  within_->setAccessibleName(tr("How soon"));
  for (const int days : {0, 14, 30, 60, 90, 365}) {
    within_->addItem(days == 0 ? tr("Due now") : tr("Within %1 days").arg(days), days);
  }
  within_->setCurrentIndex(within_->findData(30));
  table_->setModel(model_);
  table_->installEventFilter(this);

  auto* grid = new QGridLayout(this);
  grid->setHorizontalSpacing(12);
  grid->setVerticalSpacing(8);
  const auto add = [grid, this](int column, const QString& label, QWidget* field) {
    auto* text = new QLabel(label, this);
    text->setBuddy(field);
    grid->addWidget(text, 0, column);
    grid->addWidget(field, 0, column + 1);
  };
  add(0, tr("&Name"), name_);
  add(2, tr("&Day"), day_);
  add(4, tr("&For"), person_);
  grid->setColumnStretch(1, 1);
  auto* tick = new QPushButton(tr("&Tick all shown"), this);
  tick->setAutoDefault(false);
  auto* row = new QHBoxLayout;
  row->setSpacing(10);
  row->addWidget(within_);
  row->addWidget(words_, 1);
  row->addWidget(tick);
  row->addWidget(count_);
  grid->addLayout(row, 1, 0, 1, 6);
  grid->addWidget(table_, 2, 0, 1, 6);
  grid->setRowStretch(2, 1);
  grid->addWidget(refusal_, 3, 0, 1, 6);
  auto* buttons = new QDialogButtonBox(this);
  buttons->addButton(tr("Make the round"), QDialogButtonBox::AcceptRole)->setAutoDefault(false);
  buttons->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  grid->addWidget(buttons, 4, 0, 1, 6);
  connect(buttons, &QDialogButtonBox::accepted, this, &RoundDialog::make);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  connect(words_, &QLineEdit::textChanged, this, &RoundDialog::narrow);
  connect(within_, &QComboBox::currentIndexChanged, this, &RoundDialog::narrow);
  connect(tick, &QPushButton::clicked, this, &RoundDialog::tickShown);
  connect(model_, &PickModel::pickedChanged, this, &RoundDialog::showCount);
  connect(table_, &TableView::chosen, this, &RoundDialog::toggle);
  narrow();
  table_->fitToContent();
  table_->setCurrentIndex(model_->index(0, 0));
  table_->setFocus();
}

bool RoundDialog::eventFilter(QObject* watched, QEvent* event) {
  if (watched == table_ && event->type() == QEvent::KeyPress &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_Space) {
    toggle();  // wherever in the line the cursor is
    return true;
  }
  return QDialog::eventFilter(watched, event);
}

void RoundDialog::toggle() {
  const QModelIndex at = table_->currentIndex();
  if (at.isValid()) {
    const bool on = model_->index(at.row(), 0).data(Qt::CheckStateRole).toInt() == Qt::Checked;
    model_->pick(at.row(), !on);
  }
}

void RoundDialog::narrow() {
  model_->narrowTo({.words = words_->text(),
                    .state = {},
                    .until = session_.today() + boost::gregorian::days(within_->currentData().toInt())});
  showCount();
}

void RoundDialog::tickShown() {
  for (int row = 0; row < model_->rowCount(); ++row) {
    model_->pick(row, true);
  }
}

void RoundDialog::showCount() {
  count_->setText(tr("%1 ticked, %2 shown").arg(model_->picked().size()).arg(model_->rowCount()));
}

void RoundDialog::make() {
  const ProposedRound proposed{toCore(name_->text().trimmed()), toCore(person_->currentData().toString()),
                               fromQt(day_->date()), model_->picked()};
  std::int64_t id = 0;
  QString wrong;
  try {
    id = makeRound(session_.store(), proposed);
  } catch (const InputError& refused) {
    wrong = problemSentences(refused);
  } catch (const std::exception& error) {
    wrong = asSentence(QString::fromUtf8(error.what()));
  }
  refusal_->say(wrong);
  if (wrong.isEmpty()) {
    accept();
    emit made(id, tr("The round \"%1\" has %2.")
                      .arg(fromCore(proposed.name),
                           counted(static_cast<int>(proposed.stops.size()), tr("1 stop"), tr("%1 stops"))));
  }
}

QString RoundDialog::trouble() const {
  return refusal_->sentence();
}

}  // namespace spanwright
