// SPDX-License-Identifier: GPL-3.0-or-later
//
// Nothing typed is lost without a question, and a visit is never opened for a channel nobody chose.
#include <sys/resource.h>

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTableView>
#include <QTest>
#include <QTreeView>
#include <csignal>

#include "gui/actions/commands.h"
#include "gui/models/found_model.h"
#include "gui/models/sheet_model.h"
#include "gui/models/site_tree_model.h"
#include "gui/screens/certificate_screen.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/sheet_view.h"
#include "gui/screens/site_screen.h"
#include "gui/screens/table_view.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

class Care : public GuiTest {
 protected:
  void begin(bool confirm = true) {
    openWindow();
    window_->showVisit("TT-1", Subject::channel);
    ASSERT_TRUE(screen().entry().isOpen());
    if (confirm) {
      press(Qt::Key_Space);
      ASSERT_TRUE(screen().entry().draft().cautionsConfirmed);
    }
  }
  void typeValues(const QStringList& values) {
    for (const QString& value : values) {
      type(value);
      press(Qt::Key_Return);
    }
  }
  /// While it lives, no file of this process can be written to, as on a full disk.
  class FullDisk {
   public:
    FullDisk() {
      before_ = std::signal(SIGXFSZ, SIG_IGN);  // the write is to fail, not the program
      getrlimit(RLIMIT_FSIZE, &limit_);
      const rlimit none{0, limit_.rlim_max};
      setrlimit(RLIMIT_FSIZE, &none);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;
    ~FullDisk() {
      setrlimit(RLIMIT_FSIZE, &limit_);
      std::signal(SIGXFSZ, before_);
    }

   private:
    rlimit limit_{};
    void (*before_)(int) = nullptr;
  };
  /// A check box reached by its letter is clicked after a moment.
  void pressConfirm() {
    press(Qt::Key_P, Qt::AltModifier);
    QTest::qWait(250);
  }
  QPushButton* button(const QString& text) const {
    for (auto* each : window_->findChildren<QPushButton*>()) {
      if (each->text() == text) {
        return each;
      }
    }
    return nullptr;
  }
  /// Makes the problem with these words current and presses Enter on it.
  void enterOnProblem(const QString& words) {
    QListWidget* problems = screen().problems();
    ASSERT_TRUE(problems->isVisible());
    QString all;
    for (int i = 0; i < problems->count(); ++i) {
      all += problems->item(i)->text() + '\n';
      if (problems->item(i)->text().contains(words)) {
        problems->setFocus();
        problems->setCurrentRow(i);
        press(Qt::Key_Return);
        return;
      }
    }
    FAIL() << "no problem says " << words.toStdString() << " in\n" << all.toStdString();
  }
  VisitScreen& screen() const { return *window_->visitScreen(); }
};

TEST_F(Care, QuittingWithValuesNotOnDiskAsksAndStays) {
  makeRecord();
  begin();
  {
    const FullDisk full;
    typeValues({"0.02", "25.01"});
    press(Qt::Key_Q, Qt::ControlModifier);
    EXPECT_TRUE(window_->isVisible());
    ASSERT_EQ(asked_.size(), 1);
    EXPECT_TRUE(asked_.first().contains("2 values")) << asked_.first().toStdString();
    EXPECT_TRUE(asked_.first().contains("TT-1")) << asked_.first().toStdString();
    EXPECT_TRUE(screen().entry().isOpen());
  }
  press(Qt::Key_Q, Qt::ControlModifier);  // now they can be written
  EXPECT_FALSE(window_->isVisible());
  EXPECT_EQ(asked_.size(), 1);
  const auto drafts = session_->store().drafts();
  ASSERT_EQ(drafts.size(), 1U);
  EXPECT_EQ(drafts.front().values.size(), 2U);
}

TEST_F(Care, LeavingTheVisitWithValuesNotOnDiskAsksAndDoesAsAnswered) {
  makeRecord();
  begin();
  const FullDisk full;
  typeValues({"0.02"});
  press(Qt::Key_1, Qt::ControlModifier);
  EXPECT_EQ(window_->currentScreen(), window_->visitScreen());
  ASSERT_EQ(asked_.size(), 1);
  EXPECT_TRUE(asked_.first().contains("1 value of")) << asked_.first().toStdString();
  button("Leave, keep draft")->click();
  EXPECT_EQ(window_->currentScreen(), window_->visitScreen());
  EXPECT_EQ(asked_.size(), 2);
  EXPECT_EQ(screen().entry().typed(Phase::asFound, 0).toStdString(), "0.02");
  answer_ = true;
  press(Qt::Key_1, Qt::ControlModifier);
  EXPECT_EQ(window_->currentScreen(), window_->siteScreen());
  EXPECT_EQ(asked_.size(), 3);
  EXPECT_FALSE(screen().entry().isOpen());
}

TEST_F(Care, DiscardingADraftSaysWhatIsLostAndAsks) {
  makeRecord();
  begin();
  typeValues({"0.02", "25.01", "50.00"});
  button("Discard draft")->click();
  ASSERT_EQ(asked_.size(), 1);
  EXPECT_TRUE(asked_.first().contains("3 values of TT-1")) << asked_.first().toStdString();
  EXPECT_EQ(session_->store().drafts().size(), 1U);
  EXPECT_EQ(window_->currentScreen(), window_->visitScreen());
  answer_ = true;
  button("Discard draft")->click();
  EXPECT_TRUE(session_->store().drafts().empty());
  EXPECT_NE(window_->currentScreen(), window_->visitScreen());
}

TEST_F(Care, TheOfferedDraftIsNotDiscardedWithoutAQuestion) {
  makeRecord();
  begin();
  typeValues({"0.02", "25.01"});
  button("Leave, keep draft")->click();
  button("Discard it")->click();
  ASSERT_EQ(asked_.size(), 1);
  EXPECT_TRUE(asked_.first().contains("2 values of TT-1")) << asked_.first().toStdString();
  EXPECT_EQ(session_->store().drafts().size(), 1U);
}

TEST_F(Care, AVisitFromTheNarrowedListIsToTheOneChannelLeft) {
  for (const QString tag : {"TT-1", "PT-2", "XS-3"}) {
    QFile::remove(recordFile());
    makeRecord();
    openWindow();
    press(Qt::Key_F, Qt::ControlModifier);
    type(tag);
    press(Qt::Key_N, Qt::ControlModifier);
    ASSERT_TRUE(screen().entry().isOpen()) << tag.toStdString();
    EXPECT_EQ(screen().entry().draft().channel, tag.toStdString());
    closeWindow();
  }
}

TEST_F(Care, AChannelHiddenByNarrowingIsNotSilentlyReplacedByItsNeighbour) {
  makeRecord();
  openWindow();
  auto* tree = named<QTreeView>("Places and channels");
  press(Qt::Key_F, Qt::ControlModifier);
  type("XS-3");
  EXPECT_EQ(window_->siteScreen()->currentChannel().toStdString(), "XS-3");
  auto* words = named<QLineEdit>("Find a channel");
  words->selectAll();
  type("temperature");  // TT-1 and PT-2, both
  EXPECT_EQ(window_->siteScreen()->currentChannel().toStdString(), "");
  press(Qt::Key_N, Qt::ControlModifier);
  EXPECT_EQ(window_->currentScreen(), window_->visitScreen());
  EXPECT_FALSE(screen().entry().isOpen());
  auto* channel = qobject_cast<QComboBox*>(QApplication::focusWidget());
  ASSERT_NE(channel, nullptr);
  EXPECT_EQ(channel->currentIndex(), -1);
  type("jacket");
  press(Qt::Key_Return);
  ASSERT_TRUE(screen().entry().isOpen());
  EXPECT_EQ(screen().entry().draft().channel, "PT-2");
  EXPECT_TRUE(tree->isEnabled());
}

TEST_F(Care, EnterAndDownInTheFindBoxReachTheList) {
  makeRecord();
  openWindow();
  auto* list = named<TableView>("Channels found");
  press(Qt::Key_F, Qt::ControlModifier);
  type("temperature");
  EXPECT_EQ(window_->siteScreen()->currentChannel().toStdString(), "") << "nobody chose one of the two";
  press(Qt::Key_Down);
  EXPECT_TRUE(list->hasFocus());
  EXPECT_EQ(window_->siteScreen()->currentChannel().toStdString(), "PT-2");
  press(Qt::Key_Down);
  EXPECT_EQ(window_->siteScreen()->currentChannel().toStdString(), "TT-1");
  press(Qt::Key_F, Qt::ControlModifier);
  press(Qt::Key_Return);
  EXPECT_TRUE(list->hasFocus());
  EXPECT_EQ(window_->currentScreen(), window_->siteScreen());
  press(Qt::Key_F, Qt::ControlModifier);
  type("PT-2");
  press(Qt::Key_Return);
  EXPECT_EQ(window_->currentScreen(), window_->channelScreen());
  EXPECT_EQ(window_->channelScreen()->channel().toStdString(), "PT-2");
}

TEST_F(Care, PlacesCountTheirChannels) {
  makeRecord();
  openWindow();
  window_->showSite();
  const auto* shown = named<QTreeView>("Places and channels")->model();
  const auto hall = [&](int column) { return shown->index(0, column).data().toString().toStdString(); };
  EXPECT_EQ(hall(SiteTreeModel::kTitle), "3 channels");
  EXPECT_EQ(hall(SiteTreeModel::kState), "3 × Unproven");
}

TEST_F(Care, AChannelIsFoundByTheSerialNumberOfItsSensor) {
  Register site = smallSite();
  SensorRange range;
  range.process = {0.0, 100.0, Unit::celsius};
  range.output = Span{4.0, 20.0, Unit::milliampere};
  site.sensors.push_back({"TX-0815", "Invented", "head transmitter", "", range});
  site.channels[1].fittings.push_back({"TX-0815", *parseMoment("2015-06-01T08:00"), {}});
  makeRecord({}, site);
  openWindow();
  press(Qt::Key_F, Qt::ControlModifier);
  type("tx-08");
  auto* list = named<TableView>("Channels found");
  ASSERT_EQ(list->model()->rowCount(), 1);
  EXPECT_TRUE(list->isVisible());
  EXPECT_EQ(list->model()->index(0, FoundModel::kSensors).data().toString().toStdString(), "TX-0815");
  keepPicture("found");
  press(Qt::Key_Return);
  EXPECT_EQ(window_->channelScreen()->channel().toStdString(), "PT-2");
  window_->showSite();
  named<QLineEdit>("Find a channel")->clear();
  EXPECT_TRUE(named<QTreeView>("Places and channels")->isVisible()) << "with nothing typed the tree is back";
}

TEST_F(Care, FindingSaysHowManyMatchAndThatNothingDoes) {
  makeRecord();
  openWindow();
  press(Qt::Key_F, Qt::ControlModifier);
  const auto says = [this](const QString& text) {
    for (const auto* label : window_->siteScreen()->findChildren<QLabel*>()) {
      if (label->isVisible() && label->text() == text) {
        return true;
      }
    }
    return false;
  };
  type("t");
  EXPECT_TRUE(says("4 channels found"));
  type("zz");
  EXPECT_TRUE(says("0 channels found"));
  press(Qt::Key_Return);
  EXPECT_EQ(window_->currentScreen(), window_->siteScreen());
}

TEST_F(Care, EnterOnAProblemGoesToWhatItIsAbout) {
  makeRecord();
  begin();
  typeValues({"0.01", "25.00", "50.00", "75.00", "100.00", "100.00", "75.00", "50.00", "25.00"});
  auto* when = screen().findChild<QDateTimeEdit*>();
  when->setFocus();
  when->setDateTime(QDateTime(QDate(2027, 3, 1), QTime(9, 0)));
  press(Qt::Key_Return);
  ASSERT_TRUE(screen().entry().isOpen());
  auto* standards = named<QListWidget>("Standards used");
  standards->item(0)->setCheckState(Qt::Unchecked);
  auto* done = named<QComboBox>("What was done to it");
  done->setFocus();
  press(Qt::Key_Down);  // adjusted, yet nothing as left
  press(Qt::Key_Return, Qt::ControlModifier);

  enterOnProblem("tandard is named");
  EXPECT_EQ(QApplication::focusWidget(), standards);
  enterOnProblem("future");
  EXPECT_EQ(QApplication::focusWidget(), when);
  enterOnProblem("was adjusted");
  EXPECT_EQ(QApplication::focusWidget(), done);
}

TEST_F(Care, EnterOnAProblemOfAReadingScrollsItIntoView) {
  makeRecord();
  begin();
  typeValues({"0.01", "25.00", "50.00", "75.00", "100.00", "100.00", "75.00", "50.00", "25.00", "1..2"});
  press(Qt::Key_Return, Qt::ControlModifier);
  screen().sheetView()->scrollToTop();
  enterOnProblem("1..2");
  const QModelIndex cell = screen().sheetModel()->index(9, SheetModel::kFound);
  EXPECT_EQ(screen().sheetView()->currentIndex(), cell);
  EXPECT_TRUE(
      screen().sheetView()->viewport()->rect().contains(screen().sheetView()->visualRect(cell).center()));
}

TEST_F(Care, AStandardIsTickedByKeys) {
  makeRecord();
  begin(false);
  auto* standards = named<QListWidget>("Standards used");
  standards->item(0)->setCheckState(Qt::Unchecked);
  ASSERT_TRUE(screen().entry().draft().standards.empty());
  pressConfirm();
  EXPECT_TRUE(screen().sentence().contains("Alt+T")) << screen().sentence().toStdString();
  press(Qt::Key_T, Qt::AltModifier);
  ASSERT_EQ(QApplication::focusWidget(), standards);
  press(Qt::Key_Space);
  EXPECT_EQ(screen().entry().draft().standards.size(), 1U);
  press(Qt::Key_Space);
  EXPECT_TRUE(screen().entry().draft().standards.empty());
  EXPECT_TRUE(keysPage().contains("Alt+T"));
}

TEST_F(Care, TheEndNamesThePointsStillEmpty) {
  makeRecord();
  begin();
  typeValues({"0.01", "25.00", "50.00", "75.00", "100.00", "100.00", "75.00", "50.00", "25.00", "0.00"});
  typeValues({"0.01", "", "50.00", "75.00", "100.00", "100.00", "75.00", "50.00", "25.00", ""});
  const QString said = screen().sentence();
  EXPECT_FALSE(said.contains("last value")) << said.toStdString();
  const auto label = [this](int row) {
    return screen().sheetModel()->index(row, SheetModel::kPoint).data().toString();
  };
  EXPECT_TRUE(said.contains("as left " + label(1))) << said.toStdString();
  EXPECT_TRUE(said.contains("as left " + label(9))) << said.toStdString();
  EXPECT_FALSE(said.contains("as found")) << said.toStdString();
  type("0.00");
  press(Qt::Key_Return);
  press(Qt::Key_Up);
  screen().sheetView()->goTo(screen().sheetModel()->index(1, SheetModel::kLeft));
  type("25.00");
  press(Qt::Key_Return);
  screen().sheetView()->goTo(screen().sheetModel()->index(9, SheetModel::kLeft));
  press(Qt::Key_Return);
  EXPECT_TRUE(screen().sentence().contains("last value")) << screen().sentence().toStdString();
}

TEST_F(Care, ASecondKeyDoesNotTakeTheConfirmationBackInMidVisit) {
  makeRecord();
  begin(false);
  pressConfirm();
  EXPECT_TRUE(screen().entry().draft().cautionsConfirmed);
  pressConfirm();  // nothing stands on it yet
  EXPECT_FALSE(screen().entry().draft().cautionsConfirmed);
  pressConfirm();
  typeValues({"0.01"});
  pressConfirm();
  EXPECT_TRUE(screen().entry().draft().cautionsConfirmed);
  EXPECT_TRUE(screen().cautions()->isChecked());
  EXPECT_TRUE(screen().sentence().contains("stay confirmed")) << screen().sentence().toStdString();
}

TEST_F(Care, TheCallForTheCautionsGoesOnceTheyAreConfirmed) {
  makeRecord();
  begin(false);
  screen().sheetView()->setFocus();
  type("5");
  ASSERT_TRUE(screen().sentence().contains("Confirm the cautions first"));
  press(Qt::Key_Space);
  ASSERT_TRUE(screen().entry().draft().cautionsConfirmed);
  EXPECT_FALSE(screen().sentence().contains("Confirm")) << screen().sentence().toStdString();
}

TEST_F(Care, APdfIsNamedByTheCertificatesNumber) {
  ProposedVisit visit = visitTo("TT-1", "2026-11-20T09:00:00", 0.1);
  visit.conditions = {21.0, 45.0, ""};
  makeRecord({visit});
  openWindow();
  window_->showChannel("TT-1");
  window_->showCertificate(*window_->channelScreen()->currentCalibration());
  ASSERT_EQ(window_->certificateScreen()->issueTo(folder_.filePath("first.pdf")).toStdString(), "");
  const auto issued = session_->store().issuedCertificate(1);
  ASSERT_TRUE(issued.has_value());
  EXPECT_EQ(window_->certificateScreen()->suggestedName().toStdString(), issued->number + ".pdf");
}

TEST_F(Care, TheChannelPageShowsTheSubjectJustStored) {
  Register site = smallSite();
  Sensor sensor;
  sensor.serial = "TX-1";
  sensor.description = "transmitter";
  sensor.range.process = {0.0, 100.0, Unit::celsius};
  sensor.range.output = Span{4.0, 20.0, Unit::milliampere};
  site.sensors.push_back(sensor);
  site.channels[0].fittings = {{"TX-1", *parseMoment("2015-06-01T08:00:00"), std::nullopt}};
  site.channels[0].routines = {{Subject::loop, "FIVE", "yearly"}, {Subject::channel, "FIVE", "yearly"}};
  Standard bath = site.standards[0];
  bath.serial = "STD-9";
  bath.certificates[0].ranges = {{Unit::celsius, 0.001, {{-20.0, 0.01, 0.02}, {150.0, 0.01, 0.02}}}};
  site.standards.push_back(bath);
  site.index();
  // The loop drifts out soon, so that its point would be shown by itself.
  std::vector<ProposedVisit> visits;
  for (const auto& [day, found] : {std::pair{"2023-11-20T09:00:00", 0.02},
                                   {"2024-11-20T09:00:00", 0.09},
                                   {"2025-11-20T09:00:00", 0.17}}) {
    ProposedVisit visit = visitTo("TT-1", day, found);
    visit.subject = Subject::loop;
    visit.standards = {"STD-9"};
    visits.push_back(visit);
  }
  makeRecord(visits, site);
  begin();
  typeValues({"0.01", "25.00", "50.00", "75.00", "100.00", "100.00", "75.00", "50.00", "25.00", "0.00"});
  press(Qt::Key_Return, Qt::ControlModifier);
  ASSERT_EQ(window_->currentScreen(), window_->channelScreen()) << screen().sentence().toStdString();
  session_->worker().waitUntilIdle();
  EXPECT_TRUE(window_->channelScreen()->shownPoint().startsWith("Channel, 0"))
      << window_->channelScreen()->shownPoint().toStdString();
  const auto* table = named<QTableView>("Calibrations");
  EXPECT_EQ(table->model()->headerData(0, Qt::Horizontal).toString().toStdString(), "No.");
  EXPECT_EQ(table->model()->index(0, 0).data().toString().toStdString(), "4");
}

}  // namespace
}  // namespace spanwright
