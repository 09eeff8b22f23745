// SPDX-License-Identifier: GPL-3.0-or-later
//
// The pages of the reach of a standard.
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QTabBar>
#include <QVBoxLayout>
#include <algorithm>
#include <memory>

#include "gui/models/reach_model.h"
#include "gui/screens/found_form.h"
#include "gui/screens/reach_screen.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/signer_fields.h"
#include "gui/screens/table_view.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

void makeBold(QLabel* label, double times) {
  QFont font = label->font();
  font.setBold(true);
  font.setPointSizeF(font.pointSizeF() * times);
  label->setFont(font);
}

QVBoxLayout* columnOf(QWidget* page) {
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(10);
  return column;
}

}  // namespace

ReachScreen::ReachScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      heading_(new QLabel(this)),
      tabs_(new QTabBar(this)),
      pages_(new QStackedWidget(this)),
      form_(new FoundForm(this)),
      model_(new ReachedModel(this)),
      pointModel_(new ReachedPointsModel(this)),
      visitModel_(new ReachVisitsModel(this)) {
  makeBold(heading_, 1.2);
  tabs_->setAccessibleName(tr("Steps"));
  tabs_->setExpanding(false);
  tabs_->addTab(tr("&1  What was found"));
  tabs_->addTab(tr("&2  What it reached"));
  tabs_->addTab(tr("&3  What to do"));
  pages_->addWidget(form_);
  pages_->addWidget(makeReached());
  pages_->addWidget(makeToDo());
  pages_->addWidget(makeBusy());
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(14, 12, 14, 12);
  column->setSpacing(10);
  column->addWidget(heading_);
  column->addWidget(tabs_);
  column->addWidget(pages_, 1);
  connect(tabs_, &QTabBar::currentChanged, this, &ReachScreen::goToStep);
  connect(form_, &FoundForm::asked, this, [this] { goToStep(1); });
  connect(&session_.worker(), &Worker::becameIdle, this, &ReachScreen::endWork);
  setFocusProxy(form_);
}

QWidget* ReachScreen::makeBusy() {
  auto* page = new QWidget(this);
  busyText_ = new QLabel(page);
  busyText_->setAlignment(Qt::AlignCenter);
  auto* cancel = new QPushButton(tr("Cancel"), page);
  auto* column = columnOf(page);
  column->addStretch();
  column->addWidget(busyText_);
  column->addWidget(cancel, 0, Qt::AlignHCenter);
  column->addStretch();
  connect(cancel, &QPushButton::clicked, this, [this] { session_.worker().cancel(); });
  return page;
}

QWidget* ReachScreen::makeReached() {
  auto* page = new QWidget(this);
  summary_ = new QLabel(page);
  summary_->setWordWrap(true);
  summary_->setTextFormat(Qt::PlainText);
  summary_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  onlyChanged_ = new QCheckBox(tr("Only those that &change"), page);
  auto* next = new QPushButton(tr("What to &do"), page);
  table_ = new TableView(tr("Calibrations reached"), page);
  table_->setModel(model_);
  auto* list = new QWidget(page);
  auto* listColumn = columnOf(list);
  listColumn->addWidget(table_, 1);
  auto* split = new QSplitter(sideBySide(), page);
  split->setChildrenCollapsible(false);
  split->addWidget(list);
  split->addWidget(makePoints());
  split->setStretchFactor(0, 2);
  split->setStretchFactor(1, 1);
  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(onlyChanged_);
  row->addStretch();
  row->addWidget(next);
  auto* column = columnOf(page);
  column->addWidget(summary_);
  column->addLayout(row);
  column->addWidget(split, 1);
  connect(onlyChanged_, &QCheckBox::toggled, this, [this] {
    if (reach_) {
      showRows();
    }
  });
  connect(next, &QPushButton::clicked, this, [this] { goToStep(2); });
  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &ReachScreen::showPoints);
  connect(table_, &TableView::chosen, this, [this](const QModelIndex& at) {
    const ReachedCalibration& reached = model_->row(at.row());
    emit calibrationChosen(fromCore(reached.channel), reached.id);
  });
  return page;
}

QWidget* ReachScreen::makePoints() {
  auto* side = new QWidget(this);
  chosen_ = new QLabel(side);
  chosen_->setWordWrap(true);
  chosen_->setTextFormat(Qt::PlainText);
  pointTable_ = new TableView(tr("Points of the calibration chosen"), side);
  pointTable_->setModel(pointModel_);
  auto* column = columnOf(side);
  column->setContentsMargins(6, 0, 0, 0);
  column->addWidget(chosen_);
  column->addWidget(pointTable_, 1);
  return side;
}

QWidget* ReachScreen::makeToDo() {
  auto* page = new QWidget(this);
  toDo_ = new QLabel(page);
  toDo_->setWordWrap(true);
  visitTable_ = new TableView(tr("Channels to visit again"), page);
  visitTable_->setModel(visitModel_);
  name_ = new QLineEdit(page);
  name_->setAccessibleName(tr("Name of the round"));
  person_ = new QComboBox(page);
  person_->setAccessibleName(tr("Who walks it"));
  make_ = new QPushButton(tr("Ma&ke a round"), page);
  save_ = new QPushButton(tr("&Save list…"), page);
  auto* out = new QPushButton(tr("Take the standard &out of service…"), page);
  refusal_ = new RefusalLine(page);
  auto* nameLabel = new QLabel(tr("&Name of the round"), page);
  nameLabel->setBuddy(name_);
  auto* personLabel = new QLabel(tr("&For"), page);
  personLabel->setBuddy(person_);
  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(nameLabel);
  row->addWidget(name_, 1);
  row->addWidget(personLabel);
  row->addWidget(person_);
  row->addWidget(make_);
  auto* other = new WrapRow;
  other->setSpacing(10);
  other->addWidget(save_);
  other->addWidget(out);
  other->addStretch();
  auto* column = columnOf(page);
  column->addWidget(toDo_);
  column->addWidget(visitTable_, 1);
  column->addLayout(row);
  column->addLayout(other);
  column->addWidget(refusal_);
  connect(make_, &QPushButton::clicked, this, &ReachScreen::makeTheRound);
  connect(save_, &QPushButton::clicked, this, &ReachScreen::askList);
  connect(out, &QPushButton::clicked, this, [this] { emit decisionAsked(serial_); });
  return page;
}

void ReachScreen::fillPeople() {
  const QString before = person_->count() > 0 ? person_->currentData().toString() : QString();
  const bool first = person_->count() == 0;
  const std::unique_ptr<QComboBox> people(makePersonBox(session_, {}, nullptr));
  person_->clear();
  person_->addItem(tr("anybody"), QString());
  for (int i = 0; i < people->count(); ++i) {
    person_->addItem(people->itemText(i), people->itemData(i));
  }
  const int at = person_->findData(first ? people->currentData() : QVariant(before));
  person_->setCurrentIndex(std::max(0, at));
}

}  // namespace spanwright
