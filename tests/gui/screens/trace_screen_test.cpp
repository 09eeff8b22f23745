// SPDX-License-Identifier: GPL-3.0-or-later
//
// The reviewer's page: every number of a calibration with where it comes from.
#include "gui/screens/trace_screen.h"

#include <QLabel>
#include <QPushButton>
#include <QTest>

#include "core/tasks/signing.h"
#include "gui/models/trace_model.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/numbers_panel.h"
#include "gui/screens/review_screen.h"
#include "gui/screens/sign_dialog.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "tests/gui/screens/places_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

class TraceWindow : public DialogTest {
 protected:
  TraceScreen* page() const { return window_->traceScreen(); }
  std::string visit() const { return page()->visitText().toStdString(); }
  std::string reading() const { return page()->readingText().toStdString(); }
};

TEST_F(TraceWindow, EveryNumberOfTheChosenReadingSaysWhereItComesFrom) {
  makeRecord(
      {visitTo("TT-1", "2026-10-20T09:00:00", 0.1, 0.0), visitTo("TT-1", "2026-11-20T09:00:00", 0.25)});
  openWindow();
  window_->showChannel("TT-1");
  ASSERT_TRUE(makeActive(window_.get()));
  QTest::keyClick(window_.get(), Qt::Key_R, Qt::ControlModifier);
  ASSERT_EQ(window_->currentScreen(), page());
  EXPECT_EQ(page()->calibration(), 2);
  keepPicture("trace");
  const CalibrationTrace trace = traceCalibration(session_->store(), 2);
  ASSERT_EQ(page()->table()->model()->rowCount(), static_cast<int>(trace.readings.size()));
  EXPECT_THAT(visit(), HasSubstr("by Tess Technician"));
  EXPECT_THAT(visit(), HasSubstr("1, in force from"));
  EXPECT_THAT(visit(), HasSubstr("Tolerance"));
  const TracedReading& first = trace.readings.front();
  EXPECT_THAT(reading(), HasSubstr(first.reading.indicatedText + " read"));
  EXPECT_THAT(reading(), HasSubstr("calibration 1 left"));
  EXPECT_THAT(reading(), HasSubstr("A recomputation from what was typed gives the same."));
  // Arrow keys change the reading, and its page follows.
  press(Qt::Key_Down);
  EXPECT_THAT(reading(), HasSubstr(trace.readings.at(1).reading.indicatedText + " read"));
  EXPECT_THAT(named<QLabel>("Agreement with a recomputation")->text().toStdString(),
              HasSubstr("All numbers agree"));
}

TEST_F(TraceWindow, ComparesWithWhatTheVisitBeforeLeftAndGoesThere) {
  makeRecord({visitTo("TT-1", "2026-10-20T09:00:00", 0.4, 0.1), visitTo("TT-1", "2026-11-20T09:00:00", 0.3)});
  openWindow();
  window_->showTrace(2);
  const auto* model = page()->table()->model();
  int left = -1, since = -1;
  for (int column = 0; column < model->columnCount(); ++column) {
    const QString name = model->headerData(column, Qt::Horizontal).toString();
    left = name == "Left before" ? column : left;
    since = name == "Since then" ? column : since;
  }
  const CalibrationTrace trace = traceCalibration(session_->store(), 2);
  ASSERT_EQ(trace.before, 1);
  EXPECT_NEAR(trace.readings.front().leftBefore.value(), 0.1, 1e-9);
  EXPECT_EQ(model->index(0, left).data().toString(), "+0.1");
  EXPECT_EQ(model->index(0, since).data().toString(), "+0.2");
  auto* before = labelled<QPushButton>(page(), "Visit before");
  QTest::mouseClick(before, Qt::LeftButton);
  EXPECT_EQ(page()->calibration(), 1);
  EXPECT_FALSE(before->isEnabled()) << "there is none before the first";
  EXPECT_EQ(model->index(0, left).data().toString(), "–");
}

TEST_F(TraceWindow, AReviewerOpensItFromTheQueueAndSigns) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1)});
  openWindow();
  signCalibration(session_->store(), 1, LifeAct::performed, {"tech", "a kettle of fish", KeyCost{1, 8 << 10}},
                  "");
  window_->showReview();
  ASSERT_TRUE(makeActive(window_.get()));
  press(Qt::Key_Return);
  ASSERT_EQ(window_->currentScreen(), page());
  EXPECT_THAT(visit(), HasSubstr("Performed by Tess Technician (tech)"));
  QTest::mouseClick(labelled<QPushButton>(page(), "Sign…"), Qt::LeftButton);
  ASSERT_NE(dialog<SignDialog>(), nullptr);
  EXPECT_EQ(dialog<SignDialog>()->calibration(), 1);
}

TEST_F(TraceWindow, HowANumberComesAboutIsToldBesideThePage) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1)});
  openWindow();
  window_->showTrace(1);
  ASSERT_TRUE(makeActive(window_.get()));
  auto* table = page()->table();
  int uncertainty = -1;
  for (int column = 0; column < table->model()->columnCount(); ++column) {
    const QVariant what = table->model()->headerData(column, Qt::Horizontal, kExplainedRole);
    if (what.isValid() && static_cast<Explained>(what.toInt()) == Explained::uncertainty) {
      uncertainty = column;
    }
  }
  ASSERT_GE(uncertainty, 0);
  table->setCurrentIndex(table->model()->index(0, uncertainty));
  table->setFocus();
  EXPECT_EQ(NumbersPanel::ofFocus(table->viewport()), Explained::uncertainty);
  QTest::keyClick(window_.get(), Qt::Key_F1, Qt::ShiftModifier);
  const auto* panel = window_->findChild<NumbersPanel*>();
  ASSERT_NE(panel, nullptr);
  EXPECT_TRUE(panel->isVisible());
  keepPicture("numbers");
  for (const Explained what : allExplained()) {
    EXPECT_THAT(panel->shownText().toStdString(), HasSubstr(explanation(what).title.toStdString()));
    EXPECT_FALSE(explanation(what).source.isEmpty());
    EXPECT_FALSE(explanation(what).words.isEmpty());
  }
}

// The table of texts is looked up by the value's number.
TEST(Explanations, StandInTheOrderOfTheirNames) {
  int next = 0;
  for (const Explained what : allExplained()) {
    EXPECT_EQ(static_cast<int>(what), next++);
  }
  EXPECT_EQ(next, static_cast<int>(Explained::digest) + 1);
  EXPECT_EQ(explanation(Explained::digest).title, "Digest");
  EXPECT_EQ(explanation(Explained::band).title, "95 % band");
}

}  // namespace
}  // namespace spanwright
