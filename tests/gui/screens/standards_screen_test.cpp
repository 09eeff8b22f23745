// SPDX-License-Identifier: GPL-3.0-or-later
//
// Standards in the window: how long each may be used, its chart, a signed decision, a new certificate.
#include "gui/screens/standards_screen.h"

#include <QApplication>
#include <QChart>
#include <QClipboard>
#include <QComboBox>
#include <QDateEdit>
#include <QLineEdit>
#include <QPushButton>
#include <QRadioButton>
#include <QScatterSeries>
#include <QTableView>

#include "core/tasks/signing.h"
#include "gui/charts/plot_view.h"
#include "gui/models/standards_model.h"
#include "gui/screens/decide_dialog.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/point_table.h"
#include "gui/screens/standard_certificate_dialog.h"
#include "gui/session/session.h"
#include "tests/gui/screens/places_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

class StandardsWindow : public DialogTest {
 protected:
  static Register site() {
    Register site = smallSite();
    // Seven yearly certificates of one value, the last one a jump.
    const double errors[] = {0.001, 0.002, 0.001, 0.002, 0.001, 0.002, 0.02};
    std::vector<StandardCertificate> yearly;
    for (int i = 0; i < 7; ++i) {
      StandardCertificate each = site.standards[0].certificates[0];
      each.number = "Y-" + std::to_string(i);
      each.issued = each.validFrom = Date(static_cast<unsigned short>(2020 + i), 1, 1);
      each.validUntil = Date(static_cast<unsigned short>(2020 + i), 12, 31);
      each.ranges = {{Unit::milliampere, 0.001, {{4.0, 0.001, 0.001}, {20.0, errors[i], 0.001}}}};
      yearly.push_back(each);
    }
    site.standards[0].certificates = yearly;
    site.index();
    return site;
  }
  void open() {
    makeRecord({}, site());
    openWindow();
    press(Qt::Key_7, Qt::ControlModifier);
    ASSERT_EQ(window_->currentScreen(), window_->standardsScreen());
  }
  std::string cell(int row, int column) const {
    const auto* model = named<QTableView>("Standards")->model();
    return model->index(row, column).data().toString().toStdString();
  }
  void click(const QString& text) {
    auto* button = labelled<QPushButton>(window_->standardsScreen(), text);
    ASSERT_NE(button, nullptr);
    QTest::mouseClick(button, Qt::LeftButton);
  }
};

TEST_F(StandardsWindow, ShowsHowLongEachMayBeUsedAndTheChartOfTheValueThatJumped) {
  ASSERT_NO_FATAL_FAILURE(open());
  EXPECT_EQ(cell(0, StandardsModel::kSerial), "STD-1");
  EXPECT_EQ(cell(0, StandardsModel::kState), "valid");
  EXPECT_EQ(cell(0, StandardsModel::kLeft), "36 days left");
  EXPECT_EQ(cell(0, StandardsModel::kCertificate), "Y-6");
  EXPECT_EQ(named<QTableView>("Certificates of the standard")->model()->rowCount(), 7);
  EXPECT_EQ(named<QComboBox>("Value of the chart")->currentText().toStdString(), "20 mA, beyond");
  const PlotView* plot = window_->standardsScreen()->plot();
  EXPECT_THAT(plot->accessibleDescription().toStdString(), HasSubstr("7 certificates; mean"));
  EXPECT_THAT(plot->accessibleDescription().toStdString(), HasSubstr("provisional below 20 certificates"));
  int beyond = 0, errors = 0;
  for (const auto* series : plot->chart()->series()) {
    if (const auto* markers = qobject_cast<const QScatterSeries*>(series)) {
      (series->objectName() == "beyond" ? beyond : errors) += markers->count();
    }
  }
  EXPECT_EQ(errors, 7);
  EXPECT_GE(beyond, 1);
  keepPicture("standards");
  press(Qt::Key_Down);
  EXPECT_EQ(window_->standardsScreen()->currentStandard(), "STD-2");
  EXPECT_THAT(window_->standardsScreen()->plot()->accessibleDescription().toStdString(),
              HasSubstr("1 certificate; limits need 5"));
}

