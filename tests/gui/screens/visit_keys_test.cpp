// SPDX-License-Identifier: GPL-3.0-or-later
//
// What helps while typing: questions about odd values, taking back, repeating, pasting, and the wait for a
// reading to settle.
#include <gmock/gmock.h>

#include <QApplication>
#include <QClipboard>
#include <QLabel>
#include <QSpinBox>
#include <QTest>

#include "gui/screens/settle_timer.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "tests/gui/screens/visit_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

class TypingAids : public VisitTyping {
 protected:
  std::string said() const { return screen().sentence().toStdString(); }
  QModelIndex at() const { return screen().sheetView()->currentIndex(); }
  void goTo(int row, int column = SheetModel::kFound) {
    screen().sheetView()->goTo(screen().sheetModel()->index(row, column));
  }
  /// What is on disk of as-found values, by sequence.
  std::vector<std::string> onDisk() const {
    Store store = Store::open(recordFile().toStdString(), Store::Mode::readOnly);
    std::vector<std::string> texts(10);
    const Draft draft = store.drafts().at(0);
    for (const DraftValue& value : draft.values) {
      if (value.phase == Phase::asFound) {
        texts.at(static_cast<std::size_t>(value.sequence - 1)) =
            value.skipReason.empty() ? value.indicatedText : "skip: " + value.skipReason;
      }
    }
    return texts;
  }
  static void copy(const QString& text) { QApplication::clipboard()->setText(text); }
};

// With a quiet history everything unusual would be asked about; what is usual is not.
TEST_F(TypingAids, ANormalVisitTakesDigitsAndOneEnterEach) {
  makeRecord({visitTo("TT-1", "2023-11-20T09:00:00", 0.02), visitTo("TT-1", "2024-11-20T09:00:00", 0.05),
              visitTo("TT-1", "2025-11-20T09:00:00", 0.03)});
  begin();
  const QStringList values{"0.04",   "25.06", "50.05", "75.02", "100.11",
                           "100.02", "75.12", "50.01", "24.90", "0.06"};
  const int before = keys();
  typeValues(values);
  EXPECT_EQ(keys() - before, values.join(QString()).size() + values.size());
  EXPECT_EQ(at(), screen().sheetModel()->index(0, SheetModel::kLeft)) << "past the last as-found value";
}

TEST_F(TypingAids, SwappedDigitsAreAskedAboutOnceAndKeptByEnter) {
  makeRecord();
  begin();
  typeValues({"0.01", "52.00"});
  EXPECT_EQ(at().row(), 1) << "it stays where the question is";
  EXPECT_EQ(said(), "25 % up, as found: 52.00 for 25.00? Enter keeps it.");
  EXPECT_EQ(onDisk()[1], "52.00") << "asked about, not held back";
  EXPECT_THAT(at().data(Qt::AccessibleTextRole).toString().toStdString(), HasSubstr("52.00 for 25.00?"));
  keepPicture("visit-question");
  const int before = keys();
  press(Qt::Key_Return);
  EXPECT_EQ(at().row(), 2);
  EXPECT_EQ(keys() - before, 1);
  goTo(1);
  typeValues({"52.00"});
  EXPECT_EQ(at().row(), 2) << "the same value is not asked about again";
  goTo(1);
  typeValues({"25.01"});
  EXPECT_EQ(at().row(), 2);
  EXPECT_THAT(said(), testing::Not(HasSubstr("?")));
}

TEST_F(TypingAids, AnotherPlaceAnotherUnitAndFarOffAreAskedAbout) {
  makeRecord();
  begin();
  typeValues({"25.02"});
  EXPECT_EQ(said(), "0 % up, as found: Is 25.02 the reading of 25 % up? Enter keeps it.");
  goTo(1);
  typeValues({"2.501"});
  EXPECT_EQ(said(), "25 % up, as found: 2.501 for 25.01? Enter keeps it.");
  goTo(2);
  typeValues({"61.2"});
  EXPECT_EQ(
      said(),
      "50 % up, as found: Is 61.2 right? It is off by +11.200, where 0.250 is allowed. Enter keeps it.");
  goTo(3);
  type("57.00");
  press(Qt::Key_Down);
  EXPECT_EQ(at().row(), 4) << "whoever goes on with the arrows is not kept";
}

TEST_F(TypingAids, WhatWasKeptIsToldToWhoeverSigns) {
  makeRecord();
  begin();
  typeValues({"0.01", "52.00"});
  const auto& reading = std::get<Reading>(screen().entry().outcome(Phase::asFound, 1));
  EXPECT_EQ(reading.verdict, Verdict::fail);
  EXPECT_FALSE(screen().entry().askOnce(Phase::asFound, 1));
  EXPECT_TRUE(screen().entry().asked(Phase::asFound, 1));
  EXPECT_FALSE(screen().entry().asked(Phase::asFound, 0));
}

TEST_F(TypingAids, StepsAreTakenBackAndDoneAgainOnDisk) {
  makeRecord();
  begin();
  typeValues({"0.31", "25.30"});
  goTo(0);
  typeValues({"0.35"});
  press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(shown(0, SheetModel::kFound).toStdString(), "0.31");
  EXPECT_EQ(at(), screen().sheetModel()->index(0, SheetModel::kFound)) << "the cursor shows where";
  EXPECT_EQ(said(), "Taken back: 0 % up is now 0.31. Ctrl+Shift+Z does it again.");
  EXPECT_EQ(onDisk()[0], "0.31");
  EXPECT_EQ(shown(0, SheetModel::kFoundError).toStdString(), "+0.310") << "judged again";
  press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(onDisk()[1], "");
  press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(onDisk()[0], "0.35");
  EXPECT_EQ(onDisk()[1], "25.30");
  press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(said(), "There is nothing to do again.");
}

