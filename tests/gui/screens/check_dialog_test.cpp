// SPDX-License-Identifier: GPL-3.0-or-later
//
// Proving the record in the window.
#include "gui/screens/check_dialog.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTest>

#include "core/store/sqlite_connection.h"
#include "core/tasks/issue.h"
#include "gui/actions/commands.h"
#include "gui/certificate/draw.h"
#include "gui/screens/main_window.h"
#include "gui/session/session.h"
#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

class CheckWindow : public GuiTest {
 protected:
  void SetUp() override {
    ProposedVisit visit = visitTo("TT-1", "2026-11-20T09:00:00", 0.1);
    visit.conditions = {21.0, 45.0, ""};
    makeRecord({visit});
    openWindow();
  }
  CheckDialog* dialog() const { return window_->findChild<CheckDialog*>(); }
  void open() {
    for (auto* each : window_->findChildren<QAction*>()) {
      if (each->text() == commandText(CommandId::checkRecord)) {
        each->trigger();
      }
    }
    ASSERT_NE(dialog(), nullptr);
    ASSERT_TRUE(makeActive(dialog()));
  }
  void check() {
    press(Qt::Key_Return);
    session_->worker().waitUntilIdle();
  }
  std::string result() const { return dialog()->asText().toStdString(); }
  void behindItsBack(const std::string& sql) const {
    Connection raw(recordFile().toStdString(), Connection::Access::readWrite);
    raw.execute("DROP TRIGGER reading_not_changed");
    raw.execute(sql);
  }
};

TEST_F(CheckWindow, SaysThatNothingWasChangedWithItsFigures) {
  ASSERT_NO_FATAL_FAILURE(open());
  check();
  EXPECT_THAT(result(), HasSubstr("Nothing was changed behind the journal's back."));
  EXPECT_THAT(result(), HasSubstr(headText(session_->store().journalHead())));
  EXPECT_EQ(dialog()->findChild<QListWidget*>()->count(), 0);
  keepLooks(dialog(), "check-good");
}

TEST_F(CheckWindow, FindsAChangeMadeBehindItsBackAndTheListCanBeCopied) {
  behindItsBack("UPDATE reading SET indicated = 25.0, indicated_text = '25.00' WHERE sequence = 2");
  ASSERT_NO_FATAL_FAILURE(open());
  check();
  EXPECT_THAT(result(), HasSubstr("do not rely on this record before a reviewer has looked"));
  const auto* list = dialog()->findChild<QListWidget*>();
  ASSERT_GE(list->count(), 2) << "the reading and the trigger";
  EXPECT_THAT(result(), HasSubstr("reading_not_changed"));
  EXPECT_THAT(result(), HasSubstr("calibration 1"));
  for (auto* button : dialog()->findChildren<QPushButton*>()) {
    if (button->text() == "Co&py") {
      QTest::mouseClick(button, Qt::LeftButton);
    }
  }
  EXPECT_EQ(QGuiApplication::clipboard()->text().toStdString(), result());
  keepLooks(dialog(), "check-bad");
  press(Qt::Key_Escape);
  EXPECT_TRUE(QTest::qWaitFor([this] { return dialog() == nullptr; }));
}

TEST_F(CheckWindow, ComparesACertificateInItsDataAndInItsPrint) {
  const QString file = folder_.filePath("held.pdf");
  Certificate certificate = issueCertificate(session_->store(), 1);
  writeCertificatePdf(certificate, file);
  ASSERT_NO_FATAL_FAILURE(open());
  dialog()->findChild<QLineEdit*>()->setFocus();
  type(file);
  check();
  EXPECT_THAT(result(), HasSubstr("Nothing was changed behind the journal's back."));

  certificate.foundConclusion = "Every point was perfect.";
  writeCertificatePdf(certificate, file);
  check();
  EXPECT_THAT(result(), HasSubstr("the certificate does not say what the record says"));
  EXPECT_THAT(result(),
              HasSubstr("what is printed is not what the record says: \"perfect.\" 1 times instead of 0"));
  keepLooks(dialog(), "check-certificate");
}

TEST_F(CheckWindow, AFileThatIsNoCertificateIsOneSentenceAndItCanBeTriedAgain) {
  ASSERT_NO_FATAL_FAILURE(open());
  dialog()->setCertificate(recordFile());
  check();
  EXPECT_THAT(dialog()->findChildren<QLabel*>().size(), testing::Gt(2));
  EXPECT_THAT(result(), HasSubstr("small.spanwright"));
  EXPECT_THAT(result(), testing::Not(HasSubstr("Nothing was changed")));
  dialog()->setCertificate({});
  check();
  EXPECT_THAT(result(), HasSubstr("Nothing was changed behind the journal's back."));
}

}  // namespace
}  // namespace spanwright
