// SPDX-License-Identifier: GPL-3.0-or-later
//
// A working day on the tutorial site, by keys and mouse alone.
#pragma once

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>
#include <QTableView>
#include <QTreeView>

#include "core/tasks/signing.h"
#include "gui/models/sheet_model.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/sheet_view.h"
#include "gui/screens/sign_dialog.h"
#include "gui/screens/today_screen.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "importers/site_file.h"
#include "tests/gui/screens/places_fixture.h"

namespace spanwright {

class DayTest : public DialogTest {
 protected:
  static constexpr const char* kTechnician = "adale";
  static constexpr const char* kReviewer = "bquill";

  /// The tutorial site with its history of three years, opened; Asta Dale is technician and planner.
  void openSite() {
    const QString tiny = QStringLiteral(SPANWRIGHT_SOURCE_DIR "/sample_sites/tiny/");
    makeRecord({}, readSiteFile((tiny + "tiny.toml").toStdString()));
    openWindow();
    session_->importHistory(tiny + "history.map.toml", {tiny + "history.csv"}, false, false);
    session_->worker().waitUntilIdle();
    ASSERT_GT(session_->store().calibrationCount(), 20);
  }
  void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
    ASSERT_TRUE(makeActive(window_.get()));
    QTest::keyClick(window_.get(), key, modifiers);
    session_->worker().waitUntilIdle();
  }
  /// A click on the button with this text, which has to be there to be clicked.
  void click(const QWidget* in, const QString& text) {
    auto* button = labelled<QPushButton>(in, text);
    ASSERT_NE(button, nullptr) << text.toStdString();
    ASSERT_TRUE(button->isVisible() && button->isEnabled()) << text.toStdString();
    QTest::mouseClick(button, Qt::LeftButton);
    session_->worker().waitUntilIdle();
  }
  std::string news() const { return window_->bar()->sentence().toStdString(); }
  static void choose(QComboBox* box, const QString& login) {
    box->setFocus();
    QTest::keyClick(box, Qt::Key_Home);
    for (int i = 0; i < box->count() && box->currentData().toString() != login; ++i) {
      QTest::keyClick(box, Qt::Key_Down);
    }
    ASSERT_EQ(box->currentData().toString(), login);
  }
  void workAs(const char* login) {
    ASSERT_NO_FATAL_FAILURE(key(Qt::Key_0, Qt::ControlModifier));
    ASSERT_NO_FATAL_FAILURE(choose(named<QComboBox>("Who works"), login));
  }

  /// The line of Today that begins so, below the group; invalid when there is none.
  QModelIndex todays(const QString& group, const QString& line) const {
    const auto* model = named<QTreeView>("What needs doing today")->model();
    for (int row = 0; row < model->rowCount(); ++row) {
      const QModelIndex at = model->index(row, 0);
      for (int below = 0; at.data().toString().startsWith(group + u':') && below < model->rowCount(at);
           ++below) {
        if (model->index(below, 0, at).data().toString().startsWith(line)) {
          return model->index(below, 0, at);
        }
      }
    }
    return {};
  }
  void enterOn(const QModelIndex& line) {
    ASSERT_TRUE(line.isValid());
    auto* tree = named<QTreeView>("What needs doing today");
    tree->setCurrentIndex(line);
    tree->setFocus();
    press(Qt::Key_Return);
  }

  VisitScreen& sheet() const { return *window_->visitScreen(); }
  std::string shown(int row, int column) const {
    return sheet().sheetModel()->index(row, column).data().toString().toStdString();
  }
  void typeValues(const QStringList& values) {
    for (const QString& value : values) {
      ASSERT_NO_FATAL_FAILURE(type(value));
      ASSERT_NO_FATAL_FAILURE(press(Qt::Key_Return));
    }
  }

  /// Signs what is shown or chosen, making the key when it is the person's first signature.
  void sign(const QString& login, const QString& passphrase, const QString& deed,
            const QString& reason = {}) {
    ASSERT_NO_FATAL_FAILURE(key(Qt::Key_G, Qt::ControlModifier));
    auto* form = dialog<SignDialog>();
    ASSERT_NE(form, nullptr) << news();
    ASSERT_TRUE(makeActive(form));
    ASSERT_NO_FATAL_FAILURE(choose(part<QComboBox>(form, "Who signs"), login));
    auto* act = labelled<QRadioButton>(form, deed);
    ASSERT_TRUE(act != nullptr && act->isEnabled()) << act->accessibleDescription().toStdString();
    QTest::mouseClick(act, Qt::LeftButton, {}, QPoint(8, act->height() / 2));
    if (!reason.isEmpty()) {
      part<QLineEdit>(form, "Reason, needed")->setFocus();
      type(reason);
    }
    part<QLineEdit>(form, "Passphrase")->setFocus();
    type(passphrase);
    if (auto* again = part<QLineEdit>(form, "Passphrase once more"); again != nullptr && again->isVisible()) {
      press(Qt::Key_Tab);
      type(passphrase);
    }
    press(Qt::Key_Return);
    ASSERT_TRUE(gone<SignDialog>()) << form->trouble().toStdString();
  }
};

}  // namespace spanwright