TEST_F(TypingAids, AnEmptiedCellAndASkipCanBeTakenBack) {
  makeRecord();
  begin();
  typeValues({"0.01"});
  press(Qt::Key_K, Qt::ControlModifier);
  type("no access");
  press(Qt::Key_Return);
  EXPECT_EQ(onDisk()[1], "skip: no access");
  goTo(0);
  press(Qt::Key_Delete);
  EXPECT_EQ(onDisk()[0], "");
  press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(onDisk()[0], "0.01");
  press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(onDisk()[1], "");
  press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(onDisk()[1], "skip: no access");
}

TEST_F(TypingAids, TheValueAboveIsRepeatedAndWithItAReasonForSkipping) {
  makeRecord();
  begin();
  press(Qt::Key_D, Qt::ControlModifier);
  EXPECT_EQ(said(), "There is no value in the line above to repeat.");
  typeValues({"skip: no access"});
  press(Qt::Key_D, Qt::ControlModifier);
  press(Qt::Key_D, Qt::ControlModifier);
  EXPECT_EQ(onDisk()[2], "skip: no access");
  EXPECT_EQ(at().row(), 3);
  press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(onDisk()[2], "");
}

TEST_F(TypingAids, AColumnIsPastedAndTakenBackAsAWhole) {
  makeRecord();
  begin();
  typeValues({"0.01"});
  copy("25.01\n\n75.02\r\n");
  press(Qt::Key_V, Qt::ControlModifier);
  EXPECT_EQ(said(), "The column is pasted; Ctrl+Z takes it back as a whole.");
  EXPECT_EQ(onDisk(), (std::vector<std::string>{"0.01", "25.01", "", "75.02", "", "", "", "", "", ""}));
  press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(onDisk()[1] + onDisk()[3], "");
  EXPECT_EQ(onDisk()[0], "0.01");
  press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(onDisk()[3], "75.02");
}

TEST_F(TypingAids, WhatDoesNotFitIsNotPastedInPart) {
  makeRecord();
  begin();
  typeValues({"0.01"});
  goTo(8);
  copy("1\n2\n3");
  press(Qt::Key_V, Qt::ControlModifier);
  EXPECT_THAT(said(), StartsWith("3 values do not fit into the 2 lines from here down"));
  copy("1\t2");
  press(Qt::Key_V, Qt::ControlModifier);
  EXPECT_THAT(said(), StartsWith("Several columns cannot be pasted at once"));
  copy("");
  press(Qt::Key_V, Qt::ControlModifier);
  EXPECT_THAT(said(), StartsWith("There is nothing to paste"));
  goTo(0, SheetModel::kFoundError);
  copy("1");
  press(Qt::Key_V, Qt::ControlModifier);
  EXPECT_EQ(onDisk(), (std::vector<std::string>{"0.01", "", "", "", "", "", "", "", "", ""}));
}

TEST_F(TypingAids, TheWaitBelongsToAPointAndDisturbsNothing) {
  makeRecord();
  begin();
  SettleTimer& timer = *screen().settleTimer();
  EXPECT_EQ(timer.seconds(), 3) << "five times the filter's 0.5 s, in whole seconds";
  EXPECT_EQ(timer.state(), "Settle: F9");
  press(Qt::Key_F9);
  EXPECT_TRUE(timer.isRunning());
  EXPECT_EQ(timer.state(), "0 % up: 3 s");
  EXPECT_TRUE(screen().sheetView()->hasFocus());
  keepPicture("visit-settling");
  typeValues({"0.01"});
  EXPECT_THAT(timer.state().toStdString(), StartsWith("0 % up: ")) << "typing goes on beside it";
  press(Qt::Key_F9);
  EXPECT_EQ(timer.state(), "25 % up: 3 s") << "another point begins anew";
  press(Qt::Key_F9);
  EXPECT_FALSE(timer.isRunning());
  EXPECT_EQ(timer.state(), "Settle: F9");
}

TEST_F(TypingAids, TheWaitEndsInWords) {
  makeRecord();
  begin();
  SettleTimer& timer = *screen().settleTimer();
  timer.start("25 % up", std::chrono::milliseconds(40));
  EXPECT_EQ(timer.state(), "25 % up: 1 s");
  ASSERT_TRUE(QTest::qWaitFor([&] { return !timer.isRunning(); }));
  EXPECT_EQ(timer.state(), "25 % up: settled");
  EXPECT_EQ(named<QLabel>("Settling")->accessibleDescription(), "25 % up: settled");
  keepPicture("visit-settled");
  EXPECT_EQ(kSettleSeconds.get(), 10) << "a setup's own seconds are not kept as the choice";
}

TEST_F(TypingAids, WithoutAFilterTheChosenSecondsAreKept) {
  Register site = smallSite();
  site.channels.front().setups.front().setup.filterSeconds = 0.0;
  site.index();
  makeRecord({}, site);
  begin();
  EXPECT_EQ(screen().settleTimer()->seconds(), 10);
  named<QSpinBox>("Seconds to settle")->setValue(25);
  screen().entry().leave();
  window_->showVisit("TT-1", Subject::channel);
  EXPECT_EQ(screen().settleTimer()->seconds(), 25);
}

}  // namespace
}  // namespace spanwright
