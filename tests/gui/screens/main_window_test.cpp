// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/main_window.h"

#include <QAbstractButton>
#include <QAction>
#include <QFile>
#include <QTableView>
#include <QTest>
#include <QTreeView>
#include <atomic>
#include <chrono>
#include <thread>

#include "gui/actions/commands.h"
#include "gui/charts/plot_view.h"
#include "gui/screens/certificate_screen.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/site_screen.h"
#include "gui/screens/today_screen.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

class Window : public GuiTest {};

TEST_F(Window, OpensOnWhatNeedsDoingTodayAndRemembersTheRecord) {
  makeRecord();
  openWindow();
  EXPECT_EQ(window_->currentScreen(), window_->todayScreen());
  EXPECT_TRUE(window_->windowTitle().contains("Small invented site"));
  EXPECT_EQ(kRecentRecords.get(), QStringList{recordFile()});
}

TEST_F(Window, GoesToAChannelAndBackByKeys) {
  makeRecord({visitTo("TT-1", "2024-11-20T09:00:00", 0.1), visitTo("TT-1", "2025-11-20T09:00:00", 0.15)});
  openWindow();
  press(Qt::Key_F, Qt::ControlModifier);
  type("tank");
  press(Qt::Key_Down);
  press(Qt::Key_Return);
  ASSERT_EQ(window_->currentScreen(), window_->channelScreen());
  EXPECT_EQ(window_->channelScreen()->channel().toStdString(), "TT-1");
  session_->worker().waitUntilIdle();
  EXPECT_TRUE(window_->channelScreen()->timePlot()->sentence().isEmpty());
  EXPECT_FALSE(window_->channelScreen()->timePlot()->chart()->series().isEmpty());
  EXPECT_FALSE(window_->channelScreen()->inputPlot()->chart()->series().isEmpty());
  QTest::keyClick(window_.get(), Qt::Key_Left, Qt::AltModifier);
  EXPECT_EQ(window_->currentScreen(), window_->siteScreen());
}

TEST_F(Window, AChannelWithoutHistorySaysSoInsteadOfAnEmptyChart) {
  makeRecord();
  openWindow();
  window_->showChannel("PT-2");
  session_->worker().waitUntilIdle();
  EXPECT_TRUE(window_->channelScreen()->timePlot()->sentence().contains("no calibrations"));
  EXPECT_FALSE(window_->channelScreen()->currentCalibration().has_value());
}

TEST_F(Window, ATileOfTheOverviewOpensTheDueListInThatState) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1)});
  openWindow();
  window_->showSite();
  auto* unproven = named<QAbstractButton>("2 Unproven, show them");
  ASSERT_NE(unproven, nullptr);
  unproven->click();
  EXPECT_EQ(window_->currentScreen(), window_->dueScreen());
  const auto* table = named<QTableView>("Due list");
  EXPECT_EQ(table->model()->rowCount(), 2);
}

TEST_F(Window, SaysThatItWaitsForAnotherProgram) {
  makeRecord();
  openWindow();
  QStringList shown;
  QObject::connect(session_.get(), &Session::waiting, window_.get(), [&](bool waits) {
    shown << (waits ? window_->bar()->sentence() : QStringLiteral("over: ") + window_->bar()->sentence());
    if (waits) {
      EXPECT_TRUE(window_->bar()->isVisible());
      EXPECT_GT(window_->bar()->height(), 20);
      keepPicture("waiting");
    }
  });
  std::atomic<bool> writing = false;
  std::jthread other([&] {
    Store store = Store::open(recordFile().toStdString(), Store::Mode::readWrite, clock_);
    const Store::Transaction transaction(store);
    writing = true;
    std::this_thread::sleep_for(std::chrono::milliseconds(1000));
  });
  while (!writing) {
    std::this_thread::yield();
  }
  Draft draft;
  draft.channel = "TT-1";
  EXPECT_GT(session_->store().saveDraft(draft), 0);
  other.join();
  EXPECT_EQ(shown, (QStringList{"Another program is writing to the record; waiting.", "over: "}));
}

TEST_F(Window, IssuesACertificateAsPdfWithItsNumber) {
  ProposedVisit visit = visitTo("TT-1", "2026-11-20T09:00:00", 0.1);
  visit.conditions = {21.0, 45.0, ""};
  makeRecord({visit});
  openWindow();
  window_->showChannel("TT-1");
  window_->showCertificate(*window_->channelScreen()->currentCalibration());
  EXPECT_GE(window_->certificateScreen()->pageCount(), 1);
  const QString file = folder_.filePath("certificate.pdf");
  EXPECT_EQ(window_->certificateScreen()->issueTo(file).toStdString(), "");
  QFile pdf(file);
  ASSERT_TRUE(pdf.open(QIODevice::ReadOnly));
  EXPECT_TRUE(pdf.read(5) == "%PDF-");
  const auto issued = session_->store().issuedCertificate(1);
  ASSERT_TRUE(issued.has_value());
  EXPECT_TRUE(window_->bar()->sentence().contains(QString::fromStdString(issued->number)));
  EXPECT_NE(window_->certificateScreen()->issueTo(folder_.filePath("no/such/folder.pdf")).toStdString(), "");
}

TEST_F(Window, TroubleIsASentenceInTheBarAndTheWindowGoesOn) {
  makeRecord();
  openWindow();
  session_->open(folder_.filePath("missing.spanwright"));
  session_->worker().waitUntilIdle();
  EXPECT_TRUE(window_->bar()->sentence().contains("missing.spanwright"))
      << window_->bar()->sentence().toStdString();
  EXPECT_TRUE(session_->isOpen());
  window_->showVisit("NO-SUCH", std::nullopt);
  EXPECT_FALSE(window_->bar()->sentence().isEmpty());
}

TEST_F(Window, NoTwoCommandsHaveTheSameKeys) {
  QStringList seen;
  for (const Command& each : commands()) {
    EXPECT_FALSE(commandText(each.id).isEmpty());
    for (const QKeySequence& keys : commandKeys(each.id)) {
      EXPECT_FALSE(keys.isEmpty()) << each.keys;
      EXPECT_FALSE(seen.contains(keys.toString())) << keys.toString().toStdString();
      seen << keys.toString();
    }
  }
}

}  // namespace
}  // namespace spanwright
