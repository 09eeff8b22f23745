// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window and its record: opening, making, closing, unfinished visits, and troubles.
#include <QAction>
#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QLayout>
#include <QProgressBar>
#include <QPushButton>
#include <QStandardPaths>
#include <QStatusBar>
#include <algorithm>

#include "gui/prompts/prompts.h"
#include "gui/screens/certificate_screen.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/check_dialog.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/fleet_screen.h"
#include "gui/screens/intervals_screen.h"
#include "gui/screens/journal_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/plan_screen.h"
#include "gui/screens/review_screen.h"
#include "gui/screens/sign_dialog.h"
#include "gui/screens/site_screen.h"
#include "gui/screens/start_screen.h"
#include "gui/screens/today_screen.h"
#include "gui/screens/trace_screen.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr auto kSuffix = ".spanwright";

}  // namespace

QString sampleRecord() {
  const QString file =
      QDir(QCoreApplication::applicationDirPath()).filePath(QStringLiteral("sample/larkmead.spanwright"));
  return QFile::exists(file) ? file : QString();
}

void MainWindow::connectSession() {
  connect(&session_, &Session::opened, this, &MainWindow::takeRecord);
  connect(&session_, &Session::closed, this, &MainWindow::dropRecord);
  connect(&session_, &Session::troubled, bar_, &MessageBar::showAlarm);
  connect(&session_, &Session::waiting, this, &MainWindow::showWaiting);
  connect(&session_, &Session::imported, this, [this](const ImportOutcome&, bool dryRun) {
    if (!dryRun) {
      session_.refresh();
      site_->refresh();
      channel_->refresh();
      review_->refresh();
    }
  });
  connect(&session_.worker(), &Worker::progressed, this, [this](const QString& what, double fraction) {
    if (session_.worker().idle()) {
      return;
    }
    // Only the check of the file is left to itself.
    const bool stoppable =
        !session_.worker().idle(Worker::Lane::soon) || !session_.worker().idle(Worker::Lane::site);
    busyText_->setText(what);
    busy_->setRange(0, fraction < 0.0 ? 0 : 100);
    busy_->setValue(fraction < 0.0 ? 0 : qRound(fraction * 100.0));
    busyText_->show();
    busy_->show();
    cancel_->setVisible(stoppable);
  });
  connect(&session_.worker(), &Worker::becameIdle, this, [this] {
    for (QWidget* widget : std::initializer_list<QWidget*>{busyText_, busy_, cancel_}) {
      widget->hide();
    }
  });
}

void MainWindow::askOpen() {
  const QString file =
      QFileDialog::getOpenFileName(this, tr("Open a record"), kLastFolder.get(),
                                   tr("Records (*%1);;All files (*)").arg(QLatin1String(kSuffix)));
  if (!file.isEmpty() && visit_->mayLeave()) {
    session_.open(file);
  }
}

void MainWindow::askNew() {
  const QString from = QFileDialog::getOpenFileName(this, tr("Site file that describes the new record"),
                                                    kLastFolder.get(), tr("Site files (*.toml)"));
  if (from.isEmpty()) {
    return;
  }
  const QString proposed = QDir(QFileInfo(from).absolutePath())
                               .filePath(QFileInfo(from).completeBaseName() + QLatin1String(kSuffix));
  QString to = QFileDialog::getSaveFileName(this, tr("Where the new record is to be"), proposed,
                                            tr("Records (*%1)").arg(QLatin1String(kSuffix)), nullptr,
                                            QFileDialog::DontConfirmOverwrite);
  if (to.isEmpty()) {
    return;
  }
  if (QFileInfo(to).suffix().isEmpty()) {
    to += QLatin1String(kSuffix);
  }
  if (!visit_->mayLeave()) {
    return;
  }
  session_.create(from, to);
}

void MainWindow::openSample() {
  const QString sample = sampleRecord();
  if (sample.isEmpty()) {
    bar_->showTrouble(
        tr("The sample record is not beside the program; make it with sample_sites/run, then try again."));
    return;
  }
  // A copy, so that trying things out leaves the sample as it is.
  const QDir home(QStandardPaths::writableLocation(QStandardPaths::AppDataLocation));
  const QString copy = home.filePath(QStringLiteral("larkmead-sample.spanwright"));
  if (!QFile::exists(copy) && (!home.mkpath(QStringLiteral(".")) || !QFile::copy(sample, copy))) {
    bar_->showTrouble(tr("The sample record could not be copied to %1; make room there, then try again.")
                          .arg(QDir::toNativeSeparators(copy)));
    return;
  }
  QFile::setPermissions(copy, QFile::permissions(copy) | QFileDevice::WriteOwner);
  if (!visit_->mayLeave()) {
    return;
  }
  session_.open(copy);
}

