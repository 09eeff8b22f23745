// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/check_dialog.h"

#include <QClipboard>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPointer>
#include <QProgressBar>
#include <QPushButton>
#include <QTemporaryDir>
#include <QVBoxLayout>
#include <memory>
#include <utility>

#include "core/certificate/certificate_data.h"
#include "core/tasks/handed_out.h"
#include "gui/certificate/draw.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"
#include "importers/certificate_file.h"

namespace spanwright {
namespace {

constexpr int kSign = 16;
constexpr int kWhole = 100;

QString workName() {
  return CheckDialog::tr("Checking the record");
}

/// Draws what the record says and compares its words with those on the PDF somebody holds.
void comparePrint(const HandedOutCertificate& held, RecordAndCertificate& found) {
  if (held.pages == 0 || !found.certificate) {
    return;
  }
  const QTemporaryDir folder;
  const QString file = folder.filePath(QStringLiteral("drawn.pdf"));
  const int pages = writeCertificatePdf(*found.certificate, file, paperOfWidth(held.paperWidth));
  addPrintDifferences(found, differentWords(held.words, pdfWords(file.toStdString()), pages == held.pages));
}

}  // namespace

CheckDialog::CheckDialog(Session& session, QWidget* parent)
    : QDialog(parent),
      session_(session),
      certificate_(new QLineEdit(this)),
      choose_(new QPushButton(tr("C&hoose…"), this)),
      check_(new QPushButton(tr("&Check"), this)),
      copy_(new QPushButton(tr("Co&py"), this)),
      progress_(new QProgressBar(this)),
      sign_(new QLabel(this)),
      result_(new QLabel(this)),
      figures_(new QLabel(this)),
      list_(new QListWidget(this)) {
  setWindowTitle(tr("Check the record"));
  resize(820, 520);
  auto* what =
      new QLabel(tr("Recomputes the journal from every row, and checks every signature. A certificate that "
                    "was handed out, PDF or data, also shows whether the journal was cut off or rewritten."),
                 this);
  what->setWordWrap(true);
  certificate_->setPlaceholderText(tr("May stay empty"));
  certificate_->setClearButtonEnabled(true);
  certificate_->setAccessibleName(tr("Certificate file"));
  auto* label = new QLabel(tr("Certificate &file"), this);
  label->setBuddy(certificate_);
  progress_->setRange(0, kWhole);
  progress_->setAccessibleName(tr("How far the check is"));
  for (QLabel* each : {result_, figures_}) {
    each->setWordWrap(true);
    each->setTextFormat(Qt::PlainText);
    each->setTextInteractionFlags(Qt::TextSelectableByMouse);
  }
  result_->setAccessibleName(tr("Result"));
  figures_->setAccessibleName(tr("Figures"));
  list_->setAccessibleName(tr("What was found"));
  list_->setWordWrap(true);
  list_->setSelectionMode(QAbstractItemView::ExtendedSelection);
  auto* first = new QHBoxLayout;
  first->setSpacing(10);
  first->addWidget(label);
  first->addWidget(certificate_, 1);
  first->addWidget(choose_);
  auto* second = new QHBoxLayout;
  second->addWidget(sign_, 0, Qt::AlignTop);
  second->addWidget(result_, 1);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, this);
  buttons->addButton(check_, QDialogButtonBox::ActionRole);
  buttons->addButton(copy_, QDialogButtonBox::ActionRole);
  check_->setDefault(true);
  auto* column = new QVBoxLayout(this);
  column->setSpacing(10);
  column->addWidget(what);
  column->addLayout(first);
  column->addWidget(progress_);
  column->addLayout(second);
  column->addWidget(figures_);
  column->addWidget(list_, 1);
  column->addWidget(buttons);
  connect(choose_, &QPushButton::clicked, this, &CheckDialog::chooseCertificate);
  connect(check_, &QPushButton::clicked, this, &CheckDialog::start);
  connect(copy_, &QPushButton::clicked, this, [this] { QGuiApplication::clipboard()->setText(asText()); });
  connect(buttons, &QDialogButtonBox::rejected, this, &CheckDialog::reject);
  connect(&session_, &Session::troubled, this, [this](const QString& sentence) {
    if (running_) {
      setRunning(false);
      say(sentence, markIcon(Mark::triangle, Tone::bad));
    }
  });
  connect(&session_.worker(), &Worker::progressed, this, [this](const QString& work, double fraction) {
    if (running_ && work == workName() && fraction >= 0.0) {
      progress_->setValue(qRound(fraction * kWhole));
    }
  });
  connect(&session_.worker(), &Worker::becameQuiet, this, [this] {
    if (running_) {  // cancelled
      setRunning(false);
      say(tr("The check was stopped; it says nothing."), markIcon(Mark::ring, Tone::quiet));
    }
  });
  setRunning(false);
  copy_->setEnabled(false);
  figures_->hide();
}

