// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/certificate_screen.h"

#include <QComboBox>
#include <QDir>
#include <QFileDialog>
#include <QImage>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>
#include <algorithm>

#include "core/record/problem.h"
#include "core/tasks/issue.h"
#include "gui/certificate/draw.h"
#include "gui/screens/wrap_row.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr double kPageInchesWide = 8.5;  // letter; A4 is 8.27
constexpr int kFit = 0;

}  // namespace

CertificateScreen::CertificateScreen(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      title_(new QLabel(this)),
      note_(new QLabel(this)),
      number_(new QLabel(this)),
      picture_(new QLabel(this)),
      scroll_(new QScrollArea(this)),
      paper_(new QComboBox(this)),
      zoom_(new QComboBox(this)),
      before_(new QPushButton(tr("Page before"), this)),
      after_(new QPushButton(tr("Next page"), this)),
      issue_(new QPushButton(tr("&Issue as PDF…"), this)) {
  QFont font = title_->font();
  font.setBold(true);
  font.setPointSizeF(font.pointSizeF() * 1.25);
  title_->setFont(font);
  paper_->addItem(tr("A4"), static_cast<int>(Paper::a4));
  paper_->addItem(tr("Letter"), static_cast<int>(Paper::letter));
  paper_->setCurrentIndex(kLetterPaper.get() ? 1 : 0);
  paper_->setAccessibleName(tr("Paper"));
  zoom_->addItem(tr("As wide as the window"), kFit);
  for (const int dpi : {72, 96, 120, 150, 200}) {
    zoom_->addItem(tr("%1 %").arg(dpi * 100 / 96), dpi);
  }
  zoom_->setAccessibleName(tr("Size of the preview"));
  note_->setWordWrap(true);
  picture_->setAlignment(Qt::AlignTop | Qt::AlignHCenter);
  picture_->setAccessibleName(tr("Preview of the certificate"));
  scroll_->setWidget(picture_);
  scroll_->setWidgetResizable(true);
  scroll_->setAccessibleName(tr("Preview"));
  scroll_->setBackgroundRole(QPalette::Mid);

  auto* row = new WrapRow;
  row->setSpacing(10);
  row->addWidget(title_);
  row->addStretch(1);
  row->addWidget(before_);
  row->addWidget(number_);
  row->addWidget(after_);
  row->addSpacing(10);
  row->addWidget(zoom_);
  row->addWidget(paper_);
  row->addWidget(issue_);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(14, 10, 14, 12);
  whole->setSpacing(8);
  whole->addLayout(row);
  whole->addWidget(note_);
  whole->addWidget(scroll_, 1);
  connect(before_, &QPushButton::clicked, this, [this] { turn(-1); });
  connect(after_, &QPushButton::clicked, this, [this] { turn(1); });
  connect(paper_, &QComboBox::activated, this, [this] {
    kLetterPaper.set(paper_->currentIndex() == 1);
    page_ = 0;
    draw();
  });
  connect(zoom_, &QComboBox::activated, this, &CertificateScreen::draw);
  connect(issue_, &QPushButton::clicked, this, &CertificateScreen::askAndIssue);
}

void CertificateScreen::showCalibration(CalibrationId calibration) {
  calibration_ = calibration;
  certificate_.reset();
  page_ = 0;
  note_->clear();
  try {
    const auto known = session_.store().calibration(calibration);
    if (known) {
      title_->setText(
          tr("Certificate for %1, %2 of %3")
              .arg(fromCore(known->channel), wordInside(known->subject), shownMoment(known->performed)));
    }
    certificate_ = previewCertificate(session_.store(), calibration);
    mayIssue_ =
        session_.store().issuedCertificate(calibration) || issueFaults(session_.store(), calibration).empty();
    note_->setText(stateSentences());
  } catch (const InputError& refused) {
    note_->setText(problemSentences(refused));
  } catch (const std::exception& error) {
    note_->setText(asSentence(QString::fromUtf8(error.what())));
  }
  draw();
}

/// What issuing would do, and what the signatures are short of.
QString CertificateScreen::stateSentences() const {
  const Store& store = session_.store();
  const auto issued = store.issuedCertificate(calibration_);
  const auto faults = issueFaults(store, calibration_);
  if (!issued && !faults.empty()) {
    QStringList lacks;
    for (const std::string& fault : faults) {
      lacks << fromCore(fault);
    }
    return tr("It cannot be issued yet: %1. What belongs to the site stands under Manage, The site…; a "
              "plan's procedure "
              "in the lists of the register.")
        .arg(lacks.join(QStringLiteral("; ")));
  }
  QString text;
  if (!issued) {
    text = tr("Not issued yet. Issuing allots a number that stays with this calibration.");
  } else if (signedSince(store, *issued)) {
    text =
        tr("Issued as %1, revision %2. Signatures have changed since; issuing makes revision %3 of the same "
           "number.")
            .arg(fromCore(issued->number))
            .arg(issued->revision)
            .arg(issued->revision + 1);
  } else {
    text = tr("Issued as %1, revision %2; issuing again writes the same.")
               .arg(fromCore(issued->number))
               .arg(issued->revision);
  }
  const LifeState state = store.state(calibration_);
  return state == LifeState::approved
             ? text
             : tr("%1 The calibration is %2, not approved, and the certificate is marked so.")
                   .arg(text, word(state));
}

void CertificateScreen::refresh() {
  if (calibration_ != 0 && session_.isOpen()) {
    const int page = page_;
    showCalibration(calibration_);
    page_ = page;
    draw();
  }
}

std::optional<CalibrationId> CertificateScreen::calibration() const {
  return calibration_ == 0 ? std::nullopt : std::optional(calibration_);
}

void CertificateScreen::draw() {
  issue_->setEnabled(certificate_.has_value() && mayIssue_);
  before_->setEnabled(false);
  after_->setEnabled(false);
  number_->clear();
  if (!certificate_) {
    picture_->clear();
    pages_ = 0;
    return;
  }
  const auto paper = static_cast<Paper>(paper_->currentData().toInt());
  pages_ = certificatePageCount(*certificate_, paper);
  page_ = std::clamp(page_, 0, std::max(0, pages_ - 1));
  // Room for the scroll bar, so that fitting does not make one come and go.
  const int bar = scroll_->verticalScrollBar()->sizeHint().width();
  const double fitting = (scroll_->width() - bar - 24) / kPageInchesWide;
  const int chosen = zoom_->currentData().toInt();
  const double dpi = chosen == kFit ? std::clamp(fitting, 60.0, 130.0) : chosen;
  const double scale = devicePixelRatioF();
  QImage image = drawCertificatePage(*certificate_, page_, dpi * scale, paper);
  image.setDevicePixelRatio(scale);
  picture_->setPixmap(QPixmap::fromImage(image));
  number_->setText(tr("Page %1 of %2").arg(page_ + 1).arg(pages_));
  before_->setEnabled(page_ > 0);
  after_->setEnabled(page_ + 1 < pages_);
}

void CertificateScreen::turn(int pages) {
  page_ += pages;
  draw();
  scroll_->verticalScrollBar()->setValue(0);
}

void CertificateScreen::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  if (certificate_ && zoom_->currentData().toInt() == kFit) {
    draw();
  }
}

