// SPDX-License-Identifier: GPL-3.0-or-later
//
// The register filled and changed by forms, from no record at all to the first visit.
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QDropEvent>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QUrl>

#include "core/store/verify.h"
#include "gui/forms/channel_forms.h"
#include "gui/forms/leaving_dialog.h"
#include "gui/forms/new_site_form.h"
#include "gui/forms/register_dialog.h"
#include "gui/forms/register_form.h"
#include "gui/screens/message_bar.h"
#include "gui/screens/point_table.h"
#include "gui/screens/site_screen.h"
#include "gui/screens/standard_certificate_dialog.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "gui/settings/language.h"
#include "gui/settings/settings.h"
#include "gui/words/words.h"
#include "tests/gui/screens/places_fixture.h"

namespace spanwright {
namespace {

using testing::HasSubstr;

Register siteWithPlanner() {
  Register site = smallSite();
  site.people.push_back({"boss", "Bea Planner", {Role::planner, Role::administrator}, std::nullopt});
  Sensor sensor;
  sensor.serial = "S-1";
  sensor.range.process = {0.0, 100.0, Unit::celsius};
  sensor.range.output = Span{4.0, 20.0, Unit::milliampere};
  site.sensors = {sensor};
  sensor.serial = "S-2";
  site.sensors.push_back(sensor);
  site.index();
  return site;
}

class RegisterFormsTest : public DialogTest {
 protected:
  void openStart() {
    session_ = std::make_unique<Session>(clock_);
    window_ = std::make_unique<MainWindow>(*session_);
    window_->resize(1280, 720);
    window_->show();
    ASSERT_TRUE(makeActive(window_.get()));
  }
  void openFilled() {
    makeRecord({visitTo("TT-1", "2026-11-01T09:00:00", 0.1)}, siteWithPlanner());
    kLastPerson.set(QStringLiteral("boss"));
    openWindow();
    window_->showSite();
    window_->setFocus();
  }
  template <typename Form>
  Form* opened() {
    Form* form = nullptr;
    EXPECT_TRUE(QTest::qWaitFor([&] {
      form = dialog<Form>();
      return form != nullptr;
    }));
    if (form != nullptr) {
      EXPECT_TRUE(makeActive(form));
    }
    return form;
  }
  void typeInto(FormDialog* form, const std::string& field, const QString& text) {
    QWidget* widget = form->widget(field);
    ASSERT_NE(widget, nullptr) << field;
    ASSERT_TRUE(widget->isVisible()) << field;
    widget->setFocus();
    if (auto* line = qobject_cast<QLineEdit*>(widget)) {
      line->selectAll();
    } else if (auto* box = qobject_cast<QComboBox*>(widget); box != nullptr && box->isEditable()) {
      box->lineEdit()->selectAll();
    }
    type(text);
  }
  static void choose(FormDialog* form, const std::string& field, const QString& word) {
    auto* box = qobject_cast<QComboBox*>(form->widget(field));
    ASSERT_NE(box, nullptr) << field;
    ASSERT_GE(box->findData(word), 0) << word.toStdString();
    box->setCurrentIndex(box->findData(word));
  }
  /// Enter, where every form takes what was typed.
  template <typename Form>
  void accept(Form* form, const std::string& field) {
    form->widget(field)->setFocus();
    press(Qt::Key_Return);
    EXPECT_EQ(form->trouble("").toStdString(), "");
    ASSERT_TRUE(gone<Form>());
    session_->worker().waitUntilIdle();
  }
  void shortcut(Qt::Key key, Qt::KeyboardModifiers modifiers) {
    ASSERT_TRUE(makeActive(window_.get()));
    QTest::keyClick(window_.get(), key, modifiers);
  }
  void expectWhole() const {
    EXPECT_THAT(registerFaults(session_->site()), testing::IsEmpty());
    for (const RecordProblem& problem : verifyRecord(session_->store().file()).problems) {
      ADD_FAILURE() << problem.what;
    }
  }
  void addPlanAndInterval(RegisterDialog* lists) {
    lists->showKind(RegisterKind::plan);
    QTest::mouseClick(labelled<QPushButton>(lists, "New…"), Qt::LeftButton);
    auto* plan = opened<RegisterForm>();
    ASSERT_NE(plan, nullptr);
    typeInto(plan, "code", "P5");
    typeInto(plan, "title", "Five points");
    typeInto(plan, "points", "0, 25, 50, 75, 100");
    press(Qt::Key_Return);
    EXPECT_THAT(plan->trouble("tolerance").toStdString(), HasSubstr("no term above zero"));
    EXPECT_EQ(QApplication::focusWidget(), plan->widget("tolerance.absolute"));
    keepLooks(plan, "form-plan");
    typeInto(plan, "tolerance.percent_of_span", "0.5");
    accept(plan, "code");
    ASSERT_TRUE(makeActive(lists));
    lists->showKind(RegisterKind::interval);
    QTest::mouseClick(labelled<QPushButton>(lists, "New…"), Qt::LeftButton);
    auto* interval = opened<RegisterForm>();
    ASSERT_NE(interval, nullptr);
    typeInto(interval, "code", "yearly");
    typeInto(interval, "months", "12");
    EXPECT_FALSE(interval->widget("target")->isVisible());
    keepLooks(interval, "form-interval");
    accept(interval, "code");
  }
  void addStandard(RegisterDialog* lists) {
    ASSERT_TRUE(makeActive(lists));
    lists->showKind(RegisterKind::standard);
    QTest::mouseClick(labelled<QPushButton>(lists, "New…"), Qt::LeftButton);
    auto* standard = opened<RegisterForm>();
    ASSERT_NE(standard, nullptr);
    typeInto(standard, "serial", "LC-1");
    typeInto(standard, "description", "mA source");
    accept(standard, "serial");
    ASSERT_TRUE(makeActive(lists));
    QTest::mouseClick(labelled<QPushButton>(lists, "New certificate…"), Qt::LeftButton);
    auto* certificate = opened<StandardCertificateDialog>();
    ASSERT_NE(certificate, nullptr);
    part<QLineEdit>(certificate, "Number")->setText("C-1");
    part<QLineEdit>(certificate, "Issuer")->setText("Invented laboratory");
    certificate->table()->paste("mA\t0.001\t0\t0\t0.001\nmA\t0.001\t24\t0\t0.001");
    QTest::mouseClick(labelled<QPushButton>(certificate, "Add certificate"), Qt::LeftButton);
    ASSERT_TRUE(gone<StandardCertificateDialog>()) << certificate->trouble().toStdString();
  }
};

TEST_F(RegisterFormsTest, AWholeSiteFromNothingToItsFirstVisit) {
  openStart();
  for (auto* each : window_->findChildren<QPushButton*>()) {
    if (each->accessibleName() == QLatin1String("Describe a new site")) {
      QTest::mouseClick(each, Qt::LeftButton);
    }
  }
  auto* site = opened<NewSiteForm>();
  ASSERT_NE(site, nullptr);
  EXPECT_EQ(QApplication::focusWidget(), site->widget("code"));
  press(Qt::Key_Return);
  EXPECT_EQ(site->trouble("code").toStdString(),
            "The site has no code; 2 to 8 capital letters (A to Z) and digits are expected.");
  EXPECT_EQ(site->trouble("person.login").isEmpty(), false);
  typeInto(site, "code", "NEW");
  typeInto(site, "name", "New works");
  EXPECT_THAT(qobject_cast<QLineEdit*>(site->widget("file"))->text().toStdString(),
              HasSubstr("New works.spanwright"));
  typeInto(site, "place", "Hall / Cabinet");
  typeInto(site, "person.login", "ada");
  typeInto(site, "person.name", "Ada Example");
  qobject_cast<QLineEdit*>(site->widget("file"))->setText(folder_.filePath("nowhere/new.spanwright"));
  site->widget("code")->setFocus();
  press(Qt::Key_Return);
  EXPECT_THAT(site->trouble("file").toStdString(), HasSubstr("is not there"));
  ASSERT_EQ(dialog<NewSiteForm>(), site) << "what was typed is not lost";
  const QString file = folder_.filePath(QStringLiteral("new.spanwright"));
  qobject_cast<QLineEdit*>(site->widget("file"))->setText(file);
  keepLooks(site, "form-site");
  accept(site, "code");
  ASSERT_TRUE(QTest::qWaitFor([this] { return session_->isOpen(); }));
  EXPECT_EQ(session_->site().site.name, "New works");
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("This site has no channels yet"));

