// SPDX-License-Identifier: GPL-3.0-or-later
//
// A reviewer's day: the queue to its end, one certificate out of the house, a standard that came back bad
// with all that follows, and the record proven in the evening.
#include <QAction>
#include <QDateEdit>
#include <QFile>
#include <QLabel>
#include <QRadioButton>

#include "core/store/verify.h"
#include "gui/models/reach_model.h"
#include "gui/models/review_model.h"
#include "gui/screens/certificate_screen.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/check_dialog.h"
#include "gui/screens/decide_dialog.h"
#include "gui/screens/found_form.h"
#include "gui/screens/journal_screen.h"
#include "gui/screens/point_table.h"
#include "gui/screens/reach_screen.h"
#include "gui/screens/review_screen.h"
#include "gui/screens/rounds_screen.h"
#include "gui/screens/standards_screen.h"
#include "gui/screens/table_view.h"
#include "gui/screens/trace_screen.h"
#include "tests/gui/days/day_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

const QString kReviews = "nine blue lamps";

class ReviewerDay : public DayTest {
 protected:
  static ProposedVisit visitOf(const char* channel, const char* when,
                               const std::vector<const char*>& values) {
    ProposedVisit visit;
    visit.channel = channel;
    visit.performed = *parseMoment(when);
    visit.person = kTechnician;
    visit.standards = {"CAL-1"};
    visit.cautionsConfirmed = true;
    visit.conditions = {20.5, 45.0, ""};
    for (std::size_t i = 0; i < values.size(); ++i) {
      ProposedReading reading;
      reading.sequence = static_cast<int>(i) + 1;
      reading.typed.indicatedText = values[i];
      visit.asFound.push_back(reading);
    }
    return visit;
  }
  /// What Asta did and signed yesterday: two visits in order, one with swapped digits.
  void yesterday() {
    const KeyCost cheap{1, 8 << 10};
    const ProposedVisit visits[] = {
        visitOf("TT-1", "2026-11-24T08:10:00", {"0.05", "60.08", "120.10", "120.12", "60.07", "0.06"}),
        visitOf("FT-8", "2026-11-24T09:00:00", {"0.001", "4.002", "8.003", "8.003", "4.001", "0.000"}),
        visitOf("PT-2", "2026-11-24T09:40:00", {"8", "10600", "31984", "31984", "16008", "8"})};
    for (const ProposedVisit& visit : visits) {
      const CalibrationId id = enterVisit(session_->store(), visit, clock_.localNow()).id;
      signCalibration(session_->store(), id, LifeAct::performed, {kTechnician, "a kettle of fish", cheap},
                      "");
    }
  }
  CalibrationId chosen() const { return window_->reviewScreen()->currentCalibration().value_or(0); }
};

