// SPDX-License-Identifier: GPL-3.0-or-later
//
// A person's passphrase, files kept in the record, and the bundle of evidence.
#include <QAction>
#include <QComboBox>
#include <QDropEvent>
#include <QFile>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QRadioButton>
#include <QTableView>
#include <QUrl>

#include "core/tasks/bundle_check.h"
#include "core/tasks/signing.h"
#include "gui/actions/commands.h"
#include "gui/screens/evidence_dialog.h"
#include "gui/screens/files_dialog.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/passphrase_dialog.h"
#include "gui/screens/standards_screen.h"
#include "gui/session/session.h"
#include "tests/gui/screens/places_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

class RecordDialogs : public DialogTest {
 protected:
  void trigger(CommandId id) {
    for (auto* action : window_->findChildren<QAction*>()) {
      if (action->text() == commandText(id)) {
        ASSERT_TRUE(action->isEnabled());
        action->trigger();
        return;
      }
    }
    FAIL() << "no such action";
  }
  QString file(const QString& name, const QByteArray& content) const {
    QFile out(folder_.filePath(name));
    EXPECT_TRUE(out.open(QIODevice::WriteOnly));
    out.write(content);
    return out.fileName();
  }
  void typeInto(const QWidget* form, const QString& field, const QString& text) {
    part<QLineEdit>(form, field)->setFocus();
    type(text);
  }
};

TEST_F(RecordDialogs, APersonChangesTheirPassphrase) {
  makeRecord();
  openWindow();
  changePassphrase(session_->store(), {"tech", "", {1, 8 << 10}}, "a kettle of fish");
  ASSERT_NO_FATAL_FAILURE(trigger(CommandId::changePassphrase));
  auto* form = dialog<PassphraseDialog>();
  ASSERT_NE(form, nullptr);
  ASSERT_TRUE(makeActive(form));
  auto* who = part<QComboBox>(form, "Whose passphrase");
  who->setCurrentIndex(who->findData("qa"));
  EXPECT_FALSE(part<QLineEdit>(form, "Passphrase now")->isVisible()) << "has none yet";
  who->setCurrentIndex(who->findData("tech"));
  press(Qt::Key_Return);
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("Type the passphrase of tech as it is now."));
  typeInto(form, "Passphrase now", "a kettle of fish");
  typeInto(form, "New passphrase", "nine blue lamps");
  typeInto(form, "New passphrase once more", "nine blue lamp");
  press(Qt::Key_Return);
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("differ"));
  typeInto(form, "Passphrase now", "not it at all");
  typeInto(form, "New passphrase", "nine blue lamps");
  typeInto(form, "New passphrase once more", "nine blue lamps");
  press(Qt::Key_Return);
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("The passphrase of tech is wrong"));
  typeInto(form, "Passphrase now", "a kettle of fish");
  typeInto(form, "New passphrase", "short");
  typeInto(form, "New passphrase once more", "short");
  press(Qt::Key_Return);
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("fewer than 8 characters"));
  keepLooks(form, "passphrase");
  typeInto(form, "Passphrase now", "a kettle of fish");
  typeInto(form, "New passphrase", "nine blue lamps");
  typeInto(form, "New passphrase once more", "nine blue lamps");
  press(Qt::Key_Return);
  ASSERT_TRUE(gone<PassphraseDialog>());
  EXPECT_EQ(window_->bar()->sentence().toStdString(), "The passphrase of tech is changed.");
  EXPECT_TRUE(unlock(session_->store().personKey("tech")->lock, "nine blue lamps").has_value());
  EXPECT_FALSE(unlock(session_->store().personKey("tech")->lock, "a kettle of fish").has_value());
}

