// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/certificate/example.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/metrology/evaluate.h"
#include "core/units/number.h"

namespace spanwright::example {
namespace {

Plan fivePoints() {
  Plan plan;
  plan.code = "AI-5UD";
  plan.revision = "2";
  plan.title = "Analog input, five points up and down";
  plan.procedure = "WI-012 rev 2";
  plan.scheme = {{0, 25, 50, 75, 100}, RunOrder::upDown, 1, false, false};
  plan.tolerance = {{0.0, 0.0, 0.25, 0.0}, {0.0, 0.0, 0.25, 0.0}};
  plan.cautions = {"Put the loop in manual under the site's own rules before injecting.",
                   "Treat the cabinet's terminals as live."};
  plan.settleSeconds = 10.0;
  return plan;
}

ChannelSetup currentInput() {
  AnalogInputSetup input;
  input.signal = {4.0, 20.0, Unit::milliampere};
  input.counts = Span{0.0, 32000.0, Unit::count};
  input.bits = 16;
  input.units = Span{0.0, 150.0, Unit::celsius};
  input.resolution = 0.01;
  return {input, 0.5};
}

void addStandard(Register& site) {
  StandardCertificate certificate;
  certificate.number = "C-11873";
  certificate.issuer = "Harrow Vale calibration laboratory (invented)";
  certificate.traceability = "to the SI through an accredited laboratory (invented)";
  certificate.issued = certificate.validFrom = *parseDate("2026-02-12");
  certificate.validUntil = *parseDate("2027-02-28");
  certificate.ranges = {{Unit::milliampere, 0.001, {{4.0, 0.0002, 0.0008}, {20.0, 0.0005, 0.0012}}}};
  site.standards = {{"LC-2201",
                     "Invented Instruments",
                     "loop calibrator",
                     "current and voltage source",
                     "workshop",
                     {certificate}}};
}

PointModelPtr modelOf(const Example& example) {
  const Channel& channel = example.site.channels.front();
  switch (example.calibration.subject) {
    case Subject::channel:
      return channelModel(channel.setups.front().setup);
    case Subject::sensor:
      return sensorModel(example.site.sensors.front().range);
    case Subject::loop:
      break;
  }
  return loopModel(channel.setups.front().setup, example.site.sensors.front().range);
}

Reading taken(const Example& example, const TestPoint& point, double error, int decimals,
              double uncertainty) {
  const PointModelPtr model = modelOf(example);
  const ChannelSetup* setup = example.calibration.subject == Subject::sensor
                                  ? nullptr
                                  : &example.site.channels.front().setups.front().setup;
  const Tolerance& tolerance = example.site.plans.front().tolerance;
  Reading reading;
  reading.point = point;
  reading.applied = point.nominalApplied;
  const auto wanted = expectPoint(point, *model, setup, tolerance, reading.applied);
  if (!std::holds_alternative<PointResult>(wanted)) {
    throw std::logic_error("example point " + point.label + " has no expected value");
  }
  reading.expected = std::get<PointResult>(wanted).expected;
  reading.indicatedText = formatFixed(reading.expected + error, decimals);
  reading.indicated = parseNumber(reading.indicatedText)->value;
  const auto judged = evaluatePoint(point, *model, setup, tolerance, reading.applied, reading.indicated);
  const auto& result = std::get<PointResult>(judged);
  reading.limits = result.limits;
  reading.verdict = result.verdict;
  reading.withinOneStep = result.withinOneStep;
  reading.flooredByStep = result.flooredByStep;
  reading.expandedUncertainty = uncertainty;
  reading.coverageFactor = 2.0;
  return reading;
}

Verdict overallOf(const std::vector<Reading>& readings) {
  std::vector<Verdict> verdicts;
  for (const Reading& reading : readings) {
    verdicts.push_back(reading.skipped() ? Verdict::notJudged : reading.verdict);
  }
  return overall(verdicts);
}

std::string longText(const std::string& what, int sentences) {
  std::string text;
  for (int i = 1; i <= sentences; ++i) {
    text += "Sentence " + std::to_string(i) + " of the " + what +
            " goes on at some length, as people's texts do when a form gives them room. ";
  }
  return text;
}

}  // namespace

CertificateSource Example::source() {
  CertificateSource result;
  result.site = &site;
  result.calibration = &calibration;
  result.channel = site.channel(calibration.channel);
  result.setup = result.channel != nullptr ? &result.channel->setups.front() : nullptr;
  result.plan = site.plan(calibration.plan);
  result.sensor = calibration.sensor.empty() ? nullptr : site.sensor(calibration.sensor);
  result.number = "LARK-2026-0014";
  result.issued = *parseDate("2026-11-21");
  return result;
}

void prepare(Example& example, const ChannelSetup& setup, const Plan& plan, Subject subject) {
  Register& site = example.site;
  site.site = {"LARK",
               "Larkmead Creamery",
               {"Dairy Lane 4", "Larkmead"},
               "Larkmead instrument workshop",
               {"Workshop Yard 1", "Larkmead"},
               "Larkmead production",
               "production office",
               "Invented site for trying the program.",
               false};
  site.people = {{"mtolland", "Mara Tolland", {Role::technician}, std::nullopt}};
  site.plans = {plan};
  addStandard(site);
  Sensor sensor;
  sensor.serial = "TX-5510";
  sensor.maker = "Invented Instruments";
  sensor.model = "head transmitter";
  sensor.description = "temperature transmitter";
  sensor.range.process = {0.0, 150.0, Unit::celsius};
  sensor.range.output = Span{4.0, 20.0, Unit::milliampere};
  site.sensors = {sensor};
  Channel channel;
  channel.tag = "TT-101";
  channel.place = "Pasteuriser hall / Cabinet P1 / Station 1";
  channel.terminal = "1";
  channel.title = "Holding tube temperature";
  channel.setups = {{3, *parseMoment("2024-03-01T08:00"), setup, "range widened"}};
  site.channels = {channel};
  site.index();
  Calibration& calibration = example.calibration;
  calibration.id = 12;
  calibration.channel = "TT-101";
  calibration.subject = subject;
  calibration.setupVersion = 3;
  calibration.sensor = subject == Subject::channel ? "" : "TX-5510";
  calibration.plan = plan.code;
  calibration.planRevision = plan.revision;
  calibration.performed = *parseMoment("2026-11-20T09:30");
  calibration.person = "mtolland";
  calibration.standards = {{"LC-2201", "C-11873"}};
  calibration.conditions = {21.5, 45.0, ""};
  calibration.cautionsConfirmed = true;
  calibration.source = "entered";
}

std::vector<Reading> readings(const Example& example, const std::vector<double>& errors, int decimals,
                              double uncertainty) {
  const PointModelPtr model = modelOf(example);
  const ChannelSetup& setup = example.site.channels.front().setups.front().setup;
  const Subject subject = example.calibration.subject;
  const auto points = layOutPoints(example.site.plans.front().scheme, *model,
                                   subject == Subject::sensor ? nullptr : &setup, subject);
  std::vector<Reading> list;
  for (const TestPoint& point : points) {
    list.push_back(taken(example, point, errors[list.size() % errors.size()], decimals, uncertainty));
  }
  return list;
}

void judge(Calibration& calibration) {
  calibration.foundVerdict = overallOf(calibration.asFound);
  calibration.leftVerdict = overallOf(calibration.standingAsLeft());
}

void fiveUpDown(Example& example) {
  prepare(example, currentInput(), fivePoints());
  Calibration& calibration = example.calibration;
  calibration.asFound =
      readings(example, {0.11, 0.24, 0.29, 0.43, 0.52, 0.55, 0.41, 0.33, 0.21, 0.07}, 2, 0.0123);
  calibration.asFound.front().appliedText = "4.000 mA";
  calibration.adjustment = {true, false, "span trimmed by -0.3 %, zero left alone"};
  calibration.asLeft =
      readings(example, {0.03, -0.02, 0.04, 0.05, -0.04, -0.06, 0.07, 0.01, -0.03, 0.02}, 2, 0.0123);
  judge(calibration);
}

void threshold(Example& example) {
  ThresholdSetup setup;
  setup.onLevel = 11.0;
  setup.offLevel = 7.5;
  Plan plan = fivePoints();
  plan.code = "DI-TH";
  plan.title = "Threshold input, on and off levels";
  plan.scheme = {{}, RunOrder::up, 2, false, false};
  plan.tolerance = {{0.5, 0.0, 0.0, 0.0}, {0.5, 0.0, 0.0, 0.0}};
  prepare(example, {setup, 0.003}, plan);
  example.calibration.asFound = readings(example, {0.13, -0.08, 0.15, -0.05}, 2, 0.034);
  judge(example.calibration);
}

void longTexts(Example& example) {
  Plan plan = fivePoints();
  plan.scheme = {{0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100}, RunOrder::upDown, 3, false, false};
  plan.title = longText("plan's title", 2);
  plan.procedure = longText("procedure", 3);
  for (int i = 0; i < 6; ++i) {
    plan.cautions.push_back(longText("caution", 2));
  }
  prepare(example, currentInput(), plan, Subject::loop);
  example.site.site.customer = longText("customer's name", 1);
  example.site.site.note = longText("note", 4);
  example.site.channels.front().title = longText("title", 2);
  example.site.channels.front().setups.front().remark = longText("remark on the setup", 3);
  example.site.standards.front().certificates.front().traceability = longText("traceability", 4);
  Standard second = example.site.standards.front();
  second.serial = std::string(60, 'W');  // one word wider than any column
  example.site.standards.push_back(second);
  example.site.index();
  Calibration& calibration = example.calibration;
  calibration.standards.push_back({second.serial, "C-11873"});
  calibration.conditions.note = longText("note on the conditions", 2);
  std::vector<double> errors;
  for (int i = 0; i < 66; ++i) {
    errors.push_back(0.3 * std::sin(0.37 * i) + 0.01 * (i % 7));
  }
  calibration.asFound = readings(example, errors, 2, 0.0456);
  calibration.asFound[40].skipReason = longText("reason", 3);
  calibration.adjustment = {true, true, longText("adjustment", 5)};
  for (double& error : errors) {
    error *= 0.4;
  }
  calibration.asLeft = readings(example, errors, 2, 0.0456);
  calibration.remarks = longText("remarks", 8);
  judge(calibration);
}

void discreteOutput(Example& example) {
  Plan plan = fivePoints();
  plan.code = "DO-ST";
  plan.title = "Discrete output, states";
  plan.scheme = {{}, RunOrder::up, 2, false, true};
  prepare(example, {DiscreteOutputSetup{}, 0.0}, plan);
  example.calibration.asFound = readings(example, {-0.42, 0.13, -0.45, 0.14, 0.02}, 2, 0.034);
  example.calibration.asFound[3].skipReason = "load could not be isolated";
  judge(example.calibration);
}

void alarmLevels(Example& example) {
  ThermocoupleSetup setup;
  setup.range = {0.0, 400.0, Unit::celsius};
  setup.alarms = {60.0, 70.0, 90.0, 95.0, 1.0};
  Plan plan = fivePoints();
  plan.scheme.alarms = true;
  prepare(example, {setup, 0.0}, plan);
  example.calibration.asFound = readings(example, {0.2, -0.3, 0.4, 0.0, -0.1}, 1, 0.37);
  judge(example.calibration);
}

void analogOutput(Example& example) {
  AnalogOutputSetup setup;
  setup.signal = {4.0, 20.0, Unit::milliampere};
  setup.units = Span{0.0, 100.0, Unit::percent};
  Plan plan = fivePoints();
  plan.scheme.loss = true;
  prepare(example, {setup, 0.0}, plan);
  example.calibration.asFound = readings(example, {0.003, -0.004, 0.007, 0.012}, 3, 0.0031);
  judge(example.calibration);
}

void sensorAlone(Example& example) {
  prepare(example, currentInput(), fivePoints(), Subject::sensor);
  example.calibration.asFound = readings(example, {0.003, -0.004, 0.007, 0.012}, 3, 0.0031);
  judge(example.calibration);
}

}  // namespace spanwright::example
