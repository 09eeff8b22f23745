// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/gui/fixture.h"

#include <QApplication>
#include <QSettings>
#include <QTest>

#include "core/units/number.h"
#include "gui/prompts/prompts.h"
#include "gui/screens/main_window.h"
#include "gui/screens/visit_screen.h"
#include "gui/session/session.h"
#include "gui/settings/look.h"

namespace spanwright {
namespace {

Moment at(const std::string& text) {
  return parseMoment(text).value();
}

CertificateRange rangeOf(Unit unit, double low, double high) {
  return {unit, 0.001, {{low, 0.0002, 0.0008}, {high, 0.0005, 0.0012}}};
}

Standard standardOf(const std::string& serial, const std::string& what, const CertificateRange& range) {
  Standard standard;
  standard.serial = serial;
  standard.maker = "Invented Instruments";
  standard.model = "loop calibrator";
  standard.description = what;
  StandardCertificate certificate;
  certificate.number = "C-" + serial;
  certificate.issuer = "Invented calibration laboratory";
  certificate.traceability = "to the SI (invented)";
  certificate.issued = certificate.validFrom = *parseDate("2015-01-01");
  certificate.validUntil = *parseDate("2030-12-31");
  certificate.ranges = {range};
  standard.certificates = {certificate};
  return standard;
}

Channel analogChannel(const std::string& tag, const std::string& title) {
  AnalogInputSetup input;
  input.signal = {4.0, 20.0, Unit::milliampere};
  input.counts = Span{0.0, 32000.0, Unit::count};
  input.bits = 16;
  input.units = Span{0.0, 100.0, Unit::celsius};
  input.resolution = 0.01;
  Channel channel;
  channel.tag = tag;
  channel.place = "Hall / Cabinet A";
  channel.terminal = "1";
  channel.title = title;
  channel.setups = {{1, at("2015-06-01T08:00:00"), {input, 0.5}, "commissioning"}};
  channel.routines = {{Subject::channel, "FIVE", "yearly"}};
  return channel;
}

Channel thresholdChannel() {
  Channel channel;
  channel.tag = "XS-3";
  channel.place = "Hall / Cabinet B";
  channel.title = "Lid closed";
  channel.setups = {
      {1, at("2015-06-01T08:00:00"), {ThresholdSetup{24.0, 15.0, 5.0, 0}, 0.0}, "commissioning"}};
  channel.routines = {{Subject::channel, "LEVELS", "yearly"}};
  return channel;
}

Plan planOf(const std::string& code, const std::vector<double>& percents, const Tolerance& tolerance) {
  Plan plan;
  plan.code = code;
  plan.revision = "1";
  plan.title = "Invented plan " + code;
  plan.procedure = "WI-1 rev 1";
  plan.scheme = {percents, RunOrder::upDown, 1, false, false};
  plan.tolerance = tolerance;
  plan.cautions = {"Put the loop in manual under the site's own rules before injecting."};
  return plan;
}

}  // namespace

Register smallSite() {
  Register site;
  site.site.code = "SMALL";
  site.site.name = "Small invented site";
  site.site.address = {"Nowhere 1"};
  site.site.issuer = "Invented workshop";
  site.site.issuerAddress = {"Nowhere 1"};
  site.site.customer = "Invented production";
  site.site.customerContact = "production office";
  site.places = {{"Hall", "Hall", "", 1},
                 {"Hall / Cabinet A", "Cabinet A", "Hall", 1},
                 {"Hall / Cabinet B", "Cabinet B", "Hall", 2}};
  site.people = {{"tech", "Tess Technician", {Role::technician}, std::nullopt},
                 {"qa", "Quinn Reviewer", {Role::reviewer}, std::nullopt}};
  site.standards = {standardOf("STD-1", "current source", rangeOf(Unit::milliampere, 0.0, 24.0)),
                    standardOf("STD-2", "voltage source", rangeOf(Unit::volt, 0.0, 30.0))};
  const ToleranceSide quarter{0.0, 0.0, 0.25, 0.0};
  const ToleranceSide oneVolt{1.0, 0.0, 0.0, 0.0};
  site.plans = {planOf("FIVE", {0.0, 25.0, 50.0, 75.0, 100.0}, {quarter, quarter}),
                planOf("LEVELS", {}, {oneVolt, oneVolt})};
  site.intervals = {{"yearly", PolicyKind::fixed, 0, 12, 0, 0}};
  Channel old = analogChannel("OLD-4", "Taken out of use");
  old.retired = true;
  site.channels = {analogChannel("TT-1", "Tank temperature"), analogChannel("PT-2", "Jacket temperature"),
                   thresholdChannel(), old};
  site.index();
  return site;
}

ProposedVisit visitTo(const std::string& channel, const std::string& when, double found,
                      std::optional<double> left) {
  ProposedVisit visit;
  visit.channel = channel;
  visit.performed = at(when);
  visit.person = "tech";
  visit.standards = {"STD-1"};
  visit.cautionsConfirmed = true;
  visit.adjustment.adjusted = left.has_value();
  visit.adjustment.text = left ? "zero trimmed" : "";
  const double nominal[] = {0.0, 25.0, 50.0, 75.0, 100.0, 100.0, 75.0, 50.0, 25.0, 0.0};
  for (int i = 0; i < 10; ++i) {
    ProposedReading reading;
    reading.sequence = i + 1;
    reading.typed.indicatedText = formatFixed(nominal[i] + found, 2);
    visit.asFound.push_back(reading);
    if (left) {
      reading.typed.indicatedText = formatFixed(nominal[i] + *left, 2);
      visit.asLeft.push_back(reading);
    }
  }
  return visit;
}

GuiTest::GuiTest() : clock_(*parseDate("2026-11-25")) {
  QSettings().clear();
  setAnswerer([this](QWidget*, const Question& question) {
    asked_ << question.text;
    return answer_;
  });
}
GuiTest::~GuiTest() {
  answer_ = true;  // nothing keeps a window of a failed test open
  closeWindow();
  setAnswerer({});
}

void GuiTest::makeRecord(const std::vector<ProposedVisit>& visits, const Register& site) {
  ASSERT_THAT(registerFaults(site), ::testing::IsEmpty());
  Store store = Store::create(recordFile().toStdString(), site, clock_);
  for (const ProposedVisit& visit : visits) {
    enterVisit(store, visit, clock_.localNow());
  }
}

void GuiTest::openWindow() {
  session_ = std::make_unique<Session>(clock_);
  window_ = std::make_unique<MainWindow>(*session_);
  window_->resize(1280, 720);
  window_->show();
  ASSERT_TRUE(makeActive(window_.get()));
  ASSERT_EQ(session_->openNow(recordFile()).toStdString(), "");
  session_->worker().waitUntilIdle();
}

bool GuiTest::makeActive(QWidget* window) {
  window->activateWindow();
  return QTest::qWaitFor([window] { return QApplication::activeWindow() == window; });
}

void GuiTest::closeWindow() {
  if (window_) {
    window_->close();
  }
  window_.reset();
  session_.reset();
}

void GuiTest::type(const QString& text) {
  for (const QChar character : text) {
    ASSERT_NE(QApplication::focusWidget(), nullptr);
    QTest::keyClick(QApplication::focusWidget(), character.toLatin1());
    ++keys_;
  }
}

void GuiTest::press(Qt::Key key, Qt::KeyboardModifiers modifiers) {
  ASSERT_NE(QApplication::focusWidget(), nullptr);
  QTest::keyClick(QApplication::focusWidget(), key, modifiers);
  ++keys_;
}

void GuiTest::keepPicture(const QString& name) const {
  const QString folder = qEnvironmentVariable("SPANWRIGHT_PICTURES");
  if (!folder.isEmpty()) {
    QTest::qWait(200);  // the live chart is drawn after a burst of typing
    window_->grab().save(folder + u'/' + name + QStringLiteral(".png"));
  }
}

void GuiTest::keepLooks(QWidget* dialog, const QString& name) {
  const QString folder = qEnvironmentVariable("SPANWRIGHT_PICTURES");
  if (folder.isEmpty()) {
    return;
  }
  for (const Look look : {Look::dark, Look::contrast, Look::light}) {
    applyLook(*qApp, look);
    QTest::qWait(50);  // colours reach the widgets over the event loop
    dialog->grab().save(folder + u'/' + name + u'-' + codeOf(look) + QStringLiteral(".png"));
  }
}

QWidget* GuiTest::root() const {
  return window_.get();
}

}  // namespace spanwright
