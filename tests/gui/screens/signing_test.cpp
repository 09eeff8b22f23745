// SPDX-License-Identifier: GPL-3.0-or-later
//
// Signing in the window: who may, with which passphrase, and what waits for whom.
#include "core/tasks/signing.h"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>
#include <QTableView>
#include <QTest>

#include "core/record/problem.h"
#include "gui/models/channel_tables.h"
#include "gui/models/review_model.h"
#include "gui/screens/certificate_screen.h"
#include "gui/screens/channel_screen.h"
#include "gui/screens/main_window.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/review_screen.h"
#include "gui/screens/sign_dialog.h"
#include "gui/screens/trace_screen.h"
#include "gui/session/session.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

const KeyCost kCheap{1, 8 << 10};  // of keys that are not what a test is about
const std::string kTech = "a kettle of fish", kQa = "nine blue lamps";

class SigningWindow : public GuiTest {
 protected:
  SignDialog* dialog() const { return window_->findChild<SignDialog*>(); }
  /// Opens the dialog with the key of the command.
  void askToSign() {
    ASSERT_TRUE(makeActive(window_.get()));
    QTest::keyClick(window_.get(), Qt::Key_G, Qt::ControlModifier);
    ASSERT_NE(dialog(), nullptr);
    ASSERT_TRUE(makeActive(dialog()));
  }
  bool gone() {
    return QTest::qWaitFor([this] { return dialog() == nullptr; });
  }
  template <typename T>
  T* part(const QString& name) const {
    for (T* each : dialog()->findChildren<T*>()) {
      if (each->accessibleName() == name) {
        return each;
      }
    }
    return nullptr;
  }
  QRadioButton* act(const QString& deed) const {
    for (auto* each : dialog()->findChildren<QRadioButton*>()) {
      if (each->text() == deed) {
        return each;
      }
    }
    return nullptr;
  }
  std::string why(const QString& deed) const { return act(deed)->accessibleDescription().toStdString(); }
  void choosePerson(const QString& login) {
    auto* person = part<QComboBox>("Who signs");
    person->setFocus();
    press(Qt::Key_Home);
    for (int i = 0; i < person->count() && person->currentData().toString() != login; ++i) {
      press(Qt::Key_Down);
    }
    ASSERT_EQ(person->currentData().toString(), login);
  }
  void typePassphrase(const std::string& words) {
    part<QLineEdit>("Passphrase")->setFocus();
    type(QString::fromStdString(words));
  }
  std::string trouble() const { return dialog()->trouble().toStdString(); }
  LifeState state(CalibrationId id) { return session_->store().state(id); }
  void giveKeys() {
    changePassphrase(session_->store(), {"tech", "", kCheap}, kTech);
    changePassphrase(session_->store(), {"qa", "", kCheap}, kQa);
  }
  void signAs(CalibrationId id, LifeAct act, const std::string& person, const std::string& reason = {}) {
    signCalibration(session_->store(), id, act, {person, person == "tech" ? kTech : kQa, kCheap}, reason);
  }
};

