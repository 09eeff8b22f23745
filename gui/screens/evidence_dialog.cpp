// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/evidence_dialog.h"

#include <QButtonGroup>
#include <QCheckBox>
#include <QComboBox>
#include <QCompleter>
#include <QDateEdit>
#include <QDialogButtonBox>
#include <QDir>
#include <QFileDialog>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QProgressBar>
#include <QPushButton>
#include <QRadioButton>
#include <QStringListModel>

#include "core/store/journal.h"
#include "gui/certificate/draw.h"
#include "gui/screens/refusal_line.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/days.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr int kWide = 720;

QString workName() {
  return EvidenceDialog::tr("Gathering the evidence");
}

}  // namespace

EvidenceDialog::EvidenceDialog(Session& session, const QString& channel, QWidget* parent)
    : QDialog(parent),
      session_(session),
      ofChannel_(new QRadioButton(tr("One &channel"), this)),
      ofPeriod_(new QRadioButton(tr("&All channels"), this)),
      ofRound_(new QRadioButton(tr("One &round"), this)),
      asZip_(new QRadioButton(tr("One &zip file"), this)),
      asFolder_(new QRadioButton(tr("A f&older"), this)),
      channel_(new QLineEdit(channel, this)),
      place_(new QLineEdit(this)),
      round_(new QComboBox(this)),
      fromGiven_(new QCheckBox(tr("Performed &from"), this)),
      toGiven_(new QCheckBox(tr("&to"), this)),
      from_(new QDateEdit(this)),
      to_(new QDateEdit(this)),
      make_(new QPushButton(tr("&Make"), this)),
      choose_(new QPushButton(tr("C&hoose…"), this)),
      progress_(new QProgressBar(this)),
      result_(new QLabel(this)),
      refusal_(new RefusalLine(this)) {
  setWindowTitle(tr("Evidence for a reviewer"));
  setMinimumWidth(onScreen(scaled(QSize(kWide, 0))).width());
  channel_->setAccessibleName(tr("Channel"));
  QStringList tags;
  for (const Channel& each : session.site().channels) {
    tags << fromCore(each.tag);
  }
  auto* completer = new QCompleter(tags, this);
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  channel_->setCompleter(completer);
  round_->setAccessibleName(tr("Round"));
  try {
    for (const Round& each : session.store().rounds()) {
      round_->addItem(tr("%1: %2").arg(each.id).arg(fromCore(each.name)), static_cast<qlonglong>(each.id));
    }
  } catch (const std::exception& error) {
    refusal_->say(asSentence(QString::fromUtf8(error.what())));
  }
  const QDate today = toQt(session.today());
  for (QDateEdit* each : {from_, to_}) {
    each->setCalendarPopup(true);
    each->setDisplayFormat(typedDateForm());
    each->setDate(each == from_ ? today.addYears(-1) : today);
  }
  from_->setAccessibleName(tr("First day"));
  to_->setAccessibleName(tr("Last day"));
  place_->setAccessibleName(tr("Where to"));
  place_->setPlaceholderText(tr("A folder or zip that is not there yet"));
  result_->setWordWrap(true);
  result_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  result_->setAccessibleName(tr("Result"));
  result_->hide();
  progress_->hide();
  progress_->setAccessibleName(tr("Progress"));

  auto* what = new QButtonGroup(this);
  for (QRadioButton* each : {ofChannel_, ofPeriod_, ofRound_}) {
    what->addButton(each);
  }
  auto* form = new QButtonGroup(this);
  form->addButton(asZip_);
  form->addButton(asFolder_);
  (channel.isEmpty() ? ofPeriod_ : ofChannel_)->setChecked(true);
  asZip_->setChecked(true);
  ofRound_->setEnabled(round_->count() > 0);

  auto* grid = new QGridLayout(this);
  grid->setHorizontalSpacing(14);
  grid->setVerticalSpacing(8);
  grid->setColumnStretch(1, 1);
  auto* about =
      new QLabel(tr("Calibrations with everything they rest on, in files that can be checked without "
                    "this program or the record; the bundle says itself how."),
                 this);
  about->setWordWrap(true);
  grid->addWidget(about, 0, 0, 1, 3);
  grid->addWidget(ofChannel_, 1, 0);
  grid->addWidget(channel_, 1, 1, 1, 2);
  grid->addWidget(ofPeriod_, 2, 0);
  grid->addWidget(ofRound_, 3, 0);
  grid->addWidget(round_, 3, 1, 1, 2);
  auto* period = new QHBoxLayout;
  for (QWidget* each : std::initializer_list<QWidget*>{fromGiven_, from_, toGiven_, to_}) {
    period->addWidget(each);
  }
  period->addStretch();
  grid->addLayout(period, 4, 0, 1, 3);
  auto* kind = new QHBoxLayout;
  kind->addWidget(asZip_);
  kind->addWidget(asFolder_);
  kind->addStretch();
  grid->addLayout(kind, 5, 0, 1, 3);
  auto* placeLabel = new QLabel(tr("&Where to"), this);
  placeLabel->setBuddy(place_);
  grid->addWidget(placeLabel, 6, 0);
  grid->addWidget(place_, 6, 1);
  grid->addWidget(choose_, 6, 2);
  grid->addWidget(progress_, 7, 0, 1, 3);
  grid->addWidget(refusal_, 8, 0, 1, 3);
  grid->addWidget(result_, 9, 0, 1, 3);
  auto* buttons = new QDialogButtonBox(this);
  buttons->addButton(make_, QDialogButtonBox::ActionRole);
  buttons->addButton(tr("Close"), QDialogButtonBox::RejectRole)->setAutoDefault(false);
  make_->setDefault(true);
  choose_->setAutoDefault(false);
  grid->addWidget(buttons, 10, 0, 1, 3);
  connect(make_, &QPushButton::clicked, this, &EvidenceDialog::start);
  connect(choose_, &QPushButton::clicked, this, &EvidenceDialog::choosePlace);
  connect(buttons, &QDialogButtonBox::rejected, this, &EvidenceDialog::reject);
  for (QAbstractButton* each :
       std::initializer_list<QAbstractButton*>{ofChannel_, ofPeriod_, ofRound_, fromGiven_, toGiven_}) {
    connect(each, &QAbstractButton::toggled, this, &EvidenceDialog::showFields);
  }
  connect(&session_, &Session::troubled, this, [this](const QString& sentence) {
    if (running_) {
      setRunning(false);
      refusal_->say(sentence);
    }
  });
  showFields();
}