TEST_F(ReviewerDay, TheQueueACertificateABadStandardAndTheRecordProven) {
  ASSERT_NO_FATAL_FAILURE(openSite());
  ASSERT_NO_FATAL_FAILURE(yesterday());
  const std::int64_t last = session_->store().calibrationCount();
  const CalibrationId kettle = last - 2, flow = last - 1, pressure = last;
  ASSERT_NO_FATAL_FAILURE(workAs(kReviewer));
  EXPECT_TRUE(todays("To review", "TT-1").isValid());
  EXPECT_FALSE(todays("Unproven", "FT-8").isValid()) << "a technician's matter, and proven";

  // The oldest first: looked at whole, signed from there, and approved.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_3, Qt::ControlModifier));
  ASSERT_EQ(window_->currentScreen(), window_->reviewScreen());
  ASSERT_EQ(chosen(), kettle);
  named<QTableView>("Waiting for a signature")->setFocus();
  ASSERT_NO_FATAL_FAILURE(press(Qt::Key_Return));
  ASSERT_EQ(window_->currentScreen(), window_->traceScreen());
  EXPECT_THAT(window_->traceScreen()->visitText().toStdString(), HasSubstr("by Asta Dale"));
  EXPECT_THAT(window_->traceScreen()->readingText().toStdString(),
              HasSubstr("A recomputation from what was typed gives the same."));
  keepPicture("review-trace");
  ASSERT_NO_FATAL_FAILURE(sign(kReviewer, kReviews, "Sign as reviewed"));
  ASSERT_NO_FATAL_FAILURE(sign(kReviewer, kReviews, "Sign as approved"));
  EXPECT_EQ(session_->store().state(kettle), LifeState::approved);

  // The certificate of it, looked at before it is issued, and the same again when asked again.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_P, Qt::ControlModifier));
  ASSERT_EQ(window_->currentScreen(), window_->certificateScreen());
  EXPECT_EQ(window_->certificateScreen()->calibration(), std::optional<CalibrationId>(kettle));
  keepPicture("review-certificate");
  const QString first = folder_.filePath("first.pdf"), again = folder_.filePath("again.pdf");
  ASSERT_EQ(window_->certificateScreen()->issueTo(first).toStdString(), "");
  ASSERT_EQ(window_->certificateScreen()->issueTo(again).toStdString(), "");
  QFile one(first), two(again);
  ASSERT_TRUE(one.open(QIODevice::ReadOnly) && two.open(QIODevice::ReadOnly));
  EXPECT_EQ(one.readAll(), two.readAll());

  // The next is in order; the one with the odd reading goes back with the reason.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_3, Qt::ControlModifier));
  EXPECT_EQ(window_->reviewScreen()->waiting(), 2);
  ASSERT_EQ(chosen(), flow);
  ASSERT_NO_FATAL_FAILURE(sign(kReviewer, kReviews, "Sign as reviewed"));
  ASSERT_TRUE(makeActive(window_.get()));
  named<QTableView>("Waiting for a signature")->setFocus();
  ASSERT_NO_FATAL_FAILURE(press(Qt::Key_Home, Qt::ControlModifier));
  ASSERT_EQ(chosen(), pressure) << "what is to be reviewed stands before what is to be approved";
  ASSERT_NO_FATAL_FAILURE(sign(kReviewer, kReviews, "Send back", "10600 for 16000?"));
  EXPECT_EQ(session_->store().state(pressure), LifeState::sentBack);
  ASSERT_NO_FATAL_FAILURE(workAs(kTechnician));
  EXPECT_TRUE(todays("Sent back", "PT-2").isValid());
  ASSERT_NO_FATAL_FAILURE(workAs(kReviewer));

  // The calibrator was found 0.2 mA off: what it touched, who has to go where, and out of service it is.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_7, Qt::ControlModifier));
  ASSERT_EQ(window_->standardsScreen()->currentStandard(), "CAL-1");
  ASSERT_NO_FATAL_FAILURE(click(window_->standardsScreen(), "What did it reach…"));
  auto* reach = window_->reachScreen();
  ASSERT_EQ(window_->currentScreen(), reach);
  reach->form()->table()->setPoints({{"mA", "", "0", "0.2", ""}, {"", "", "24", "0.2", ""}});
  ASSERT_NO_FATAL_FAILURE(click(reach, "Show what it reached"));
  ASSERT_EQ(reach->step(), 1) << reach->form()->trouble().toStdString();
  ASSERT_TRUE(reach->reach().has_value());
  // 0.2 mA of 16 are 1.25 % of span, five times what both are allowed: TT-1 and FT-8 made with mA flip.
  EXPECT_GE(reach->reach()->flips(), 2U);
  keepPicture("review-reach");
  ASSERT_NO_FATAL_FAILURE(click(reach, "What to do"));
  ASSERT_NO_FATAL_FAILURE(click(reach, "Take the standard out of service…"));
  auto* decide = dialog<DecideDialog>();
  ASSERT_NE(decide, nullptr);
  ASSERT_TRUE(makeActive(decide));
  ASSERT_NO_FATAL_FAILURE(choose(part<QComboBox>(decide, "Who signs"), kReviewer));
  auto* out = labelled<QRadioButton>(decide, "Take out of service");
  ASSERT_TRUE(out != nullptr && out->isEnabled());
  out->setFocus();
  press(Qt::Key_Space);
  part<QLineEdit>(decide, "Reason, needed")->setFocus();
  type("0.2 mA off");
  part<QLineEdit>(decide, "Passphrase")->setFocus();
  type(kReviews);
  press(Qt::Key_Return);
  ASSERT_TRUE(gone<DecideDialog>()) << decide->trouble().toStdString();
  EXPECT_THAT(news(), HasSubstr("Standard CAL-1 is out of service"));
  window_->showReach("CAL-1");
  reach->goToStep(2);
  ASSERT_NO_FATAL_FAILURE(click(reach, "Make a round"));
  ASSERT_EQ(window_->currentScreen(), window_->roundsScreen());
  ASSERT_EQ(session_->store().rounds().size(), 1U);
  EXPECT_THAT(session_->store().rounds()[0].reason, HasSubstr("CAL-1 was found out of tolerance"));

  // What was done today stands in the journal; the record and the certificate handed out are proven.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_9, Qt::ControlModifier));
  ASSERT_EQ(window_->currentScreen(), window_->journalScreen());
  keepPicture("review-journal");
  for (auto* each : window_->findChildren<QAction*>()) {
    if (each->text() == commandText(CommandId::checkRecord)) {
      each->trigger();
    }
  }
  auto* check = dialog<CheckDialog>();
  ASSERT_NE(check, nullptr);
  ASSERT_TRUE(makeActive(check));
  check->setCertificate(first);
  press(Qt::Key_Return);
  session_->worker().waitUntilIdle();
  EXPECT_THAT(check->asText().toStdString(), HasSubstr("Nothing was changed behind the journal's back."));
  check->reject();
  EXPECT_TRUE(gone<CheckDialog>());
}

}  // namespace
}  // namespace spanwright
