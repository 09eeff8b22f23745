// SPDX-License-Identifier: GPL-3.0-or-later
//
// A round in the window: put together from due items, walked stop by stop, closed.
#include "gui/screens/rounds_screen.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>

#include "gui/models/rounds_model.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/round_dialog.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "tests/gui/screens/places_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

class RoundsWindow : public DialogTest {
 protected:
  std::string stop(int row, int column) const {
    return named<QTableView>("Stops of the round")
        ->model()
        ->index(row, column)
        .data()
        .toString()
        .toStdString();
  }
  std::string round(int column) const {
    return named<QTableView>("Rounds")->model()->index(0, column).data().toString().toStdString();
  }
  std::string visited() const { return window_->visitScreen()->entry().draft().channel; }
  void make(const std::vector<RoundStop>& stops) {
    makeRound(session_->store(), {"Monday", "tech", std::nullopt, stops});
    window_->showRounds();
  }
};

TEST_F(RoundsWindow, IsPutTogetherFromDueItemsWithKeys) {
  makeRecord();
  openWindow();
  press(Qt::Key_8, Qt::ControlModifier);
  ASSERT_EQ(window_->currentScreen(), window_->roundsScreen());
  labelled<QPushButton>(window_->roundsScreen(), "New round…")->click();
  auto* form = dialog<RoundDialog>();
  ASSERT_NE(form, nullptr);
  ASSERT_TRUE(makeActive(form));
  labelled<QPushButton>(form, "Make the round")->click();
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("The round has no channels"));
  // The last of the three first: the round stands in walking order all the same.
  part<QTableView>(form, "Due items")->setFocus();
  press(Qt::Key_Down);
  press(Qt::Key_Down);
  press(Qt::Key_Space);
  press(Qt::Key_Up);
  press(Qt::Key_Space);
  press(Qt::Key_Space);
  press(Qt::Key_Up);
  press(Qt::Key_Space);
  auto* name = part<QLineEdit>(form, "Name");
  name->setFocus();
  name->selectAll();
  type("Monday");
  auto* who = part<QComboBox>(form, "Who walks it");
  who->setCurrentIndex(who->findData("tech"));
  keepLooks(form, "round-new");
  labelled<QPushButton>(form, "Make the round")->click();
  ASSERT_TRUE(gone<RoundDialog>());
  EXPECT_EQ(window_->bar()->sentence().toStdString(), "The round \"Monday\" has 2 stops.");
  EXPECT_EQ(round(RoundsModel::kName), "Monday");
  EXPECT_EQ(round(RoundsModel::kDone), "0 of 2");
  EXPECT_EQ(round(RoundsModel::kPerson), "Tess Technician");
  EXPECT_EQ(stop(1, RoundsModel::kState), "XS-3") << "cabinet B after cabinet A";
  EXPECT_EQ(stop(0, StopsModel::kState), "to do");
}

TEST_F(RoundsWindow, OneKeyGoesFromChannelToChannelAndDoneIsMarked) {
  makeRecord();
  openWindow();
  press(Qt::Key_F8);
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("No round is open"));
  make({{"XS-3", Subject::channel}, {"PT-2", Subject::channel}, {"TT-1", Subject::channel}});
  ASSERT_NO_FATAL_FAILURE(named<QTableView>("Stops of the round")->setFocus());
  press(Qt::Key_Return);
  ASSERT_EQ(window_->currentScreen(), window_->visitScreen());
  EXPECT_EQ(visited(), "TT-1");
  window_->visitScreen()->entry().leave();
  enterVisit(session_->store(), visitTo("TT-1", "2026-11-25T10:00:00", 0.1), clock_.localNow());
  window_->showChannel("TT-1");
  QTest::keyClick(window_.get(), Qt::Key_F8);
  EXPECT_EQ(visited(), "PT-2");
  QTest::keyClick(window_.get(), Qt::Key_F8);
  EXPECT_EQ(visited(), "XS-3") << "PT-2 passed over";
  QTest::keyClick(window_.get(), Qt::Key_F8);
  EXPECT_EQ(visited(), "PT-2") << "what was passed over comes again";
  QTest::keyClick(window_.get(), Qt::Key_8, Qt::ControlModifier);
  ASSERT_EQ(window_->currentScreen(), window_->roundsScreen());
  EXPECT_EQ(round(RoundsModel::kDone), "1 of 3");
  EXPECT_EQ(stop(0, StopsModel::kState), "done");
  EXPECT_EQ(stop(0, StopsModel::kCalibration), "1");
  keepPicture("rounds");
  auto* stops = named<QTableView>("Stops of the round");
  stops->setCurrentIndex(stops->model()->index(0, 0));
  stops->setFocus();
  press(Qt::Key_Return);
  EXPECT_EQ(window_->currentScreen(), window_->channelScreen()) << "what is done is looked at";
  EXPECT_EQ(window_->channelScreen()->currentCalibration(), 1);
}

TEST_F(RoundsWindow, IsClosedAfterAQuestionWhenSomethingIsLeft) {
  makeRecord();
  openWindow();
  make({{"TT-1", Subject::channel}});
  auto* close = labelled<QPushButton>(window_->roundsScreen(), "Close round");
  answer_ = false;
  close->click();
  ASSERT_EQ(asked_.size(), 1);
  EXPECT_THAT(asked_[0].toStdString(), HasSubstr("1 stop of \"Monday\" is not done"));
  EXPECT_EQ(round(RoundsModel::kState), "open");
  answer_ = true;
  close->click();
  EXPECT_EQ(round(RoundsModel::kState), "closed");
  EXPECT_FALSE(close->isEnabled());
  EXPECT_TRUE(session_->store().rounds().front().closedUtc.has_value());
  press(Qt::Key_F8);
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("No round is open"));
}

}  // namespace
}  // namespace spanwright
