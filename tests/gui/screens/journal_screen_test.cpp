// SPDX-License-Identifier: GPL-3.0-or-later
//
// The journal in the window: newest first, narrowed by words, long ones without waiting.
#include "gui/screens/journal_screen.h"

#include <QApplication>
#include <QClipboard>
#include <QElapsedTimer>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <iostream>

#include "core/store/journal.h"
#include "gui/models/journal_model.h"
#include "gui/screens/channel_screen.h"
#include "gui/session/session.h"
#include "tests/gui/screens/places_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

class JournalWindow : public DialogTest {
 protected:
  QTableView* table() const { return named<QTableView>("Journal"); }
  std::string cell(int row, int column) const {
    return table()->model()->index(row, column).data().toString().toStdString();
  }
  /// Takes the words away again.
  void widen() {
    auto* words = named<QLineEdit>("Narrow the journal");
    words->setFocus();
    words->selectAll();
    press(Qt::Key_Delete);
    ASSERT_TRUE(narrowedTo(static_cast<int>(session_->store().journalHead().entry)));
  }
  bool narrowedTo(int rows) {
    return QTest::qWaitFor([this, rows] { return window_->journalScreen()->count() == rows; });
  }
};

TEST_F(JournalWindow, NewestStandsFirstAndLeadsToItsCalibration) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1), visitTo("PT-2", "2026-11-21T09:00:00", 0.1)});
  openWindow();
  press(Qt::Key_9, Qt::ControlModifier);
  ASSERT_EQ(window_->currentScreen(), window_->journalScreen());
  const JournalHead head = session_->store().journalHead();
  EXPECT_EQ(window_->journalScreen()->count(), head.entry);
  EXPECT_EQ(cell(0, JournalModel::kNumber), std::to_string(head.entry));
  EXPECT_EQ(cell(0, JournalModel::kAct), "recorded");
  EXPECT_EQ(cell(0, JournalModel::kAbout), "calibration 2, PT-2");
  EXPECT_EQ(cell(static_cast<int>(head.entry) - 1, JournalModel::kAct), "record made");
  EXPECT_THAT(named<QLabel>("The entry")->text().toStdString(), HasSubstr("25 Nov 2026 12:00 UTC"));
  EXPECT_GT(named<QTableView>("What the entry changed")->model()->rowCount(), 20) << "its readings too";
  keepPicture("journal");
  labelled<QPushButton>(window_->journalScreen(), "Copy head")->click();
  EXPECT_EQ(QApplication::clipboard()->text().toStdString(), headText(head));
  press(Qt::Key_Down);
  press(Qt::Key_Return);
  ASSERT_EQ(window_->currentScreen(), window_->channelScreen());
  EXPECT_EQ(window_->channelScreen()->channel(), "TT-1");
  EXPECT_EQ(window_->channelScreen()->currentCalibration(), 1);
}

TEST_F(JournalWindow, WordsNarrowItAndAChangeShowsBeforeAndAfter) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1)});
  openWindow();
  session_->store().setPersonLeft("qa", *parseDate("2026-12-31"));
  window_->showJournal();
  press(Qt::Key_F, Qt::ControlModifier);
  type("changed person");
  ASSERT_TRUE(narrowedTo(1));
  const auto* fields = named<QTableView>("What the entry changed")->model();
  ASSERT_EQ(fields->rowCount(), 1);
  EXPECT_EQ(fields->index(0, 0).data().toString(), "left_on");
  EXPECT_EQ(fields->index(0, 1).data().toString(), "");
  EXPECT_EQ(fields->index(0, 2).data().toString(), "2026-12-31");
  ASSERT_NO_FATAL_FAILURE(widen());
  type("tt-1 recorded");
  ASSERT_TRUE(narrowedTo(1));
  EXPECT_EQ(cell(0, JournalModel::kAbout), "calibration 1, TT-1");
  ASSERT_NO_FATAL_FAILURE(widen());
  type("nonsense");
  ASSERT_TRUE(narrowedTo(0));
  press(Qt::Key_Return);
  EXPECT_EQ(window_->currentScreen(), window_->journalScreen());
  ASSERT_NO_FATAL_FAILURE(widen());
}

TEST_F(JournalWindow, AHundredThousandEntriesAreLookedThroughWithoutWaiting) {
  makeRecord();
  {
    Store store = Store::open(recordFile().toStdString(), Store::Mode::readWrite, clock_);
    Store::Transaction all(store);
    for (int i = 0; i < 100000; ++i) {
      store.noteWrongPassphrase("tech");  // the cheapest act there is
    }
    all.commit();
  }
  openWindow();
  QElapsedTimer clock;
  clock.start();
  window_->showJournal();
  QCoreApplication::processEvents();
  window_->grab();
  const qint64 shown = clock.restart();
  EXPECT_GT(window_->journalScreen()->count(), 100000);
  table()->setFocus();
  qint64 worst = 0;
  for (int i = 0; i < 40; ++i) {
    QElapsedTimer one;
    one.start();
    press(i % 2 == 0 ? Qt::Key_End : Qt::Key_PageUp);
    if (i % 4 == 3) {
      press(Qt::Key_Home);
    }
    table()->viewport()->grab();
    worst = std::max(worst, one.elapsed());
  }
  clock.restart();
  named<QLineEdit>("Narrow the journal")->setFocus();
  type("record made");
  const qint64 typed = clock.elapsed();
  ASSERT_TRUE(narrowedTo(1));
  const qint64 found = clock.elapsed();
  std::cout << "journal of " << session_->store().journalHead().entry << ": shown in " << shown
            << " ms, worst jump " << worst << " ms, 11 letters typed in " << typed << " ms, found after "
            << found << " ms\n";
  // Wide bounds, for machines that watch the program or do other things: a list that is read whole takes
  // far longer.
  EXPECT_LT(shown, 2000);
  EXPECT_LT(worst, 1000);
  EXPECT_LT(typed, 2000);
}

}  // namespace
}  // namespace spanwright