TEST_F(SigningWindow, ATechnicianSignsForTheFirstTimeAndTheKeyIsMade) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1, 0.0)});
  openWindow();
  window_->showChannel("TT-1");
  ASSERT_NO_FATAL_FAILURE(askToSign());
  EXPECT_EQ(part<QComboBox>("Who signs")->currentData().toString(), "tech") << "who made it";
  EXPECT_TRUE(act("Sign as performed")->isChecked());
  EXPECT_THAT(part<QLabel>("Channel")->text().toStdString(), HasSubstr("TT-1  Tank temperature"));
  EXPECT_THAT(part<QLabel>("Calibration")->text().toStdString(),
              HasSubstr("20 Nov 2026 09:00, by Tess Technician"));
  EXPECT_EQ(part<QLabel>("As found")->text(), "pass");
  const QString digest = QString::fromStdString(hex(session_->store().calibrationDigest(1)));
  EXPECT_TRUE(part<QLabel>("Digest")->text().startsWith(digest.left(16) + u'…'));
  EXPECT_THAT(part<QLabel>("First signature")->text().toStdString(), HasSubstr("tech has no key yet"));
  keepLooks(dialog(), "sign-first");
  // Nothing but keys from here: the passphrase has the focus.
  type("too few");
  press(Qt::Key_Tab);
  type("too few");
  press(Qt::Key_Return);
  EXPECT_THAT(trouble(), HasSubstr("fewer than 8 characters"));
  type(QString::fromStdString(kTech));
  press(Qt::Key_Tab);
  type("another one");
  press(Qt::Key_Return);
  EXPECT_THAT(trouble(), HasSubstr("The two passphrases differ"));
  EXPECT_EQ(state(1), LifeState::recorded);
  EXPECT_FALSE(session_->store().personKey("tech"));
  type(QString::fromStdString(kTech));
  press(Qt::Key_Tab);
  type(QString::fromStdString(kTech));
  press(Qt::Key_Return);
  ASSERT_TRUE(gone());
  EXPECT_EQ(state(1), LifeState::performed);
  EXPECT_TRUE(session_->store().personKey("tech"));
  EXPECT_THAT(window_->bar()->sentence().toStdString(),
              HasSubstr("Calibration 1 of TT-1 is performed: signed by tech, 25 Nov 2026 12:00 UTC."));
  EXPECT_EQ(window_->channelScreen()->signatures()->text(),
            "Performed by Tess Technician (tech), 25 Nov 2026 12:00 UTC.");
  const auto* table = named<QTableView>("Calibrations");
  const QModelIndex cell = table->model()->index(0, CalibrationsModel::kState);
  EXPECT_EQ(cell.data().toString(), "performed");
  EXPECT_EQ(cell.data(Qt::ToolTipRole).toString(), window_->channelScreen()->signatures()->text());
}

TEST_F(SigningWindow, NobodyReviewsTheirOwnWorkAndTheDialogSaysWhy) {
  Register site = smallSite();
  site.people[0].roles = {Role::technician, Role::reviewer};
  site.people.push_back({"gone", "Gina Gone", {Role::reviewer}, parseDate("2026-11-24")});
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1)}, site);
  openWindow();
  giveKeys();
  signAs(1, LifeAct::performed, "tech");
  window_->showChannel("TT-1");
  ASSERT_NO_FATAL_FAILURE(askToSign());
  EXPECT_EQ(part<QComboBox>("Who signs")->findData("gone"), -1) << "who left signs nothing";
  ASSERT_NO_FATAL_FAILURE(choosePerson("tech"));
  EXPECT_FALSE(act("Sign as reviewed")->isEnabled());
  EXPECT_EQ(why("Sign as reviewed"),
            "Tech performed calibration 1 and cannot mark their own work as reviewed; ask another reviewer.");
  EXPECT_THAT(why("Sign as performed"), HasSubstr("is performed and cannot be performed now"));
  EXPECT_THAT(why("Sign as approved"), HasSubstr("an approval follows a review, once"));
  EXPECT_FALSE(dialog()->findChild<QRadioButton*>()->isChecked());
  keepLooks(dialog(), "sign-own");
  ASSERT_NO_FATAL_FAILURE(choosePerson("qa"));
  EXPECT_TRUE(act("Sign as reviewed")->isEnabled());
  EXPECT_TRUE(act("Sign as reviewed")->isChecked());
  EXPECT_TRUE(act("Send back")->isEnabled());
  EXPECT_FALSE(act("Sign as approved")->isEnabled());
  press(Qt::Key_Escape);
  ASSERT_TRUE(gone());
  EXPECT_EQ(state(1), LifeState::performed);
}

