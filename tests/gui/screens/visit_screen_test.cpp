// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/screens/visit_screen.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScatterSeries>
#include <QTest>
#include <cmath>

#include "gui/charts/plot_view.h"
#include "gui/models/sheet_model.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/sheet_view.h"
#include "gui/session/session.h"
#include "tests/gui/screens/visit_fixture.h"

namespace spanwright {
namespace {

TEST_F(VisitTyping, WholeVisitByDigitsAndOneEnterPerValueAndReadBack) {
  makeRecord();
  begin();
  const int before = keys();
  typeValues(kFound);
  typeValues(kLeft);
  int digits = 0;
  for (const QString& value : kFound + kLeft) {
    digits += static_cast<int>(value.size());
  }
  EXPECT_EQ(keys() - before, digits + kFound.size() + kLeft.size());
  EXPECT_TRUE(screen().sentence().contains("Ctrl+Enter")) << screen().sentence().toStdString();
  sayAdjusted();
  keepPicture("visit-typed");
  press(Qt::Key_Return, Qt::ControlModifier);

  EXPECT_EQ(window_->currentScreen(), window_->channelScreen()) << screen().sentence().toStdString();
  EXPECT_TRUE(window_->bar()->sentence().contains("TT-1"));
  Store store = Store::open(recordFile().toStdString(), Store::Mode::readOnly);
  const auto history = store.history("TT-1");
  ASSERT_EQ(history.size(), 1U);
  const Calibration& stored = history.front();
  EXPECT_EQ(stored.person, "tech");
  ASSERT_EQ(stored.standards.size(), 1U);
  EXPECT_EQ(stored.standards.front().serial, "STD-1");
  EXPECT_TRUE(stored.cautionsConfirmed);
  EXPECT_TRUE(stored.adjustment.adjusted);
  EXPECT_EQ(stored.adjustment.text, "zero");
  ASSERT_EQ(stored.asFound.size(), 10U);
  ASSERT_EQ(stored.asLeft.size(), 10U);
  for (std::size_t i = 0; i < 10; ++i) {
    EXPECT_EQ(stored.asFound[i].indicatedText, kFound[static_cast<int>(i)].toStdString()) << i;
    EXPECT_DOUBLE_EQ(stored.asFound[i].indicated, kFound[static_cast<int>(i)].toDouble()) << i;
    EXPECT_EQ(stored.asLeft[i].indicatedText, kLeft[static_cast<int>(i)].toStdString()) << i;
    EXPECT_DOUBLE_EQ(stored.asLeft[i].indicated, kLeft[static_cast<int>(i)].toDouble()) << i;
  }
  // Off by 0.3 of a span of 100 against 0.25 %, then inside.
  EXPECT_EQ(stored.foundVerdict, Verdict::fail);
  EXPECT_EQ(stored.leftVerdict, Verdict::pass);
  EXPECT_TRUE(store.drafts().empty());
}

// The certificate ends at 16 mA; a guarded rule cannot judge what is read at 20 mA.
TEST_F(VisitTyping, WhatIsNotJudgedSaysWhy) {
  Register site = smallSite();
  site.plans.front().decisionRule = {.basis = GuardBasis::factor, .factor = 1.0};
  auto& points = site.standards.front().certificates.front().ranges.front().points;
  points.back().nominal = 16.0;
  site.index();
  makeRecord({}, site);
  begin();
  typeValues({"0.01", "25.00", "50.00", "75.00"});
  EXPECT_FALSE(screen().sentence().contains("not judged")) << screen().sentence().toStdString();
  typeValues({"100.02"});
  const QString why =
      "100 % up, as found, is not judged: the plan's decision rule needs an uncertainty, and no ticked "
      "standard's "
      "certificate reaches 20.000 mA.";
  EXPECT_EQ(screen().sentence().toStdString(), why.toStdString());
  EXPECT_EQ(shown(4, SheetModel::kFoundVerdict), "not judged");
  const QModelIndex verdict = screen().sheetModel()->index(4, SheetModel::kFoundVerdict);
  EXPECT_EQ(verdict.data(Qt::ToolTipRole).toString(), why);
  EXPECT_TRUE(verdict.data(Qt::AccessibleTextRole).toString().endsWith(why));
  EXPECT_EQ(screen().sheetModel()->index(3, SheetModel::kFoundVerdict).data(Qt::ToolTipRole).toString(), "");
  keepPicture("visit-not-judged");
  typeValues({"100.02", "75.00", "50.00", "25.00", "0.00"});
  EXPECT_TRUE(screen().sentence().startsWith("Adjusting is not worth it"))
      << screen().sentence().toStdString();
  EXPECT_TRUE(screen().sentence().endsWith(why)) << screen().sentence().toStdString();
}

TEST_F(VisitTyping, AfterTheLastAsFoundValueTheAdviceStandsBelowTheGrid) {
  makeRecord();
  begin();
  typeValues(kFound.mid(0, 9));
  EXPECT_FALSE(screen().sentence().contains("Shift")) << screen().sentence().toStdString();
  EXPECT_TRUE(screen().figures().contains("zero error")) << screen().figures().toStdString();
  typeValues(kFound.mid(9));
  // Every point is some 0.3 off in a tolerance of 0.25. At both ends the up and down readings are one step of
  // 0.01 apart, so that one of them keeps an error of 0.01 at least: 4 %.
  EXPECT_TRUE(screen().sentence().startsWith("Shift zero by -0.29")) << screen().sentence().toStdString();
  EXPECT_TRUE(screen().sentence().endsWith("the worst point would use 4 % of tolerance, now 128 %."))
      << screen().sentence().toStdString();
  EXPECT_TRUE(screen().figures().contains("hysteresis 0.010")) << screen().figures().toStdString();
  const auto predicted = [this]() -> const QScatterSeries* {
    for (const auto* series : screen().plot()->chart()->series()) {
      if (series->objectName() == "predicted") {
        return qobject_cast<const QScatterSeries*>(series);
      }
    }
    return nullptr;
  };
  ASSERT_TRUE(QTest::qWaitFor([&] { return predicted() != nullptr; }));
  ASSERT_EQ(predicted()->count(), 10);
  for (const QPointF& mark : predicted()->points()) {
    EXPECT_LE(std::abs(mark.y()), 0.01 + 1e-9) << mark.x();
  }
  EXPECT_EQ(predicted()->brush().style(), Qt::NoBrush);
  keepPicture("visit-advice");
}

TEST_F(VisitTyping, TheAdviceFollowsTheValues) {
  makeRecord();
  begin();
  typeValues({"0.05", "25.05", "50.05", "75.05", "100.05", "100.05", "75.05", "50.05", "25.05", "0.05"});
  EXPECT_TRUE(
      screen().sentence().startsWith("Adjusting is not worth it: the worst point uses 20 % of "
                                     "tolerance, the limit for adjusting is 70 %"))
      << screen().sentence().toStdString();
  screen().sheetView()->setCurrentIndex(screen().sheetModel()->index(2, SheetModel::kFound));
  typeValues({"52.00"});
  EXPECT_TRUE(screen().sentence().startsWith("Adjusting cannot help: ")) << screen().sentence().toStdString();
  keepPicture("visit-cannot-help");
}

TEST_F(VisitTyping, NothingCanBeTypedBeforeTheCautionsAreConfirmed) {
  makeRecord();
  begin(false);
  screen().sheetView()->setFocus();
  type("5");
  EXPECT_EQ(shown(0, SheetModel::kFound).toStdString(), "");
  EXPECT_TRUE(screen().cautions()->hasFocus());
  EXPECT_TRUE(screen().sentence().contains("cautions")) << screen().sentence().toStdString();
}

TEST_F(VisitTyping, ErrorAndVerdictAppearAsSoonAsAValueIsIn) {
  makeRecord();
  begin();
  typeValues({"0.31"});
  EXPECT_EQ(shown(0, SheetModel::kFoundError).toStdString(), "+0.310");
  EXPECT_EQ(shown(0, SheetModel::kFoundVerdict).toStdString(), "fail");
  const QModelIndex verdict = screen().sheetModel()->index(0, SheetModel::kFoundVerdict);
  EXPECT_EQ(verdict.data(SheetModel::kMarkRole).toInt(), static_cast<int>(Mark::cross));
  EXPECT_NEAR(verdict.data(SheetModel::kFractionRole).toDouble(), 0.31 / 0.25, 1e-9);
  EXPECT_TRUE(QTest::qWaitFor([this] {
    for (const auto* series : screen().plot()->chart()->series()) {
      if (series->objectName() == "found-0") {
        return true;
      }
    }
    return false;
  }));
}

TEST_F(VisitTyping, WhatIsNotUnderstoodStaysMarkedAndIsTold) {
  makeRecord();
  begin();
  typeValues({"4..2", "25.00"});
  EXPECT_EQ(shown(0, SheetModel::kFound).toStdString(), "4..2");
  EXPECT_EQ(shown(1, SheetModel::kFound).toStdString(), "25.00");
  const QModelIndex cell = screen().sheetModel()->index(0, SheetModel::kFound);
  EXPECT_FALSE(cell.data(Qt::DecorationRole).isNull());
  EXPECT_EQ(cell.siblingAtColumn(SheetModel::kFoundVerdict).data(SheetModel::kMarkRole).toInt(),
            static_cast<int>(Mark::triangle));
  EXPECT_TRUE(screen().sentence().contains("4..2")) << screen().sentence().toStdString();
  const auto drafts = session_->store().drafts();
  ASSERT_EQ(drafts.size(), 1U);
  ASSERT_EQ(drafts.front().values.size(), 2U);
  EXPECT_EQ(drafts.front().values.front().indicatedText, "4..2");
}

TEST_F(VisitTyping, UnitsAndBothDecimalSignsAreUnderstood) {
  makeRecord();
  begin();
  typeValues({"0,05", "77 degF", "323.15 K"});
  const auto value = [this](int row) {
    return std::get<Reading>(screen().entry().outcome(Phase::asFound, row)).indicated;
  };
  EXPECT_NEAR(value(0), 0.05, 1e-12);
  EXPECT_NEAR(value(1), 25.0, 1e-9);  // 77 degF is 25 degC exactly
  EXPECT_NEAR(value(2), 50.0, 1e-9);
}

TEST_F(VisitTyping, TypedAppliedValueMovesTheExpectedReading) {
  makeRecord();
  begin();
  screen().sheetView()->setCurrentIndex(screen().sheetModel()->index(1, SheetModel::kApplied));
  type("8.16");
  press(Qt::Key_Return);
  EXPECT_EQ(screen().sheetView()->currentIndex(), screen().sheetModel()->index(1, SheetModel::kFound));
  // (8.16 - 4) / 16 of 100 degC
  EXPECT_EQ(shown(1, SheetModel::kExpected).toStdString(), "26.000");
  type("26.00");
  press(Qt::Key_Return);
  EXPECT_EQ(shown(1, SheetModel::kFoundError).toStdString(), "0.000");
}

/// TT-1 as a type K input of 0 to 200 degC, and a source of mV.
Register coupleSite() {
  Register site = smallSite();
  ThermocoupleSetup couple;
  couple.range = {0.0, 200.0, Unit::celsius};
  site.channels.front().setups.front().setup.kind = couple;
  Plan& plan = site.plans.front();
  plan.scheme = {{0.0, 50.0, 100.0}, RunOrder::up, 1, false, false};
  plan.tolerance = {{2.0, 0.0, 0.0, 0.0}, {2.0, 0.0, 0.0, 0.0}};
  site.standards.pop_back();
  CertificateRange& range = site.standards.front().certificates.front().ranges.front();
  range.unit = Unit::millivolt;
  range.points = {{-10.0, 0.0, 0.004}, {60.0, 0.0, 0.004}};
  site.index();
  return site;
}

// 4.096 mV are 100 degC referred to 0 degC, 8.138 mV 200 degC; through copper leads at 25 degC (1.000 mV) the
// input shows what 1.000 mV more are: 25.0, 124.3 and 224.6 degC (thermocouple_emf_table.csv, type K; 4.096
// mV at 25 degC being 124.31 degC is a row of thermocouple_cold_junction_examples.csv). The shown ones are
// typed.
TEST_F(VisitTyping, AReferenceJunctionTypedLaterJudgesTheLinesAgain) {
  makeRecord({}, coupleSite());
  begin();
  auto* junction = named<QLineEdit>("Reference junction in °C");
  ASSERT_NE(junction, nullptr);
  ASSERT_TRUE(junction->isVisible());
  const auto feed = [this](int row, const char* mV, const char* reading) {
    screen().sheetView()->setFocus();
    screen().sheetView()->setCurrentIndex(screen().sheetModel()->index(row, SheetModel::kApplied));
    type(mV);
    press(Qt::Key_Return);
    type(reading);
    press(Qt::Key_Return);
  };
  feed(0, "-1.000 mV", "0.0");
  feed(1, "3.096 mV", "100.1");
  // Referred to 0 degC that is 76 degC, which belongs to no point here.
  EXPECT_EQ(shown(1, SheetModel::kFoundVerdict).toStdString(), "unclear");
  const auto* trouble = std::get_if<TypedProblem>(&screen().entry().outcome(Phase::asFound, 1));
  ASSERT_NE(trouble, nullptr);
  EXPECT_NE(trouble->what.find("too far"), std::string::npos) << trouble->what;

  junction->setFocus();
  type("25,0");
  press(Qt::Key_Return);
  EXPECT_EQ(screen().entry().draft().conditions.referenceJunction, 25.0);
  EXPECT_EQ(shown(1, SheetModel::kFoundVerdict).toStdString(), "pass");
  // 3.095988 mV at 25 degC is 100 degC, a row of the examples.
  EXPECT_NEAR(std::get<Reading>(screen().entry().outcome(Phase::asFound, 1)).applied, 100.0, 1e-3);
  EXPECT_NEAR(screen().entry().expected(1).value().expected, 100.0, 1e-3);
  EXPECT_TRUE(junction->toolTip().isEmpty()) << junction->toolTip().toStdString();

  // With a unit; what cannot be is told in the box and refused at the end.
  const auto retype = [&](const char* text) {
    junction->setFocus();
    junction->selectAll();
    type(text);
    press(Qt::Key_Return);
  };
  retype("250");
  EXPECT_TRUE(junction->toolTip().startsWith("The reference junction is not between -40 and 85"))
      << junction->toolTip().toStdString();
  EXPECT_EQ(shown(1, SheetModel::kFoundVerdict).toStdString(), "unclear");
  feed(2, "7.138 mV", "200.1");
  press(Qt::Key_Return, Qt::ControlModifier);
  ASSERT_TRUE(screen().problems()->isVisible());
  ASSERT_EQ(screen().problems()->count(), 1) << screen().problems()->item(0)->text().toStdString();
  screen().problems()->setCurrentRow(0);
  press(Qt::Key_Return);
  EXPECT_TRUE(junction->hasFocus());
  retype("77 degF");
  EXPECT_NEAR(screen().entry().draft().conditions.referenceJunction.value(), 25.0, 1e-9);
  keepPicture("visit-junction");

  // The draft keeps it, and showing it in fewer digits does not change it.
  retype("24,96");
  closeWindow();
  openWindow();
  window_->resumeDraft(session_->store().drafts().front().id);
  EXPECT_EQ(named<QLineEdit>("Reference junction in °C")->text().toStdString(), "25.0");
  EXPECT_EQ(screen().entry().draft().conditions.referenceJunction, 24.96);
  EXPECT_EQ(screen().entry().sheet().referenceJunction, 24.96);
  EXPECT_EQ(shown(1, SheetModel::kFoundVerdict).toStdString(), "pass");
  auto* humidity = named<QLineEdit>("Relative humidity in percent");
  humidity->setFocus();
  type("45");
  press(Qt::Key_Return);
  EXPECT_EQ(screen().entry().draft().conditions.referenceJunction, 24.96);
  press(Qt::Key_Return, Qt::ControlModifier);
  EXPECT_EQ(window_->currentScreen(), window_->channelScreen()) << screen().sentence().toStdString();
  const auto history = Store::open(recordFile().toStdString(), Store::Mode::readOnly).history("TT-1");
  ASSERT_EQ(history.size(), 1U);
  EXPECT_EQ(history.front().conditions.referenceJunction, 24.96);
  EXPECT_EQ(history.front().foundVerdict, Verdict::pass);
}

TEST_F(VisitTyping, OnlyACoupleHasAFieldForItsReferenceJunction) {
  makeRecord();
  begin();
  ASSERT_NE(named<QLineEdit>("Reference junction in °C"), nullptr);
  EXPECT_FALSE(named<QLineEdit>("Reference junction in °C")->isVisible());
}

TEST_F(VisitTyping, EscapeLeavesTheCellAsItWasAndArrowsCommit) {
  makeRecord();
  begin();
  typeValues({"0.01"});
  press(Qt::Key_Up);
  press(Qt::Key_F2);
  type("9");
  press(Qt::Key_Escape);
  EXPECT_EQ(shown(0, SheetModel::kFound).toStdString(), "0.01");
  press(Qt::Key_Down);
  type("25");
  press(Qt::Key_Down);
  EXPECT_EQ(shown(1, SheetModel::kFound).toStdString(), "25");
  EXPECT_EQ(screen().sheetView()->currentIndex().row(), 2);
  press(Qt::Key_Up);
  press(Qt::Key_Delete);
  EXPECT_EQ(shown(1, SheetModel::kFound).toStdString(), "");
}

TEST_F(VisitTyping, APointIsSkippedWithItsReason) {
  makeRecord();
  begin();
  press(Qt::Key_K, Qt::ControlModifier);
  type("valve stuck");
  press(Qt::Key_Return);
  EXPECT_EQ(shown(0, SheetModel::kFound).toStdString(), "skip: valve stuck");
  EXPECT_EQ(shown(0, SheetModel::kFoundVerdict).toStdString(), "skipped");
  EXPECT_EQ(session_->store().drafts().front().values.front().skipReason, "valve stuck");
  typeValues({"25.00", "50.00", "75.00", "100.00", "100.00", "75.00", "50.00", "25.00", "0.00"});
  press(Qt::Key_Return, Qt::ControlModifier);
  const auto history = session_->store().history("TT-1");
  ASSERT_EQ(history.size(), 1U) << screen().sentence().toStdString();
  EXPECT_EQ(history.front().asFound.front().skipReason, "valve stuck");
}

TEST_F(VisitTyping, DraftSurvivesClosingTheWindowInMidVisit) {
  makeRecord();
  begin();
  typeValues({"0.02", "25.03"});
  type("50.04");  // still in the editor
  closeWindow();

  openWindow();
  EXPECT_TRUE(window_->bar()->sentence().contains("TT-1")) << window_->bar()->sentence().toStdString();
  const auto drafts = session_->store().drafts();
  ASSERT_EQ(drafts.size(), 1U);
  window_->resumeDraft(drafts.front().id);
  EXPECT_EQ(window_->currentScreen(), window_->visitScreen());
  EXPECT_EQ(shown(0, SheetModel::kFound).toStdString(), "0.02");
  EXPECT_EQ(shown(1, SheetModel::kFound).toStdString(), "25.03");
  EXPECT_EQ(shown(1, SheetModel::kFoundVerdict).toStdString(), "pass");
  EXPECT_TRUE(screen().entry().draft().cautionsConfirmed);
  EXPECT_EQ(shown(2, SheetModel::kFound).toStdString(), "50.04");
  EXPECT_EQ(screen().sheetView()->currentIndex(), screen().sheetModel()->index(3, SheetModel::kFound));
}

TEST_F(VisitTyping, EveryProblemOfABadVisitIsListedAndNothingIsLost) {
  makeRecord();
  begin();
  typeValues({"4..2"});
  auto* standards = named<QListWidget>("Standards used");
  ASSERT_EQ(standards->count(), 1);
  standards->item(0)->setCheckState(Qt::Unchecked);
  press(Qt::Key_Return, Qt::ControlModifier);

  QListWidget* problems = screen().problems();
  ASSERT_TRUE(problems->isVisible());
  EXPECT_TRUE(problems->hasFocus());
  EXPECT_EQ(problems->currentRow(), 0);
  QString all;
  for (int i = 0; i < problems->count(); ++i) {
    all += problems->item(i)->text() + '\n';
  }
  EXPECT_GE(problems->count(), 3) << all.toStdString();
  EXPECT_TRUE(all.contains("standard")) << all.toStdString();
  EXPECT_TRUE(all.contains("4..2")) << all.toStdString();
  EXPECT_EQ(session_->store().calibrationCount(), 0);
  EXPECT_EQ(shown(0, SheetModel::kFound).toStdString(), "4..2");
  keepPicture("visit-problems");
  // Enter on the problem about the first cell goes there.
  for (int i = 0; i < problems->count(); ++i) {
    if (problems->item(i)->text().contains("4..2")) {
      problems->setCurrentRow(i);
    }
  }
  press(Qt::Key_Return);
  EXPECT_EQ(screen().sheetView()->currentIndex(), screen().sheetModel()->index(0, SheetModel::kFound));
}

TEST_F(VisitTyping, AsLeftValuesAskWhatWasDone) {
  makeRecord();
  begin();
  typeValues(kFound);
  typeValues(kLeft);
  press(Qt::Key_Return, Qt::ControlModifier);
  EXPECT_TRUE(screen().problems()->isVisible());
  EXPECT_EQ(session_->store().calibrationCount(), 0);
  press(Qt::Key_Return);
  EXPECT_EQ(QApplication::focusWidget(), named<QComboBox>("What was done to it"));
  // What is solved leaves the list as it is solved.
  press(Qt::Key_Down);
  EXPECT_TRUE(screen().problems()->isVisible()) << "what was adjusted is not said yet";
  auto* text = named<QLineEdit>("What was adjusted or repaired");
  text->setFocus();
  type("zero");
  press(Qt::Key_Tab);
  EXPECT_FALSE(screen().problems()->isVisible());
  EXPECT_EQ(screen().sentence().toStdString(),
            "Nothing keeps the visit from being stored any more; Ctrl+Enter stores it.");
  press(Qt::Key_Return, Qt::ControlModifier);
  EXPECT_EQ(session_->store().calibrationCount(), 1);
}

TEST_F(VisitTyping, AClickOnDismissLeavesTheKeysInTheSheet) {
  makeRecord();
  begin();
  typeValues({"0.01"});
  window_->bar()->showTrouble("Something else.");
  for (auto* each : window_->bar()->findChildren<QPushButton*>()) {
    if (each->isVisible()) {
      QTest::mouseClick(each, Qt::LeftButton);
    }
  }
  EXPECT_FALSE(window_->bar()->isVisible());
  EXPECT_TRUE(screen().sheetView()->hasFocus());
  typeValues({"25.02"});
  EXPECT_EQ(shown(1, SheetModel::kFound), "25.02");
}

TEST_F(VisitTyping, LastAsLeftStandsBesideTheNewReading) {
  makeRecord({visitTo("TT-1", "2025-11-20T09:00:00", 0.2, 0.05)});
  begin();
  EXPECT_EQ(shown(0, SheetModel::kPrevious).toStdString(), "0.05");
  EXPECT_EQ(shown(4, SheetModel::kPrevious).toStdString(), "100.05");
}

TEST_F(VisitTyping, AFullDiskIsToldAndTheValueStays) {
  makeRecord();
  begin();
  // Another program holding the file for writing stands for any failure to write.
  Store other = Store::open(recordFile().toStdString());
  {
    Store::Transaction holding(other);
    Draft draft;
    draft.channel = "PT-2";
    draft.person = "tech";
    draft.started = clock_.localNow();
    draft.setupVersion = 1;
    other.saveDraft(draft);
    typeValues({"0.02"});
    EXPECT_EQ(shown(0, SheetModel::kFound).toStdString(), "0.02");
    EXPECT_FALSE(window_->bar()->sentence().isEmpty());
  }
  typeValues({"25.00"});  // saved now, and the one before with it
  const auto drafts = session_->store().drafts();
  ASSERT_EQ(drafts.size(), 1U);
  EXPECT_EQ(drafts.front().values.size(), 2U);
}

}  // namespace
}  // namespace spanwright
