// SPDX-License-Identifier: GPL-3.0-or-later
//
// A technician's day: a round past seven channels of seven kinds, from the list on Today to signed visits, a
// label and a closed round. The round is interrupted once, as rounds are.
#include <QCheckBox>
#include <QFile>
#include <QListWidget>

#include "core/tasks/rounds.h"
#include "gui/models/rounds_model.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/labels_dialog.h"
#include "gui/screens/rounds_screen.h"
#include "tests/gui/days/day_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

const QString kPassphrase = "a kettle of fish";

class TechnicianDay : public DayTest {
 protected:
  /// The sheet of the round's next channel, ready to be typed into.
  void next(const char* tag) {
    ASSERT_NO_FATAL_FAILURE(key(Qt::Key_F8));
    ASSERT_EQ(window_->currentScreen(), &sheet()) << news();
    ASSERT_EQ(sheet().entry().draft().channel, tag);
    ASSERT_TRUE(sheet().cautions()->hasFocus()) << "nothing before the cautions";
    ASSERT_NO_FATAL_FAILURE(press(Qt::Key_Space));
    ASSERT_TRUE(sheet().sheetView()->hasFocus());
  }
  void fill(const QString& box, const QString& text) {
    auto* edit = named<QLineEdit>(box);
    ASSERT_TRUE(edit != nullptr && edit->isVisible()) << box.toStdString();
    edit->setFocus();
    type(text);
    press(Qt::Key_Return);
  }
  /// Every number of the sheet can be read whole.
  void expectNothingCut() const {
    const auto* view = sheet().sheetView();
    const auto* model = sheet().sheetModel();
    constexpr int kEdges = 7;  // a cell's own margins and its grid line
    for (int row = 0; row < model->rowCount(); ++row) {
      for (int column = 0; column < SheetModel::kColumnCount; ++column) {
        const QString text = model->index(row, column).data().toString();
        EXPECT_LE(view->fontMetrics().horizontalAdvance(text) + kEdges, view->columnWidth(column))
            << text.toStdString() << " in column " << column;
      }
    }
  }
  void conditions() {
    ASSERT_NO_FATAL_FAILURE(fill("Ambient temperature in °C", "20,5"));
    ASSERT_NO_FATAL_FAILURE(fill("Relative humidity in percent", "45"));
    sheet().sheetView()->setFocus();
  }
  /// Stores the visit and signs it; the calibration as it stands on disk.
  void finish(Calibration& stored) {
    const std::string tag = sheet().entry().draft().channel;
    ASSERT_NO_FATAL_FAILURE(press(Qt::Key_Return, Qt::ControlModifier));
    std::string problems;
    for (int row = 0; sheet().problems()->isVisible() && row < sheet().problems()->count(); ++row) {
      problems += sheet().problems()->item(row)->text().toStdString() + '\n';
    }
    ASSERT_EQ(window_->currentScreen(), window_->channelScreen())
        << problems << sheet().sentence().toStdString();
    ASSERT_NO_FATAL_FAILURE(sign(kTechnician, kPassphrase, "Sign as performed"));
    const Store read = Store::open(recordFile().toStdString(), Store::Mode::readOnly);
    const auto history = read.history(tag);
    ASSERT_FALSE(history.empty());
    stored = history.back();
    EXPECT_EQ(stored.person, kTechnician);
    EXPECT_TRUE(stored.cautionsConfirmed);
    EXPECT_EQ(read.state(stored.id), LifeState::performed);
  }
};