  shortcut(Qt::Key_R, Qt::ControlModifier | Qt::ShiftModifier);
  auto* lists = opened<RegisterDialog>();
  ASSERT_NE(lists, nullptr);
  EXPECT_EQ(lists->count(), 1) << "the first person";
  press(Qt::Key_Insert);
  auto* person = opened<RegisterForm>();
  ASSERT_NE(person, nullptr);
  typeInto(person, "login", "tom");
  typeInto(person, "name", "Tom Example");
  typeInto(person, "hours_per_week", "12");
  press(Qt::Key_Return);
  EXPECT_THAT(person->trouble("hours_per_week").toStdString(), HasSubstr("is no technician"));
  qobject_cast<QCheckBox*>(person->widget("role.technician"))->click();
  keepLooks(person, "form-person");
  accept(person, "login");
  ASSERT_NO_FATAL_FAILURE(addPlanAndInterval(lists));
  ASSERT_NO_FATAL_FAILURE(addStandard(lists));
  keepLooks(lists, "register-lists");
  lists->reject();
  ASSERT_TRUE(gone<RegisterDialog>());

  window_->showSite();
  shortcut(Qt::Key_C, Qt::ControlModifier | Qt::ShiftModifier);
  auto* channel = opened<RegisterForm>();
  ASSERT_NE(channel, nullptr);
  typeInto(channel, "tag", "TT-1");
  choose(channel, "place", "Hall / Cabinet");
  typeInto(channel, "setup.units.low", "0");
  typeInto(channel, "setup.units.high", "250");
  EXPECT_EQ(part<QLabel>(channel, "What the setup means")->text().toStdString(),
            "4 mA = 0 °C, 20 mA = 250 °C (4-20 mA to 0-250 °C)");
  typeInto(channel, "setup.remark", "commissioning");
  qobject_cast<QDateTimeEdit*>(channel->widget("setup.from"))->setDateTime({{2026, 1, 1}, {8, 0}});
  keepLooks(channel, "form-channel");
  accept(channel, "tag");
  ASSERT_NE(session_->site().channel("TT-1"), nullptr);
  EXPECT_EQ(session_->site().channel("TT-1")->routines.size(), 1U);
  expectWhole();