TEST_F(SigningWindow, AWrongPassphraseKeepsEverythingElseAndSlowsDown) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1)});
  openWindow();
  giveKeys();
  signAs(1, LifeAct::performed, "tech");
  window_->showChannel("TT-1");
  ASSERT_NO_FATAL_FAILURE(askToSign());
  ASSERT_NO_FATAL_FAILURE(choosePerson("qa"));
  part<QLineEdit>("Remark")->setFocus();
  type("looks right");
  for (int i = 1; i <= kTriesWithoutWaiting; ++i) {
    typePassphrase("not these words");
    press(Qt::Key_Return);
    ASSERT_NE(dialog(), nullptr);
    EXPECT_THAT(trouble(), HasSubstr("The passphrase of qa is wrong; type it again")) << i;
    EXPECT_EQ(part<QLineEdit>("Passphrase")->text(), "");
    EXPECT_FALSE(part<QLineEdit>("Passphrase")->isUndoAvailable());
    EXPECT_TRUE(part<QLineEdit>("Passphrase")->hasFocus());
    EXPECT_EQ(part<QLineEdit>("Remark")->text(), "looks right");
    EXPECT_EQ(part<QComboBox>("Who signs")->currentData().toString(), "qa");
    EXPECT_TRUE(act("Sign as reviewed")->isChecked());
    EXPECT_EQ(session_->store().passphraseTries("qa").wrong, i);
  }
  keepLooks(dialog(), "sign-wrong");
  typePassphrase(kQa);
  press(Qt::Key_Return);
  EXPECT_THAT(trouble(), HasSubstr("none is tried for 2 seconds"));
  EXPECT_EQ(state(1), LifeState::performed);
  EXPECT_EQ(part<QLineEdit>("Passphrase")->echoMode(), QLineEdit::Password);
  press(Qt::Key_Escape);
  EXPECT_TRUE(gone());
}

TEST_F(SigningWindow, TheReviewerWorksTheQueueUntilItIsEmpty) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1), visitTo("PT-2", "2026-11-18T09:00:00", 0.1),
              visitTo("TT-1", "2025-11-20T09:00:00", 0.1)});
  openWindow();
  giveKeys();
  for (const CalibrationId id : {1, 2, 3}) {
    signAs(id, LifeAct::performed, "tech");
  }
  signAs(1, LifeAct::sentBack, "qa", "which probe was it?");
  QTest::keyClick(window_.get(), Qt::Key_3, Qt::ControlModifier);
  ASSERT_EQ(window_->currentScreen(), window_->reviewScreen());
  auto* table = named<QTableView>("Waiting for a signature");
  const auto row = [table](int at) {
    QStringList cells;
    for (int column = 0; column < table->model()->columnCount(); ++column) {
      cells << table->model()->index(at, column).data().toString();
    }
    return cells.join(" | ").toStdString();
  };
  ASSERT_EQ(window_->reviewScreen()->waiting(), 3);
  EXPECT_EQ(row(0),
            "3 | review | TT-1 | Hall / Cabinet A | Channel | 20 Nov 2025 09:00 | Tess Technician | pass | "
            "pass | performed");
  EXPECT_THAT(row(1), HasSubstr("review | PT-2"));
  EXPECT_THAT(row(2), testing::AllOf(HasSubstr("its technician | TT-1"),
                                     HasSubstr("sent back: which probe was it?")));
  keepPicture("review");
  // Enter leads to that calibration, which is not the channel's latest.
  press(Qt::Key_Return);
  ASSERT_EQ(window_->currentScreen(), window_->traceScreen());
  EXPECT_EQ(window_->traceScreen()->calibration(), 3);
  QTest::keyClick(window_.get(), Qt::Key_Left, Qt::AltModifier);
  ASSERT_EQ(window_->currentScreen(), window_->reviewScreen());
  ASSERT_NO_FATAL_FAILURE(askToSign());
  EXPECT_EQ(dialog()->calibration(), 3);
  ASSERT_NO_FATAL_FAILURE(choosePerson("qa"));
  typePassphrase(kQa);
  press(Qt::Key_Return);
  ASSERT_TRUE(gone());
  EXPECT_EQ(state(3), LifeState::reviewed);
  EXPECT_THAT(row(1), HasSubstr("approval | TT-1"));
  EXPECT_EQ(window_->reviewScreen()->currentCalibration(), 3) << "the row chosen stays chosen";
  ASSERT_NO_FATAL_FAILURE(askToSign());  // the person is remembered: only the passphrase is typed
  EXPECT_TRUE(act("Sign as approved")->isChecked());
  type(QString::fromStdString(kQa));
  press(Qt::Key_Return);
  ASSERT_TRUE(gone());
  EXPECT_EQ(state(3), LifeState::approved);
  EXPECT_EQ(window_->reviewScreen()->waiting(), 2);

  // The second goes back, which needs a reason.
  ASSERT_TRUE(makeActive(window_.get()));
  table->setFocus();
  press(Qt::Key_Up);
  ASSERT_EQ(window_->reviewScreen()->currentCalibration(), 2);
  ASSERT_NO_FATAL_FAILURE(askToSign());
  act("Send back")->setFocus();
  press(Qt::Key_Space);
  ASSERT_TRUE(act("Send back")->isChecked());
  typePassphrase(kQa);
  press(Qt::Key_Return);
  EXPECT_THAT(trouble(), HasSubstr("cannot be sent back without a reason; say why"));
  EXPECT_TRUE(part<QLineEdit>("Reason, needed")->hasFocus());
  EXPECT_EQ(part<QLineEdit>("Passphrase")->text().size(), static_cast<int>(kQa.size())) << "it was not tried";
  keepLooks(dialog(), "sign-send-back");
  type("the range is not the one in force");
  press(Qt::Key_Return);
  ASSERT_TRUE(gone());
  EXPECT_EQ(state(2), LifeState::sentBack);
  EXPECT_EQ(session_->store().life(2).back().reason, "the range is not the one in force");

  // Withdrawn and signed to the end: nothing waits any more, and the screen says so.
  signAs(1, LifeAct::withdrawn, "tech", "the probe is not known");
  signAs(2, LifeAct::withdrawn, "tech", "wrong range");
  window_->showReview();
  EXPECT_EQ(window_->reviewScreen()->waiting(), 0);
  EXPECT_FALSE(table->isVisible());
  bool said = false;
  for (const auto* label : window_->reviewScreen()->findChildren<QLabel*>()) {
    said = said || (label->isVisible() && label->text().contains("Nothing waits for a signature."));
  }
  EXPECT_TRUE(said);
  ASSERT_TRUE(makeActive(window_.get()));
  QTest::keyClick(window_.get(), Qt::Key_G, Qt::ControlModifier);
  EXPECT_EQ(dialog(), nullptr);
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("no calibration here to sign"));
}