QString CertificateScreen::issueTo(const QString& file) {
  try {
    const Certificate certificate = issueCertificate(session_.store(), calibration_);
    writeCertificatePdf(certificate, file, static_cast<Paper>(paper_->currentData().toInt()));
    showCalibration(calibration_);
    emit issued(tr("Certificate %1 is written to %2.")
                    .arg(fromCore(certificate.number), QDir::toNativeSeparators(file)));
  } catch (const InputError& refused) {
    return problemSentences(refused);
  } catch (const std::exception& error) {
    return asSentence(QString::fromUtf8(error.what()));
  }
  return {};
}

QString CertificateScreen::suggestedName() const {
  const auto issued = session_.store().issuedCertificate(calibration_);
  return issued ? fromCore(issued->number) + QStringLiteral(".pdf")
                : QStringLiteral("certificate-%1.pdf").arg(calibration_);
}

void CertificateScreen::askAndIssue() {
  if (!issue_->isEnabled()) {
    return;
  }
  const QString file = QFileDialog::getSaveFileName(this, tr("Write the certificate"),
                                                    QDir(kLastFolder.get()).filePath(suggestedName()),
                                                    tr("PDF files (*.pdf)"));
  if (file.isEmpty()) {
    return;
  }
  const QString trouble = issueTo(file);
  if (!trouble.isEmpty()) {
    emit session_.troubled(trouble);
  }
}

}  // namespace spanwright
