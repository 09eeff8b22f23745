// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window and the screens that are about the record as a whole rather than one channel.
#include <QAction>
#include <QStackedWidget>

#include "gui/screens/certificate_screen.h"
#include "gui/screens/certificates_dialog.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/decide_dialog.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/evidence_dialog.h"
#include "gui/screens/files_dialog.h"
#include "gui/screens/fleet_screen.h"
#include "gui/screens/journal_screen.h"
#include "gui/screens/labels_dialog.h"
#include "gui/screens/main_window.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/passphrase_dialog.h"
#include "gui/screens/plan_screen.h"
#include "gui/screens/reach_screen.h"
#include "gui/screens/review_screen.h"
#include "gui/screens/round_dialog.h"
#include "gui/screens/rounds_screen.h"
#include "gui/screens/standard_certificate_dialog.h"
#include "gui/screens/standards_screen.h"
#include "gui/screens/today_screen.h"
#include "gui/screens/trace_screen.h"
#include "gui/session/session.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr CommandId kPlaces[] = {CommandId::showToday, CommandId::showStandards, CommandId::showRounds,
                                 CommandId::showJournal};

/// One lambda for each kind of target.
template <typename... Each>
struct Chosen : Each... {
  using Each::operator()...;
};
template <typename... Each>
Chosen(Each...) -> Chosen<Each...>;

std::vector<Attachment> filesOfStandard(const Register& site, const QString& serial,
                                        const QString& certificate) {
  std::vector<Attachment> about;
  const Standard* standard = site.standard(toCore(serial));
  if (standard == nullptr) {
    return about;
  }
  for (const StandardCertificate& each : standard->certificates) {
    Attachment one;
    one.standard = standard->serial;
    one.certificate = each.number;
    about.insert(fromCore(each.number) == certificate ? about.begin() : about.end(), one);
  }
  return about;
}

}  // namespace

void MainWindow::addPlaces() {
  today_ = new TodayScreen(session_, this);
  standards_ = new StandardsScreen(session_, this);
  rounds_ = new RoundsScreen(session_, this);
  journal_ = new JournalScreen(session_, this);
  trace_ = new TraceScreen(session_, this);
  reach_ = new ReachScreen(session_, this);
  for (QWidget* screen :
       std::initializer_list<QWidget*>{today_, standards_, rounds_, journal_, trace_, reach_}) {
    stack_->addWidget(screen);
  }
  for (const CommandId id : kPlaces) {
    action(id)->setCheckable(true);
  }
  connect(action(CommandId::showToday), &QAction::triggered, this, &MainWindow::showToday);
  connect(action(CommandId::showStandards), &QAction::triggered, this, &MainWindow::showStandards);
  connect(action(CommandId::showRounds), &QAction::triggered, this, &MainWindow::showRounds);
  connect(action(CommandId::showJournal), &QAction::triggered, this, &MainWindow::showJournal);
  connect(action(CommandId::nextStop), &QAction::triggered, this, &MainWindow::goToNextStop);
  connect(action(CommandId::makeEvidence), &QAction::triggered, this, &MainWindow::openEvidence);
  connect(action(CommandId::changePassphrase), &QAction::triggered, this, &MainWindow::openPassphrase);
  connect(action(CommandId::showFiles), &QAction::triggered, this, &MainWindow::openFiles);
  connect(action(CommandId::makeLabels), &QAction::triggered, this,
          [this] { openLabels(routinesOf(session_.site(), toCore(channel_->channel()))); });
  connect(today_, &TodayScreen::targetChosen, this, &MainWindow::followToday);
  connect(journal_, &JournalScreen::calibrationChosen, this, &MainWindow::showCalibration);
  connectStandards();
  connectRounds();
  connectTrace();
  connectReach();
}

void MainWindow::connectStandards() {
  const auto decide = [this](const QString& serial) {
    auto* dialog = new DecideDialog(session_, serial, this);
    connect(dialog, &DecideDialog::decided, this, &MainWindow::takeNews);
    openDialog(dialog);
  };
  connect(standards_, &StandardsScreen::decisionAsked, this, decide);
  connect(reach_, &ReachScreen::decisionAsked, this, decide);
  connect(standards_, &StandardsScreen::reachAsked, this, &MainWindow::showReach);
  connect(standards_, &StandardsScreen::certificateAsked, this, [this](const QString& serial) {
    auto* dialog = new StandardCertificateDialog(session_, serial, this);
    connect(dialog, &StandardCertificateDialog::added, this, &MainWindow::takeNews);
    openDialog(dialog);
  });
  connect(
      standards_, &StandardsScreen::filesAsked, this,
      [this](const QString& serial, const QString& certificate) {
        openDialog(new FilesDialog(session_, filesOfStandard(session_.site(), serial, certificate), this));
      });
}

