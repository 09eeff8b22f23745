// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window's frame: actions, menus, and the way between screens. What concerns the record is in
// main_window_record.cpp.
#include "gui/screens/main_window.h"

#include <QAbstractButton>
#include <QAction>
#include <QApplication>
#include <QCloseEvent>
#include <QLabel>
#include <QMenuBar>
#include <QMessageBox>
#include <QProgressBar>
#include <QPushButton>
#include <QStackedWidget>
#include <QStatusBar>
#include <QToolBar>
#include <QVBoxLayout>

#include "gui/screens/certificate_screen.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/fleet_screen.h"
#include "gui/screens/import_dialog.h"
#include "gui/screens/intervals_screen.h"
#include "gui/screens/journal_screen.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/numbers_panel.h"
#include "gui/screens/page_area.h"
#include "gui/screens/plan_screen.h"
#include "gui/screens/review_screen.h"
#include "gui/screens/site_screen.h"
#include "gui/screens/start_screen.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "gui/settings/text_size.h"
#include "gui/words/words.h"

namespace spanwright {

MainWindow::MainWindow(Session& session, QWidget* parent)
    : QMainWindow(parent),
      session_(session),
      stack_(new QStackedWidget(this)),
      bar_(new MessageBar(this)),
      start_(new StartScreen(this)),
      site_(new SiteScreen(session, this)),
      due_(new DueScreen(session, this)),
      review_(new ReviewScreen(session, this)),
      fleet_(new FleetScreen(session, this)),
      plan_(new PlanScreen(session, this)),
      intervals_(new IntervalsScreen(session, this)),
      channel_(new ChannelScreen(session, this)),
      visit_(new VisitScreen(session, this)),
      certificate_(new CertificateScreen(session, this)) {
  setWindowTitle(QStringLiteral("Spanwright"));
  resize(onScreen(QSize(1280, 800)));
  auto* middle = new QWidget(this);
  auto* column = new QVBoxLayout(middle);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(bar_);
  column->addWidget(new PageArea(stack_, this), 1);
  setCentralWidget(middle);
  for (QWidget* screen : std::initializer_list<QWidget*>{start_, site_, due_, review_, fleet_, plan_,
                                                         intervals_, channel_, visit_, certificate_}) {
    stack_->addWidget(screen);
  }
  makeActions();
  addPlaces();
  makeMenus();
  makeStatus();
  connectScreens();
  connectRegister();
  connectSession();
  restoreGeometry(kWindowGeometry.get());
  enableActions();
}

void MainWindow::makeActions() {
  for (const Command& each : commands()) {
    // The entry sheet has its own, where its keys are heard.
    if (!isOfEntrySheet(each.id)) {
      actions_[each.id] = makeAction(each.id, this);
    }
  }
  for (const CommandId id : {CommandId::showSite, CommandId::showDue, CommandId::showReview,
                             CommandId::showDrift, CommandId::showPlan, CommandId::showIntervals}) {
    action(id)->setCheckable(true);
  }
  connect(action(CommandId::openRecord), &QAction::triggered, this, &MainWindow::askOpen);
  connect(action(CommandId::newRecord), &QAction::triggered, this, &MainWindow::askNew);
  connect(action(CommandId::openSample), &QAction::triggered, this, &MainWindow::openSample);
  connect(action(CommandId::importHistory), &QAction::triggered, this, [this] {
    auto* dialog = new ImportDialog(session_, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
  });
  connect(action(CommandId::checkRecord), &QAction::triggered, this, &MainWindow::checkRecord);
  connect(action(CommandId::closeRecord), &QAction::triggered, this, &MainWindow::closeRecord);
  connect(action(CommandId::quit), &QAction::triggered, this, &QWidget::close);
  connect(action(CommandId::showSite), &QAction::triggered, this, &MainWindow::showSite);
  connect(action(CommandId::showDue), &QAction::triggered, this, &MainWindow::showDue);
  connect(action(CommandId::showReview), &QAction::triggered, this, &MainWindow::showReview);
  connect(action(CommandId::showDrift), &QAction::triggered, this, &MainWindow::showDrift);
  connect(action(CommandId::showPlan), &QAction::triggered, this, &MainWindow::showPlan);
  connect(action(CommandId::showIntervals), &QAction::triggered, this, &MainWindow::showIntervals);
  connect(action(CommandId::goBack), &QAction::triggered, this, &MainWindow::goBack);
  connect(action(CommandId::findChannel), &QAction::triggered, this, [this] {
    if (currentScreen() == due_) {
      due_->findChannel();
    } else if (currentScreen() == fleet_) {
      fleet_->findChannel();
    } else if (currentScreen() == journal_) {
      journal_->findWords();
    } else {
      showSite();
      site_->findChannel();
    }
  });
  connect(action(CommandId::enterVisit), &QAction::triggered, this, &MainWindow::enterVisit);
  connect(action(CommandId::signCalibration), &QAction::triggered, this, &MainWindow::signChosen);
  connect(action(CommandId::issueCertificate), &QAction::triggered, this, &MainWindow::issueCertificate);
  connect(action(CommandId::explainNumbers), &QAction::triggered, this, &MainWindow::explainNumbers);
  connect(action(CommandId::showKeys), &QAction::triggered, this, &MainWindow::showKeys);
  connect(action(CommandId::about), &QAction::triggered, this, &MainWindow::showAbout);
}

void MainWindow::makeMenus() {
  const auto fill = [this](QMenu* menu, std::initializer_list<CommandId> ids) {
    for (const CommandId id : ids) {
      menu->addAction(action(id));
    }
  };
  fill(menuBar()->addMenu(tr("&Record")),
       {CommandId::newSite, CommandId::openRecord, CommandId::newRecord, CommandId::openSample,
        CommandId::importHistory, CommandId::checkRecord, CommandId::makeEvidence,
        CommandId::changePassphrase, CommandId::closeRecord, CommandId::quit});
  edit_ = menuBar()->addMenu(tr("&Manage"));
  fill(edit_, {CommandId::changeChosen, CommandId::newSetup, CommandId::fitSensor, CommandId::newPlace,
               CommandId::newChannel, CommandId::showRegister, CommandId::changeSite});
  places_ = menuBar()->addMenu(tr("&Go"));
  fill(places_,
       {CommandId::showToday, CommandId::showSite, CommandId::showDue, CommandId::showReview,
        CommandId::showDrift, CommandId::showPlan, CommandId::showIntervals, CommandId::showStandards,
        CommandId::showRounds, CommandId::showJournal, CommandId::goBack, CommandId::findChannel});
  fill(menuBar()->addMenu(tr("&Work")),
       {CommandId::enterVisit, CommandId::nextStop, CommandId::signCalibration, CommandId::showTrace,
        CommandId::issueCertificate, CommandId::makeLabels, CommandId::showFiles});
  QMenu* view = menuBar()->addMenu(tr("&View"));
  addLooks(view);
  addTextSizes(view);
  addLanguages(view);
  fill(menuBar()->addMenu(tr("&Help")), {CommandId::explainNumbers, CommandId::showKeys, CommandId::about});
  auto* tools = addToolBar(tr("Places to go"));
  tools->setObjectName(QStringLiteral("places"));
  tools->setMovable(false);
  tools->setToolButtonStyle(Qt::ToolButtonTextOnly);
  for (const CommandId id :
       {CommandId::goBack, CommandId::showToday, CommandId::showSite, CommandId::showDue,
        CommandId::showReview, CommandId::showDrift, CommandId::showPlan, CommandId::showIntervals,
        CommandId::showStandards, CommandId::showRounds, CommandId::showJournal, CommandId::enterVisit}) {
    tools->addAction(action(id));
  }
}

void MainWindow::makeStatus() {
  busyText_ = new QLabel(this);
  busy_ = new QProgressBar(this);
  busy_->setFixedWidth(scaled(160));
  busy_->setTextVisible(false);
  busy_->setAccessibleName(tr("Progress"));
  cancel_ = new QPushButton(tr("Cancel"), this);
  for (QWidget* widget : std::initializer_list<QWidget*>{busyText_, busy_, cancel_}) {
    statusBar()->addPermanentWidget(widget);
    widget->hide();
  }
  connect(cancel_, &QPushButton::clicked, this, [this] {
    session_.worker().cancel();
    statusBar()->showMessage(tr("Cancelled."), 4000);
  });
}

void MainWindow::connectScreens() {
  connect(start_, &StartScreen::openAsked, this, &MainWindow::askOpen);
  connect(start_, &StartScreen::newAsked, this, &MainWindow::askNew);
  connect(start_, &StartScreen::sampleAsked, this, &MainWindow::openSample);
  connect(start_, &StartScreen::recordChosen, &session_, &Session::open);
  connect(site_, &SiteScreen::channelChosen, this, [this](const QString& tag) { showChannel(tag); });
  connect(site_, &SiteScreen::draftChosen, this, &MainWindow::resumeDraft);
  connect(site_, &SiteScreen::stateChosen, this, [this](std::optional<DueState> state) {
    showDue();
    due_->showState(state);
  });
  connect(due_, &DueScreen::channelChosen, this, [this](const QString& tag) { showChannel(tag); });
  connect(fleet_, &FleetScreen::pointChosen, this,
          [this](const QString& tag, Subject subject, const QString& point) {
            channel_->showPoint(tag, subject, point);
            goTo(channel_);
          });
  connect(plan_, &PlanScreen::channelChosen, this, [this](const QString& tag) { showChannel(tag); });
  connect(intervals_, &IntervalsScreen::channelChosen, this,
          [this](const QString& tag) { showChannel(tag); });
  connect(intervals_, &IntervalsScreen::accepted, bar_, &MessageBar::showNews);
  connect(plan_, &PlanScreen::done, bar_, &MessageBar::showNews);
  connect(channel_, &ChannelScreen::visitAsked, this, &MainWindow::showVisit);
  connect(review_, &ReviewScreen::calibrationChosen, this,
          [this](const QString&, CalibrationId calibration) { showTrace(calibration); });
  connect(review_, &ReviewScreen::signAsked, this, &MainWindow::signCalibration);
  connect(channel_, &ChannelScreen::signAsked, this, &MainWindow::signCalibration);
  connect(channel_, &ChannelScreen::certificateAsked, this, &MainWindow::showCertificate);
  connect(visit_, &VisitScreen::left, this, [this](const QString& tag) {
    tag.isEmpty() ? showSite() : showChannel(tag);
    offerDrafts();
  });
  connect(visit_, &VisitScreen::finished, this, [this](const QString& tag, const QString& sentence) {
    session_.refresh();
    const auto& stored = visit_->entry().stored();
    showChannel(tag, stored ? std::optional(stored->subject) : std::nullopt);
    past_.removeAll(visit_);
    bar_->showNews(sentence);
    statusBar()->showMessage(sentence, 10000);
  });
  connect(certificate_, &CertificateScreen::issued, bar_, &MessageBar::showNews);
}

QWidget* MainWindow::currentScreen() const {
  return stack_->currentWidget();
}

void MainWindow::goTo(QWidget* screen) {
  QWidget* now = stack_->currentWidget();
  if (now == visit_ && screen != visit_ && !visit_->mayLeave()) {
    enableActions();
    return;
  }
  if (now != screen) {
    bar_->passNews();
    past_.removeAll(now);
    if (now != visit_ || (visit_->hasEntry() && visit_->entry().isOpen())) {  // a sheet let go has no page
      past_.append(now);
    }
  }
  stack_->setCurrentWidget(screen);
  enableActions();
}

void MainWindow::goBack() {
  if (past_.isEmpty() || (currentScreen() == visit_ && !visit_->mayLeave())) {
    return;
  }
  QWidget* screen = past_.takeLast();
  bar_->passNews();
  stack_->setCurrentWidget(screen);
  if (screen == site_) {
    site_->refresh();
  } else if (screen == review_) {
    review_->refresh();
  } else {
    refreshShown();
  }
  enableActions();
}

void MainWindow::showStart() {
  start_->refresh();
  past_.clear();
  stack_->setCurrentWidget(start_);
  enableActions();
}

void MainWindow::showSite() {
  if (session_.isOpen()) {
    site_->refresh();
    goTo(site_);
  }
  enableActions();
}

void MainWindow::showDue() {
  if (session_.isOpen()) {
    due_->refresh();
    due_->showState(std::nullopt);
    goTo(due_);
  }
}

void MainWindow::showReview() {
  if (session_.isOpen()) {
    review_->refresh();
    goTo(review_);
  }
}

void MainWindow::showDrift() {
  if (session_.isOpen()) {
    fleet_->refresh();
    goTo(fleet_);
  }
}

void MainWindow::showPlan() {
  if (session_.isOpen()) {
    plan_->refresh();
    goTo(plan_);
  }
}

void MainWindow::showIntervals() {
  if (session_.isOpen()) {
    intervals_->refresh();
    goTo(intervals_);
  }
}

void MainWindow::showChannel(const QString& tag, std::optional<Subject> subject) {
  if (session_.isOpen()) {
    channel_->showChannel(tag, subject);
    goTo(channel_);
    channel_->focusCalibrations();
  }
}

void MainWindow::showVisit(const QString& tag, std::optional<Subject> subject) {
  if (session_.isOpen()) {
    goTo(visit_);
    visit_->start(tag, subject);
  }
}

void MainWindow::showCertificate(CalibrationId calibration) {
  if (session_.isOpen()) {
    goTo(certificate_);
    certificate_->showCalibration(calibration);
  }
}

void MainWindow::enableActions() {
  const bool open = session_.isOpen();
  for (const CommandId id :
       {CommandId::importHistory, CommandId::checkRecord, CommandId::closeRecord, CommandId::showSite,
        CommandId::showDue, CommandId::showReview, CommandId::showDrift, CommandId::showPlan,
        CommandId::showIntervals, CommandId::findChannel, CommandId::enterVisit}) {
    action(id)->setEnabled(open);
  }
  action(CommandId::showSite)->setChecked(currentScreen() == site_);
  action(CommandId::showDue)->setChecked(currentScreen() == due_);
  action(CommandId::showReview)->setChecked(currentScreen() == review_);
  action(CommandId::showDrift)->setChecked(currentScreen() == fleet_);
  action(CommandId::showPlan)->setChecked(currentScreen() == plan_);
  action(CommandId::showIntervals)->setChecked(currentScreen() == intervals_);
  enablePlaces();
  enableRegister();
  action(CommandId::goBack)->setEnabled(open && !past_.isEmpty());
}

void MainWindow::explainNumbers() {
  const Explained what = NumbersPanel::ofFocus(QApplication::focusWidget());
  if (numbers_ == nullptr) {
    numbers_ = new NumbersPanel(this);
    addDockWidget(Qt::RightDockWidgetArea, numbers_);
  }
  numbers_->explain(what);
}

void MainWindow::showKeys() {
  QMessageBox box(QMessageBox::NoIcon, tr("Keys"), keysPage(), QMessageBox::Close, this);
  box.setTextFormat(Qt::RichText);
  box.exec();
}

void MainWindow::showAbout() {
  QMessageBox::about(
      this, tr("About Spanwright"),
      tr("<p><b>Spanwright %1</b></p><p>The calibration record of a site's measuring channels: readings "
         "as found and as left, drift, due dates and certificates.</p><p>It never says that work is "
         "safe, and its certificates are neither a proof test of a safety function nor accredited "
         "unless the issuer is.</p><p>Free software under the GPL, version 3 or later.</p>")
          .arg(QStringLiteral(SPANWRIGHT_VERSION)));
}

void MainWindow::keyPressEvent(QKeyEvent* event) {
  auto* button = qobject_cast<QAbstractButton*>(focusWidget());
  if (button != nullptr && (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)) {
    button->click();
    return;
  }
  QMainWindow::keyPressEvent(event);
}

void MainWindow::closeEvent(QCloseEvent* event) {
  kWindowGeometry.set(saveGeometry());
  if (!visit_->mayLeave()) {
    event->ignore();
    return;
  }
  visit_->dropRecord();  // what was typed goes into its draft
  QMainWindow::closeEvent(event);
}

}  // namespace spanwright
