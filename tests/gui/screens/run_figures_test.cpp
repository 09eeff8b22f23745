// SPDX-License-Identifier: GPL-3.0-or-later
//
// The run figures on the channel's page.
#include <QLabel>
#include <QTableView>

#include "gui/screens/channel_screen.h"
#include "gui/screens/main_window.h"
#include "gui/session/session.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

class ChannelFigures : public GuiTest {};

TEST_F(ChannelFigures, FollowTheChosenCalibration) {
  makeRecord(
      {visitTo("TT-1", "2024-11-20T09:00:00", 0.2), visitTo("TT-1", "2025-11-20T09:00:00", 0.3, 0.05)});
  openWindow();
  window_->showChannel("TT-1");
  const QLabel* figures = window_->channelScreen()->runFigures();
  // Of a span of 100 degC every error counts as many percent.
  EXPECT_TRUE(figures->text().startsWith("As found, % of span: zero error +0.300, span error 0.000"))
      << figures->text().toStdString();
  EXPECT_TRUE(figures->text().contains("As left, % of span: zero error +0.050"))
      << figures->text().toStdString();
  keepPicture("channel-figures");
  auto* table = named<QTableView>("Calibrations");
  ASSERT_NE(table, nullptr);
  table->setCurrentIndex(table->model()->index(1, 0));
  EXPECT_TRUE(figures->text().startsWith("As found, % of span: zero error +0.200"))
      << figures->text().toStdString();
  EXPECT_FALSE(figures->text().contains("As left")) << figures->text().toStdString();
}

TEST_F(ChannelFigures, AreEmptyWithoutACalibration) {
  makeRecord();
  openWindow();
  window_->showChannel("TT-1");
  EXPECT_EQ(window_->channelScreen()->runFigures()->text().toStdString(), "");
}

}  // namespace
}  // namespace spanwright
