// SPDX-License-Identifier: GPL-3.0-or-later
#include "samples.h"

#include <stdlib.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace spanwright::test {

namespace fs = std::filesystem;

Folder::Folder() : Folder(fs::temp_directory_path()) {}

Folder::Folder(const fs::path& in) {
  std::string name = (in / "spanwright-store-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) {
    throw std::runtime_error("no folder for a test");
  }
  path_ = name;
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

std::vector<std::string> Folder::names() const {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(path_)) {
    names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

Moment at(std::string_view text) {
  return parseMoment(text).value();
}
Date on(std::string_view text) {
  return parseDate(text).value();
}

FixedClock::FixedClock(std::string_view localText, std::string_view utcText)
    : local(at(localText)), utc(at(utcText.empty() ? localText : utcText)) {}

// --- the register ---

namespace {

AnalogInputSetup analogInput(double high) {
  AnalogInputSetup s;
  s.signal = {4, 20, Unit::milliampere};
  s.counts = Span{0, 32000, Unit::count};
  s.bits = 16;
  s.units = Span{0, high, Unit::celsius};
  s.resolution = 0.1;
  s.alarms = {0.1 + 0.2, 20.0, std::nullopt, 90.0, 1.0};
  return s;
}

std::vector<SetupVersion> setupsOfEveryKind() {
  AnalogInputSetup root = analogInput(120);
  root.transfer = TransferKind::squareRoot;
  root.cutOffPercent = 1.5;
  root.readsAs = ReadsAs::counts;
  root.alarms = {};
  ThermocoupleSetup couple;
  couple.type = ThermocoupleType::N;
  couple.range = {-50, 1100, Unit::celsius};
  couple.readsTenths = true;
  RtdSetup rtd;
  rtd.element = RtdElement::pt1000;
  rtd.wires = 4;
  rtd.range = {-20, 180, Unit::celsius};
  rtd.alarms.high = 150.0;
  AnalogOutputSetup output;
  output.signal = {0, 10, Unit::volt};
  output.counts = Span{0, 4095, Unit::count};
  output.bits = 12;
  output.commandedAs = ReadsAs::counts;
  output.onLoss = LossBehaviour::hold;
  return {{1, at("2018-03-01T08:00:00"), {analogInput(150), 0.5}, "commissioning"},
          {2, at("2019-03-01T08:00:00"), {root, 0.0}, "flow instead"},
          {3,
           at("2020-03-01T08:00:00"),
           {couple, 1.0 / 3.0},
           "couple \xC2\xB0"
           "C"},
          {4, at("2021-03-01T08:00:01"), {rtd, 2.0}, ""},
          {5, at("2022-03-01T08:00:00"), {output, 0.0}, "now an output"},
          {6, at("2023-03-01T08:00:00"), {DiscreteOutputSetup{24, 1.5, 0.75, LossBehaviour::hold}, 0.0}, ""},
          {7, at("2024-03-01T08:00:00"), {ThresholdSetup{24, 15, 5, 3}, 0.01}, "switch"}};
}

std::vector<Standard> standards() {
  const CertificateRange current{Unit::milliampere, 0.001, {{4, 0.0002, 0.0008}, {20, -0.0005, 0.0012}}};
  const CertificateRange voltage{
      Unit::volt, 0.0001, {{0, 0.1 + 0.2 - 0.3, 1e-5}, {5, 2e-5, 1e-5}, {10, 3e-5, 2e-5}}};
  return {{"LC-2201",
           "Invented Instruments",
           "loop calibrator",
           "current and voltage source",
           "workshop",
           {{"C-11873",
             "laboratory",
             "to the SI",
             on("2023-02-12"),
             on("2023-02-12"),
             on("2024-02-28"),
             2.0,
             {current}},
            {"C-12999",
             "laboratory",
             "to the SI",
             on("2024-02-10"),
             on("2024-02-12"),
             on("2026-12-31"),
             2.13,
             {voltage, current}}}},
          {"AA-0001", "Invented", "thermometer", "", "", {}}};
}

std::vector<Sensor> sensors() {
  SensorRange transmitter{
      {0, 150, Unit::celsius}, Span{4, 20, Unit::milliampere}, TransferKind::linear, {}, {}};
  SensorRange couple{{-50, 1100, Unit::celsius}, {}, TransferKind::linear, ThermocoupleType::N, {}};
  SensorRange element{{-20, 180, Unit::celsius}, {}, TransferKind::linear, {}, RtdElement::pt1000};
  return {{"TX-5510", "Invented", "head", "transmitter", transmitter},
          {"TC-0002", "Invented", "mineral insulated", "", couple},
          {"RT-0003", "", "", "", element}};
}

std::vector<Plan> plans() {
  Plan five;
  five.code = "AI-5UD";
  five.revision = "2";
  five.title = "Five points";
  five.procedure = "WI-012 rev 2";
  five.scheme = {{0, 25, 50, 75, 100}, RunOrder::upDown, 2, true, false};
  five.tolerance = {{0.1, 0.2, 0.25, 0}, {0.05, 0, 0.25, 0}};
  five.cautions = {"Put the loop in manual.", "Line two, with \"quotes\"."};
  five.settleSeconds = 10;
  Plan output = five;
  output.code = "AO";
  output.scheme = {{0, 100.0 / 3.0, 100}, RunOrder::downUp, 1, false, true};
  output.tolerance = {{0.5, 0, 0, 0}, {0.5, 0, 0, 0}};
  output.cautions = {};
  output.minutes = 12.5;
  return {five, output};
}

}  // namespace

Register sampleRegister() {
  Register site;
  site.site = {"LARK",     "Larkmead Creamery", {"Dairy Lane 4", "Larkmead"},
               "workshop", {"Dairy Lane 4"},    "production",
               "office",   "Invented.",         true};
  site.calendar.workingWeekdays = {1, 2, 4, 6};
  site.calendar.closed = {{on("2026-12-24"), on("2027-01-01"), "winter shutdown"}};
  site.calendar.dueSoonDays = 21;
  site.calendar.graceDays = 7;
  site.calendar.earlyDays = 12;
  site.places = {{"Hall", "Hall", "", 2},
                 {"Hall / Cabinet P1", "Cabinet P1", "Hall", 0},
                 {"Hall / Cabinet P1 / Station 1", "Station 1", "Hall / Cabinet P1", 1},
                 {"Annex", "Annex", "", 1}};
  site.people = {
      {"zora",
       "Zora Example",
       {Role::reviewer, Role::technician},
       {},
       7.5,
       {{on("2026-07-01"), on("2026-07-14"), "holidays"}, {on("2026-09-01"), on("2026-09-01"), ""}}},
      {"adam", "Adam Example", {Role::planner, Role::administrator}, on("2024-06-30")}};
  site.standards = standards();
  site.sensors = sensors();
  site.plans = plans();
  site.intervals = {{"yearly", PolicyKind::fixed, 0, 12, 90, 800},
                    {"days", PolicyKind::staircase, 180, 0, 30, 1000, 1.25, 0.1 + 0.2}};
  Channel every;
  every.tag = "TT-101";
  every.place = "Hall / Cabinet P1 / Station 1";
  every.terminal = "1";
  every.title = "Holding tube";
  every.setups = setupsOfEveryKind();
  every.fittings = {{"TX-5510", at("2018-03-01T08:00:00"), at("2020-03-01T08:00:00")},
                    {"TC-0002", at("2020-03-01T08:00:00"), {}}};
  every.routines = {{Subject::loop, "AO", "days"}, {Subject::channel, "AI-5UD", "yearly"}};
  Channel plain;
  plain.tag = "AI-001";
  plain.place = "Annex";
  plain.terminal = "2";
  plain.setups = {{1, at("2018-03-01T08:00:00"), {analogInput(100), 0.0}, ""}};
  plain.routines = {{Subject::channel, "AI-5UD", "yearly"}};
  Channel retired = plain;
  retired.tag = "AI-000";
  retired.retired = true;
  AnalogInputSetup countsOnly = analogInput(1);
  countsOnly.units.reset();
  countsOnly.readsAs = ReadsAs::counts;
  countsOnly.alarms = {};
  retired.setups[0].setup.kind = countsOnly;
  retired.routines = {};
  site.channels = {every, plain, retired};
  site.index();
  return site;
}

// --- calibrations ---

namespace {

class Maker {
 public:
  explicit Maker(std::mt19937_64& random) : random_(random) {}

  Calibration calibration() {
    Calibration c;
    c.channel = coin() ? "TT-101" : "AI-001";
    c.setupVersion = c.channel == "TT-101" ? whole(0, 7) : whole(0, 1);
    c.subject = one<Subject>({Subject::channel, Subject::sensor, Subject::loop});
    c.sensor = one<std::string>({"", "TX-5510", "RT-0003"});
    c.plan = text();
    c.planRevision = text();
    c.performed = at("2018-03-01T08:00:00") + boost::posix_time::seconds(whole(0, 250'000'000));
    c.person = coin() ? "zora" : "adam";
    for (int i = whole(0, 3); i > 0; --i) {
      c.standards.push_back({coin() ? "LC-2201" : "AA-0001", text()});
    }
    c.conditions = {maybe(), maybe(), text(), maybe()};
    c.cautionsConfirmed = coin();
    c.adjustment = {coin(), coin(), text()};
    c.asFound = readings();
    c.asLeft = readings();
    c.foundVerdict = verdict();
    c.leftVerdict = verdict();
    c.remarks = text();
    c.source = text();
    return c;
  }

 private:
  template <class T>
  T one(std::vector<T> choices) {
    return choices[static_cast<std::size_t>(whole(0, static_cast<int>(choices.size()) - 1))];
  }
  int whole(int low, int high) { return std::uniform_int_distribution(low, high)(random_); }
  bool coin() { return whole(0, 1) == 1; }
  double number() { return std::ldexp(std::uniform_real_distribution(-1.0, 1.0)(random_), whole(-60, 60)); }
  std::optional<double> maybe() { return coin() ? std::nullopt : std::optional(number()); }
  Verdict verdict() { return one<Verdict>({Verdict::pass, Verdict::fail, Verdict::notJudged}); }
  Unit unit() {
    const auto units = allUnits();
    return units[static_cast<std::size_t>(whole(0, static_cast<int>(units.size()) - 1))];
  }
  std::string text() {
    return one<std::string>({"", "4.020 mA", "it's \"quoted\"; -- DROP", "zwölf °C µ Ω", "two\nlines\t",
                             std::string("\0x", 2), std::string(3000, 'x')});
  }

  std::vector<Reading> readings() {
    std::vector<Reading> all;
    for (int i = 0, count = whole(0, 12), sequence = 0; i < count; ++i) {
      sequence += whole(1, 3);
      all.push_back(reading(sequence));
    }
    return all;
  }

  Reading reading(int sequence) {
    Reading r;
    r.point = {sequence,
               one<PointRole>({PointRole::value, PointRole::switchOn, PointRole::switchOff,
                               PointRole::alarmTrip, PointRole::alarmReset, PointRole::stateOn,
                               PointRole::stateOff, PointRole::lossOfSignal}),
               number(),
               one<Direction>({Direction::none, Direction::up, Direction::down}),
               whole(1, 3),
               {},
               text(),
               number(),
               unit(),
               unit()};
    if (coin()) {
      r.point.alarm =
          one<AlarmLevel>({AlarmLevel::lowLow, AlarmLevel::low, AlarmLevel::high, AlarmLevel::highHigh});
    }
    r.appliedText = text();
    r.indicatedText = text();
    if (whole(0, 9) == 0) {
      r.skipReason = "valve could not be isolated";
    } else {
      r.applied = number();
      r.indicated = number();
    }
    r.expected = whole(0, 9) == 0 ? std::numeric_limits<double>::quiet_NaN() : number();
    constexpr double kOpen = std::numeric_limits<double>::infinity();
    r.limits = {coin() ? -kOpen : number(), coin() ? kOpen : number()};
    r.expandedUncertainty = maybe();
    r.coverageFactor = number();
    r.verdict = verdict();
    r.withinOneStep = coin();
    r.flooredByStep = coin();
    return r;
  }

  std::mt19937_64& random_;
};

}  // namespace

Calibration randomCalibration(std::mt19937_64& random) {
  return Maker(random).calibration();
}

Calibration plainCalibration(std::string_view channel, std::string_view performed, int readings) {
  Calibration c;
  c.channel = channel;
  c.setupVersion = 1;
  c.plan = "AI-5UD";
  c.planRevision = "2";
  c.performed = at(performed);
  c.person = "zora";
  c.standards = {{"LC-2201", "C-11873"}};
  c.foundVerdict = c.leftVerdict = Verdict::pass;
  c.source = "entered";
  for (int i = 1; i <= readings; ++i) {
    Reading r;
    r.point.sequence = i;
    r.point.percent = 25.0 * (i - 1);
    r.point.direction = Direction::up;
    r.point.label = "25 % up";
    r.point.appliedUnit = Unit::milliampere;
    r.point.readingUnit = Unit::celsius;
    r.applied = 4.0 + i;
    r.appliedText = "5.000 mA";
    r.indicated = 37.4 + i / 7.0;
    r.indicatedText = "37.4";
    r.expected = 37.5;
    r.limits = {-0.375, 0.375};
    r.expandedUncertainty = 0.01;
    r.verdict = Verdict::pass;
    c.asFound.push_back(r);
  }
  return c;
}

void makeSampleRecord(const fs::path& file) {
  const FixedClock clock("2026-11-20T10:00:00", "2026-11-20T09:00:00");
  Store store = Store::create(file, sampleRegister(), clock);
  Calibration skipped = plainCalibration("TT-101", "2025-03-04T05:06:07", 3);
  skipped.asFound[1].skipReason = "not reachable";
  skipped.asFound[1].applied = skipped.asFound[1].indicated = 0.0;
  skipped.asFound[2].limits = {-std::numeric_limits<double>::infinity(), 0.1};
  skipped.asLeft = plainCalibration("TT-101", "2025-03-04", 2).asFound;
  skipped.subject = Subject::loop;
  skipped.sensor = "TC-0002";
  skipped.conditions = {21.5, {}, "draughty"};
  skipped.adjustment = {true, false, "zero trimmed"};
  store.add(skipped);
  store.add(plainCalibration("AI-001", "2026-01-01T08:00:00", 2));
  store.issueCertificate(2);
  Draft draft;
  draft.channel = "AI-001";
  draft.person = "zora";
  draft.started = at("2026-11-20T09:30:00");
  draft.standards = {"LC-2201"};
  const auto id = store.saveDraft(draft);
  store.saveDraftValue(id, {Phase::asFound, 1, "4.000 mA", "0.1", ""});
}

void expectSentence(const std::string& text, const fs::path& file) {
  EXPECT_TRUE(text.starts_with('"' + file.string() + "\" ")) << text;
  EXPECT_TRUE(text.ends_with('.')) << text;
  EXPECT_NE(text.find("; "), std::string::npos) << text;
  EXPECT_EQ(text.find('\n'), std::string::npos) << text;
}

}  // namespace spanwright::test
