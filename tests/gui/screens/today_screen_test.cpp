// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a record opens with: for whom, in which groups, and where each line leads.
#include "gui/screens/today_screen.h"
#include "gui/screens/rounds_screen.h"

#include <QApplication>
#include <QComboBox>
#include <QTest>
#include <QTreeView>

#include "core/tasks/rounds.h"
#include "core/tasks/signing.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/fleet_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

class TodayWindow : public GuiTest {
 protected:
  QTreeView* tree() const { return named<QTreeView>("What needs doing today"); }
  /// The group's line, or that of the first line below it which begins with `line`.
  QModelIndex find(const QString& group, const QString& line = {}) const {
    const auto* model = tree()->model();
    for (int row = 0; row < model->rowCount(); ++row) {
      const QModelIndex at = model->index(row, 0);
      if (!at.data().toString().startsWith(group + u':')) {
        continue;
      }
      for (int below = 0; !line.isEmpty() && below < model->rowCount(at); ++below) {
        if (model->index(below, 0, at).data().toString().startsWith(line)) {
          return model->index(below, 0, at);
        }
      }
      return line.isEmpty() ? at : QModelIndex();
    }
    return {};
  }
  std::string text(const QString& group) const { return find(group).data().toString().toStdString(); }
  std::string cell(const QModelIndex& index, int column) const {
    return index.siblingAtColumn(column).data().toString().toStdString();
  }
  void enterOn(const QModelIndex& index) {
    ASSERT_TRUE(index.isValid());
    tree()->setCurrentIndex(index);
    tree()->setFocus();
    press(Qt::Key_Return);
  }
  void choosePerson(const QString& login) {
    auto* person = named<QComboBox>("Who works");
    person->setFocus();
    press(Qt::Key_Home);
    for (int i = 0; i < person->count() && person->currentData().toString() != login; ++i) {
      press(Qt::Key_Down);
    }
    ASSERT_EQ(person->currentData().toString(), login);
  }
  /// Performed by tech, and sent back or left waiting.
  void sign(CalibrationId id, bool back) {
    const KeyCost cheap{1, 8 << 10};
    signCalibration(session_->store(), id, LifeAct::performed, {"tech", "a kettle of fish", cheap}, "");
    if (back) {
      signCalibration(session_->store(), id, LifeAct::sentBack, {"qa", "nine blue lamps", cheap},
                      "which adapter?");
    }
  }
};

TEST_F(TodayWindow, GroupsSayHowManyAndLinesLeadToTheirPlaces) {
  makeRecord({visitTo("TT-1", "2025-11-20T09:00:00", 0.1)});
  openWindow();
  ASSERT_EQ(window_->currentScreen(), window_->todayScreen());
  EXPECT_TRUE(tree()->hasFocus());
  EXPECT_EQ(text("Drafts to finish"), "Drafts to finish: none");
  EXPECT_EQ(text("Sent back"), "Sent back: none");
  EXPECT_EQ(text("To review"), "To review: none");
  EXPECT_EQ(text("Unproven"), "Unproven: 2");
  EXPECT_EQ(text("Overdue"), "Overdue: none");
  EXPECT_EQ(text("In grace"), "In grace: 1");
  EXPECT_EQ(text("Standards running out or out of use"), "Standards running out or out of use: none");
  const QModelIndex line = find("In grace", "TT-1");
  EXPECT_EQ(cell(line, TodayModel::kWhere), "Hall / Cabinet A");
  EXPECT_EQ(cell(line, TodayModel::kWhen), "due 20 Nov 2026");
  EXPECT_THAT(cell(line, TodayModel::kNote), HasSubstr("yearly interval"));
  keepPicture("today");

  ASSERT_NO_FATAL_FAILURE(enterOn(line));
  ASSERT_EQ(window_->currentScreen(), window_->channelScreen());
  EXPECT_EQ(window_->channelScreen()->channel(), "TT-1");
  QTest::keyClick(window_.get(), Qt::Key_Left, Qt::AltModifier);
  ASSERT_EQ(window_->currentScreen(), window_->todayScreen());
  EXPECT_EQ(tree()->currentIndex().data().toString().left(4), "TT-1") << "where one was";

  ASSERT_NO_FATAL_FAILURE(enterOn(find("Unproven")));
  EXPECT_EQ(window_->currentScreen(), window_->dueScreen());
  QTest::keyClick(window_.get(), Qt::Key_0, Qt::ControlModifier);
  ASSERT_EQ(window_->currentScreen(), window_->todayScreen());

  const QModelIndex lid = find("Unproven", "XS-3");
  QTest::mouseClick(tree()->viewport(), Qt::LeftButton, {}, tree()->visualRect(lid).center());
  EXPECT_EQ(window_->channelScreen()->channel(), "XS-3");
}

