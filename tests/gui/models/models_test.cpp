// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAbstractItemModelTester>

#include "gui/models/channel_tables.h"
#include "gui/models/due_model.h"
#include "gui/models/site_tree_model.h"
#include "gui/screens/site_screen.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

constexpr auto kFatal = QAbstractItemModelTester::FailureReportingMode::Fatal;

DueItem dueItem(const std::string& channel, DueState state, const char* on) {
  DueItem item;
  item.channel = channel;
  item.place = "Hall / Cabinet A";
  item.due.state = state;
  item.due.dueOn = parseDate(on);
  item.intervalDays = 365;
  item.reason = "yearly";
  return item;
}

const std::vector<DueItem> kDue{dueItem("PT-2", DueState::overdue, "2026-10-01"),
                                dueItem("TT-1", DueState::dueSoon, "2026-12-10"),
                                dueItem("XS-3", DueState::ok, "2027-06-01")};

TEST(SiteTree, ShowsPlacesChannelsAndTheWorstStateBelow) {
  SiteTreeModel model;
  QAbstractItemModelTester tester(&model, kFatal);
  model.setSite(smallSite());
  model.setDue(kDue);
  ASSERT_EQ(model.rowCount(), 1);
  const QModelIndex hall = model.index(0, 0);
  EXPECT_EQ(hall.data().toString().toStdString(), "Hall");
  EXPECT_EQ(model.rowCount(hall), 2);
  EXPECT_EQ(hall.siblingAtColumn(SiteTreeModel::kState).data().toString().toStdString(), "1 × Overdue");
  EXPECT_EQ(hall.siblingAtColumn(SiteTreeModel::kTitle).data().toString().toStdString(), "3 channels");
  const QModelIndex tank = model.indexOfChannel("TT-1");
  ASSERT_TRUE(tank.isValid());
  EXPECT_EQ(tank.siblingAtColumn(SiteTreeModel::kState).data().toString().toStdString(), "Due soon");
  EXPECT_FALSE(tank.siblingAtColumn(SiteTreeModel::kState).data(Qt::DecorationRole).isNull());
  EXPECT_EQ(tank.siblingAtColumn(SiteTreeModel::kDueOn).data().toString().toStdString(), "10 Dec 2026");
  const QModelIndex old = model.indexOfChannel("OLD-4");
  EXPECT_EQ(old.siblingAtColumn(SiteTreeModel::kState).data().toString().toStdString(), "retired");
  EXPECT_FALSE(model.indexOfChannel("nothing").isValid());
}

TEST(SiteTree, HangsPlacesWithoutParentsFromTheRootInsteadOfLosingThem) {
  Register site = smallSite();
  site.places.erase(site.places.begin());  // "Hall" is gone, its cabinets are not
  SiteTreeModel model;
  QAbstractItemModelTester tester(&model, kFatal);
  model.setSite(site);
  EXPECT_EQ(model.rowCount(), 2);
  EXPECT_TRUE(model.indexOfChannel("TT-1").isValid());
}

std::string channelsOf(const DueModel& model) {
  std::string all;
  for (int row = 0; row < model.rowCount(); ++row) {
    all += model.index(row, DueModel::kChannel).data().toString().toStdString() + ' ';
  }
  return all;
}

TEST(DueTable, IsNarrowedByStateDaysAndWords) {
  DueModel model;
  QAbstractItemModelTester tester(&model, kFatal);
  model.setRows(kDue);
  EXPECT_EQ(model.rowCount(), 3);
  model.narrowTo({.words = {}, .state = DueState::overdue, .until = {}});
  EXPECT_EQ(channelsOf(model), "PT-2 ");
  model.narrowTo({.words = {}, .state = {}, .until = parseDate("2026-12-10")});
  EXPECT_EQ(channelsOf(model), "PT-2 TT-1 ");
  model.narrowTo({.words = "tt-1 due", .state = {}, .until = {}});
  EXPECT_EQ(channelsOf(model), "TT-1 ");
  EXPECT_EQ(model.row(0).channel, "TT-1");
  model.narrowTo({.words = "CABINET a", .state = {}, .until = {}});
  EXPECT_EQ(model.rowCount(), 3);
  model.narrowTo({});
  EXPECT_EQ(model.rowCount(), 3);
}

TEST(DueTable, LooksThroughTheTextsItIsGiven) {
  DueModel model;
  model.setDue(std::make_shared<const std::vector<DueItem>>(kDue),
               std::make_shared<const std::vector<std::string>>(std::vector<std::string>{"x", "y", "x"}));
  model.narrowTo({.words = "X", .state = {}, .until = {}});
  EXPECT_EQ(channelsOf(model), "PT-2 XS-3 ");
}