TEST_F(RecordDialogs, FilesAreAddedDroppedAndSavedOut) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1)});
  openWindow();
  window_->showChannel("TT-1");
  QTest::keyClick(window_.get(), Qt::Key_F, Qt::ControlModifier | Qt::ShiftModifier);
  auto* form = dialog<FilesDialog>();
  ASSERT_NE(form, nullptr);
  ASSERT_TRUE(makeActive(form));
  EXPECT_EQ(part<QComboBox>(form, "About what")->currentText(), "channel TT-1");
  typeInto(form, "Note", "wiring");
  form->add({file("sketch.txt", "four wires")});
  ASSERT_EQ(form->count(), 1) << form->trouble().toStdString();
  form->add({file("empty.txt", "")});
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("The file is empty"));

  part<QComboBox>(form, "About what")->setCurrentIndex(1);
  EXPECT_EQ(part<QComboBox>(form, "About what")->currentText(), "calibration 1");
  EXPECT_EQ(form->count(), 0);
  QMimeData dropped;
  dropped.setUrls({QUrl::fromLocalFile(file("photo.png", "not really one"))});
  QDragEnterEvent enter({10, 10}, Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
  QApplication::sendEvent(form, &enter);
  ASSERT_TRUE(enter.isAccepted());
  QDropEvent drop({10, 10}, Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
  QApplication::sendEvent(form, &drop);
  ASSERT_EQ(form->count(), 1) << form->trouble().toStdString();
  keepLooks(form, "files");
  const auto kept = session_->store().attachments();
  ASSERT_EQ(kept.size(), 2U);
  EXPECT_EQ(kept[0].channel, "TT-1");
  EXPECT_EQ(kept[0].note, "wiring");
  EXPECT_EQ(kept[0].person, "tech");
  EXPECT_EQ(kept[1].calibration, 1);
  EXPECT_EQ(kept[1].mediaType, "image/png");

  form->saveTo(folder_.filePath("out.png"));
  EXPECT_EQ(form->trouble().toStdString(), "");
  QFile out(folder_.filePath("out.png"));
  ASSERT_TRUE(out.open(QIODevice::ReadOnly));
  EXPECT_EQ(out.readAll(), "not really one");
  form->saveTo(folder_.filePath("out.png"));
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("already there"));
}

TEST_F(RecordDialogs, FilesOfAStandardAreAboutItsCertificate) {
  makeRecord();
  openWindow();
  window_->showStandards();
  labelled<QPushButton>(window_->standardsScreen(), "Files…")->click();
  auto* form = dialog<FilesDialog>();
  ASSERT_NE(form, nullptr);
  EXPECT_EQ(part<QComboBox>(form, "About what")->currentText(), "standard STD-1, certificate C-STD-1");
  form->add({file("paper.pdf", "as received")});
  ASSERT_EQ(form->count(), 1) << form->trouble().toStdString();
  EXPECT_EQ(session_->store().attachments().at(0).certificate, "C-STD-1");
}

TEST_F(RecordDialogs, EvidenceOfAChannelIsBundledAndChecksOut) {
  makeRecord({visitTo("TT-1", "2026-11-20T09:00:00", 0.1), visitTo("PT-2", "2026-11-21T09:00:00", 0.1)});
  openWindow();
  window_->showChannel("TT-1");
  session_->worker().waitUntilIdle();
  ASSERT_NO_FATAL_FAILURE(trigger(CommandId::makeEvidence));
  auto* form = dialog<EvidenceDialog>();
  ASSERT_NE(form, nullptr);
  ASSERT_TRUE(makeActive(form));
  EXPECT_EQ(part<QLineEdit>(form, "Channel")->text(), "TT-1");
  EXPECT_FALSE(labelled<QRadioButton>(form, "One round")->isEnabled()) << "there is none";
  form->start();
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("Say where the bundle is to be"));
  form->setPlace(folder_.filePath("tt-1"));
  form->start();
  session_->worker().waitUntilIdle();
  EXPECT_EQ(form->trouble().toStdString(), "");
  EXPECT_THAT(form->result().toStdString(), HasSubstr("1 calibration with 0 certificates"));
  EXPECT_THAT(form->result().toStdString(), HasSubstr("1 has no certificate issued."));
  keepLooks(form, "evidence");
  const BundleCheck check = checkBundle(folder_.filePath("tt-1.zip").toStdString());
  EXPECT_TRUE(check.problems.empty());
  EXPECT_THAT(form->result().toStdString(), HasSubstr(hex(check.sums)));
  form->start();  // it is there now
  session_->worker().waitUntilIdle();
  EXPECT_NE(form->trouble().toStdString(), "");
  EXPECT_EQ(form->result().toStdString(), "");
}

}  // namespace
}  // namespace spanwright