  window_->showVisit("TT-1", std::nullopt);
  EXPECT_TRUE(window_->visitScreen()->entry().isOpen());
  keepPicture("first-visit");
}

TEST_F(RegisterFormsTest, EveryKindOfSetupIsOfferedAndKept) {
  openFilled();
  const std::vector<std::pair<const char*, TypedFields>> kinds{
      {"threshold-input", {}},
      {"analog-input", {{"setup.units.low", "0"}, {"setup.units.high", "10"}}},
      {"thermocouple-input", {{"setup.range.low", "0"}, {"setup.range.high", "400"}}},
      {"rtd-input", {{"setup.range.low", "0"}, {"setup.range.high", "200"}}},
      {"analog-output", {{"setup.units.low", "0"}, {"setup.units.high", "100"}}},
      {"discrete-output", {}}};
  for (const auto& [kind, fields] : kinds) {
    SCOPED_TRACE(kind);
    shortcut(Qt::Key_C, Qt::ControlModifier | Qt::ShiftModifier);
    auto* form = opened<RegisterForm>();
    ASSERT_NE(form, nullptr);
    typeInto(form, "tag", QLatin1String("N-") + QLatin1String(kind));
    choose(form, "setup.kind", kind);
    for (const auto& [field, text] : fields) {
      typeInto(form, field, fromCore(text));
    }
    EXPECT_THAT(part<QLabel>(form, "What the setup means")->text().toStdString(),
                testing::Not(HasSubstr("as soon as")));
    keepLooks(form, QLatin1String("form-") + QLatin1String(kind));
    accept(form, "tag");
    const Channel* made = session_->site().channel(std::string("N-") + kind);
    ASSERT_NE(made, nullptr);
    EXPECT_EQ(kindName(made->setups.front().setup), kind);
  }
  expectWhole();
}

TEST_F(RegisterFormsTest, ANewSetupSaysWhatItLeavesUnprovenBeforeItIsPutInForce) {
  openFilled();
  window_->showChannel("TT-1");
  shortcut(Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
  auto* form = opened<NewSetupForm>();
  ASSERT_NE(form, nullptr);
  EXPECT_THAT(form->effect().toStdString(),
              HasSubstr("Leaves unproven: channel, proven on 1 Nov 2026 (calibration 1), due"));
  typeInto(form, "units.high", "120");
  press(Qt::Key_Return);
  EXPECT_THAT(form->trouble("remark").toStdString(), HasSubstr("not said why"));
  EXPECT_EQ(QApplication::focusWidget(), form->widget("remark"));
  EXPECT_EQ(session_->site().channel("TT-1")->setups.size(), 1U) << "nothing was written";
  typeInto(form, "remark", "wider range");
  keepLooks(form, "form-setup");
  accept(form, "remark");
  const Channel& channel = *session_->site().channel("TT-1");
  ASSERT_EQ(channel.setups.size(), 2U);
  EXPECT_EQ(std::get<AnalogInputSetup>(channel.setups[1].setup.kind).units->high, 120.0);
  EXPECT_EQ(session_->due("TT-1").front().due.state, DueState::unproven);
  EXPECT_THAT(window_->bar()->sentence().toStdString(), HasSubstr("Setup 2 of TT-1 is in force from"));
  expectWhole();
}

TEST_F(RegisterFormsTest, AnotherSensorIsFitted) {
  openFilled();
  window_->showChannel("TT-1");
  for (const char* serial : {"S-1", "S-2"}) {
    shortcut(Qt::Key_T, Qt::ControlModifier | Qt::ShiftModifier);
    auto* form = opened<FittingForm>();
    ASSERT_NE(form, nullptr);
    choose(form, "sensor", serial);
    if (QLatin1String(serial) == QLatin1String("S-1")) {
      qobject_cast<QDateTimeEdit*>(form->widget("from"))->setDateTime({{2026, 10, 1}, {8, 0}});
    }
    keepLooks(form, "form-fitting");
    QTest::mouseClick(labelled<QPushButton>(form, "Fit"), Qt::LeftButton);
    ASSERT_TRUE(gone<FittingForm>());
  }
  const Channel& channel = *session_->site().channel("TT-1");
  ASSERT_EQ(channel.fittings.size(), 2U);
  EXPECT_TRUE(channel.fittings[0].until.has_value());
  expectWhole();
}

TEST_F(RegisterFormsTest, WhatIsThereIsChangedAndWhoMayNotIsTold) {
  openFilled();
  window_->showChannel("TT-1");
  shortcut(Qt::Key_F2, Qt::NoModifier);
  auto* channel = opened<RegisterForm>();
  ASSERT_NE(channel, nullptr);
  EXPECT_TRUE(qobject_cast<QLineEdit*>(channel->widget("tag"))->isReadOnly());
  typeInto(channel, "title", "Other tank");
  choose(channel, "by", "tech");
  press(Qt::Key_Return);
  EXPECT_THAT(channel->trouble("by").toStdString(), HasSubstr("Tech is neither planner nor administrator"));
  EXPECT_EQ(session_->site().channel("TT-1")->title, "Tank temperature");
  choose(channel, "by", "boss");
  accept(channel, "title");
  EXPECT_EQ(session_->site().channel("TT-1")->title, "Other tank");

  shortcut(Qt::Key_R, Qt::ControlModifier | Qt::ShiftModifier);
  auto* lists = opened<RegisterDialog>();
  ASSERT_NE(lists, nullptr);
  lists->choose("qa");
  press(Qt::Key_Return);
  auto* person = opened<RegisterForm>();
  ASSERT_NE(person, nullptr);
  typeInto(person, "name", "Quinn Other");
  accept(person, "name");
  EXPECT_EQ(session_->site().person("qa")->name, "Quinn Other");
  ASSERT_TRUE(makeActive(lists));
  lists->showKind(RegisterKind::plan);
  lists->choose("FIVE");
  QTest::mouseClick(labelled<QPushButton>(lists, "Change…"), Qt::LeftButton);
  auto* plan = opened<RegisterForm>();
  ASSERT_NE(plan, nullptr);
  typeInto(plan, "tolerance.percent_of_span", "0.5");
  press(Qt::Key_Return);
  EXPECT_THAT(plan->trouble("revision").toStdString(), HasSubstr("the revision is still 1"));
  typeInto(plan, "revision", "2");
  accept(plan, "revision");
  EXPECT_EQ(session_->site().plan("FIVE")->tolerance.minus.percentOfSpan, 0.5);
  expectWhole();
}

TEST_F(RegisterFormsTest, EscapeLeavesAndWritesNothing) {
  openFilled();
  const JournalHead head = session_->store().journalHead();
  shortcut(Qt::Key_P, Qt::ControlModifier | Qt::ShiftModifier);
  auto* place = opened<RegisterForm>();
  ASSERT_NE(place, nullptr);
  typeInto(place, "name", "Yard");
  press(Qt::Key_Escape);
  ASSERT_TRUE(gone<RegisterForm>());
  EXPECT_EQ(session_->store().journalHead(), head);
  shortcut(Qt::Key_P, Qt::ControlModifier | Qt::ShiftModifier);
  place = opened<RegisterForm>();
  ASSERT_NE(place, nullptr);
  choose(place, "within", "");
  typeInto(place, "name", "Yard");
  keepLooks(place, "form-place");
  accept(place, "name");
  EXPECT_EQ(session_->site().places.back().path, "Yard");
  EXPECT_EQ(session_->site().places.back().order, 2);
}

TEST_F(RegisterFormsTest, ARecordDraggedInIsOpened) {
  makeRecord();
  openStart();
  QMimeData dragged;
  dragged.setUrls({QUrl::fromLocalFile(recordFile())});
  QDragEnterEvent enter({10, 10}, Qt::CopyAction, &dragged, Qt::LeftButton, Qt::NoModifier);
  QApplication::sendEvent(window_.get(), &enter);
  ASSERT_TRUE(enter.isAccepted());
  QDropEvent drop({10, 10}, Qt::CopyAction, &dragged, Qt::LeftButton, Qt::NoModifier);
  QApplication::sendEvent(window_.get(), &drop);
  ASSERT_TRUE(QTest::qWaitFor([this] { return session_->isOpen(); }));
  session_->worker().waitUntilIdle();
  EXPECT_EQ(session_->site().site.code, "SMALL");
  QMimeData folder;
  folder.setUrls({QUrl::fromLocalFile(folder_.path())});
  QDragEnterEvent other({10, 10}, Qt::CopyAction, &folder, Qt::LeftButton, Qt::NoModifier);
  other.ignore();
  QApplication::sendEvent(window_.get(), &other);
  EXPECT_FALSE(other.isAccepted());
}

/// What answers to Alt and a letter in a form, in each language.
TEST_F(RegisterFormsTest, LettersAreUniqueInEveryForm) {
  openFilled();
  const auto lettersOf = [](const QWidget* form) {
    QStringList letters;
    for (const auto* each : form->findChildren<QLabel*>()) {
      if (!each->isHidden() && each->buddy() != nullptr) {
        letters << QKeySequence::mnemonic(each->text()).toString();
      }
    }
    for (const auto* each : form->findChildren<QAbstractButton*>()) {
      if (!each->isHidden()) {
        letters << QKeySequence::mnemonic(each->text()).toString();
      }
    }
    letters.removeAll(QString());
    letters.sort();
    return letters;
  };
  for (const Language language : {Language::english, Language::german}) {
    applyLanguage(language);
    std::vector<std::unique_ptr<QDialog>> forms;
    for (const RegisterKind kind :
         {RegisterKind::place, RegisterKind::person, RegisterKind::standard, RegisterKind::sensor,
          RegisterKind::plan, RegisterKind::interval, RegisterKind::channel}) {
      forms.push_back(std::make_unique<RegisterForm>(*session_, kind, TypedFields()));
    }
    forms.push_back(std::make_unique<RegisterForm>(*session_, RegisterKind::site, QStringLiteral("SMALL")));
    forms.push_back(std::make_unique<RegisterForm>(*session_, RegisterKind::channel, QStringLiteral("TT-1")));
    forms.push_back(std::make_unique<NewSiteForm>(*session_));
    forms.push_back(std::make_unique<NewSetupForm>(*session_, QStringLiteral("TT-1")));
    forms.push_back(std::make_unique<FittingForm>(*session_, QStringLiteral("TT-1")));
    forms.push_back(std::make_unique<RegisterDialog>(*session_));
    forms.push_back(std::make_unique<LeavingDialog>(*session_, QStringLiteral("tech")));
    for (const auto& form : forms) {
      QStringList letters = lettersOf(form.get());
      const qsizetype many = letters.size();
      EXPECT_GT(many, 0) << form->windowTitle().toStdString();
      EXPECT_EQ(letters.removeDuplicates(), 0)
          << form->windowTitle().toStdString() << ": " << lettersOf(form.get()).join(u' ').toStdString();
    }
  }
  applyLanguage(Language::english);
}

}  // namespace
}  // namespace spanwright