TEST_F(TodayWindow, AVisitBeginsFromTheLineChosen) {
  makeRecord();
  openWindow();
  tree()->setCurrentIndex(find("Unproven", "PT-2"));
  press(Qt::Key_N, Qt::ControlModifier);
  ASSERT_EQ(window_->currentScreen(), window_->visitScreen());
  EXPECT_EQ(window_->visitScreen()->entry().draft().channel, "PT-2");
}

TEST_F(TodayWindow, ADraftIsGoneOnWithFromItsLine) {
  makeRecord();
  Store::open(recordFile().toStdString(), Store::Mode::readWrite, clock_)
      .saveDraft({0, "TT-1", Subject::channel, "tech", clock_.localNow(), 1, {}, {}, false, {}, "", {}});
  openWindow();
  EXPECT_EQ(text("Drafts to finish"), "Drafts to finish: 1");
  ASSERT_NO_FATAL_FAILURE(enterOn(find("Drafts to finish", "TT-1")));
  ASSERT_EQ(window_->currentScreen(), window_->visitScreen());
  EXPECT_EQ(window_->visitScreen()->entry().draft().channel, "TT-1");
}

TEST_F(TodayWindow, ShowsEachPersonWhatIsTheirsAndRemembersWhoItIs) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1), visitTo("PT-2", "2026-11-21T09:00:00", 0.1)});
  openWindow();
  sign(1, false);
  sign(2, true);
  window_->showToday();
  EXPECT_EQ(text("To review"), "To review: 1");
  EXPECT_EQ(text("Sent back"), "Sent back: 1");

  ASSERT_NO_FATAL_FAILURE(choosePerson("tech"));
  EXPECT_FALSE(find("To review").isValid()) << "no reviewer";
  const QModelIndex back = find("Sent back", "PT-2");
  EXPECT_EQ(cell(back, TodayModel::kNote), "Quinn Reviewer: which adapter?");

  ASSERT_NO_FATAL_FAILURE(choosePerson("qa"));
  EXPECT_FALSE(find("Sent back").isValid());
  EXPECT_FALSE(find("Unproven").isValid());
  EXPECT_EQ(text("To approve"), "To approve: none");
  const QModelIndex waiting = find("To review", "TT-1");
  EXPECT_EQ(cell(waiting, TodayModel::kNote), "by Tess Technician; as found pass, as left pass");
  keepPicture("today-reviewer");
  for (const int column : {TodayModel::kWhat, TodayModel::kWhere, TodayModel::kWhen}) {
    EXPECT_GT(tree()->visualRect(waiting.siblingAtColumn(column)).width(),
              tree()->fontMetrics().horizontalAdvance(waiting.siblingAtColumn(column).data().toString()))
        << "column " << column << " is cut short";
  }
  ASSERT_NO_FATAL_FAILURE(enterOn(waiting));
  ASSERT_EQ(window_->currentScreen(), window_->channelScreen());
  EXPECT_EQ(window_->channelScreen()->currentCalibration(), 1);

  closeWindow();
  openWindow();
  EXPECT_EQ(window_->todayScreen()->person(), "qa");
  EXPECT_FALSE(find("Unproven").isValid());
}

