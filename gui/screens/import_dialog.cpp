// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/import_dialog.h"

#include <QCheckBox>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr std::size_t kShownMost = 500;

}  // namespace

ImportDialog::ImportDialog(Session& session, QWidget* parent)
    : QDialog(parent),
      session_(session),
      mapping_(new QLineEdit(this)),
      files_(new QListWidget(this)),
      result_(new QLabel(this)),
      rejected_(new QListWidget(this)),
      keepGood_(new QCheckBox(tr("Keep the good visits when some are refused"), this)),
      look_(new QPushButton(tr("Look first"), this)),
      accept_(new QPushButton(tr("Import"), this)) {
  setWindowTitle(tr("Import histories"));
  resize(760, 560);
  mapping_->setReadOnly(true);
  mapping_->setAccessibleName(tr("Mapping file"));
  files_->setAccessibleName(tr("History files"));
  rejected_->setAccessibleName(tr("Refused"));
  rejected_->setWordWrap(true);
  result_->setWordWrap(true);
  auto* pickMapping = new QPushButton(tr("Choose mapping…"), this);
  auto* pickFiles = new QPushButton(tr("Choose files…"), this);
  auto* first = new QHBoxLayout;
  first->addWidget(mapping_, 1);
  first->addWidget(pickMapping);
  auto* second = new QHBoxLayout;
  second->addWidget(files_, 1);
  second->addWidget(pickFiles, 0, Qt::AlignTop);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
  buttons->addButton(look_, QDialogButtonBox::ActionRole);
  buttons->addButton(accept_, QDialogButtonBox::ActionRole);
  auto* column = new QVBoxLayout(this);
  column->setSpacing(8);
  column->addWidget(new QLabel(tr("A mapping says how the columns of a file are to be read."), this));
  column->addLayout(first);
  column->addLayout(second, 1);
  column->addWidget(keepGood_);
  column->addWidget(result_);
  column->addWidget(rejected_, 2);
  column->addWidget(buttons);
  connect(pickMapping, &QPushButton::clicked, this, &ImportDialog::chooseMapping);
  connect(pickFiles, &QPushButton::clicked, this, &ImportDialog::chooseFiles);
  connect(look_, &QPushButton::clicked, this, [this] { start(true); });
  connect(accept_, &QPushButton::clicked, this, [this] { start(false); });
  connect(keepGood_, &QCheckBox::toggled, this, &ImportDialog::showReadiness);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  connect(&session_, &Session::imported, this, &ImportDialog::take);
  connect(&session_, &Session::troubled, this, [this](const QString& sentence) {
    running_ = false;
    result_->setText(sentence);
    showReadiness();
  });
  connect(&session_.worker(), &Worker::becameQuiet, this, [this] {
    running_ = false;  // also after a cancel
    showReadiness();
  });
  showReadiness();
}

void ImportDialog::chooseMapping() {
  const QString file =
      QFileDialog::getOpenFileName(this, tr("Mapping"), kLastFolder.get(), tr("Mappings (*.toml)"));
  if (!file.isEmpty()) {
    mapping_->setText(file);
    kLastFolder.set(QFileInfo(file).absolutePath());
    looked_ = false;
    showReadiness();
  }
}

void ImportDialog::chooseFiles() {
  const QStringList chosen = QFileDialog::getOpenFileNames(this, tr("Histories"), kLastFolder.get(),
                                                           tr("Tables (*.csv *.txt);;All files (*)"));
  if (!chosen.isEmpty()) {
    files_->clear();
    files_->addItems(chosen);
    looked_ = false;
    showReadiness();
  }
}

void ImportDialog::start(bool dryRun) {
  QStringList files;
  for (int i = 0; i < files_->count(); ++i) {
    files << files_->item(i)->text();
  }
  running_ = true;
  rejected_->clear();
  result_->setText(dryRun ? tr("Reading …") : tr("Importing …"));
  showReadiness();
  session_.importHistory(mapping_->text(), files, keepGood_->isChecked(), dryRun);
}

void ImportDialog::take(const ImportOutcome& outcome, bool dryRun) {
  running_ = false;
  looked_ = dryRun;
  refused_ = outcome.rejected.size();
  const bool nothing = !dryRun && refused_ > 0 && !keepGood_->isChecked();
  const QString form =
      dryRun    ? tr("Would add %1 calibrations with %2 readings; %3 are already known; %4 refused.")
      : nothing ? tr("Nothing was added, because %4 were refused (%1 calibrations with %2 readings "
                     "were good, %3 are already known).")
                : tr("Added %1 calibrations with %2 readings; %3 were already known; %4 refused.");
  result_->setText(
      form.arg(outcome.calibrations).arg(outcome.readings).arg(outcome.alreadyKnown).arg(refused_));
  rejected_->clear();
  for (std::size_t i = 0; i < std::min(refused_, kShownMost); ++i) {
    const Rejection& each = outcome.rejected[i];
    rejected_->addItem(fromCore(sentence(Problem{each.where, each.reason, {}})));
  }
  if (refused_ > kShownMost) {
    rejected_->addItem(tr("and %1 more").arg(refused_ - kShownMost));
  }
  if (!dryRun && !nothing) {
    session_.refresh();
  }
  showReadiness();
}

void ImportDialog::showReadiness() {
  const bool ready = !running_ && !mapping_->text().isEmpty() && files_->count() > 0;
  look_->setEnabled(ready);
  accept_->setEnabled(ready && looked_ && (refused_ == 0 || keepGood_->isChecked()));
}

}  // namespace spanwright