TEST_F(SigningWindow, ACorrectionAndWhatItSupersedesNameEachOther) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1)});
  openWindow();
  ProposedVisit corrected = visitTo("TT-1", "2026-11-20T09:00:00", 0.12);
  corrected.corrects = 1;
  corrected.correctionReason = "two points were swapped";
  enterVisit(session_->store(), corrected, clock_.localNow());
  window_->showChannel("TT-1");
  const auto* model = named<QTableView>("Calibrations")->model();
  EXPECT_EQ(model->index(0, CalibrationsModel::kState).data().toString(), "recorded, corrects 1");
  EXPECT_EQ(model->index(1, CalibrationsModel::kState).data().toString(), "superseded by 2");
  EXPECT_THAT(model->index(1, CalibrationsModel::kState).data(Qt::ToolTipRole).toString().toStdString(),
              HasSubstr("Superseded by calibration 2"));
}

TEST_F(SigningWindow, TheCertificateScreenSaysThatASignatureMakesANewRevision) {
  ProposedVisit visit = visitTo("TT-1", "2026-11-20T09:00:00", 0.1);
  visit.conditions = {21.0, 45.0, ""};
  makeRecord({visit});
  openWindow();
  giveKeys();
  window_->showChannel("TT-1");
  window_->showCertificate(1);
  const auto note = [this] {
    std::string all;
    for (const auto* label : window_->certificateScreen()->findChildren<QLabel*>()) {
      all += label->text().toStdString() + '\n';
    }
    return all;
  };
  EXPECT_THAT(note(), HasSubstr("Not issued yet."));
  EXPECT_THAT(note(), HasSubstr("The calibration is recorded, not approved"));
  ASSERT_EQ(window_->certificateScreen()->issueTo(folder_.filePath("first.pdf")).toStdString(), "");
  EXPECT_THAT(note(), HasSubstr("Issued as SMALL-2026-0001, revision 1; issuing again writes the same."));
  ASSERT_NO_FATAL_FAILURE(askToSign());
  typePassphrase(kTech);
  press(Qt::Key_Return);
  ASSERT_TRUE(gone());
  EXPECT_THAT(note(), HasSubstr("revision 1. Signatures have changed since; issuing makes revision 2"));
  EXPECT_THAT(note(), HasSubstr("The calibration is performed, not approved"));
  keepPicture("certificate-signed");
  ASSERT_EQ(window_->certificateScreen()->issueTo(folder_.filePath("second.pdf")).toStdString(), "");
  EXPECT_THAT(note(), HasSubstr("Issued as SMALL-2026-0001, revision 2; issuing again writes the same."));
  signAs(1, LifeAct::reviewed, "qa");
  signAs(1, LifeAct::approved, "qa");
  window_->showCertificate(1);
  EXPECT_THAT(note(), testing::Not(HasSubstr("not approved")));
}

