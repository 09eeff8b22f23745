// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/large_record.h"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <map>
#include <stdexcept>
#include <tuple>

#include "core/store/store.h"
#include "core/tasks/visit.h"
#include "core/units/number.h"

namespace spanwright {
namespace {

constexpr int kChannelsPerCabinet = 100;
constexpr int kCabinetsPerArea = 25;
constexpr int kTechnicians = 30;
constexpr int kDaysPerRound = 182;
constexpr int kVisitsPerTransaction = 20'000;

enum class Kind { pressure, temperature, couple, resistance, level };

Kind kindOf(int channel) {
  constexpr std::array kKinds{Kind::pressure,    Kind::temperature, Kind::pressure, Kind::temperature,
                              Kind::temperature, Kind::pressure,    Kind::couple,   Kind::couple,
                              Kind::resistance,  Kind::level};
  return kKinds[static_cast<std::size_t>(channel) % kKinds.size()];
}

bool hasTransmitter(int channel) {
  return channel % 5 == 0;  // of the kinds above, those read as current
}

/// The same number on every run (splitmix64).
std::uint64_t mixed(std::uint64_t seed) {
  seed += 0x9E3779B97F4A7C15ULL;
  seed = (seed ^ (seed >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  seed = (seed ^ (seed >> 27U)) * 0x94D049BB133111EBULL;
  return seed ^ (seed >> 31U);
}
/// From -1 to 1.
double noise(std::uint64_t seed) {
  return static_cast<double>(mixed(seed) >> 11U) / static_cast<double>(1ULL << 52U) - 1.0;
}

std::string placeOf(int channel) {
  const int cabinet = channel / kChannelsPerCabinet;
  return fmt::format("Area {:02} / Cabinet {:02}-{:02}", cabinet / kCabinetsPerArea + 1,
                     cabinet / kCabinetsPerArea + 1, cabinet % kCabinetsPerArea + 1);
}

std::string tagOf(int channel) {
  constexpr std::array kLetters{"PT", "TT", "TE", "TR", "LS"};
  return fmt::format("{}-{:06}", kLetters[static_cast<std::size_t>(kindOf(channel))], channel + 1);
}

std::string serialOf(int channel) {
  return fmt::format("TX{:07}", mixed(static_cast<std::uint64_t>(channel)) % 1'000 +
                                    1'000ULL * static_cast<std::uint64_t>(channel));
}

std::string titleOf(int channel) {
  constexpr std::array kWhere{"Cooling water",  "Steam header", "Kühlsole", "Feed pump",
                              "Reactor jacket", "Condensate",   "Dryer",    "Storage tank"};
  constexpr std::array kWhat{"pressure", "temperature", "winding temperature", "outlet temperature",
                             "high level"};
  const auto at = static_cast<std::size_t>(mixed(static_cast<std::uint64_t>(channel)) % kWhere.size());
  return fmt::format("{} {} {}", kWhere[at], kWhat[static_cast<std::size_t>(kindOf(channel))],
                     channel % 97 + 1);
}

SetupKind setupOf(int channel, int version) {
  AnalogInputSetup current;
  current.signal = {4.0, 20.0, Unit::milliampere};
  current.bits = 16;
  current.resolution = 0.01;
  switch (kindOf(channel)) {
    case Kind::pressure:
      current.units = Span{0.0, version == 1 ? 100.0 : 160.0, Unit::bar};
      return current;
    case Kind::temperature:
      current.units = Span{0.0, version == 1 ? 100.0 : 150.0, Unit::celsius};
      return current;
    case Kind::couple: {
      ThermocoupleSetup couple;
      couple.range = {0.0, version == 1 ? 800.0 : 600.0, Unit::celsius};
      return couple;
    }
    case Kind::resistance: {
      RtdSetup resistance;
      resistance.range = {0.0, version == 1 ? 200.0 : 300.0, Unit::celsius};
      return resistance;
    }
    case Kind::level:
      return ThresholdSetup{24.0, version == 1 ? 15.0 : 14.0, 5.0, 0};
  }
  return current;
}

std::string planOf(int channel) {
  constexpr std::array kPlans{"PERCENT", "PERCENT", "DEGREES", "DEGREES", "LEVELS"};
  return kPlans[static_cast<std::size_t>(kindOf(channel))];
}

Moment at(const std::string& day, int hours) {
  return Moment(*parseDate(day), boost::posix_time::hours(hours));
}

Channel channelOf(int number) {
  Channel channel;
  channel.tag = tagOf(number);
  channel.place = placeOf(number);
  channel.terminal = fmt::format("X{}", number % kChannelsPerCabinet + 1);
  channel.title = titleOf(number);
  channel.retired = number % 211 == 210;
  channel.setups = {{1, at("2015-06-01", 8), {setupOf(number, 1), 0.5}, "commissioning"}};
  if (number % 7 == 3) {
    channel.setups.push_back({2, at("2020-03-01", 8), {setupOf(number, 2), 0.5}, "new range"});
  } else if (number % 40 == 1) {
    channel.setups.push_back({2, at("2026-11-20", 8), {setupOf(number, 2), 0.5}, "new range"});
  }
  const std::string interval = number % 10 < 7 ? "yearly" : "half-yearly";
  channel.routines = {{Subject::channel, planOf(number), interval}};
  if (hasTransmitter(number)) {
    channel.fittings = {{serialOf(number), at("2015-06-01", 8), {}}};
    channel.routines.push_back({Subject::sensor, "TRANSMITTER", "yearly"});
  }
  return channel;
}

Plan planNamed(const std::string& code, std::vector<double> percents, const ToleranceSide& side) {
  Plan plan;
  plan.code = code;
  plan.revision = "1";
  plan.title = "Invented plan " + code;
  plan.procedure = "WI-" + code;
  plan.scheme.percents = std::move(percents);
  plan.tolerance = {side, side};
  plan.minutes = 20.0;
  return plan;
}

Standard standardOf(int number) {
  const auto range = [](Unit unit, double low, double high, double uncertainty) {
    return CertificateRange{unit, 0.001, {{low, 0.0, uncertainty}, {high, 0.0, uncertainty}}};
  };
  Standard standard;
  standard.serial = fmt::format("STD-{:02}", number);
  standard.maker = "Invented Instruments";
  standard.model = "multifunction calibrator";
  standard.description = "source and meter";
  StandardCertificate certificate;
  certificate.number = fmt::format("C-{:02}", number);
  certificate.issuer = "Invented calibration laboratory";
  certificate.traceability = "to the SI (invented)";
  certificate.issued = certificate.validFrom = *parseDate("2015-01-01");
  certificate.validUntil = *parseDate("2030-12-31");
  certificate.ranges = {range(Unit::milliampere, 0.0, 24.0, 0.002),  range(Unit::volt, 0.0, 30.0, 0.005),
                        range(Unit::millivolt, -10.0, 100.0, 0.005), range(Unit::ohm, 0.0, 400.0, 0.02),
                        range(Unit::celsius, -50.0, 1000.0, 0.05),   range(Unit::bar, -1.0, 200.0, 0.01)};
  standard.certificates = {std::move(certificate)};
  return standard;
}

void addPlaces(Register& site, int channels) {
  std::string last;
  for (int channel = 0; channel < channels; channel += kChannelsPerCabinet) {
    const std::string path = placeOf(channel);
    const std::string area = path.substr(0, path.find(" / "));
    if (area != last) {
      site.places.push_back({area, area, "", static_cast<int>(site.places.size())});
      last = area;
    }
    site.places.push_back({path, path.substr(area.size() + 3), area, channel});
  }
}

/// Visits by kind of channel, version of its setup and subject, as the program itself judges them; what is
/// written for a channel differs from them in its tag, its day and its readings.
class Templates {
 public:
  explicit Templates(const Register& site) : site_(site) {}

  const Calibration& of(int channel, int version, Subject subject) {
    const auto key = std::tuple(kindOf(channel), version, subject);
    auto found = made_.find(key);
    if (found == made_.end()) {
      found = made_.emplace(key, make(channel, version, subject)).first;
    }
    return found->second;
  }

 private:
  Calibration make(int channel, int version, Subject subject) const {
    ProposedVisit visit;
    visit.channel = tagOf(channel);
    visit.subject = subject;
    visit.performed =
        site_.channel(visit.channel)->setups[static_cast<std::size_t>(version) - 1].inForceFrom +
        boost::gregorian::days(1);
    visit.person = "tech01";
    visit.standards = {"STD-01"};
    visit.cautionsConfirmed = true;
    visit.source = "entered";
    const auto opened = openSheet(site_, visit.channel, subject, visit.performed);
    const auto* sheet = std::get_if<VisitSheet>(&opened);
    if (sheet == nullptr) {
      throw std::logic_error("no sheet for " + visit.channel);
    }
    const ChannelSetup* setup = subject == Subject::sensor ? nullptr : &sheet->setup->setup;
    for (const TestPoint& point : sheet->points) {
      const auto expected = std::get<PointResult>(
          expectPoint(point, *sheet->model, setup, sheet->plan->tolerance, point.nominalApplied));
      ProposedReading reading;
      reading.sequence = point.sequence;
      reading.typed.indicatedText = formatFixed(expected.expected, 3);
      visit.asFound.push_back(std::move(reading));
    }
    CheckedVisit checked = checkVisit(site_, visit, Moment(largeRecordDay()), true);
    if (!checked.calibration) {
      throw std::logic_error(sentence(checked.problems.front()));
    }
    return *std::move(checked.calibration);
  }

  const Register& site_;
  std::map<std::tuple<Kind, int, Subject>, Calibration> made_;
};

/// What drifts a little, scatters, and sometimes is found outside and adjusted.
Calibration visitOf(Templates& templates, const Register& site, int number, int round) {
  const Channel& channel = site.channels[static_cast<std::size_t>(number)];
  const auto seed = static_cast<std::uint64_t>(number);
  int day = round * kDaysPerRound + static_cast<int>(mixed(seed) % kDaysPerRound);
  if (number % 20 == 7) {
    day -= 400;  // nobody came for a year
  }
  const Moment when(*parseDate("2016-11-28") + boost::gregorian::days(day),
                    boost::posix_time::minutes(8 * 60 + number % 480));
  const Subject subject = hasTransmitter(number) && round % 5 == 4 ? Subject::sensor : Subject::channel;
  Calibration c = templates.of(number, setupInForce(channel, when)->version, subject);
  c.channel = channel.tag;
  if (!c.sensor.empty()) {
    c.sensor = serialOf(number);
  }
  c.performed = when;
  c.person = fmt::format("tech{:02}", mixed(seed + static_cast<std::uint64_t>(round)) % kTechnicians + 1);
  const auto standard = mixed(seed * 31 + static_cast<std::uint64_t>(round)) % 40 + 1;
  c.standards = {{fmt::format("STD-{:02}", standard), fmt::format("C-{:02}", standard)}};
  c.conditions.temperature =
      20.0 + std::round(50.0 * noise(seed * 7 + static_cast<std::uint64_t>(round))) / 10.0;
  const double rate = 0.05 * noise(seed * 3);  // of the tolerance, a round
  for (std::size_t i = 0; i < c.asFound.size(); ++i) {
    Reading& r = c.asFound[i];
    const double part =
        rate * (round % 12) + 0.25 * noise(seed * 101 + static_cast<std::uint64_t>(round * 8) + i);
    const double limit = std::min(std::isfinite(r.limits.high) ? r.limits.high : -r.limits.low, 1.0e3);
    r.indicated = std::round((r.expected + part * limit) * 1000.0) / 1000.0;
    r.indicatedText = formatFixed(r.indicated, 3);
    r.verdict = r.error() >= r.limits.low && r.error() <= r.limits.high ? Verdict::pass : Verdict::fail;
  }
  c.foundVerdict = c.leftVerdict = overall(c.asFound);
  if (round % 12 == 11 && mixed(seed) % 3 == 0) {
    c.adjustment = {true, false, "zero trimmed"};
    c.asLeft = c.asFound;
    for (Reading& r : c.asLeft) {
      r.indicated = std::round(r.expected * 1000.0) / 1000.0;
      r.indicatedText = formatFixed(r.indicated, 3);
      r.verdict = Verdict::pass;
    }
    c.leftVerdict = Verdict::pass;
  }
  return c;
}

/// Stands still: a record made on one day.
class LargeRecordClock : public Clock {
 public:
  Moment localNow() const override { return Moment(largeRecordDay(), boost::posix_time::hours(6)); }
  Moment utcNow() const override { return localNow(); }
};

/// Under a name of its own until it is whole.
void makeRecord(const std::filesystem::path& file, const LargeRecord& size) {
  const LargeRecordClock clock;
  std::filesystem::path half = file;
  half += ".half";
  for (const char* const part : {"", "-wal", "-shm"}) {
    std::filesystem::remove(half.string() + part);
  }
  {
    Store store = Store::create(half, largeSite(size.channels), clock);
    const Register site = store.site();
    Templates templates(site);
    // Rounds go round all channels as on a real site, so that the rows of a channel lie far apart.
    for (std::int64_t written = 0; written < size.calibrations;) {
      Store::Transaction transaction(store);
      for (int i = 0; i < kVisitsPerTransaction && written < size.calibrations; ++i, ++written) {
        store.add(visitOf(templates, site, static_cast<int>(written % size.channels),
                          static_cast<int>(written / size.channels)));
      }
      transaction.commit();
      fmt::print(stderr, "\r{} of {} calibrations", written, size.calibrations);
    }
    fmt::print(stderr, "\n");
  }
  std::filesystem::rename(half, file);
}

}  // namespace

Date largeRecordDay() {
  return *parseDate("2026-11-25");
}

Register largeSite(int channels) {
  Register site;
  site.site.code = "LARGE";
  site.site.name = "Large invented site";
  site.site.address = {"Nowhere 2"};
  site.site.issuer = "Invented workshop";
  site.site.issuerAddress = {"Nowhere 2"};
  site.site.customer = "Invented production";
  site.site.customerContact = "production office";
  for (int i = 1; i <= kTechnicians; ++i) {
    site.people.push_back({fmt::format("tech{:02}", i),
                           fmt::format("Invented Technician {}", i),
                           {Role::technician},
                           {},
                           20.0});
  }
  site.people.push_back({"review", "Invented Reviewer", {Role::reviewer}, {}});
  for (int i = 1; i <= 40; ++i) {
    site.standards.push_back(standardOf(i));
  }
  const ToleranceSide half{0.0, 0.0, 0.5, 0.0};
  site.plans = {planNamed("PERCENT", {0.0, 100.0}, half),
                planNamed("DEGREES", {10.0, 90.0}, {2.0, 0.0, 0.0, 0.0}),
                planNamed("LEVELS", {}, {1.0, 0.0, 0.0, 0.0}), planNamed("TRANSMITTER", {0.0, 100.0}, half)};
  site.intervals = {{"yearly", PolicyKind::fixed, 0, 12, 0, 0},
                    {"half-yearly", PolicyKind::fixed, 0, 6, 0, 0}};
  addPlaces(site, channels);
  for (int number = 0; number < channels; ++number) {
    site.channels.push_back(channelOf(number));
    if (hasTransmitter(number)) {
      Sensor sensor;
      sensor.serial = serialOf(number);
      sensor.maker = "Invented Instruments";
      sensor.model = "two-wire transmitter";
      sensor.description = "transmitter of " + titleOf(number);
      const bool pressure = kindOf(number) == Kind::pressure;
      sensor.range.process = {0.0, 100.0, pressure ? Unit::bar : Unit::celsius};
      sensor.range.output = Span{4.0, 20.0, Unit::milliampere};
      site.sensors.push_back(std::move(sensor));
    }
  }
  site.index();
  return site;
}

std::filesystem::path largeRecordIn(const std::filesystem::path& folder, const LargeRecord& size) {
  const std::filesystem::path file =
      folder / fmt::format("large-{}-{}.spanwright", size.channels, size.calibrations);
  if (!std::filesystem::exists(file)) {
    std::filesystem::create_directories(folder);
    const auto begin = std::chrono::steady_clock::now();
    makeRecord(file, size);
    fmt::print("the record was made in {:.0f} s\n",
               std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
  }
  return file;
}

}  // namespace spanwright
