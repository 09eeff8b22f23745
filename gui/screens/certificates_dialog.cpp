// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/certificates_dialog.h"

#include <QCoreApplication>
#include <QDialogButtonBox>
#include <QDir>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "gui/screens/certificate_folder.h"
#include "gui/screens/refusal_line.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/life_words.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr QSize kSize{900, 520};

QString deedOf(const RoundCertificate& row) {
  switch (row.deed) {
    case CertificateDeed::first:
      return CertificatesModel::tr("new number");
    case CertificateDeed::revision:
      return CertificatesModel::tr("%1, revision %2").arg(fromCore(row.number)).arg(row.revision);
    case CertificateDeed::again:
      return CertificatesModel::tr("%1 again").arg(fromCore(row.number));
    case CertificateDeed::none:
      break;
  }
  return CertificatesModel::tr("not issued");
}

QString whyOf(const RoundCertificate& row) {
  if (row.calibration == 0) {
    return CertificatesModel::tr("It is not calibrated yet.");
  }
  if (!row.faults.empty()) {
    QStringList all;
    for (const std::string& fault : row.faults) {
      all << fromCore(fault);
    }
    return asSentence(all.join(QStringLiteral("; ")));
  }
  return row.state == LifeState::approved
             ? QString()
             : CertificatesModel::tr("It is %1, not approved, and will be marked so.").arg(word(row.state));
}

std::vector<CertificatesModel::Column> columns() {
  using Row = RoundCertificate;
  return {
      {CertificatesModel::tr("Certificate"),
       deedOf,
       {},
       [](const Row& r) {
         return r.deed == CertificateDeed::none ? markIcon(Mark::slash, Tone::quiet)
                                                : markIcon(Mark::check, Tone::good);
       }},
      {CertificatesModel::tr("Channel"), [](const Row& r) { return fromCore(r.stop.channel); }},
      {CertificatesModel::tr("Subject"), [](const Row& r) { return word(r.stop.subject); }},
      {CertificatesModel::tr("Calibration"),
       [](const Row& r) { return r.calibration == 0 ? QString() : QString::number(r.calibration); },
       {},
       {},
       true},
      {CertificatesModel::tr("State"),
       [](const Row& r) { return r.calibration == 0 ? QString() : word(r.state); },
       {},
       [](const Row& r) { return r.calibration == 0 ? QIcon() : iconOf(r.state); }},
      {CertificatesModel::tr("Note"), whyOf},
  };
}

}  // namespace

CertificatesModel::CertificatesModel(QObject* parent) : RowsModel(columns(), parent) {}

