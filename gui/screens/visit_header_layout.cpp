// SPDX-License-Identifier: GPL-3.0-or-later
//
// How the head of the entry sheet is laid out.
#include "gui/screens/visit_header.h"

#include <QCheckBox>
#include <QComboBox>
#include <QCompleter>
#include <QDateTimeEdit>
#include <QFormLayout>
#include <QGridLayout>
#include <QGroupBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QScrollArea>
#include <QVBoxLayout>

#include "core/metrology/tolerance.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

QLabel* valueLabel(QWidget* parent) {
  auto* label = new QLabel(parent);
  label->setWordWrap(true);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  return label;
}

QFormLayout* denseForm(QWidget* parent) {
  auto* form = new QFormLayout(parent);
  form->setContentsMargins(10, 6, 10, 8);
  form->setVerticalSpacing(5);
  form->setHorizontalSpacing(10);
  form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
  return form;
}

}  // namespace

QWidget* VisitHeader::makeWho() {
  auto* box = new QGroupBox(tr("Visit"), this);
  channel_ = new QComboBox(box);
  channel_->setEditable(true);
  channel_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  channel_->setMinimumContentsLength(18);
  channel_->setInsertPolicy(QComboBox::NoInsert);
  channel_->completer()->setCompletionMode(QCompleter::PopupCompletion);
  channel_->completer()->setFilterMode(Qt::MatchContains);
  subject_ = new QComboBox(box);
  when_ = new QDateTimeEdit(box);
  when_->setDisplayFormat(typedMomentForm());
  person_ = new QComboBox(box);
  auto* form = denseForm(box);
  form->addRow(tr("Channel"), channel_);
  form->addRow(tr("Subject"), subject_);
  form->addRow(tr("When"), when_);
  form->addRow(tr("Person"), person_);
  connect(channel_, &QComboBox::activated, this, &VisitHeader::ask);
  connect(channel_->lineEdit(), &QLineEdit::returnPressed, this, &VisitHeader::takeTypedChannel);
  connect(subject_, &QComboBox::activated, this, &VisitHeader::ask);
  connect(when_, &QDateTimeEdit::editingFinished, this, [this] {
    if (!entry_.isOpen() || when() != entry_.draft().started) {
      ask();
    }
  });
  connect(person_, &QComboBox::activated, this, [this] {
    kLastPerson.set(person_->currentData().toString());
    entry_.setPerson(person_->currentData().toString());
  });
  return box;
}

QWidget* VisitHeader::makeUnderTest() {
  auto* box = new QGroupBox(tr("Under test"), this);
  setup_ = valueLabel(box);
  sensor_ = valueLabel(box);
  plan_ = valueLabel(box);
  tolerance_ = valueLabel(box);
  procedure_ = valueLabel(box);
  auto* grid = new QGridLayout(box);
  grid->setContentsMargins(10, 6, 10, 8);
  grid->setVerticalSpacing(4);
  grid->setHorizontalSpacing(10);
  grid->setColumnStretch(1, 1);
  int line = 0;
  for (const auto& [name, label] :
       {std::pair{tr("Setup"), setup_}, std::pair{tr("Sensor"), sensor_}, std::pair{tr("Plan"), plan_},
        std::pair{tr("Tolerance"), tolerance_}, std::pair{tr("Procedure"), procedure_}}) {
    grid->addWidget(new QLabel(name, box), line, 0, Qt::AlignTop);
    label->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    grid->addWidget(label, line++, 1);
  }
  grid->setRowStretch(line, 1);
  return box;
}

QWidget* VisitHeader::makeMeans() {
  auto* box = new QGroupBox(tr("Standards and conditions"), this);
  standards_ = new QListWidget(box);
  standards_->setAccessibleName(tr("Standards used"));
  standards_->setTabKeyNavigation(false);
  standards_->setMinimumHeight(scaled(54));
  standards_->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Ignored);
  standards_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  standards_->setSpacing(1);
  auto* standardsLabel = new QLabel(tr("S&tandards used: Space ticks one"), box);
  standardsLabel->setBuddy(standards_);
  noStandards_ = valueLabel(box);
  temperature_ = new QLineEdit(box);
  temperature_->setPlaceholderText(QStringLiteral("°C"));
  temperature_->setAccessibleName(tr("Ambient temperature in °C"));
  humidity_ = new QLineEdit(box);
  humidity_->setPlaceholderText(tr("% rel. humidity"));
  humidity_->setAccessibleName(tr("Relative humidity in percent"));
  note_ = new QLineEdit(box);
  note_->setPlaceholderText(tr("Note"));
  note_->setAccessibleName(tr("Note on the conditions"));
  junctionRow_ = new QWidget(box);
  junction_ = new QLineEdit(junctionRow_);
  junction_->setPlaceholderText(tr("none: mV are emf referred to 0 °C"));
  junction_->setAccessibleName(tr("Reference junction in °C"));
  auto* junctionLabel = new QLabel(tr("Reference &junction, °C"), junctionRow_);
  junctionLabel->setBuddy(junction_);
  auto* junctionLine = new QHBoxLayout(junctionRow_);
  junctionLine->setContentsMargins(0, 0, 0, 0);
  junctionLine->addWidget(junctionLabel);
  junctionLine->addWidget(junction_, 1);
  auto* row = new QHBoxLayout;
  row->addWidget(temperature_, 2);
  row->addWidget(humidity_, 3);
  row->addWidget(note_, 4);
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(10, 6, 10, 8);
  column->setSpacing(6);
  column->addWidget(standardsLabel);
  column->addWidget(standards_, 1);
  column->addWidget(noStandards_);
  column->addLayout(row);
  column->addWidget(junctionRow_);
  connect(standards_, &QListWidget::itemChanged, this, [this] {
    if (filling_) {
      return;
    }
    std::vector<std::string> serials;
    QStringList kept;
    for (int i = 0; i < standards_->count(); ++i) {
      if (standards_->item(i)->checkState() == Qt::Checked) {
        kept << standards_->item(i)->data(Qt::UserRole).toString();
        serials.push_back(toCore(kept.last()));
      }
    }
    kLastStandards.set(kept);
    entry_.setStandards(serials);
  });
  for (QLineEdit* edit : {temperature_, humidity_, note_, junction_}) {
    connect(edit, &QLineEdit::editingFinished, this, &VisitHeader::takeConditions);
  }
  return box;
}

QWidget* VisitHeader::makeCautions() {
  auto* box = new QGroupBox(tr("Before the first value"), this);
  cautionText_ = valueLabel(box);
  cautionText_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  cautionText_->setAccessibleName(tr("Cautions"));
  auto* scroll = new QScrollArea(box);
  scroll->setWidget(cautionText_);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setMinimumHeight(scaled(140));
  scroll->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Ignored);
  confirm_ = new QCheckBox(tr("Read, and each of these is in &place"), box);
  confirm_->setAccessibleDescription(tr("Must be ticked before values can be typed"));
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(10, 6, 10, 8);
  column->setSpacing(6);
  column->addWidget(scroll, 1);
  column->addWidget(confirm_);
  connect(confirm_, &QCheckBox::toggled, this, &VisitHeader::confirm);
  return box;
}

}  // namespace spanwright
