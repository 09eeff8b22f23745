// SPDX-License-Identifier: GPL-3.0-or-later
//
// A planner's month: what is due, the weeks with their hours, a technician away, stops dragged and made into
// rounds, a range that changed, an interval accepted, a certificate that came back.
#include <QApplication>
#include <QDateEdit>
#include <QDropEvent>
#include <QFile>
#include <QLabel>
#include <QMimeData>
#include <QSpinBox>

#include "gui/forms/channel_forms.h"
#include "gui/models/intervals_model.h"
#include "gui/models/plan_models.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/due_screen.h"
#include "gui/screens/intervals_screen.h"
#include "gui/screens/plan_grid.h"
#include "gui/screens/plan_screen.h"
#include "gui/screens/point_table.h"
#include "gui/screens/rounds_screen.h"
#include "gui/screens/standard_certificate_dialog.h"
#include "gui/screens/standards_screen.h"
#include "gui/screens/table_view.h"
#include "gui/settings/settings.h"
#include "gui/words/words.h"
#include "tests/gui/days/day_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

class PlannerMonth : public DayTest {
 protected:
  const SitePlan& plan() const { return window_->planScreen()->plan(); }
  int stopOf(const std::string& tag) const {
    for (std::size_t i = 0; i < plan().stops.size(); ++i) {
      for (const PlannedSubject& visit : plan().stops[i].visits) {
        if (visit.channel == tag) {
          return static_cast<int>(i);
        }
      }
    }
    return -1;
  }
  Date dayOf(const std::string& tag) const {
    const int stop = stopOf(tag);
    return stop < 0 ? Date() : plan().stops[static_cast<std::size_t>(stop)].day;
  }
  /// Lets the stop go over this day, as the end of a drag does; whether the day takes it.
  bool dropOn(int stop, Date day) {
    auto* grid = window_->planScreen()->grid();
    const auto* weeks = dynamic_cast<const PlanWeeksModel*>(grid->model());
    const QModelIndex to = weeks->cellOf(day);
    grid->scrollTo(to);
    QMimeData dragged;
    dragged.setData(QLatin1String(PlanGrid::kStopMime), QByteArray::number(stop));
    const QPoint at = grid->visualRect(to).center();
    QDragEnterEvent enter(at, Qt::MoveAction, &dragged, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(grid->viewport(), &enter);
    QDragMoveEvent over(at, Qt::MoveAction, &dragged, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(grid->viewport(), &over);
    QDropEvent drop(at, Qt::MoveAction, &dragged, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(grid->viewport(), &drop);
    session_->worker().waitUntilIdle();
    return over.isAccepted() && drop.isAccepted();
  }
};

TEST_F(PlannerMonth, FromTheDueListToRoundsWithWhatChangedOnTheWay) {
  ASSERT_NO_FATAL_FAILURE(openSite());
  kLastPerson.set(kTechnician);
  ASSERT_NO_FATAL_FAILURE(workAs(kTechnician));

  // The meter that was changed stands unproven on Today and first on the due list; Enter leads to it.
  EXPECT_TRUE(todays("Unproven", "FT-8").isValid());
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_2, Qt::ControlModifier));
  ASSERT_EQ(window_->currentScreen(), window_->dueScreen());
  ASSERT_NO_FATAL_FAILURE(press(Qt::Key_Return));
  EXPECT_EQ(window_->channelScreen()->channel(), "FT-8");

  // Weeks, up to what is due next spring: the unproven goes to the first free day, everything else before its
  // due day.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_5, Qt::ControlModifier));
  ASSERT_EQ(window_->currentScreen(), window_->planScreen());
  auto* weeks = named<QSpinBox>("Weeks");
  weeks->setFocus();
  weeks->selectAll();
  type("40");
  press(Qt::Key_Return);
  session_->worker().waitUntilIdle();
  ASSERT_GE(stopOf("FT-8"), 0);
  ASSERT_GE(stopOf("TT-1"), 0);
  EXPECT_LT(dayOf("FT-8"), dayOf("TT-1"));
  EXPECT_TRUE(plan().notPlanned.empty());
  keepPicture("month-plan");

  // The calibrator is away on the day of a stop: it gives way, and comes back when the question is let go.
  const Date before = dayOf("FT-8");
  ASSERT_NO_FATAL_FAILURE(choose(named<QComboBox>("Standard that is away"), "CAL-1"));
  const auto ymd = before.year_month_day();
  const QDate day(ymd.year, ymd.month, ymd.day);
  named<QDateEdit>("Away from")->setDate(day.addDays(-1));
  named<QDateEdit>("Away until")->setDate(day.addDays(7));
  session_->worker().waitUntilIdle();
  EXPECT_GT(dayOf("FT-8"), before);
  keepPicture("month-away");
  ASSERT_NO_FATAL_FAILURE(click(window_->planScreen(), "Start afresh"));
  EXPECT_EQ(dayOf("FT-8"), before);

  // A stop is dragged: not to the winter shutdown, but a week on; then a day later by its button, and made
  // into a round, which stands on Today.
  EXPECT_FALSE(dropOn(stopOf("FT-8"), *parseDate("2026-12-28")));
  EXPECT_EQ(dayOf("FT-8"), before);
  EXPECT_TRUE(dropOn(stopOf("FT-8"), *parseDate("2026-12-02")));
  EXPECT_EQ(dayOf("FT-8"), *parseDate("2026-12-02"));
  window_->planScreen()->grid()->setFocus();
  window_->planScreen()->grid()->chooseStop(stopOf("FT-8"));
  ASSERT_NO_FATAL_FAILURE(click(window_->planScreen(), "A day later"));
  EXPECT_EQ(dayOf("FT-8"), *parseDate("2026-12-03"));
  const auto visits = plan().stops[static_cast<std::size_t>(stopOf("FT-8"))].visits.size();
  ASSERT_NO_FATAL_FAILURE(click(window_->planScreen(), "Make a round"));
  ASSERT_EQ(window_->currentScreen(), window_->roundsScreen());
  ASSERT_EQ(session_->store().rounds().size(), 1U);
  EXPECT_EQ(session_->store().rounds()[0].stops.size(), visits);
  ASSERT_NO_FATAL_FAILURE(workAs(kTechnician));
  EXPECT_TRUE(todays("Rounds to walk", fromCore(session_->store().rounds()[0].name)).isValid());

  // Production wants another range of the pressure: the setup in force changes, the channel is unproven, and
  // the plan takes it in at once.
  window_->showChannel("PT-2");
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier));
  auto* setup = dialog<NewSetupForm>();
  ASSERT_NE(setup, nullptr) << news();
  ASSERT_TRUE(makeActive(setup));
  auto* high = qobject_cast<QLineEdit*>(setup->widget("units.high"));
  ASSERT_NE(high, nullptr);
  high->setFocus();
  high->selectAll();
  type("10");
  auto* remark = qobject_cast<QLineEdit*>(setup->widget("remark"));
  ASSERT_NE(remark, nullptr);
  remark->setFocus();
  remark->selectAll();
  type("wider range for the new boiler");
  keepLooks(setup, "month-setup");
  press(Qt::Key_Return);
  ASSERT_TRUE(gone<NewSetupForm>());
  session_->worker().waitUntilIdle();
  EXPECT_EQ(session_->site().channel("PT-2")->setups.size(), 2U);
  ASSERT_NO_FATAL_FAILURE(workAs(kTechnician));
  EXPECT_TRUE(todays("Unproven", "PT-2").isValid());
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_5, Qt::ControlModifier));
  EXPECT_LT(dayOf("PT-2"), dayOf("TT-1"));

  // The interval of the temperature is made shorter, which wants a reason, and the due day moves.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_6, Qt::ControlModifier));
  auto* intervals = window_->intervalsScreen();
  ASSERT_EQ(window_->currentScreen(), intervals);
  const auto* model = intervals->table()->model();
  for (int row = 0; row < model->rowCount(); ++row) {
    if (model->index(row, IntervalsModel::kChannel).data().toString() == QLatin1String("TT-1")) {
      intervals->table()->setCurrentIndex(model->index(row, 0));
    }
  }
  const Date due = *session_->due("TT-1").front().due.dueOn;
  named<QSpinBox>("Length in days")->setValue(300);
  named<QLineEdit>("Reason")->setFocus();
  type("hot summers");
  press(Qt::Key_Return);
  session_->worker().waitUntilIdle();
  EXPECT_EQ(intervals->trouble().toStdString(), "");
  EXPECT_LT(*session_->due("TT-1").front().due.dueOn, due);

  // The plan as a file for other people's calendars.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_5, Qt::ControlModifier));
  const QString file = folder_.filePath("plan.ics");
  window_->planScreen()->writeCalendar(file);
  QFile in(file);
  ASSERT_TRUE(in.open(QIODevice::ReadOnly));
  EXPECT_EQ(in.readAll().count("BEGIN:VEVENT"), static_cast<int>(plan().stops.size()));

  // The simulator comes back with a new certificate.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_7, Qt::ControlModifier));
  auto* table = named<QTableView>("Standards");
  table->setFocus();
  press(Qt::Key_Down);
  ASSERT_EQ(window_->standardsScreen()->currentStandard(), "SIM-1");
  ASSERT_NO_FATAL_FAILURE(click(window_->standardsScreen(), "Add certificate…"));
  auto* form = dialog<StandardCertificateDialog>();
  ASSERT_NE(form, nullptr);
  ASSERT_TRUE(makeActive(form));
  part<QLineEdit>(form, "Number")->setFocus();
  type("SI-2026-0999");
  form->table()->paste("ohm\t0.01\t100\t0\t0.01\nohm\t0.01\t140\t0.004\t0.01");
  part<QDateEdit>(form, "Valid from")->setDate(QDate(2026, 11, 25));
  part<QDateEdit>(form, "Valid until")->setDate(QDate(2027, 11, 24));
  ASSERT_NO_FATAL_FAILURE(click(form, "Add certificate"));
  ASSERT_TRUE(gone<StandardCertificateDialog>()) << form->trouble().toStdString();
  EXPECT_EQ(session_->site().standard("SIM-1")->certificates.back().number, "SI-2026-0999");
}

}  // namespace
}  // namespace spanwright