void MainWindow::takeRecord() {
  QStringList recent = kRecentRecords.get();
  const QString file = QFileInfo(session_.file()).absoluteFilePath();
  recent.removeAll(file);
  recent.prepend(file);
  kRecentRecords.set(recent.mid(0, kRecentMost));
  kLastFolder.set(QFileInfo(file).absolutePath());
  setWindowTitle(QStringLiteral("%1 – Spanwright").arg(fromCore(session_.site().site.name)));
  visit_->takeRecord();
  plan_->takeRecord();
  intervals_->takeRecord();
  journal_->drop();  // it still looks at the record before
  reach_->drop();
  today_->takePeople();
  bar_->hide();
  past_.clear();
  showToday();
  past_.clear();
  enableActions();
  offerDrafts();
}

void MainWindow::closeRecord() {
  if (!visit_->mayLeave()) {
    return;
  }
  visit_->dropRecord();
  session_.close();
}

void MainWindow::dropRecord() {
  setWindowTitle(QStringLiteral("Spanwright"));
  journal_->drop();
  reach_->drop();
  bar_->hide();
  showStart();
}

void MainWindow::showWaiting(bool waits) {
  const QString sentence = tr("Another program is writing to the record; waiting.");
  if (waits) {
    bar_->showNotice(sentence);
    // This thread may be the one that waits, so nothing else will lay out and draw the bar.
    centralWidget()->layout()->activate();
    bar_->repaint();
  } else if (bar_->sentence() == sentence) {
    bar_->hide();
  }
}

void MainWindow::offerDrafts() {
  try {
    const auto drafts = session_.store().drafts();
    if (session_.site().channels.empty()) {
      bar_->showOffer(
          tr("This site has no channels yet: people, intervals, plans and standards come first, then "
             "channels with their setup."),
          tr("Lists of the register…"), [this] { openRegister(RegisterKind::person); }, tr("New channel…"),
          [this] { action(CommandId::newChannel)->trigger(); });
      return;
    }
    if (drafts.empty()) {
      return;
    }
    const Draft& latest = *std::max_element(drafts.begin(), drafts.end(),
                                            [](const Draft& a, const Draft& b) { return a.id < b.id; });
    bar_->showOffer(
        tr("The visit to %1 begun %2 is not finished.")
            .arg(fromCore(latest.channel), shownMoment(latest.started)),
        tr("Go on with it"), [this, id = latest.id] { resumeDraft(id); }, tr("Discard it"),
        [this, id = latest.id, lost = static_cast<int>(latest.values.size()),
         channel = fromCore(latest.channel)] {
          const Question question{
              tr("Discard the draft"),
              counted(lost, tr("1 value of %2 will be lost."), tr("%1 values of %2 will be lost."))
                  .arg(channel),
              tr("Discard"), tr("Keep")};
          if (lost > 0 && !ask(this, question)) {
            return;
          }
          try {
            session_.store().removeDraft(id);
            site_->refresh();
          } catch (const std::exception& error) {
            bar_->showTrouble(asSentence(QString::fromUtf8(error.what())));
          }
        });
  } catch (const std::exception& error) {
    bar_->showTrouble(asSentence(QString::fromUtf8(error.what())));
  }
}

void MainWindow::resumeDraft(std::int64_t id) {
  try {
    if (const auto draft = session_.store().draft(id)) {
      bar_->hide();
      goTo(visit_);
      visit_->resume(*draft);
    }
  } catch (const std::exception& error) {
    bar_->showTrouble(asSentence(QString::fromUtf8(error.what())));
  }
}