TEST(DueTable, SortsByDayAndNotByTheTextOfTheDay) {
  DueModel model;
  model.setRows({dueItem("A", DueState::ok, "2027-01-02"), dueItem("B", DueState::ok, "2026-12-10"),
                 dueItem("C", DueState::ok, "2027-01-10")});
  model.sort(DueModel::kDueOn);
  EXPECT_EQ(channelsOf(model), "B A C ");  // by text it would be B, C ("10 ..."), A or the like
  model.sort(DueModel::kDueOn, Qt::DescendingOrder);
  EXPECT_EQ(channelsOf(model), "C A B ");
  model.sort(-1);
  EXPECT_EQ(channelsOf(model), "A B C ");
}

TEST(DueTable, WhatIsChosenStaysChosenWhileItIsShown) {
  DueModel model;
  QAbstractItemModelTester tester(&model, kFatal);
  model.setRows(kDue);
  const QPersistentModelIndex chosen = model.index(1, DueModel::kChannel);
  model.sort(DueModel::kChannel, Qt::DescendingOrder);
  EXPECT_EQ(chosen.row(), 1);
  model.narrowTo({.words = "tt-1", .state = {}, .until = {}});
  ASSERT_TRUE(chosen.isValid());
  EXPECT_EQ(chosen.row(), 0);
  EXPECT_EQ(chosen.data().toString().toStdString(), "TT-1");
  model.narrowTo({.words = "xs-3", .state = {}, .until = {}});
  EXPECT_FALSE(chosen.isValid());
}

class ChannelTables : public GuiTest {};

TEST_F(ChannelTables, ShowWhatTheRecordHolds) {
  makeRecord({visitTo("TT-1", "2025-11-20T09:00:00", 0.3, 0.05)});
  Store store = Store::open(recordFile().toStdString(), Store::Mode::readOnly);
  CalibrationsModel calibrations;
  QAbstractItemModelTester tester(&calibrations, kFatal);
  calibrations.setRows(calibrationRows(store, "TT-1"));
  ASSERT_EQ(calibrations.rowCount(), 1);
  std::string all;
  for (int column = 0; column < calibrations.columnCount(); ++column) {
    all += calibrations.index(0, column).data().toString().toStdString() + '|';
  }
  EXPECT_THAT(all, ::testing::StartsWith("1|20 Nov 2025 09:00|recorded|Channel|fail|pass|adjusted|1|"));

  const Channel* channel = store.site().channel("TT-1");
  SetupsModel setups;
  QAbstractItemModelTester setupsTester(&setups, kFatal);
  setups.setRows({{channel->setups.front(), true}});
  EXPECT_EQ(setups.index(0, 0).data().toString().toStdString(), "1, in force");
  EXPECT_THAT(setups.index(0, 2).data().toString().toStdString(), ::testing::HasSubstr("°C"));

  FittingsModel fittings;
  QAbstractItemModelTester fittingsTester(&fittings, kFatal);
  const Fitting gone{"S-1", *parseMoment("2020-01-01"), std::nullopt};
  fittings.setRows({{gone, std::nullopt}});
  EXPECT_EQ(fittings.index(0, 4).data().toString().toStdString(), "now");

  RoutinesModel routines;
  QAbstractItemModelTester routinesTester(&routines, kFatal);
  routines.setRows(
      {{channel->routines.front(), "FIVE rev 1", dueItem("TT-1", DueState::overdue, "2026-10-01")}});
  EXPECT_EQ(routines.index(0, 1).data().toString().toStdString(), "Overdue");
}

TEST(Forecasts, SayWhichAreOutsideAlready) {
  ForecastModel model;
  QAbstractItemModelTester tester(&model, kFatal);
  const auto item = [](const char* channel, const char* out) {
    DriftItem drift;
    drift.channel = channel;
    drift.bandOutOn = parseDate(out);
    return drift;
  };
  model.setLeaving({item("PT-2", "2027-05-05"), item("TT-1", "2028-01-01")}, *parseDate("2027-06-01"));
  ASSERT_EQ(model.rowCount(), 2);
  EXPECT_EQ(model.row(0).channel, "PT-2");
  EXPECT_TRUE(model.row(0).already);
  EXPECT_FALSE(model.row(1).already);
}

}  // namespace
}  // namespace spanwright
