// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/sheet_model.h"

#include <QAbstractItemModelTester>

#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

class SheetModels : public GuiTest {};

TEST_F(SheetModels, KeepToTheRulesOfModelsWhileBeingFilledAndReset) {
  makeRecord();
  Store store = Store::open(recordFile().toStdString(), Store::Mode::readWrite, clock_);
  VisitEntry entry(store, clock_);
  SheetModel model(entry);
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  EXPECT_EQ(model.rowCount(), 0);
  ASSERT_EQ(entry.open("TT-1", Subject::channel, clock_.localNow()).toStdString(), "");
  EXPECT_EQ(model.rowCount(), 10);
  const QModelIndex first = model.index(0, SheetModel::kFound);
  EXPECT_FALSE(model.setData(first, "1", Qt::EditRole)) << "before the cautions are confirmed";
  entry.setCautionsConfirmed(true);
  EXPECT_TRUE(model.setData(first, "1", Qt::EditRole));
  EXPECT_FALSE(model.setData(first.siblingAtColumn(SheetModel::kExpected), "1", Qt::EditRole));
  ASSERT_EQ(entry.open("XS-3", Subject::channel, clock_.localNow()).toStdString(), "");
  EXPECT_EQ(model.rowCount(), 2);
  entry.leave();
  EXPECT_EQ(model.rowCount(), 0);
}

TEST_F(SheetModels, PrefillTheNominalValueAndRememberOnlyAnother) {
  makeRecord();
  Store store = Store::open(recordFile().toStdString(), Store::Mode::readWrite, clock_);
  VisitEntry entry(store, clock_);
  SheetModel model(entry);
  ASSERT_EQ(entry.open("TT-1", Subject::channel, clock_.localNow()).toStdString(), "");
  entry.setCautionsConfirmed(true);
  const QModelIndex applied = model.index(1, SheetModel::kApplied);
  EXPECT_EQ(applied.data().toString().toStdString(), "8.000");
  model.setData(applied, "8.000", Qt::EditRole);
  EXPECT_EQ(entry.typedApplied(Phase::asFound, 1).toStdString(), "");
  model.setData(applied, "8.003", Qt::EditRole);
  EXPECT_EQ(entry.typedApplied(Phase::asFound, 1).toStdString(), "8.003");
}

TEST_F(SheetModels, RefuseASheetThereIsNotInOneSentence) {
  makeRecord();
  Store store = Store::open(recordFile().toStdString(), Store::Mode::readWrite, clock_);
  VisitEntry entry(store, clock_);
  EXPECT_NE(entry.open("NO-SUCH", Subject::channel, clock_.localNow()).toStdString(), "");
  EXPECT_NE(entry.open("TT-1", Subject::loop, clock_.localNow()).toStdString(), "");
  EXPECT_FALSE(entry.isOpen());
}

TEST_F(SheetModels, ADraftIsMadeWithTheFirstValueAndNotBefore) {
  makeRecord();
  Store store = Store::open(recordFile().toStdString(), Store::Mode::readWrite, clock_);
  VisitEntry entry(store, clock_);
  ASSERT_EQ(entry.open("TT-1", Subject::channel, clock_.localNow()).toStdString(), "");
  entry.setCautionsConfirmed(true);
  entry.setPerson("tech");
  EXPECT_TRUE(store.drafts().empty());
  entry.setTyped(Phase::asFound, 0, "0.02");
  ASSERT_EQ(store.drafts().size(), 1U);
  EXPECT_EQ(store.drafts().front().person, "tech");
  EXPECT_TRUE(store.drafts().front().cautionsConfirmed);
  entry.discard();
  EXPECT_TRUE(store.drafts().empty());
}

}  // namespace
}  // namespace spanwright
