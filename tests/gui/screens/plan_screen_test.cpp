// SPDX-License-Identifier: GPL-3.0-or-later
//
// The plan and the intervals in the window: what is planned, moved, supposed and accepted.
#include "gui/screens/plan_screen.h"

#include <QComboBox>
#include <QDateEdit>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QTest>
#include <algorithm>

#include "gui/models/intervals_model.h"
#include "gui/models/plan_models.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/intervals_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/plan_grid.h"
#include "gui/screens/rounds_screen.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

/// The small site with a technician of eight hours a week, a planner, and a policy that takes steps.
Register plannedSite() {
  Register site = smallSite();
  site.people.front().hoursPerWeek = 8.0;
  Person planner;
  planner.login = "plan";
  planner.name = "Pia Planner";
  planner.roles = {Role::planner};
  site.people.push_back(planner);
  IntervalPolicy steps;
  steps.code = "steps";
  steps.kind = PolicyKind::staircase;
  steps.months = 12;
  steps.minimumDays = 90;
  steps.maximumDays = 730;
  steps.lengthen = 1.5;
  steps.shorten = 0.5;
  site.intervals.push_back(steps);
  site.channels.front().routines.front().interval = "steps";
  site.index();
  return site;
}

class PlanWindow : public GuiTest {
 protected:
  void openOn(Qt::Key key) {
    makeRecord({visitTo("TT-1", "2024-12-10T09:00:00", 0.02), visitTo("TT-1", "2025-12-09T09:00:00", 0.03),
                visitTo("PT-2", "2025-12-10T09:00:00", 0.05)},
               plannedSite());
    openWindow();
    ASSERT_TRUE(makeActive(window_.get()));
    QTest::keyClick(window_.get(), key, Qt::ControlModifier);
    session_->worker().waitUntilIdle();
  }
  PlanScreen* screen() const { return window_->planScreen(); }
  const SitePlan& plan() const { return screen()->plan(); }
  const PlannedStop* stopOf(const std::string& tag) const {
    const auto at = std::find_if(plan().stops.begin(), plan().stops.end(), [&](const PlannedStop& stop) {
      return std::any_of(stop.visits.begin(), stop.visits.end(),
                         [&](const PlannedSubject& visit) { return visit.channel == tag; });
    });
    return at == plan().stops.end() ? nullptr : &*at;
  }
  int indexOf(const PlannedStop* stop) const { return static_cast<int>(stop - plan().stops.data()); }
  void settle() { session_->worker().waitUntilIdle(); }
};

TEST_F(PlanWindow, AStopBecomesARoundAndASheet) {
  openOn(Qt::Key_5);
  const PlannedStop* stop = stopOf("TT-1");
  ASSERT_NE(stop, nullptr);
  screen()->stops()->setCurrentIndex(screen()->stops()->model()->index(indexOf(stop), 0));
  const QString file = folder_.filePath("sheet.pdf");
  screen()->writeSheetTo(file);
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("The sheet with 2 pages is written to"));
  EXPECT_TRUE(QFile::exists(file));
  keepPicture("plan-stop");
  screen()->writeSheetTo(folder_.filePath("nowhere/sheet.pdf"));
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("could not be written"));
  QPushButton* make = nullptr;
  for (auto* each : screen()->findChildren<QPushButton*>()) {
    make = each->text() == "Make a ro&und" ? each : make;
  }
  ASSERT_NE(make, nullptr);
  make->click();
  ASSERT_EQ(window_->currentScreen(), window_->roundsScreen());
  const auto rounds = session_->store().rounds();
  ASSERT_EQ(rounds.size(), 1U);
  EXPECT_EQ(rounds[0].person, "tech");
  EXPECT_EQ(rounds[0].stops.size(), stop->visits.size());
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("The round \"Hall / Cabinet A, "));
}

TEST_F(PlanWindow, ShowsEveryStopOnItsDayAndWhatItTakes) {
  openOn(Qt::Key_5);
  ASSERT_EQ(window_->currentScreen(), screen());
  ASSERT_NE(stopOf("TT-1"), nullptr);
  ASSERT_NE(stopOf("XS-3"), nullptr);  // never calibrated: unproven, at once
  auto* weeks = dynamic_cast<PlanWeeksModel*>(screen()->grid()->model());
  ASSERT_NE(weeks, nullptr);
  for (std::size_t i = 0; i < plan().stops.size(); ++i) {
    const QModelIndex cell = weeks->cellOf(plan().stops[i].day);
    ASSERT_TRUE(cell.isValid());
    EXPECT_EQ(weeks->dayAt(cell), plan().stops[i].day);
    EXPECT_THAT(weeks->stopsAt(cell), testing::Contains(static_cast<int>(i)));
    EXPECT_FALSE(weeks->isClosed(cell));
  }
  EXPECT_EQ(screen()->stops()->model()->rowCount(), static_cast<int>(plan().stops.size()));
  EXPECT_THAT(screen()->summary()->text().toStdString(), HasSubstr("none is late"));
  keepPicture("plan");
}

