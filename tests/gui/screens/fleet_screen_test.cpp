// SPDX-License-Identifier: GPL-3.0-or-later
//
// The channels by drift: orders, words, and the way to the point that stands for a channel.
#include "gui/screens/fleet_screen.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QTest>

#include "gui/models/fleet_model.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

class FleetWindow : public GuiTest {
 protected:
  /// TT-1 drifts by 0.05 degC a year, PT-2 hardly does but stands near its limit of 0.25 degC.
  void openFleet() {
    makeRecord({visitTo("TT-1", "2022-11-20T09:00:00", 0.00), visitTo("TT-1", "2023-11-20T09:00:00", 0.05),
                visitTo("TT-1", "2024-11-20T09:00:00", 0.10), visitTo("TT-1", "2025-11-20T09:00:00", 0.16),
                visitTo("PT-2", "2022-11-21T09:00:00", 0.22), visitTo("PT-2", "2023-11-21T09:00:00", 0.22),
                visitTo("PT-2", "2024-11-21T09:00:00", 0.21), visitTo("PT-2", "2025-11-21T09:00:00", 0.22)});
    openWindow();
    ASSERT_TRUE(makeActive(window_.get()));
    QTest::keyClick(window_.get(), Qt::Key_4, Qt::ControlModifier);
    ASSERT_EQ(window_->currentScreen(), window_->fleetScreen());
    ASSERT_TRUE(QTest::qWaitFor([this] { return rows() == 2; }));
  }
  FleetScreen* screen() const { return window_->fleetScreen(); }
  int rows() const { return screen()->table()->model()->rowCount(); }
  std::string cell(int row, int column) const {
    return screen()->table()->model()->index(row, column).data().toString().toStdString();
  }
  void order(FleetOrder wanted) {
    auto* box = screen()->order();
    box->setFocus();
    press(Qt::Key_Home);
    for (int i = 0; i < box->count() && box->currentData().toInt() != static_cast<int>(wanted); ++i) {
      press(Qt::Key_Down);
    }
    ASSERT_EQ(box->currentData().toInt(), static_cast<int>(wanted));
  }
};

TEST_F(FleetWindow, RanksByForecastAndByToleranceUsed) {
  openFleet();
  order(FleetOrder::toleranceUsed);
  EXPECT_EQ(cell(0, FleetModel::kChannel), "PT-2");
  EXPECT_EQ(cell(1, FleetModel::kChannel), "TT-1");
  // About 0.22 of 0.25 degC; the line goes through all four visits.
  const double used = screen()->table()->model()->index(0, FleetModel::kUsed).data(kSortRole).toDouble();
  EXPECT_NEAR(used, 0.87, 0.02);
  EXPECT_EQ(cell(0, FleetModel::kUsed), QStringLiteral("%1 %").arg(qRound(100.0 * used)).toStdString());
  const auto& ranked = *session_->fleet(FleetOrder::forecast).rows;
  order(FleetOrder::forecast);
  ASSERT_EQ(ranked.size(), 2U);
  EXPECT_EQ(cell(0, FleetModel::kChannel), ranked[0].channel);
  EXPECT_EQ(cell(1, FleetModel::kChannel), ranked[1].channel);
  keepPicture("fleet");
}

TEST_F(FleetWindow, EnterLeadsToThePointThatStandsForTheChannel) {
  openFleet();
  order(FleetOrder::toleranceUsed);
  const std::string point = cell(0, FleetModel::kPoint);
  screen()->table()->setFocus();
  press(Qt::Key_Return);
  ASSERT_EQ(window_->currentScreen(), window_->channelScreen());
  EXPECT_EQ(window_->channelScreen()->channel().toStdString(), "PT-2");
  ASSERT_TRUE(QTest::qWaitFor([this] { return !window_->channelScreen()->shownPoint().isEmpty(); }));
  EXPECT_TRUE(window_->channelScreen()->shownPoint().endsWith(QString::fromStdString(point)));
}

TEST_F(FleetWindow, WordsNarrowTheListAndTheFindingsFollowTheChoice) {
  openFleet();
  EXPECT_FALSE(screen()->findings()->text().isEmpty());
  screen()->findChannel();
  type("tt-1");
  ASSERT_EQ(rows(), 1);
  EXPECT_EQ(cell(0, FleetModel::kChannel), "TT-1");
  type("nowhere");
  EXPECT_EQ(rows(), 0);
}

TEST_F(FleetWindow, WithoutHistoryItIsEmptyAndSaysSo) {
  makeRecord();
  openWindow();
  window_->showDrift();
  ASSERT_TRUE(QTest::qWaitFor([this] { return session_->driftKnown(); }));
  EXPECT_EQ(rows(), 0);
  EXPECT_TRUE(screen()->findings()->text().isEmpty());
}

}  // namespace
}  // namespace spanwright
