// SPDX-License-Identifier: GPL-3.0-or-later
//
// The reach of a bad standard in the window, from the page of standards to the round it takes.
#include "gui/screens/reach_screen.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDateEdit>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTabBar>

#include "core/tasks/signing.h"
#include "gui/models/reach_model.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/decide_dialog.h"
#include "gui/screens/found_form.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/point_table.h"
#include "gui/screens/rounds_screen.h"
#include "gui/screens/standards_screen.h"
#include "gui/screens/table_view.h"
#include "gui/session/session.h"
#include "gui/settings/look.h"
#include "tests/gui/screens/places_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

StandardCertificate certificate(const char* number, Date day, double error) {
  StandardCertificate made = smallSite().standards[0].certificates[0];
  made.number = number;
  made.issued = made.validFrom = day;
  made.validUntil = Date(2030, 12, 31);
  made.ranges = {{Unit::milliampere, 0.001, {{0.0, error, 0.001}, {24.0, error, 0.001}}}};
  return made;
}

// 4-20 mA to 0-100 degC with limits of 0.25 degC: 0.04 mA too much shown is 0.25 degC of error more.
class ReachWindow : public DialogTest {
 protected:
  static Register site() {
    Register site = smallSite();
    site.standards[0].certificates = {certificate("G-1", Date(2020, 1, 1), 0.0),
                                      certificate("G-2", Date(2024, 1, 10), 0.0),
                                      certificate("B-3", Date(2025, 11, 1), 0.04)};
    site.index();
    return site;
  }
  void open() {
    makeRecord({visitTo("TT-1", "2023-06-01T09:00:00", 0.0),          // before the last good certificate
                visitTo("TT-1", "2024-06-01T09:00:00", 0.1),          // pass, becomes fail
                visitTo("PT-2", "2024-06-02T09:00:00", -0.1),         // stays
                visitTo("PT-2", "2025-06-02T09:00:00", -0.4, -0.05),  // found becomes pass, left stays
                visitTo("PT-2", "2025-07-02T09:00:00", -0.1, 0.2)},   // left becomes fail
               site());
    openWindow();
    press(Qt::Key_7, Qt::ControlModifier);
    ASSERT_EQ(window_->currentScreen(), window_->standardsScreen());
    click(window_->standardsScreen(), "What did it reach…");
    ASSERT_EQ(window_->currentScreen(), screen());
  }
  ReachScreen* screen() const { return window_->reachScreen(); }
  void click(const QWidget* in, const QString& text) {
    auto* button = labelled<QPushButton>(in, text);
    ASSERT_NE(button, nullptr) << text.toStdString();
    ASSERT_TRUE(button->isVisible() && button->isEnabled()) << text.toStdString();
    QTest::mouseClick(button, Qt::LeftButton);
  }
  /// Chooses the certificate as a person does, who sees the values come.
  void choose(const QString& number) {
    auto* box = named<QComboBox>("Certificate that reports it");
    box->setFocus();
    for (int i = 0; i < box->count() && box->currentText() != number; ++i) {
      QTest::keyClick(box, Qt::Key_Down);
    }
    ASSERT_EQ(box->currentText(), number);
  }
  void askAndWait() {
    click(screen(), "Show what it reached");
    session_->worker().waitUntilIdle();
  }
  static std::string cell(const TableView* table, int row, int column) {
    return table->model()->index(row, column).data().toString().toStdString();
  }
  /// Pictures in both palettes.
  void keepBoth(const QString& name) const {
    keepPicture(name);
    applyLook(*qApp, Look::dark);
    QTest::qWait(50);
    keepPicture(name + QStringLiteral("-dark"));
    applyLook(*qApp, Look::light);
  }
};