TEST_F(TodayWindow, ShowsRoundsToWalkAndVisitsToSign) {
  makeRecord({visitTo("PT-2", "2026-11-21T09:00:00", 0.1)});
  openWindow();
  const std::int64_t round =
      makeRound(session_->store(),
                {"Monday", "tech", std::nullopt, {{"TT-1", Subject::channel}, {"XS-3", Subject::channel}}});
  makeRound(session_->store(), {"Tuesday", "", std::nullopt, {{"TT-1", Subject::channel}}});
  ASSERT_NO_FATAL_FAILURE(choosePerson("tech"));
  EXPECT_EQ(text("Rounds to walk"), "Rounds to walk: 2");
  EXPECT_EQ(text("To sign"), "To sign: 1");
  const QModelIndex line = find("Rounds to walk", "Monday");
  EXPECT_EQ(cell(line, TodayModel::kWhen), "0 of 2 done");
  EXPECT_EQ(cell(line, TodayModel::kNote), "next TT-1; F8 goes there");
  keepPicture("today-rounds");
  ASSERT_NO_FATAL_FAILURE(enterOn(line));
  ASSERT_EQ(window_->currentScreen(), window_->roundsScreen());
  QTest::keyClick(window_.get(), Qt::Key_F8);
  EXPECT_EQ(window_->visitScreen()->entry().draft().channel, "TT-1");
  window_->visitScreen()->entry().leave();
  session_->store().closeRound(round);
  window_->showToday();
  EXPECT_EQ(text("Rounds to walk"), "Rounds to walk: 1");
  ASSERT_NO_FATAL_FAILURE(enterOn(find("To sign", "PT-2")));
  ASSERT_EQ(window_->currentScreen(), window_->channelScreen());
  EXPECT_EQ(window_->channelScreen()->currentCalibration(), 1);
}

// Twelve quarterly visits of little noise, and a jump of 0.2 after the seventh.
TEST_F(TodayWindow, TellsOfAStepNobodyRecordedAndLeadsToTheChannelAndToTheRest) {
  const double noise[] = {0.01, -0.01, 0.0, 0.01, 0.0, -0.01, 0.01, 0.0, -0.01, 0.01, 0.0, 0.0};
  std::vector<ProposedVisit> visits;
  for (int i = 0; i < 12; ++i) {
    const std::string when =
        std::to_string(2024 + i / 4) + (i % 4 == 3 ? "-10" : "-0" + std::to_string(1 + 3 * (i % 4)));
    visits.push_back(visitTo("TT-1", when + "-10T09:00:00", noise[i] + (i > 6 ? 0.2 : 0.0)));
  }
  visits.pop_back();  // the last would be in the future of the clock
  makeRecord(visits);
  openWindow();
  EXPECT_EQ(text("Steps nobody recorded"), "Steps nobody recorded: 1");
  const QModelIndex line = find("Steps nobody recorded", "TT-1");
  EXPECT_EQ(cell(line, TodayModel::kWhen), "by 10 Oct 2025");
  EXPECT_THAT(cell(line, TodayModel::kNote), HasSubstr("nobody recorded why"));
  keepPicture("today-steps");
  ASSERT_NO_FATAL_FAILURE(enterOn(line));
  EXPECT_EQ(window_->currentScreen(), window_->channelScreen());
  EXPECT_EQ(window_->channelScreen()->channel(), "TT-1");
  window_->showToday();
  ASSERT_NO_FATAL_FAILURE(enterOn(find("Steps nobody recorded")));
  ASSERT_EQ(window_->currentScreen(), window_->fleetScreen());
  EXPECT_EQ(window_->fleetScreen()->order()->currentData().toInt(), static_cast<int>(FleetOrder::findings));
}

TEST_F(TodayWindow, TellsOfAStandardThatRunsOut) {
  Register site = smallSite();
  site.standards[1].certificates[0].validUntil = *parseDate("2026-12-01");
  makeRecord({}, site);
  openWindow();
  EXPECT_EQ(text("Standards running out or out of use"), "Standards running out or out of use: 1");
  const QModelIndex line = find("Standards running out or out of use", "STD-2");
  EXPECT_EQ(cell(line, TodayModel::kWhen), "6 days left");
  EXPECT_EQ(cell(line, TodayModel::kNote), "runs out soon");
}

}  // namespace
}  // namespace spanwright