void MainWindow::connectRounds() {
  connect(rounds_, &RoundsScreen::visitAsked, this, &MainWindow::showVisit);
  connect(rounds_, &RoundsScreen::calibrationChosen, this, &MainWindow::showCalibration);
  connect(rounds_, &RoundsScreen::closed, bar_, &MessageBar::showNews);
  connect(rounds_, &RoundsScreen::sheetWritten, bar_, &MessageBar::showNews);
  connect(rounds_, &RoundsScreen::labelsAsked, this, &MainWindow::openLabels);
  connect(rounds_, &RoundsScreen::certificatesAsked, this, [this](const Round& round) {
    auto* dialog = new CertificatesDialog(session_, round, this);
    connect(dialog, &CertificatesDialog::issued, this, &MainWindow::takeNews);
    openDialog(dialog);
  });
  connect(plan_, &PlanScreen::roundMade, this, &MainWindow::showRound);
  connect(rounds_, &RoundsScreen::newAsked, this, [this] {
    auto* dialog = new RoundDialog(session_, this);
    connect(dialog, &RoundDialog::made, this, [this](std::int64_t round, const QString& sentence) {
      rounds_->refresh();
      rounds_->choose(round);
      bar_->showNews(sentence);
    });
    openDialog(dialog);
  });
}

void MainWindow::showRound(std::int64_t round, const QString& sentence) {
  showRounds();
  rounds_->choose(round);
  bar_->showNews(sentence);
}

void MainWindow::connectReach() {
  connect(reach_, &ReachScreen::calibrationChosen, this, &MainWindow::showCalibration);
  connect(reach_, &ReachScreen::done, bar_, &MessageBar::showNews);
  connect(reach_, &ReachScreen::roundMade, this, &MainWindow::showRound);
}

void MainWindow::showReach(const QString& serial) {
  if (session_.isOpen()) {
    reach_->showStandard(serial);
    goTo(reach_);
  }
}

void MainWindow::openLabels(const std::vector<RoundStop>& stops) {
  auto* dialog = new LabelsDialog(session_, stops, this);
  connect(dialog, &LabelsDialog::written, bar_, &MessageBar::showNews);
  openDialog(dialog);
}

void MainWindow::connectTrace() {
  connect(action(CommandId::showTrace), &QAction::triggered, this, &MainWindow::traceChosen);
  connect(trace_, &TraceScreen::signAsked, this, &MainWindow::signCalibration);
  connect(trace_, &TraceScreen::certificateAsked, this, &MainWindow::showCertificate);
  connect(trace_, &TraceScreen::calibrationAsked, this, &MainWindow::showTrace);
  connect(trace_, &TraceScreen::channelAsked, this, &MainWindow::showCalibration);
}

void MainWindow::showTrace(CalibrationId calibration) {
  if (session_.isOpen()) {
    trace_->showCalibration(calibration);
    goTo(trace_);
  }
}

void MainWindow::openDialog(QDialog* dialog) {
  dialog->setAttribute(Qt::WA_DeleteOnClose);
  dialog->open();
}

void MainWindow::takeNews(const QString& sentence) {
  session_.refresh();
  refreshShown();
  bar_->showNews(sentence);
}

bool MainWindow::showsCalibrations() const {
  const QWidget* screen = currentScreen();
  for (const QWidget* each : std::initializer_list<const QWidget*>{channel_, review_, certificate_, trace_}) {
    if (screen == each) {
      return true;
    }
  }
  return false;
}

void MainWindow::enablePlaces() {
  const bool open = session_.isOpen();
  for (const CommandId id : kPlaces) {
    action(id)->setEnabled(open);
  }
  for (const CommandId id : {CommandId::nextStop, CommandId::makeEvidence, CommandId::changePassphrase}) {
    action(id)->setEnabled(open);
  }
  QWidget* screen = currentScreen();
  action(CommandId::showToday)->setChecked(screen == today_);
  action(CommandId::showStandards)->setChecked(screen == standards_);
  action(CommandId::showRounds)->setChecked(screen == rounds_);
  action(CommandId::showJournal)->setChecked(screen == journal_);
  action(CommandId::makeLabels)->setEnabled(open && screen == channel_);
  const bool onCalibrations = open && showsCalibrations();
  action(CommandId::signCalibration)->setEnabled(onCalibrations);
  action(CommandId::showTrace)->setEnabled(onCalibrations && screen != trace_);
  action(CommandId::issueCertificate)->setEnabled(onCalibrations);
  action(CommandId::showFiles)->setEnabled(open && (screen == channel_ || screen == standards_));
}