TEST_F(SigningWindow, WhatACertificateLacksIsSaidBeforeItIsAskedFor) {
  Register site = smallSite();
  site.site.issuerAddress.clear();
  site.site.customerContact.clear();
  ProposedVisit visit = visitTo("TT-1", "2026-11-20T09:00:00", 0.1);
  visit.conditions = {21.0, 45.0, ""};
  makeRecord({visit}, site);
  openWindow();
  window_->showChannel("TT-1");
  window_->showCertificate(1);
  std::string notes;
  QPushButton* issue = nullptr;
  for (const auto* label : window_->certificateScreen()->findChildren<QLabel*>()) {
    notes += label->text().toStdString() + '\n';
  }
  for (auto* each : window_->certificateScreen()->findChildren<QPushButton*>()) {
    issue = each->text() == "&Issue as PDF…" ? each : issue;
  }
  EXPECT_THAT(notes, testing::AllOf(HasSubstr("It cannot be issued yet"),
                                    HasSubstr("the issuer's address is missing"),
                                    HasSubstr("the customer's contact is missing")));
  ASSERT_NE(issue, nullptr);
  EXPECT_FALSE(issue->isEnabled());
  keepPicture("certificate-lacking");
}

// The last who signed may not be the next who can.
TEST_F(SigningWindow, WhoCanSignIsProposed) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1)});
  openWindow();
  giveKeys();
  session_->setLastSigner("qa");
  window_->showChannel("TT-1");
  ASSERT_NO_FATAL_FAILURE(askToSign());
  EXPECT_EQ(part<QComboBox>("Who signs")->currentData().toString(), "tech");
  typePassphrase(kTech);
  press(Qt::Key_Return);
  ASSERT_TRUE(gone());
  ASSERT_NO_FATAL_FAILURE(askToSign());
  EXPECT_EQ(part<QComboBox>("Who signs")->currentData().toString(), "qa");
  EXPECT_TRUE(act("Sign as reviewed")->isChecked());
}

TEST_F(SigningWindow, WhoeverSignsIsToldWhichReadingsLookOdd) {
  ProposedVisit visit = visitTo("TT-1", "2026-11-20T09:00:00", 0.1);
  visit.asFound[1].typed.indicatedText = "52.10";
  makeRecord({visit, visitTo("PT-2", "2026-11-20T09:00:00", 0.1)});
  openWindow();
  window_->showChannel("TT-1");
  ASSERT_NO_FATAL_FAILURE(askToSign());
  ASSERT_NE(part<QLabel>("Looks odd"), nullptr);
  EXPECT_EQ(part<QLabel>("Looks odd")->text(), "25 % up, as found: 52.10 for 25.10?");
  keepLooks(dialog(), "sign-odd");
  dialog()->reject();
  ASSERT_TRUE(gone());
  window_->showChannel("PT-2");
  ASSERT_NO_FATAL_FAILURE(askToSign());
  EXPECT_EQ(part<QLabel>("Looks odd"), nullptr);
}

}  // namespace
}  // namespace spanwright