void CheckDialog::setCertificate(const QString& file) {
  certificate_->setText(file);
}

void CheckDialog::chooseCertificate() {
  const QString file =
      QFileDialog::getOpenFileName(this, tr("A certificate that was handed out"), kLastFolder.get(),
                                   tr("Certificates (*.pdf *.json);;All files (*)"));
  if (!file.isEmpty()) {
    certificate_->setText(file);
    kLastFolder.set(QFileInfo(file).absolutePath());
  }
}

void CheckDialog::start() {
  if (running_) {
    return;
  }
  list_->clear();
  figures_->hide();
  copy_->setEnabled(false);
  say(tr("Checking …"), markIcon(Mark::ring, Tone::quiet));
  setRunning(true);
  const std::filesystem::path record = session_.store().file();
  const std::filesystem::path certificate(certificate_->text().trimmed().toStdU16String());
  session_.worker().post(
      workName(), [self = QPointer<CheckDialog>(this), record, certificate](const Progress& progress) {
        auto held = std::make_shared<HandedOutCertificate>();
        auto found = std::make_shared<RecordAndCertificate>();
        if (certificate.empty()) {
          found->record = verifyRecord(record, {}, progress);
        } else {
          *held = readCertificateFile(certificate, kCertificateDataName);
          *found = verifyWithCertificate(record, {}, held->data, certificate.string(), progress);
        }
        return Worker::Then([self, held, found] {
          if (self) {
            self->take(std::move(*found), *held);
          }
        });
      });
}

void CheckDialog::take(RecordAndCertificate found, const HandedOutCertificate& held) {
  setRunning(false);
  try {
    comparePrint(held, found);
  } catch (const std::exception& error) {
    found.record.notes.push_back(
        toCore(tr("the print was not compared: %1").arg(QString::fromUtf8(error.what()))));
  }
  showFindings(found.record);
}

void CheckDialog::showFindings(const RecordCheck& check) {
  for (const RecordProblem& each : check.problems) {
    const QString what = fromCore(each.what);
    addLine(asSentence(each.entry == 0 ? tr("Found: %1").arg(what)
                                       : tr("Found, entry %1 of the journal: %2").arg(each.entry).arg(what)),
            markIcon(Mark::cross, Tone::bad));
  }
  for (const std::string& note : check.notes) {
    addLine(asSentence(tr("Note: %1").arg(fromCore(note))), markIcon(Mark::ring, Tone::attention));
  }
  figures_->setText(
      tr("%1 entries of the journal, %2 things with %3 rows and %4 signatures checked. The journal ends "
         "at\n%5")
          .arg(check.entries)
          .arg(check.units)
          .arg(check.rows)
          .arg(check.signatures)
          .arg(fromCore(headText(check.head))));
  figures_->show();
  copy_->setEnabled(true);
  const int many = static_cast<int>(check.problems.size());
  if (many == 0) {
    say(tr("Nothing was changed behind the journal's back."), iconOf(Verdict::pass));
  } else {
    say(counted(
            many,
            tr("1 thing is not as the journal says; do not rely on this record before a reviewer has looked "
               "at it."),
            tr("%1 things are not as the journal says; do not rely on this record before a reviewer has "
               "looked "
               "at them.")),
        iconOf(Verdict::fail));
  }
}

void CheckDialog::addLine(const QString& text, const QIcon& icon) {
  list_->addItem(new QListWidgetItem(icon, text));
}

void CheckDialog::say(const QString& sentence, const QIcon& icon) {
  sign_->setPixmap(icon.pixmap(scaled(QSize(kSign, kSign))));
  result_->setText(sentence);
}

void CheckDialog::setRunning(bool running) {
  running_ = running;
  progress_->setVisible(running);
  progress_->setValue(0);
  check_->setEnabled(!running);
  choose_->setEnabled(!running);
  certificate_->setEnabled(!running);
}

void CheckDialog::reject() {
  if (running_) {
    session_.worker().cancel();
  }
  QDialog::reject();
}

QString CheckDialog::asText() const {
  QStringList lines{result_->text(), figures_->text()};
  for (int i = 0; i < list_->count(); ++i) {
    lines << list_->item(i)->text();
  }
  return lines.join(u'\n');
}

}  // namespace spanwright