TEST_F(ReachWindow, ACertificatesValuesLeadToTheSameFlipsAsCoreAndToARound) {
  ASSERT_NO_FATAL_FAILURE(open());
  EXPECT_EQ(screen()->standard(), "STD-1");
  keepBoth("reach-empty");
  ASSERT_NO_FATAL_FAILURE(choose("B-3"));
  EXPECT_EQ(named<QDateEdit>("Day it was found")->date(), QDate(2025, 11, 1));
  EXPECT_EQ(screen()->form()->table()->item(1, 3)->text(), "0.04");
  keepBoth("reach-found");
  ASSERT_NO_FATAL_FAILURE(askAndWait());
  ASSERT_TRUE(screen()->reach().has_value()) << screen()->form()->trouble().toStdString();
  EXPECT_EQ(screen()->step(), 1);

  const Reach core = reachOfStandard(session_->store(), "STD-1",
                                     findingOf(session_->site().standard("STD-1")->certificates[2]));
  ASSERT_EQ(core.calibrations.size(), 4U);
  ASSERT_EQ(core.flips(), 3U);
  EXPECT_EQ(screen()->reach()->flips(), core.flips());
  EXPECT_THAT(screen()->summary().toStdString(), HasSubstr("Last good certificate: G-2, valid from"));
  EXPECT_THAT(screen()->summary().toStdString(), HasSubstr("does not show yet what was found"));
  EXPECT_THAT(screen()->summary().toStdString(), HasSubstr("4 calibrations"));
  EXPECT_THAT(screen()->summary().toStdString(), HasSubstr("3 change verdict"));
  const TableView* table = screen()->calibrations();
  ASSERT_EQ(table->model()->rowCount(), 4);
  EXPECT_EQ(cell(table, 0, ReachedModel::kChannel), "TT-1");
  EXPECT_EQ(cell(table, 0, ReachedModel::kFound), "pass → fail");
  EXPECT_EQ(cell(table, 0, ReachedModel::kLeft), "as found");
  EXPECT_EQ(cell(table, 0, ReachedModel::kWas), "+0.100 °C");
  EXPECT_EQ(cell(table, 0, ReachedModel::kBecomes), "+0.350 °C");
  EXPECT_EQ(cell(table, 0, ReachedModel::kThen), "visit again");
  EXPECT_FALSE(table->model()->index(0, ReachedModel::kFound).data(Qt::DecorationRole).isNull()) << "a sign";
  EXPECT_EQ(cell(table, 1, ReachedModel::kFound), "pass");
  EXPECT_EQ(cell(table, 1, ReachedModel::kThen), "unchanged");
  EXPECT_EQ(cell(table, 2, ReachedModel::kFound), "fail → pass");
  EXPECT_EQ(cell(table, 3, ReachedModel::kLeft), "pass → fail");
  EXPECT_EQ(screen()->points()->model()->rowCount(), 10);
  EXPECT_EQ(cell(screen()->points(), 0, ReachedPointsModel::kVerdict), "pass → fail");
  keepBoth("reach-reached");
  auto* only = labelled<QCheckBox>(screen(), "Only those that change");
  only->setFocus();
  press(Qt::Key_Space);
  EXPECT_EQ(table->model()->rowCount(), 3);

  click(screen(), "What to do");
  EXPECT_EQ(screen()->step(), 2);
  ASSERT_EQ(screen()->visits()->model()->rowCount(), 2);
  EXPECT_EQ(cell(screen()->visits(), 0, ReachVisitsModel::kChannel), core.visits[0].channel);
  EXPECT_EQ(cell(screen()->visits(), 1, ReachVisitsModel::kChannel), core.visits[1].channel);
  keepBoth("reach-todo");
  auto* name = named<QLineEdit>("Name of the round");
  EXPECT_THAT(name->text().toStdString(), HasSubstr("STD-1"));
  name->clear();
  click(screen(), "Make a round");
  EXPECT_THAT(session_->store().rounds(), IsEmpty());
  EXPECT_EQ(window_->currentScreen(), screen());
  name->setFocus();
  type("after the fall");
  click(screen(), "Make a round");
  EXPECT_EQ(window_->currentScreen(), window_->roundsScreen());
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("\"after the fall\" holds the 2 channels"));
  const auto rounds = session_->store().rounds();
  ASSERT_EQ(rounds.size(), 1U);
  EXPECT_EQ(rounds[0].stops.size(), 2U);
  EXPECT_EQ(rounds[0].person, "tech");
  EXPECT_THAT(rounds[0].reason, HasSubstr("standard STD-1 was found out of tolerance"));
}

TEST_F(ReachWindow, WrongValuesAreRefusedWhereTheyStand) {
  ASSERT_NO_FATAL_FAILURE(open());
  ASSERT_NO_FATAL_FAILURE(askAndWait());
  EXPECT_EQ(screen()->step(), 0);
  EXPECT_THAT(screen()->form()->trouble().toStdString(),
              HasSubstr("Nothing says what the standard was found"));
  auto* table = screen()->form()->table();
  table->setPoints({{"mA", "", "4", "0.04", ""}, {"", "", "20", "much", ""}});
  auto* factor = named<QLineEdit>("Coverage factor k");
  factor->setText("0");
  click(screen(), "Show what it reached");
  EXPECT_THAT(screen()->form()->trouble().toStdString(), HasSubstr("coverage factor k is 0"));
  EXPECT_THAT(screen()->form()->trouble().toStdString(),
              HasSubstr("Line 2: The error \"much\" is not a number"));
  EXPECT_EQ(QApplication::focusWidget(), factor);
  EXPECT_EQ(table->currentRow(), 1);
  EXPECT_EQ(table->currentColumn(), 3);
  keepBoth("reach-refused");
  factor->setText("2");
  table->setPoints({{"bar", "", "4", "0.04", ""}});
  // The steps lead no further either.
  auto* steps = named<QTabBar>("Steps");
  steps->setFocus();
  press(Qt::Key_Right);
  EXPECT_EQ(screen()->step(), 0);
  EXPECT_THAT(screen()->form()->trouble().toStdString(),
              HasSubstr("Line 1: No certificate of STD-1 has a range in bar"));
  EXPECT_FALSE(screen()->reach().has_value());
}