void MainWindow::refreshShown() {
  QWidget* screen = currentScreen();
  if (screen == today_) {
    today_->refresh();
  } else if (screen == standards_) {
    standards_->refresh();
  } else if (screen == rounds_) {
    rounds_->refresh();
  } else if (screen == journal_) {
    journal_->refresh();
  } else if (screen == trace_) {
    trace_->refresh();
  } else if (screen == reach_) {
    reach_->refresh();
  }
}

bool MainWindow::showPlace(const QString& name) {
  if (name == QLatin1String("today")) {
    showToday();
  } else if (name == QLatin1String("standards")) {
    showStandards();
  } else if (name == QLatin1String("rounds")) {
    showRounds();
  } else if (name == QLatin1String("journal")) {
    showJournal();
  } else if (name == QLatin1String("reach")) {
    showStandards();
    showReach(standards_->currentStandard());
  } else {
    return false;
  }
  return true;
}

template <typename Screen>
void MainWindow::goToPlace(Screen* screen) {
  if (session_.isOpen()) {
    screen->refresh();
    goTo(screen);
    if (currentScreen() == screen) {
      screen->setFocus();
    }
  }
  enableActions();
}

void MainWindow::showToday() {
  goToPlace(today_);
}

void MainWindow::showStandards() {
  goToPlace(standards_);
}

void MainWindow::showRounds() {
  goToPlace(rounds_);
}

void MainWindow::showJournal() {
  goToPlace(journal_);
}

void MainWindow::showCalibration(const QString& tag, CalibrationId calibration) {
  goTo(channel_);
  channel_->showCalibration(tag, calibration);
}

void MainWindow::goToNextStop() {
  if (const auto stop = rounds_->goToNext()) {
    showVisit(fromCore(stop->channel), stop->subject);
  } else if (const QString done = rounds_->doneRound(); !done.isEmpty()) {
    bar_->showNotice(
        tr("Every stop of \"%1\" is done; its certificates, labels and its end are under Rounds.").arg(done));
  } else {
    bar_->showNotice(tr("No round is open with a channel to do; choose or make one under Rounds."));
  }
}

void MainWindow::openEvidence() {
  const QString channel = currentScreen() == channel_ ? channel_->channel() : QString();
  openDialog(new EvidenceDialog(session_, channel, this));
}

void MainWindow::openPassphrase() {
  auto* dialog = new PassphraseDialog(session_, this);
  connect(dialog, &PassphraseDialog::changed, this, &MainWindow::takeNews);
  openDialog(dialog);
}

void MainWindow::openFiles() {
  if (currentScreen() == standards_) {
    standards_->askFiles();
    return;
  }
  std::vector<Attachment> about(1);
  about.front().channel = toCore(channel_->channel());
  if (const auto calibration = channel_->currentCalibration()) {
    about.emplace_back().calibration = *calibration;
  }
  openDialog(new FilesDialog(session_, std::move(about), this));
}

void MainWindow::followToday(const TodayTarget& target) {
  std::visit(Chosen{[](std::monostate) {}, [this](const ToDraft& to) { resumeDraft(to.draft); },
                    [this](const ToCalibration& to) { showCalibration(to.channel, to.calibration); },
                    [this](const ToChannel& to) { showChannel(to.channel); },
                    [this](const ToDueList& to) {
                      showDue();
                      due_->showState(to.state);
                    },
                    [this](const ToSteps&) {
                      showDrift();
                      fleet_->orderBy(FleetOrder::findings);
                    },
                    [this](const ToReview&) { showReview(); },
                    [this](const ToRound& to) {
                      showRounds();
                      if (to.round != 0) {
                        rounds_->choose(to.round);
                      }
                    },
                    [this](const ToStandard& to) {
                      showStandards();
                      if (!to.serial.isEmpty()) {
                        standards_->choose(to.serial);
                      }
                    }},
             target);
}

}  // namespace spanwright
