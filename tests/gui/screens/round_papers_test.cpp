// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a round leaves on paper: its sheet, its certificates issued together, its labels.
#include <QDoubleSpinBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QTableView>

#include "core/tasks/rounds.h"
#include "gui/screens/certificate_folder.h"
#include "gui/screens/certificates_dialog.h"
#include "gui/screens/labels_dialog.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/rounds_screen.h"
#include "gui/session/session.h"
#include "gui/settings/settings.h"
#include "tests/gui/screens/places_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

class RoundPapers : public DialogTest {
 protected:
  /// A round of all three channels, of which the first two are done.
  void openRound() {
    makeRecord();
    openWindow();
    makeRound(session_->store(),
              {"Monday",
               "tech",
               std::nullopt,
               {{"TT-1", Subject::channel}, {"PT-2", Subject::channel}, {"XS-3", Subject::channel}}});
    enterVisit(session_->store(), visitTo("TT-1", "2026-11-25T09:00:00", 0.1), clock_.localNow());
    enterVisit(session_->store(), visitTo("PT-2", "2026-11-25T09:30:00", 0.5), clock_.localNow());
    window_->showRounds();
  }
  void click(const QString& text) { labelled<QPushButton>(window_->roundsScreen(), text)->click(); }
  template <typename Dialog>
  Dialog* opened(const QString& button) {
    click(button);
    auto* made = dialog<Dialog>();
    EXPECT_NE(made, nullptr);
    EXPECT_TRUE(makeActive(made));
    return made;
  }
  std::string news() const { return window_->bar()->sentence().toStdString(); }
  static std::string cell(const QWidget* dialog, const QString& table, int row, int column) {
    return part<QTableView>(dialog, table)->model()->index(row, column).data().toString().toStdString();
  }
  QStringList files() const {
    return QDir(folder_.path()).entryList({"*.pdf", ".certificates*"}, QDir::AllEntries | QDir::Hidden);
  }
};

TEST_F(RoundPapers, CertificatesAreForeseenAndIssuedTogether) {
  openRound();
  auto* form = opened<CertificatesDialog>("Certificates…");
  const QString table = "Certificates of the round";
  EXPECT_EQ(cell(form, table, 0, CertificatesModel::kDeed), "new number");
  EXPECT_EQ(cell(form, table, 0, CertificatesModel::kWhy),
            "It is recorded, not approved, and will be marked so.");
  EXPECT_EQ(cell(form, table, 2, CertificatesModel::kDeed), "not issued");
  EXPECT_EQ(cell(form, table, 2, CertificatesModel::kWhy), "It is not calibrated yet.");
  EXPECT_EQ(part<QLabel>(form, "What will be issued")->text(),
            "2 certificates will be issued, all of them or none; 1 stop is left out.");
  keepLooks(form, "round-certificates");
  form->setFolder(folder_.path());
  labelled<QPushButton>(form, "Issue")->click();
  ASSERT_TRUE(gone<CertificatesDialog>());
  EXPECT_THAT(news(), StartsWith("2 certificates are issued in "));
  EXPECT_EQ(files(), (QStringList{"SMALL-2026-0001.pdf", "SMALL-2026-0002.pdf"}));
  form = opened<CertificatesDialog>("Certificates…");
  EXPECT_EQ(cell(form, table, 0, CertificatesModel::kDeed), "SMALL-2026-0001 again");
}

TEST_F(RoundPapers, AFolderThatIsNotThereIssuesNothing) {
  openRound();
  auto* form = opened<CertificatesDialog>("Certificates…");
  form->setFolder(QString());
  form->issue();
  EXPECT_EQ(form->trouble(), "Say into which folder the certificates go.");
  form->setFolder(folder_.filePath("nowhere"));
  form->issue();
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("choose another folder"));
  EXPECT_FALSE(session_->store().issuedCertificate(1));
}

TEST_F(RoundPapers, WhatIsStoppedOnTheWayLeavesNothing) {
  openRound();
  const auto stopped = issueIntoFolder(session_->store(), {1, 2}, folder_.path(), Paper::a4,
                                       [](int done) { return done < 2; });
  EXPECT_EQ(stopped.trouble, "");
  EXPECT_TRUE(stopped.files.isEmpty());
  EXPECT_FALSE(session_->store().issuedCertificate(1)) << "its page was drawn already";
  EXPECT_EQ(files(), QStringList());
}

TEST_F(RoundPapers, LabelsAreOfWhatIsProven) {
  openRound();
  auto* form = opened<LabelsDialog>("Labels…");
  EXPECT_EQ(cell(form, "Labels", 0, LabelsModel::kCalibrated), "2026-11-25");
  EXPECT_THAT(cell(form, "Labels", 1, LabelsModel::kWhy), HasSubstr("did not pass as left"));
  EXPECT_EQ(cell(form, "Labels", 2, LabelsModel::kWhy), "It has no calibration yet.");
  EXPECT_EQ(part<QLabel>(form, "Places on a sheet")->text(), "27 labels on a sheet of A4");
  EXPECT_THAT(part<QLabel>(form, "What is on the labels")->text().toStdString(),
              HasSubstr("The due date is left out"));
  keepLooks(form, "round-labels");
  const QString file = folder_.filePath("labels.pdf");
  part<QSpinBox>(form, "First free label")->setValue(28);
  form->writeTo(file);
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("The first free label must be between 1 and 27"));
  EXPECT_FALSE(QFile::exists(file));
  part<QSpinBox>(form, "First free label")->setValue(5);
  part<QDoubleSpinBox>(form, "Height")->setValue(32.0);
  form->writeTo(file);
  ASSERT_TRUE(gone<LabelsDialog>());
  EXPECT_THAT(news(), StartsWith("1 label written to "));
  EXPECT_TRUE(QFile::exists(file));
  EXPECT_EQ(kLabelHeight.get(), 32.0) << "the sheet's measures are kept";
}

TEST_F(RoundPapers, AChannelHasItsLabelsByKey) {
  openRound();
  window_->showChannel("TT-1");
  QTest::keyClick(window_.get(), Qt::Key_L, Qt::ControlModifier);
  auto* form = dialog<LabelsDialog>();
  ASSERT_NE(form, nullptr);
  EXPECT_EQ(cell(form, "Labels", 0, LabelsModel::kChannel), "TT-1");
}

TEST_F(RoundPapers, TheSheetIsOfWhatIsStillToDo) {
  openRound();
  const QString file = folder_.filePath("sheet.pdf");
  window_->roundsScreen()->writeSheetTo(file);
  EXPECT_THAT(news(), StartsWith("The sheet with 1 page is written to "));
  EXPECT_TRUE(QFile::exists(file));
  keepPicture("rounds-papers");
}

}  // namespace
}  // namespace spanwright
