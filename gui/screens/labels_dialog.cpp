// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/labels_dialog.h"

#include <QDialogButtonBox>
#include <QDir>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "core/record/problem.h"
#include "gui/certificate/draw.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr QSize kSize{960, 520};
constexpr double kLongest = 400.0;  // mm
constexpr int kMostPlaces = 999;

Paper paper() {
  return kLetterPaper.get() ? Paper::letter : Paper::a4;
}

std::vector<LabelsModel::Column> columns() {
  using Row = LabelProposal;
  const auto fact = [](std::string ChannelLabel::*part) {
    return [part](const Row& r) { return r.label ? fromCore((*r.label).*part) : QString(); };
  };
  return {
      {LabelsModel::tr("Channel"),
       [](const Row& r) { return fromCore(r.stop.channel); },
       {},
       [](const Row& r) {
         return r.label ? markIcon(Mark::check, Tone::good) : markIcon(Mark::slash, Tone::quiet);
       }},
      {LabelsModel::tr("Subject"), [](const Row& r) { return word(r.stop.subject); }},
      {LabelsModel::tr("Calibrated"), fact(&ChannelLabel::calibrated)},
      {LabelsModel::tr("Due"), fact(&ChannelLabel::due)},
      {LabelsModel::tr("Certificate"), fact(&ChannelLabel::certificate)},
      {LabelsModel::tr("No label because"),
       [](const Row& r) { return r.label ? QString() : asSentence(fromCore(r.why)); }},
  };
}

}  // namespace

LabelsModel::LabelsModel(QObject* parent) : RowsModel(columns(), parent) {}

LabelsDialog::LabelsDialog(Session& session, const std::vector<RoundStop>& stops, QWidget* parent)
    : QDialog(parent),
      session_(session),
      model_(new LabelsModel(this)),
      table_(new TableView(tr("Labels"), this)),
      summary_(new QLabel(this)),
      places_(new QLabel(this)),
      first_(new QSpinBox(this)),
      write_(new QPushButton(tr("&Write the sheet…"), this)),
      refusal_(new RefusalLine(this)) {
  setWindowTitle(tr("Labels to stick on"));
  resize(onScreen(scaled(kSize)));
  try {
    model_->setRows(labelsFor(session.store(), stops, session.now()));
  } catch (const std::exception& error) {
    refusal_->say(asSentence(QString::fromUtf8(error.what())));
  }
  table_->setModel(model_);
  table_->fitToContent();
  summary_->setWordWrap(true);
  summary_->setAccessibleName(tr("What is on the labels"));
  places_->setWordWrap(true);
  places_->setAccessibleName(tr("Places on a sheet"));
  const bool due = session.site().site.dueDateAgreed;
  summary_->setText(
      tr("%1. Each holds the tag, the day and the certificate's number, as text and as a code to be read by "
         "a "
         "phone. %2")
          .arg(counted(static_cast<int>(labels().size()), tr("1 label"), tr("%1 labels")),
               due ? tr("The due date is on it, as agreed.")
                   : tr("The due date is left out: the site has not agreed to its being printed.")));

  auto* form = new QFormLayout;
  form->setVerticalSpacing(6);
  width_ = measure(tr("Width"), kLabelWidth.get(), form);
  height_ = measure(tr("Height"), kLabelHeight.get(), form);
  left_ = measure(tr("From the left edge"), kLabelLeft.get(), form);
  top_ = measure(tr("From the top edge"), kLabelTop.get(), form);
  across_ = measure(tr("Gap across"), kLabelGapAcross.get(), form);
  down_ = measure(tr("Gap down"), kLabelGapDown.get(), form);
  first_->setRange(1, kMostPlaces);
  first_->setAccessibleName(tr("First free label"));
  first_->setToolTip(tr("Counted along the rows; 1 on a sheet that is whole"));
  auto* label = new QLabel(tr("&First free label"), this);
  label->setBuddy(first_);
  form->addRow(label, first_);
  form->addRow(places_);
  auto* row = new QHBoxLayout;
  row->setSpacing(14);
  row->addWidget(table_, 1);
  row->addLayout(form);
  auto* buttons = new QDialogButtonBox(this);
  write_->setDefault(true);
  buttons->addButton(write_, QDialogButtonBox::AcceptRole);
  buttons->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  auto* whole = new QVBoxLayout(this);
  whole->setSpacing(10);
  whole->addWidget(summary_);
  whole->addLayout(row, 1);
  whole->addWidget(refusal_);
  whole->addWidget(buttons);
  connect(buttons, &QDialogButtonBox::accepted, this, &LabelsDialog::ask);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  connect(first_, &QSpinBox::valueChanged, this, &LabelsDialog::showPlaces);
  write_->setEnabled(!labels().empty());
  showPlaces();
  first_->setFocus();
}

QDoubleSpinBox* LabelsDialog::measure(const QString& name, double value, QFormLayout* form) {
  auto* box = new QDoubleSpinBox(this);
  box->setRange(0.0, kLongest);
  box->setDecimals(1);
  box->setSuffix(tr(" mm"));
  box->setValue(value);
  box->setAccessibleName(name);
  form->addRow(name, box);
  connect(box, &QDoubleSpinBox::valueChanged, this, &LabelsDialog::showPlaces);
  return box;
}

LabelSheet LabelsDialog::sheet() const {
  return {width_->value(),  height_->value(), left_->value(), top_->value(),
          across_->value(), down_->value(),   first_->value()};
}

std::vector<ChannelLabel> LabelsDialog::labels() const {
  std::vector<ChannelLabel> all;
  for (const LabelProposal& each : model_->rows()) {
    if (each.label) {
      all.push_back(*each.label);
    }
  }
  return all;
}

void LabelsDialog::showPlaces() {
  places_->setText(tr("%1 on a sheet of %2")
                       .arg(counted(labelsOnSheet(sheet(), paper()), tr("1 label"), tr("%1 labels")),
                            paper() == Paper::letter ? tr("Letter") : tr("A4")));
}

void LabelsDialog::ask() {
  const QString file = QFileDialog::getSaveFileName(
      this, tr("Write the sheet of labels"), QDir(kLastFolder.get()).filePath(QStringLiteral("labels.pdf")),
      tr("PDF files (*.pdf)"));
  if (!file.isEmpty()) {
    writeTo(file);
  }
}

void LabelsDialog::writeTo(const QString& file) {
  QString wrong;
  const LabelSheet chosen = sheet();
  try {
    writeLabelsPdf(labels(), chosen, file, paper());
  } catch (const InputError& refused) {
    wrong = problemSentences(refused);
  } catch (const std::exception& error) {
    wrong = asSentence(QString::fromUtf8(error.what()));
  }
  refusal_->say(wrong);
  if (!wrong.isEmpty()) {
    return;
  }
  kLabelWidth.set(chosen.width);
  kLabelHeight.set(chosen.height);
  kLabelLeft.set(chosen.left);
  kLabelTop.set(chosen.top);
  kLabelGapAcross.set(chosen.gapAcross);
  kLabelGapDown.set(chosen.gapDown);
  accept();
  emit written(tr("%1 written to %2; print it at its true size.")
                   .arg(counted(static_cast<int>(labels().size()), tr("1 label"), tr("%1 labels")),
                        QDir::toNativeSeparators(file)));
}

QString LabelsDialog::trouble() const {
  return refusal_->sentence();
}

}  // namespace spanwright
