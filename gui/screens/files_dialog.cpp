// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/files_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QDir>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QLocale>
#include <QMimeData>
#include <QPushButton>
#include <algorithm>
#include <filesystem>
#include <utility>

#include "core/record/problem.h"
#include "core/tasks/attachments.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/signer_fields.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr QSize kSize{860, 460};
constexpr int kDigestShown = 12;

std::vector<FilesModel::Column> fileColumns() {
  using Row = Attachment;
  return {
      {FilesModel::tr("File"), [](const Row& r) { return fromCore(r.name); }},
      {FilesModel::tr("Size"),
       [](const Row& r) { return QLocale().formattedDataSize(r.size); },
       {},
       {},
       true},
      {FilesModel::tr("Note"), [](const Row& r) { return fromCore(r.note); }},
      {FilesModel::tr("By"), [](const Row& r) { return fromCore(r.person); }},
      {FilesModel::tr("Added (UTC)"), [](const Row& r) { return shownMoment(r.addedUtc); }},
      {FilesModel::tr("SHA-256"),
       [](const Row& r) { return fromCore(hex(r.sha256)).left(kDigestShown) + u'…'; }},
  };
}

QString nameOf(const Attachment& about) {
  if (!about.standard.empty()) {
    return FilesDialog::tr("standard %1, certificate %2")
        .arg(fromCore(about.standard), fromCore(about.certificate));
  }
  return about.calibration != 0 ? FilesDialog::tr("calibration %1").arg(about.calibration)
                                : FilesDialog::tr("channel %1").arg(fromCore(about.channel));
}

bool same(const Attachment& a, const Attachment& b) {
  return a.standard == b.standard && a.certificate == b.certificate && a.calibration == b.calibration &&
         a.channel == b.channel;
}

std::filesystem::path pathOf(const QString& file) {
  return {file.toStdU16String()};
}

}  // namespace

FilesModel::FilesModel(QObject* parent) : RowsModel(fileColumns(), parent) {}

FilesDialog::FilesDialog(Session& session, std::vector<Attachment> about, QWidget* parent)
    : QDialog(parent),
      session_(session),
      about_(std::move(about)),
      model_(new FilesModel(this)),
      what_(new QComboBox(this)),
      person_(makePersonBox(session, tr("Added by"), this)),
      table_(new TableView(tr("Files"), this)),
      note_(new QLineEdit(this)),
      save_(new QPushButton(tr("&Save as…"), this)),
      refusal_(new RefusalLine(this)) {
  setWindowTitle(tr("Files in the record"));
  resize(onScreen(scaled(kSize)));
  setAcceptDrops(true);
  what_->setAccessibleName(tr("About what"));
  for (const Attachment& each : about_) {
    what_->addItem(nameOf(each));
  }
  note_->setAccessibleName(tr("Note"));
  note_->setPlaceholderText(tr("What the next file is; may stay empty"));
  table_->setModel(model_);
  auto* add = new QPushButton(tr("&Add file…"), this);
  add->setAutoDefault(false);
  save_->setAutoDefault(false);
  auto* grid = new QGridLayout(this);
  grid->setHorizontalSpacing(12);
  grid->setVerticalSpacing(8);
  const auto label = [this](const QString& text, QWidget* field) {
    auto* made = new QLabel(text, this);
    made->setBuddy(field);
    return made;
  };
  grid->addWidget(label(tr("A&bout"), what_), 0, 0);
  grid->addWidget(what_, 0, 1, 1, 2);
  grid->addWidget(save_, 0, 3);
  grid->addWidget(table_, 1, 0, 1, 4);
  grid->addWidget(label(tr("&Note"), note_), 2, 0);
  grid->addWidget(note_, 2, 1);
  grid->addWidget(person_, 2, 2);
  grid->addWidget(add, 2, 3);
  auto* hint = new QLabel(
      tr("A file can be dropped here as well. It is copied into the record, and stays there as it is."),
      this);
  hint->setWordWrap(true);
  grid->addWidget(hint, 3, 0, 1, 4);
  grid->addWidget(refusal_, 4, 0, 1, 4);
  auto* buttons = new QDialogButtonBox(this);
  buttons->addButton(tr("Close"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  grid->addWidget(buttons, 5, 0, 1, 4);
  grid->setColumnStretch(1, 1);
  grid->setRowStretch(1, 1);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  connect(what_, &QComboBox::currentIndexChanged, this, &FilesDialog::refresh);
  connect(add, &QPushButton::clicked, this, [this] {
    this->add(QFileDialog::getOpenFileNames(this, tr("Files to keep in the record"), kLastFolder.get()));
  });
  const auto save = [this] {
    const QModelIndex at = table_->currentIndex();
    const QString file =
        at.isValid()
            ? QFileDialog::getSaveFileName(
                  this, tr("Save as"), QDir(kLastFolder.get()).filePath(fromCore(model_->row(at.row()).name)),
                  {}, nullptr, QFileDialog::DontConfirmOverwrite)
            : QString();
    if (!file.isEmpty()) {
      saveTo(file);
    }
  };
  connect(save_, &QPushButton::clicked, this, save);
  connect(table_, &TableView::chosen, this, save);
  refresh();
  table_->setFocus();
}

const Attachment& FilesDialog::chosen() const {
  return about_.at(static_cast<std::size_t>(std::max(0, what_->currentIndex())));
}

void FilesDialog::refresh() {
  try {
    std::vector<Attachment> files = session_.store().attachments();
    std::erase_if(files, [this](const Attachment& each) { return !same(each, chosen()); });
    model_->setRows(std::move(files));
  } catch (const std::exception& error) {
    refusal_->say(asSentence(QString::fromUtf8(error.what())));
  }
  table_->fitToContent();
  table_->setCurrentIndex(model_->index(model_->rowCount() - 1, 0));
  save_->setEnabled(model_->rowCount() > 0);
}

void FilesDialog::add(const QStringList& files) {
  refusal_->say({});
  for (const QString& file : files) {
    try {
      Attachment about = chosen();
      about.note = toCore(note_->text().trimmed());
      about.person = toCore(person_->currentData().toString());
      attachFile(session_.store(), pathOf(file), about);
    } catch (const InputError& refused) {
      refusal_->say(problemSentences(refused));
      break;
    } catch (const std::exception& error) {
      refusal_->say(asSentence(QString::fromUtf8(error.what())));
      break;
    }
    note_->clear();
  }
  refresh();
}

void FilesDialog::saveTo(const QString& file) {
  const QModelIndex at = table_->currentIndex();
  if (!at.isValid()) {
    refusal_->say(tr("Choose a file in the list first."));
    return;
  }
  refusal_->say({});
  try {
    saveAttachment(session_.store(), model_->row(at.row()), pathOf(file));
  } catch (const std::exception& error) {
    refusal_->say(asSentence(QString::fromUtf8(error.what())));
  }
}

int FilesDialog::count() const {
  return model_->rowCount();
}

QString FilesDialog::trouble() const {
  return refusal_->sentence();
}

void FilesDialog::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasUrls()) {
    event->acceptProposedAction();
  }
}

void FilesDialog::dropEvent(QDropEvent* event) {
  QStringList files;
  for (const QUrl& url : event->mimeData()->urls()) {
    if (url.isLocalFile()) {
      files << url.toLocalFile();
    }
  }
  event->acceptProposedAction();
  if (files.isEmpty()) {
    refusal_->say(tr("Only files of this machine can be kept; save what was dropped first."));
    return;
  }
  add(files);
}

}  // namespace spanwright