void MainWindow::enterVisit() {
  if (currentScreen() == channel_ || currentScreen() == certificate_) {
    showVisit(channel_->channel(), channel_->currentSubject());
    return;
  }
  if (currentScreen() == due_ && !due_->currentChannel().isEmpty()) {
    showVisit(due_->currentChannel(), due_->currentSubject());
    return;
  }
  if (currentScreen() == fleet_ && !fleet_->currentChannel().isEmpty()) {
    showVisit(fleet_->currentChannel(), fleet_->currentSubject());
    return;
  }
  const QString chosen = currentScreen() == site_    ? site_->currentChannel()
                         : currentScreen() == today_ ? today_->currentChannel()
                                                     : QString();
  if (!chosen.isEmpty()) {
    showVisit(chosen, std::nullopt);
    return;
  }
  // Never a channel nobody chose: readings would go to the wrong one.
  if (currentScreen() != visit_ && visit_->entry().isOpen()) {
    visit_->entry().leave();
  }
  goTo(visit_);
  visit_->chooseChannel();
}

void MainWindow::issueCertificate() {
  if (currentScreen() == certificate_) {
    certificate_->askAndIssue();
  } else if (const auto id = chosenCalibration()) {
    showCertificate(*id);
  } else {
    bar_->showTrouble(tr("There is no calibration here to certify."));
  }
}

std::optional<CalibrationId> MainWindow::chosenCalibration() const {
  return currentScreen() == review_        ? review_->currentCalibration()
         : currentScreen() == certificate_ ? certificate_->calibration()
         : currentScreen() == trace_       ? std::optional(trace_->calibration())
                                           : channel_->currentCalibration();
}

void MainWindow::traceChosen() {
  if (const auto chosen = chosenCalibration()) {
    showTrace(*chosen);
  } else {
    bar_->showTrouble(tr("There is no calibration here yet."));
  }
}

void MainWindow::signChosen() {
  if (const auto chosen = chosenCalibration()) {
    signCalibration(*chosen);
  } else {
    bar_->showTrouble(tr("There is no calibration here to sign."));
  }
}

void MainWindow::signCalibration(CalibrationId calibration) {
  try {
    auto* dialog = new SignDialog(session_, calibration, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &SignDialog::signedNow, this, &MainWindow::takeSignature);
    dialog->open();
  } catch (const InputError& refused) {
    bar_->showTrouble(problemSentences(refused));
  } catch (const std::exception& error) {
    bar_->showTrouble(asSentence(QString::fromUtf8(error.what())));
  }
}

void MainWindow::takeSignature(const QString& sentence) {
  session_.refresh();
  review_->refresh();
  channel_->refresh();
  certificate_->refresh();
  refreshShown();
  bar_->showNews(sentence);
}

void MainWindow::checkRecord() {
  auto* dialog = new CheckDialog(session_, this);
  dialog->setAttribute(Qt::WA_DeleteOnClose);
  dialog->open();
}

QString MainWindow::channelWithHistory() const {
  QString best;
  std::size_t most = 0;
  for (const Channel& channel : session_.site().channels) {
    const std::size_t many = session_.store().calibrations(channel.tag).size();
    if (!channel.retired && (best.isEmpty() || many > most)) {
      best = fromCore(channel.tag);
      most = many;
    }
    if (most >= 12) {
      break;
    }
  }
  return best;
}

bool MainWindow::showScreen(const QString& name, const QString& channel, std::optional<Subject> subject) {
  if (name == QLatin1String("start")) {
    showStart();
    return true;
  }
  if (!channel.isEmpty() && session_.site().channel(toCore(channel)) == nullptr) {
    return false;
  }
  if (showPlace(name)) {
    return true;
  }
  const QString tag = channel.isEmpty() ? channelWithHistory() : channel;
  if (name == QLatin1String("due")) {
    showDue();
  } else if (name == QLatin1String("review")) {
    showReview();
  } else if (name == QLatin1String("drift")) {
    showDrift();
  } else if (name == QLatin1String("plan")) {
    showPlan();
  } else if (name == QLatin1String("intervals")) {
    showIntervals();
  } else if (name == QLatin1String("channel")) {
    showChannel(tag);
  } else if (name == QLatin1String("visit")) {
    showVisit(tag, subject);
  } else if (name == QLatin1String("trace")) {
    showChannel(tag);
    traceChosen();
  } else if (name == QLatin1String("certificate")) {
    showChannel(tag);
    issueCertificate();
  } else {
    showSite();
  }
  return true;
}

}  // namespace spanwright