void EvidenceDialog::showFields() {
  const bool round = ofRound_->isChecked();
  channel_->setEnabled(ofChannel_->isChecked());
  round_->setEnabled(round);
  for (QWidget* each : std::initializer_list<QWidget*>{fromGiven_, toGiven_}) {
    each->setEnabled(!round);
  }
  from_->setEnabled(!round && fromGiven_->isChecked());
  to_->setEnabled(!round && toGiven_->isChecked());
}

EvidenceScope EvidenceDialog::scope() const {
  EvidenceScope scope;
  if (ofRound_->isChecked()) {
    scope.round = round_->currentData().toLongLong();
    return scope;
  }
  if (ofChannel_->isChecked()) {
    scope.channel = toCore(channel_->text().trimmed());
  }
  if (fromGiven_->isChecked()) {
    scope.from = fromQt(from_->date());
  }
  if (toGiven_->isChecked()) {
    scope.to = fromQt(to_->date());
  }
  return scope;
}

void EvidenceDialog::choosePlace() {
  const QString proposed =
      QDir(kLastFolder.get())
          .filePath(asZip_->isChecked() ? QStringLiteral("evidence.zip") : QStringLiteral("evidence"));
  const QString place = QFileDialog::getSaveFileName(this, tr("Where the bundle is to be"), proposed, {},
                                                     nullptr, QFileDialog::DontConfirmOverwrite);
  if (!place.isEmpty()) {
    setPlace(place);
  }
}

void EvidenceDialog::setPlace(const QString& place) {
  place_->setText(QDir::toNativeSeparators(place));
}