TEST_F(TechnicianDay, ARoundOfSevenKindsFromTodayToTheLabels) {
  ASSERT_NO_FATAL_FAILURE(openSite());
  ASSERT_NO_FATAL_FAILURE(workAs(kTechnician));
  std::vector<RoundStop> stops;
  for (const char* tag : {"FT-8", "XV-7", "TV-6", "LS-5", "TE-4", "TE-3", "PT-2"}) {
    stops.push_back({tag, Subject::channel});
  }
  makeRound(session_->store(), {"Station 1", kTechnician, std::nullopt, stops});
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_0, Qt::ControlModifier));
  ASSERT_NO_FATAL_FAILURE(enterOn(todays("Rounds to walk", "Station 1")));
  ASSERT_EQ(window_->currentScreen(), window_->roundsScreen());
  Calibration done;

  // A raw reading of 12 bits, in counts; the sheet says what to expect for each voltage.
  ASSERT_NO_FATAL_FAILURE(next("PT-2"));
  EXPECT_EQ(shown(1, SheetModel::kApplied), "5.000");
  EXPECT_EQ(shown(1, SheetModel::kPrevious), "15996") << "as the visit before left it";
  ASSERT_NO_FATAL_FAILURE(conditions());
  ASSERT_NO_FATAL_FAILURE(typeValues({"8", "16000", "31984", "31992", "16008", "8"}));
  ASSERT_NO_FATAL_FAILURE(finish(done));
  EXPECT_EQ(done.foundVerdict, Verdict::pass);
  EXPECT_EQ(done.asFound[1].indicated, 16000.0);

  // A resistance thermometer; one point cannot be taken, and the lamp of the day goes out: the window closes.
  ASSERT_NO_FATAL_FAILURE(next("TE-3"));
  ASSERT_NO_FATAL_FAILURE(typeValues({"0.1", "50.0"}));
  closeWindow();
  ASSERT_NO_FATAL_FAILURE(openWindow());
  EXPECT_EQ(window_->currentScreen(), window_->todayScreen());
  ASSERT_NO_FATAL_FAILURE(enterOn(todays("Drafts to finish", "TE-3")));
  ASSERT_EQ(window_->currentScreen(), &sheet());
  EXPECT_EQ(shown(1, SheetModel::kFound), "50.0");
  ASSERT_TRUE(sheet().sheetView()->hasFocus());
  ASSERT_NO_FATAL_FAILURE(press(Qt::Key_K, Qt::ControlModifier));
  ASSERT_NO_FATAL_FAILURE(typeValues({"mash tun in use"}));
  ASSERT_NO_FATAL_FAILURE(finish(done));
  EXPECT_EQ(done.asFound[2].skipReason, "mash tun in use");

  // A thermocouple fed with millivolts through copper leads at a bench of 25 degC: 0 and 400 degC of type K
  // are 0.000 and 16.397 mV, less the 1.000 mV of the bench (thermocouple_emf_table.csv).
  ASSERT_NO_FATAL_FAILURE(next("TE-4"));
  ASSERT_NO_FATAL_FAILURE(fill("Reference junction in °C", "25"));
  sheet().sheetView()->goTo(sheet().sheetModel()->index(0, SheetModel::kApplied));
  ASSERT_NO_FATAL_FAILURE(typeValues({"-1.000 mV", "0.1"}));
  ASSERT_NO_FATAL_FAILURE(typeValues({"199.9"}));
  sheet().sheetView()->goTo(sheet().sheetModel()->index(2, SheetModel::kApplied));
  ASSERT_NO_FATAL_FAILURE(typeValues({"15.397 mV", "400.3"}));
  ASSERT_NO_FATAL_FAILURE(finish(done));
  EXPECT_NEAR(done.asFound[2].applied, 400.0, 0.02);
  EXPECT_EQ(done.conditions.referenceJunction, 25.0);
  EXPECT_EQ(done.foundVerdict, Verdict::pass);

  // The level at which an input turns on, then the one at which it turns off.
  ASSERT_NO_FATAL_FAILURE(next("LS-5"));
  ASSERT_EQ(sheet().sheetModel()->rowCount(), 2);
  ASSERT_NO_FATAL_FAILURE(typeValues({"14.92", "6.81"}));
  ASSERT_NO_FATAL_FAILURE(finish(done));
  EXPECT_EQ(done.asFound[0].point.role, PointRole::switchOn);
  EXPECT_NEAR(done.asFound[1].error(), -0.19, 1e-9);

  // An output: commanded in percent, measured in mA.
  ASSERT_NO_FATAL_FAILURE(next("TV-6"));
  ASSERT_NO_FATAL_FAILURE(typeValues({"3.99", "11.99", "19.98"}));
  ASSERT_NO_FATAL_FAILURE(finish(done));
  EXPECT_EQ(done.asFound[2].point.readingUnit, Unit::milliampere);
  EXPECT_NEAR(done.asFound[2].error(), -0.02, 1e-9);

  // On and off under load, in volts at the load.
  ASSERT_NO_FATAL_FAILURE(next("XV-7"));
  ASSERT_NO_FATAL_FAILURE(typeValues({"23.5", "0.1"}));
  ASSERT_NO_FATAL_FAILURE(finish(done));
  EXPECT_EQ(done.foundVerdict, Verdict::pass);

  // The one with the new meter is out, is adjusted as the sheet advises, and left in.
  ASSERT_NO_FATAL_FAILURE(next("FT-8"));
  EXPECT_EQ(shown(0, SheetModel::kPrevious), "") << "nothing before under this setup";
  ASSERT_NO_FATAL_FAILURE(conditions());
  ASSERT_NO_FATAL_FAILURE(typeValues({"0.030", "4.030", "8.030", "8.030", "4.030", "0.030"}));
  EXPECT_THAT(sheet().sentence().toStdString(), HasSubstr("Shift zero by -0.030"));
  expectNothingCut();
  keepPicture("day-advice");
  ASSERT_NO_FATAL_FAILURE(typeValues({"0.001", "4.000", "8.001", "8.001", "4.001", "0.001"}));
  auto* what = named<QComboBox>("What was done to it");
  what->setFocus();
  press(Qt::Key_Down);
  ASSERT_NO_FATAL_FAILURE(fill("What was adjusted or repaired", "zero of the input"));
  ASSERT_NO_FATAL_FAILURE(finish(done));
  EXPECT_EQ(done.foundVerdict, Verdict::fail);
  EXPECT_EQ(done.leftVerdict, Verdict::pass);
  EXPECT_EQ(done.adjustment.text, "zero of the input");

  // Nothing is left to do; the labels of what is proven; the round is closed without a question.
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_F8));
  EXPECT_THAT(news(), HasSubstr("Every stop of \"Station 1\" is done"));
  ASSERT_NO_FATAL_FAILURE(key(Qt::Key_8, Qt::ControlModifier));
  const auto* rounds = named<QTableView>("Rounds")->model();
  EXPECT_EQ(rounds->index(0, RoundsModel::kDone).data().toString(), "7 of 7");
  ASSERT_NO_FATAL_FAILURE(click(window_->roundsScreen(), "Labels…"));
  auto* labels = dialog<LabelsDialog>();
  ASSERT_NE(labels, nullptr);
  const QString paper = folder_.filePath("labels.pdf");
  labels->writeTo(paper);
  ASSERT_TRUE(gone<LabelsDialog>());
  EXPECT_THAT(news(), HasSubstr("7 labels written to"));
  EXPECT_TRUE(QFile::exists(paper));
  asked_.clear();
  ASSERT_NO_FATAL_FAILURE(click(window_->roundsScreen(), "Close round"));
  EXPECT_TRUE(asked_.isEmpty()) << asked_.join(u' ').toStdString();
  ASSERT_NO_FATAL_FAILURE(workAs(kTechnician));
  EXPECT_FALSE(todays("Rounds to walk", "Station 1").isValid());
  EXPECT_FALSE(todays("Unproven", "FT-8").isValid());
  EXPECT_FALSE(todays("To sign", "PT-2").isValid());
  keepPicture("day-evening");
}

}  // namespace
}  // namespace spanwright