TEST_F(StandardsWindow, ATechnicianTakesOneOutOfServiceAndOnlyAReviewerBringsItBack) {
  ASSERT_NO_FATAL_FAILURE(open());
  press(Qt::Key_Return);
  auto* decide = dialog<DecideDialog>();
  ASSERT_NE(decide, nullptr);
  ASSERT_TRUE(makeActive(decide));
  EXPECT_EQ(part<QComboBox>(decide, "Who signs")->currentData().toString(), "tech");
  auto* out = labelled<QRadioButton>(decide, "Take out of service");
  EXPECT_TRUE(out->isEnabled());
  EXPECT_FALSE(labelled<QRadioButton>(decide, "Back in service")->isEnabled());
  EXPECT_THAT(labelled<QRadioButton>(decide, "Allow its use")->accessibleDescription().toStdString(),
              HasSubstr("not a reviewer"));
  press(Qt::Key_Return);
  EXPECT_EQ(decide->trouble().toStdString(), "Choose what is decided.");
  out->setFocus();
  press(Qt::Key_Space);
  press(Qt::Key_Return);
  EXPECT_THAT(decide->trouble().toStdString(), HasSubstr("needs a reason"));
  type("dropped");
  part<QLineEdit>(decide, "Passphrase")->setFocus();
  type("a kettle of fish");
  press(Qt::Key_Return);
  EXPECT_THAT(decide->trouble().toStdString(), HasSubstr("passphrases differ")) << "typed once, no key yet";
  part<QLineEdit>(decide, "Passphrase")->setFocus();
  type("a kettle of fish");
  part<QLineEdit>(decide, "Passphrase once more")->setFocus();
  type("a kettle of fish");
  keepLooks(decide, "decide");
  press(Qt::Key_Return);
  ASSERT_TRUE(gone<DecideDialog>());
  EXPECT_THAT(window_->bar()->sentence().toStdString(),
              HasSubstr("Standard STD-1 is out of service from 25 Nov 2026: signed by tech."));
  EXPECT_EQ(cell(0, StandardsModel::kState), "out of service");
  const auto& events = session_->site().standard("STD-1")->events;
  ASSERT_EQ(events.size(), 1U);
  EXPECT_EQ(events[0].reason, "dropped");
  EXPECT_EQ(events[0].person, "tech");
  EXPECT_EQ(named<QTableView>("Decisions about the standard")->model()->rowCount(), 1);

  ASSERT_TRUE(makeActive(window_.get()));
  click("Decide…");
  decide = dialog<DecideDialog>();
  ASSERT_NE(decide, nullptr);
  EXPECT_FALSE(labelled<QRadioButton>(decide, "Back in service")->isEnabled());
  auto* who = part<QComboBox>(decide, "Who signs");
  who->setCurrentIndex(who->findData("qa"));
  EXPECT_TRUE(labelled<QRadioButton>(decide, "Back in service")->isEnabled());
}

TEST_F(StandardsWindow, ACertificateIsTypedOrPastedAndWhatIsWrongIsGoneTo) {
  ASSERT_NO_FATAL_FAILURE(open());
  click("Add certificate…");
  auto* form = dialog<StandardCertificateDialog>();
  ASSERT_NE(form, nullptr);
  ASSERT_TRUE(makeActive(form));
  EXPECT_EQ(part<QLineEdit>(form, "Issuer")->text(), "Invented calibration laboratory") << "as last time";
  type("Y-7");
  QApplication::clipboard()->setText(
      "unit\tresolution\tnominal\terror\tU\nmA\t0.001\t4\t0.0002\t0.0008\n\t\t12\toops\t0.001\n\t\t20\t0."
      "0005\t0.0016\n");
  form->table()->setFocus();
  press(Qt::Key_V, Qt::ControlModifier);
  EXPECT_EQ(form->table()->item(2, 2)->text(), "20");
  labelled<QPushButton>(form, "Add certificate")->click();
  EXPECT_THAT(form->trouble().toStdString(), HasSubstr("Line 2: The error \"oops\" is not a number"));
  EXPECT_EQ(form->table()->currentRow(), 1);
  EXPECT_EQ(session_->site().standard("STD-1")->certificates.size(), 7U);
  form->table()->setCurrentCell(1, 3);
  press(Qt::Key_F2);
  auto* editor = qobject_cast<QLineEdit*>(QApplication::focusWidget());
  ASSERT_NE(editor, nullptr);
  editor->selectAll();
  type("0,0003");
  press(Qt::Key_Return);
  // The table takes a value over when the keys are dealt with.
  ASSERT_TRUE(
      QTest::qWaitFor([form] { return form->table()->item(1, 3)->text() == QStringLiteral("0,0003"); }));
  EXPECT_EQ(form->table()->currentColumn(), 4) << "Enter goes on";
  EXPECT_EQ(dialog<StandardCertificateDialog>(), form);
  form->table()->setCurrentCell(1, 4);
  press(Qt::Key_Return);
  EXPECT_EQ(form->table()->currentRow(), 2);
  EXPECT_EQ(form->table()->currentColumn(), 2) << "to the value of the next line";
  EXPECT_EQ(session_->site().standard("STD-1")->certificates.size(), 7U) << "nothing is added by Enter there";
  part<QDateEdit>(form, "Valid until")->setDate(QDate(2027, 11, 24));
  keepLooks(form, "standard-certificate");
  labelled<QPushButton>(form, "Add certificate")->click();
  ASSERT_TRUE(gone<StandardCertificateDialog>()) << form->trouble().toStdString();
  const auto& certificates = session_->site().standard("STD-1")->certificates;
  ASSERT_EQ(certificates.size(), 8U);
  EXPECT_EQ(certificates[7].number, "Y-7");
  ASSERT_EQ(certificates[7].ranges.size(), 1U);
  EXPECT_EQ(certificates[7].ranges[0].points[1].error, 0.0003);
  EXPECT_EQ(cell(0, StandardsModel::kLeft), "364 days left");
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("Certificate Y-7 of standard STD-1"));
}

}  // namespace
}  // namespace spanwright