CertificatesDialog::CertificatesDialog(Session& session, const Round& round, QWidget* parent)
    : QDialog(parent),
      session_(session),
      model_(new CertificatesModel(this)),
      table_(new TableView(tr("Certificates of the round"), this)),
      summary_(new QLabel(this)),
      folder_(new QLineEdit(QDir::toNativeSeparators(kLastFolder.get()), this)),
      choose_(new QPushButton(tr("&Choose…"), this)),
      issue_(new QPushButton(tr("&Issue"), this)),
      progress_(new QProgressBar(this)),
      refusal_(new RefusalLine(this)) {
  setWindowTitle(tr("Certificates of the round \"%1\"").arg(fromCore(round.name)));
  resize(onScreen(scaled(kSize)));
  summary_->setWordWrap(true);
  summary_->setAccessibleName(tr("What will be issued"));
  folder_->setAccessibleName(tr("Folder"));
  choose_->setAutoDefault(false);
  issue_->setDefault(true);
  progress_->setAccessibleName(tr("Progress"));
  progress_->hide();
  try {
    model_->setRows(certificatesOfRound(session.store(), round));
  } catch (const std::exception& error) {
    refusal_->say(asSentence(QString::fromUtf8(error.what())));
  }
  table_->setModel(model_);
  table_->fitToContent();
  const int count = static_cast<int>(wanted().size());
  const int left = model_->rowCount() - count;
  summary_->setText(tr("%1 will be issued, all of them or none; %2.")
                        .arg(counted(count, tr("1 certificate"), tr("%1 certificates")),
                             left == 0
                                 ? tr("no stop is left out")
                                 : counted(left, tr("1 stop is left out"), tr("%1 stops are left out"))));
  issue_->setEnabled(count > 0);

  auto* label = new QLabel(tr("&Folder"), this);
  label->setBuddy(folder_);
  auto* row = new QHBoxLayout;
  row->setSpacing(10);
  row->addWidget(label);
  row->addWidget(folder_, 1);
  row->addWidget(choose_);
  auto* buttons = new QDialogButtonBox(this);
  buttons->addButton(issue_, QDialogButtonBox::AcceptRole);
  buttons->addButton(tr("Leave"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  auto* whole = new QVBoxLayout(this);
  whole->setSpacing(10);
  whole->addWidget(summary_);
  whole->addWidget(table_, 1);
  whole->addLayout(row);
  whole->addWidget(progress_);
  whole->addWidget(refusal_);
  whole->addWidget(buttons);
  connect(choose_, &QPushButton::clicked, this, &CertificatesDialog::chooseFolder);
  connect(buttons, &QDialogButtonBox::accepted, this, &CertificatesDialog::issue);
  connect(buttons, &QDialogButtonBox::rejected, this, &CertificatesDialog::reject);
  folder_->setFocus();
}

std::vector<CalibrationId> CertificatesDialog::wanted() const {
  std::vector<CalibrationId> ids;
  for (const RoundCertificate& each : model_->rows()) {
    if (each.deed != CertificateDeed::none) {
      ids.push_back(each.calibration);
    }
  }
  return ids;
}

void CertificatesDialog::chooseFolder() {
  const QString folder =
      QFileDialog::getExistingDirectory(this, tr("Folder for the certificates"), folder_->text());
  if (!folder.isEmpty()) {
    setFolder(folder);
  }
}

void CertificatesDialog::setFolder(const QString& folder) {
  folder_->setText(QDir::toNativeSeparators(folder));
}

void CertificatesDialog::setRunning(bool running) {
  running_ = running;
  progress_->setVisible(running);
  for (QWidget* each : std::initializer_list<QWidget*>{folder_, choose_, issue_}) {
    each->setEnabled(!running);
  }
}

void CertificatesDialog::issue() {
  const QString folder = QDir::fromNativeSeparators(folder_->text().trimmed());
  if (folder.isEmpty()) {
    refusal_->say(tr("Say into which folder the certificates go."));
    folder_->setFocus();
    return;
  }
  refusal_->say({});
  const auto ids = wanted();
  progress_->setRange(0, static_cast<int>(ids.size()));
  progress_->setValue(0);
  stopped_ = false;
  setRunning(true);
  const CertificateFolder made = issueIntoFolder(
      session_.store(), ids, folder, kLetterPaper.get() ? Paper::letter : Paper::a4, [this](int done) {
        progress_->setValue(done);
        QCoreApplication::processEvents();  // so that it is seen and can be stopped
        return !stopped_;
      });
  setRunning(false);
  if (!made.trouble.isEmpty()) {
    refusal_->say(made.trouble);
    return;
  }
  if (stopped_) {
    refusal_->say(tr("It was stopped: nothing is issued, and nothing was written."));
    return;
  }
  kLastFolder.set(folder);
  accept();
  emit issued(tr("%1 in %2.")
                  .arg(counted(static_cast<int>(made.files.size()), tr("1 certificate is issued"),
                               tr("%1 certificates are issued")),
                       QDir::toNativeSeparators(folder)));
}

/// While it runs: stops it.
void CertificatesDialog::reject() {
  if (running_) {
    stopped_ = true;
    return;
  }
  QDialog::reject();
}

QString CertificatesDialog::trouble() const {
  return refusal_->sentence();
}

}  // namespace spanwright