void EvidenceDialog::start() {
  if (running_) {
    return;
  }
  result_->hide();
  refusal_->say({});
  QString place = place_->text().trimmed();
  if (place.isEmpty()) {
    place_->setFocus();
    refusal_->say(tr("Say where the bundle is to be: a folder or zip that is not there yet."));
    return;
  }
  if (ofChannel_->isChecked() && channel_->text().trimmed().isEmpty()) {
    channel_->setFocus();
    refusal_->say(tr("Type the channel's tag."));
    return;
  }
  const bool named = place.endsWith(QStringLiteral(".zip"), Qt::CaseInsensitive);
  if (asZip_->isChecked() && !named) {
    place += QStringLiteral(".zip");
  } else if (asFolder_->isChecked() && named) {
    place.chop(4);
  }
  setPlace(place);
  setRunning(true);
  const std::filesystem::path target(place.toStdU16String());
  session_.worker().postWithStore(workName(), [self = QPointer<EvidenceDialog>(this), wanted = scope(),
                                               target](Store& store, const Progress& progress) {
    const DrawCertificate draw = [](const Certificate& certificate, const std::filesystem::path& file) {
      writeCertificatePdf(certificate, QString::fromStdU16String(file.u16string()));
    };
    auto made = std::make_shared<EvidenceMade>();
    QString wrong;
    try {
      *made = makeEvidence(store, wanted, target, draw, progress);
    } catch (const InputError& refused) {
      wrong = problemSentences(refused);
    } catch (const StorageError& error) {
      wrong = asSentence(QString::fromUtf8(error.what()));
    }
    return Worker::Then([self, made, wrong] {
      if (!self) {
        return;
      }
      self->setRunning(false);
      if (wrong.isEmpty()) {
        self->take(*made);
      } else {
        self->refusal_->say(wrong);
      }
    });
  });
}

void EvidenceDialog::take(const EvidenceMade& made) {
  QString text =
      tr("%1 with %2 and %3 in %4, %5 entries of the journal in full.")
          .arg(
              counted(static_cast<int>(made.calibrations.size()), tr("1 calibration"), tr("%1 calibrations")),
              counted(static_cast<int>(made.certificates), tr("1 certificate"), tr("%1 certificates")),
              counted(static_cast<int>(made.attachments), tr("1 file attached"), tr("%1 files attached")),
              counted(static_cast<int>(made.files), tr("1 file"), tr("%1 files")))
          .arg(made.entriesShown);
  if (!made.also.empty()) {
    text += u' ' + counted(static_cast<int>(made.also.size()), tr("1 more that it corrects or replaces."),
                           tr("%1 more that they correct or replace."));
  }
  if (!made.notIssued.empty()) {
    text += u' ' + counted(static_cast<int>(made.notIssued.size()), tr("1 has no certificate issued."),
                           tr("%1 have no certificate issued."));
  }
  if (made.gaps > 0) {
    text += u' ' + counted(static_cast<int>(made.gaps), tr("Traces found 1 gap; the summary names it."),
                           tr("Traces found %1 gaps; the summary names them."));
  }
  text += tr("\nTell the reviewer by another way, so that every file can be trusted:\nSHA-256 of SHA256SUMS: "
             "%1\nHead of the journal: %2")
              .arg(fromCore(hex(made.sums)), fromCore(headText(made.head)));
  result_->setText(text);
  result_->show();
  adjustSize();
}

void EvidenceDialog::setRunning(bool running) {
  running_ = running;
  progress_->setRange(0, 0);
  progress_->setVisible(running);
  for (QWidget* each : std::initializer_list<QWidget*>{make_, choose_, place_}) {
    each->setEnabled(!running);
  }
}

void EvidenceDialog::reject() {
  if (running_) {
    session_.worker().cancel();
  }
  QDialog::reject();
}

QString EvidenceDialog::result() const {
  return result_->isHidden() ? QString() : result_->text();
}

QString EvidenceDialog::trouble() const {
  return refusal_->sentence();
}

}  // namespace spanwright
