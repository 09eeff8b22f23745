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

TEST(SiteTree, IsNarrowedByEveryWord) {
  SiteTreeModel model;
  SiteTreeFilter filter;
  QAbstractItemModelTester tester(&filter, kFatal);
  filter.setSourceModel(&model);
  model.setSite(smallSite());
  model.setDue(kDue);
  filter.setWords("cabinet  temperature tank");
  ASSERT_EQ(filter.rowCount(), 1);
  const QModelIndex cabinet = filter.index(0, 0, filter.index(0, 0));
  ASSERT_EQ(filter.rowCount(cabinet), 1);
  EXPECT_EQ(filter.index(0, 0, cabinet).data().toString().toStdString(), "TT-1");
  filter.setWords("nothing like that");
  EXPECT_EQ(filter.rowCount(), 0);
}

TEST(DueTable, IsNarrowedByStateDaysAndWords) {
  DueModel model;
  DueFilter filter(&model);
  QAbstractItemModelTester tester(&model, kFatal);
  QAbstractItemModelTester filterTester(&filter, kFatal);
  model.setRows(kDue);
  EXPECT_EQ(filter.rowCount(), 3);
  filter.setState(DueState::overdue);
  ASSERT_EQ(filter.rowCount(), 1);
  EXPECT_EQ(filter.item(filter.index(0, 0)).channel, "PT-2");
  filter.setState(std::nullopt);
  filter.setUntil(parseDate("2026-12-10"));
  EXPECT_EQ(filter.rowCount(), 2);
  filter.setWords("tt-1 due");
  ASSERT_EQ(filter.rowCount(), 1);
  EXPECT_EQ(filter.item(filter.index(0, 0)).channel, "TT-1");
}

TEST(DueTable, SortsByDayAndNotByTheTextOfTheDay) {
  DueModel model;
  DueFilter filter(&model);
  model.setRows({dueItem("A", DueState::ok, "2027-01-02"), dueItem("B", DueState::ok, "2026-12-10"),
                 dueItem("C", DueState::ok, "2027-01-10")});
  filter.sort(DueModel::kDueOn);
  std::string order;
  for (int row = 0; row < filter.rowCount(); ++row) {
    order += filter.index(row, DueModel::kChannel).data().toString().toStdString();
  }
  EXPECT_EQ(order, "BAC");  // by text it would be B, C ("10 ..."), A or the like
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

TEST(Forecasts, ListOncePerSubjectThePointThatLeavesFirst) {
  ForecastModel model;
  QAbstractItemModelTester tester(&model, kFatal);
  const auto item = [](const char* channel, const char* point, const char* out) {
    DriftItem drift;
    drift.channel = channel;
    drift.point = point;
    drift.bandOutOn = parseDate(out);
    return drift;
  };
  model.setDrift({item("TT-1", "0", "2029-01-01"), item("TT-1", "50", "2028-01-01"),
                  item("PT-2", "0", "2027-05-05"), item("XS-3", "on", "")},
                 *parseDate("2027-06-01"));
  ASSERT_EQ(model.rowCount(), 2);
  EXPECT_EQ(model.row(0).channel, "PT-2");
  EXPECT_TRUE(model.row(0).already);
  EXPECT_FALSE(model.row(1).already);
  EXPECT_EQ(model.row(1).point, "50");
}

}  // namespace
}  // namespace spanwright