TEST_F(ReachWindow, TypedValuesAreNotLostToACertificateOrAnotherPage) {
  ASSERT_NO_FATAL_FAILURE(open());
  screen()->form()->table()->setPoints({{"mA", "", "4", "0.04", ""}, {"", "", "20", "0.04", ""}});
  auto* box = named<QComboBox>("Certificate that reports it");
  box->setFocus();
  QTest::keyClick(box, Qt::Key_Down);
  EXPECT_THAT(asked_.join(u' ').toStdString(), HasSubstr("are replaced by those of certificate"));
  EXPECT_EQ(screen()->form()->table()->item(1, 2)->text(), "20") << "kept, as answered";
  window_->showReach(QStringLiteral("STD-2"));
  EXPECT_EQ(screen()->form()->table()->item(1, 2)->text(), "");
  window_->showReach(QStringLiteral("STD-1"));
  EXPECT_EQ(screen()->form()->table()->item(1, 2)->text(), "20");
}

TEST_F(ReachWindow, CancelledItIsSaidAndAskedAgain) {
  ASSERT_NO_FATAL_FAILURE(open());
  ASSERT_NO_FATAL_FAILURE(choose("B-3"));
  click(screen(), "Show what it reached");
  EXPECT_EQ(screen()->step(), 1);
  click(screen(), "Cancel");
  session_->worker().waitUntilIdle();
  EXPECT_EQ(screen()->step(), 0);
  EXPECT_FALSE(screen()->reach().has_value());
  EXPECT_THAT(screen()->form()->trouble().toStdString(), HasSubstr("not worked out to the end"));
  ASSERT_NO_FATAL_FAILURE(askAndWait());
  EXPECT_TRUE(screen()->reach().has_value());
  EXPECT_EQ(screen()->form()->trouble().toStdString(), "");
}

TEST_F(ReachWindow, AFileOfTheCommandIsReadAndTheListIsSaved) {
  ASSERT_NO_FATAL_FAILURE(open());
  const QString file = folder_.filePath("found.toml");
  QFile out(file);
  ASSERT_TRUE(out.open(QIODevice::WriteOnly));
  out.write(
      "found_on = 2025-11-01\nremark = \"knocked\"\nlast_good_certificate = \"G-1\"\n[[range]]\nunit = "
      "\"mA\"\n"
      "points = [{ nominal = 0, error = 0.04 }, { nominal = 24, error = 0.04 }]\n");
  out.close();
  screen()->form()->openFile(file);
  EXPECT_EQ(screen()->form()->trouble().toStdString(), "");
  EXPECT_EQ(named<QLineEdit>("Remark")->text(), "knocked");
  EXPECT_EQ(named<QComboBox>("Last good certificate")->currentData().toString(), "G-1");
  ASSERT_NO_FATAL_FAILURE(askAndWait());
  ASSERT_TRUE(screen()->reach().has_value());
  EXPECT_EQ(screen()->reach()->calibrations.size(), 5U) << "from the first certificate on";
  EXPECT_THAT(screen()->summary().toStdString(), HasSubstr("so it was decided"));
  const QString list = folder_.filePath("list.csv");
  screen()->writeList(list);
  QFile in(list);
  ASSERT_TRUE(in.open(QIODevice::ReadOnly));
  EXPECT_EQ(in.readAll().toStdString(), visitsCsv(*screen()->reach()));
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("list.csv"));
  screen()->form()->openFile(folder_.filePath("nowhere.toml"));
  EXPECT_THAT(screen()->form()->trouble().toStdString(), HasSubstr("nowhere.toml"));
}

TEST_F(ReachWindow, EnterOpensTheCalibrationAndTheStandardIsTakenOut) {
  ASSERT_NO_FATAL_FAILURE(open());
  ASSERT_NO_FATAL_FAILURE(choose("B-3"));
  ASSERT_NO_FATAL_FAILURE(askAndWait());
  press(Qt::Key_Down);
  press(Qt::Key_Return);
  EXPECT_EQ(window_->currentScreen(), window_->channelScreen());
  EXPECT_EQ(window_->channelScreen()->channel(), "PT-2");
  EXPECT_EQ(window_->channelScreen()->currentCalibration(),
            std::optional<CalibrationId>(screen()->reach()->calibrations[1].id));
  window_->showReach(QStringLiteral("STD-1"));
  EXPECT_EQ(screen()->step(), 1) << "as it was left";
  screen()->goToStep(2);
  click(screen(), "Take the standard out of service…");
  EXPECT_NE(dialog<DecideDialog>(), nullptr);
}

}  // namespace
}  // namespace spanwright
