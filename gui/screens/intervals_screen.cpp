// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/intervals_screen.h"

#include <QCheckBox>
#include <QComboBox>
#include <QGroupBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSortFilterProxyModel>
#include <QSpinBox>
#include <QVBoxLayout>
#include <algorithm>
#include <memory>

#include "gui/models/intervals_model.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/look.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kLongestDays = 36525;

class ChangesFilter : public QSortFilterProxyModel {
 public:
  using QSortFilterProxyModel::QSortFilterProxyModel;
  void setChangesOnly(bool only) {
    only_ = only;
    invalidateFilter();
  }

 protected:
  bool filterAcceptsRow(int row, const QModelIndex&) const override {
    return !only_ || IntervalsModel::proposesChange(static_cast<IntervalsModel*>(sourceModel())->row(row));
  }

 private:
  bool only_ = false;
};

bool decides(const Person& person) {
  return std::any_of(person.roles.begin(), person.roles.end(),
                     [](Role role) { return role == Role::planner || role == Role::administrator; });
}

}  // namespace

IntervalsScreen::IntervalsScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      model_(new IntervalsModel(this)),
      filter_(new ChangesFilter(this)),
      table_(new TableView(tr("Proposed intervals"), this)),
      changesOnly_(new QCheckBox(tr("Only where a &change is proposed"), this)),
      count_(new QLabel(this)),
      evidence_(new QLabel(this)) {
  filter_->setSourceModel(model_);
  filter_->setSortRole(kSortRole);
  table_->setModel(filter_);
  table_->setSortingEnabled(true);
  table_->sortByColumn(-1, Qt::AscendingOrder);
  evidence_->setWordWrap(true);
  evidence_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  evidence_->setAccessibleName(tr("Evidence for the chosen routine"));
  auto* top = new WrapRow;
  top->setSpacing(10);
  top->addWidget(changesOnly_);
  top->addStretch(1);
  top->addWidget(count_);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 12, 14, 12);
  whole->setSpacing(10);
  whole->addLayout(top);
  whole->addWidget(table_, 1);
  whole->addWidget(evidence_);
  whole->addWidget(makeAcceptance());
  connect(changesOnly_, &QCheckBox::toggled, this, &IntervalsScreen::narrow);
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          &IntervalsScreen::showChosen);
  connect(table_, &TableView::chosen, this, [this] {
    if (const IntervalItem* item = current()) {
      emit channelChosen(fromCore(item->channel));
    }
  });
}

QWidget* IntervalsScreen::makeAcceptance() {
  auto* box = new QGroupBox(tr("Put an interval in force"), this);
  days_ = new QSpinBox(box);
  days_->setRange(1, kLongestDays);
  days_->setSuffix(tr(" days"));
  days_->setAccessibleName(tr("Length in days"));
  person_ = new QComboBox(box);
  person_->setAccessibleName(tr("Who accepts"));
  reason_ = new QLineEdit(box);
  reason_->setPlaceholderText(tr("why; needed when it is not the proposed length"));
  reason_->setAccessibleName(tr("Reason"));
  accept_ = new QPushButton(tr("&Accept"), box);
  trouble_ = new QLabel(box);
  trouble_->setWordWrap(true);
  auto* row = new WrapRow;
  row->setSpacing(10);
  const auto add = [&](const QString& text, QWidget* field, int stretch = 0) {
    auto* label = new QLabel(text, box);
    label->setBuddy(field);
    row->addWidget(label);
    row->addWidget(field, stretch);
  };
  add(tr("&Length"), days_);
  add(tr("Wh&o"), person_);
  add(tr("Rea&son"), reason_, 1);
  row->addWidget(accept_);
  auto* column = new QVBoxLayout(box);
  column->addLayout(row);
  column->addWidget(trouble_);
  trouble_->hide();
  connect(accept_, &QPushButton::clicked, this, &IntervalsScreen::accept);
  connect(reason_, &QLineEdit::returnPressed, this, &IntervalsScreen::accept);
  return box;
}

void IntervalsScreen::takeRecord() {
  model_->setRows({});
  person_->clear();
  for (const Person& person : session_.site().people) {
    if (!person.leftOn && decides(person)) {
      person_->addItem(fromCore(person.name), fromCore(person.login));
    }
  }
}

void IntervalsScreen::refresh() {
  if (!session_.isOpen()) {
    return;
  }
  count_->setText(tr("Reading the histories …"));
  session_.worker().postWithStore(
      tr("Looking at intervals"), [this, day = session_.today()](Store& store, const Progress&) {
        auto items = std::make_shared<std::vector<IntervalItem>>(intervalReport(store, {}, day));
        return Worker::Then([this, items] {
          const IntervalItem* before = current();
          const std::string tag = before != nullptr ? before->channel : std::string();
          const Subject subject = before != nullptr ? before->subject : Subject::channel;
          model_->setRows(std::move(*items));
          narrow();
          table_->fitToContent();
          int row = 0;
          for (int i = 0; i < filter_->rowCount(); ++i) {
            const IntervalItem& item = model_->row(filter_->mapToSource(filter_->index(i, 0)).row());
            row = item.channel == tag && item.subject == subject ? i : row;
          }
          table_->setCurrentIndex(filter_->index(row, 0));
          showChosen();
        });
      });
}

void IntervalsScreen::narrow() {
  static_cast<ChangesFilter*>(filter_)->setChangesOnly(changesOnly_->isChecked());
  count_->setText(tr("%1 of %2 shown").arg(filter_->rowCount()).arg(model_->rowCount()));
}

const IntervalItem* IntervalsScreen::current() const {
  const QModelIndex at = table_->currentIndex();
  return at.isValid() ? &model_->row(filter_->mapToSource(at).row()) : nullptr;
}

void IntervalsScreen::showChosen() {
  const IntervalItem* item = current();
  accept_->setEnabled(item != nullptr && person_->count() > 0);
  trouble_->hide();
  if (item == nullptr) {
    evidence_->clear();
    return;
  }
  QString text =
      tr("%1, %2: %3")
          .arg(fromCore(item->channel), wordInside(item->subject), fromCore(item->proposal.evidence));
  if (item->acceptedFrom) {
    text += u' ' +
            tr("The interval in force was accepted and holds since %1.").arg(shownDate(*item->acceptedFrom));
  }
  evidence_->setText(text);
  days_->setValue(item->proposal.days.value_or(item->nowDays));
}

QString IntervalsScreen::trouble() const {
  return trouble_->isHidden() ? QString() : trouble_->text();
}

void IntervalsScreen::accept() {
  const IntervalItem* item = current();
  if (item == nullptr) {
    return;
  }
  IntervalChoice choice;
  choice.channel = item->channel;
  choice.subject = item->subject;
  if (item->proposal.days != days_->value()) {
    choice.days = days_->value();
  }
  choice.person = toCore(person_->currentData().toString());
  choice.reason = toCore(reason_->text().trimmed());
  try {
    const AcceptedInterval made = acceptInterval(session_.store(), choice, session_.today());
    trouble_->hide();
    reason_->clear();
    emit accepted(tr("%1, %2: %3 from today on.")
                      .arg(fromCore(choice.channel), wordInside(*choice.subject),
                           shownDays(made.days > 0 ? made.days : days_->value())));
    session_.refresh();
    refresh();
  } catch (const InputError& refused) {
    trouble_->setText(problemSentences(refused));
    trouble_->show();
  } catch (const StorageError& error) {
    trouble_->setText(asSentence(QString::fromUtf8(error.what())));
    trouble_->show();
  }
}

}  // namespace spanwright