TEST_F(PlanWindow, AStopMovedADayLaterStaysThereAndIsLetGoAgain) {
  openOn(Qt::Key_5);
  const PlannedStop* stop = stopOf("PT-2");
  ASSERT_NE(stop, nullptr);
  const Date before = stop->day;
  screen()->grid()->setFocus();
  screen()->grid()->chooseStop(indexOf(stop));
  QTest::keyClick(screen()->grid(), Qt::Key_Left, Qt::ControlModifier | Qt::ShiftModifier);
  settle();
  ASSERT_NE(stopOf("PT-2"), nullptr);
  EXPECT_LT(stopOf("PT-2")->day, before);
  EXPECT_THAT(screen()->summary()->text().toStdString(), HasSubstr("moved by hand"));
  screen()->startAfresh();
  settle();
  EXPECT_EQ(stopOf("PT-2")->day, before);
}

TEST_F(PlanWindow, WithoutHoursOrStandardTheReasonIsTold) {
  openOn(Qt::Key_5);
  auto* hours = named<QSpinBox>("Share of everybody's hours");
  hours->setFocus();
  hours->selectAll();
  type("0");
  press(Qt::Key_Return);
  settle();
  EXPECT_EQ(plan().visits(), 0U);
  EXPECT_GT(screen()->notPlanned()->model()->rowCount(), 0);
  for (int row = 0; row < screen()->notPlanned()->model()->rowCount(); ++row) {
    EXPECT_FALSE(
        screen()->notPlanned()->model()->index(row, NotPlannedModel::kReason).data().toString().isEmpty());
  }
  screen()->startAfresh();
  settle();
  EXPECT_GT(plan().visits(), 0U);
}

TEST_F(PlanWindow, TheCalendarFileHoldsEveryStop) {
  openOn(Qt::Key_5);
  const QString file = folder_.filePath(QStringLiteral("plan.ics"));
  screen()->writeCalendar(file);
  QFile in(file);
  ASSERT_TRUE(in.open(QIODevice::ReadOnly));
  const QByteArray text = in.readAll();
  EXPECT_EQ(text.count("BEGIN:VEVENT"), static_cast<int>(plan().stops.size()));
  EXPECT_TRUE(window_->bar()->isVisible());
  screen()->writeCalendar(folder_.filePath(QStringLiteral("not/there/plan.ics")));
  EXPECT_FALSE(QFile::exists(folder_.filePath(QStringLiteral("not"))));
}

TEST_F(PlanWindow, AProposedIntervalIsAcceptedByAPlannerAndHolds) {
  openOn(Qt::Key_6);
  auto* intervals = window_->intervalsScreen();
  ASSERT_EQ(window_->currentScreen(), intervals);
  const auto rowOf = [&](const char* tag) {
    const auto* model = intervals->table()->model();
    for (int row = 0; row < model->rowCount(); ++row) {
      if (model->index(row, IntervalsModel::kChannel).data().toString() == QLatin1String(tag)) {
        return row;
      }
    }
    return -1;
  };
  ASSERT_GE(rowOf("TT-1"), 0);
  intervals->table()->setFocus();
  intervals->table()->setCurrentIndex(intervals->table()->model()->index(rowOf("TT-1"), 0));
  EXPECT_THAT(intervals->evidence()->text().toStdString(), HasSubstr("TT-1"));
  auto* days = named<QSpinBox>("Length in days");
  const int proposed = days->value();
  EXPECT_GT(proposed, 365);  // a step up: two visits found it well inside
  keepPicture("intervals");

  // Another length wants a reason.
  days->setValue(400);
  auto* reason = named<QLineEdit>("Reason");
  reason->setFocus();
  press(Qt::Key_Return);
  EXPECT_FALSE(intervals->trouble().isEmpty());
  EXPECT_TRUE(session_->site().channel("TT-1")->acceptedIntervals.empty());
  type("until the next shutdown");
  press(Qt::Key_Return);
  EXPECT_TRUE(intervals->trouble().isEmpty()) << intervals->trouble().toStdString();
  settle();
  const auto& accepted = session_->site().channel("TT-1")->acceptedIntervals;
  ASSERT_EQ(accepted.size(), 1U);
  EXPECT_EQ(accepted.front().days, 400);
  EXPECT_EQ(accepted.front().person, "plan");
  EXPECT_EQ(accepted.front().reason, "until the next shutdown");
  EXPECT_EQ(accepted.front().proposedDays, proposed);
  EXPECT_EQ(session_->due("TT-1").front().intervalDays, 400);
  EXPECT_EQ(intervals->table()->model()->index(rowOf("TT-1"), IntervalsModel::kNow).data(kSortRole).toInt(),
            400);
}

}  // namespace
}  // namespace spanwright
