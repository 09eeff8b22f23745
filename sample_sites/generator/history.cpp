// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/history.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <stdexcept>
#include <utility>

#include "sample_sites/generator/random.h"
#include "sample_sites/generator/schedule.h"
#include "sample_sites/generator/text.h"

namespace spanwright::sample {

namespace {

template <class Item, class Name>
const Item& named(const std::vector<Item>& items, Name name, const std::string& wanted) {
  for (const Item& item : items) {
    if (item.*name == wanted) {
      return item;
    }
  }
  throw std::runtime_error("the sample names \"" + wanted + "\", which it does not describe");
}

int setupAt(const ChannelSpec& channel, When at) {
  int version = 0;
  for (const SetupSpec& setup : channel.setups) {
    version += setup.from <= at ? 1 : 0;
  }
  return version;
}

std::string sensorAt(const ChannelSpec& channel, When at) {
  for (const FittingSpec& fitting : channel.fittings) {
    if (fitting.from <= at && (!fitting.until || at < *fitting.until)) {
      return fitting.sensor;
    }
  }
  return {};
}

/// How a value is typed for each unit that is applied.
double appliedStep(const std::string& unit) {
  if (unit == "count") {
    return 1.0;
  }
  return unit == "degC" || unit == "ohm" || unit == "%" || unit == "rpm" || unit == "Hz" ? 0.01 : 0.001;
}

/// One subject of one channel through the years.
class Subject {
 public:
  Subject(const SiteSpec& site, const ChannelSpec& channel, const RoutineSpec& routine)
      : site_(site),
        channel_(channel),
        routine_(routine),
        plan_(named(site.plans, &PlanSpec::code, routine.plan)),
        random_(site.code + "/" + channel.tag + "/" + routine.subject) {}

  void run(const std::vector<When>& visits, History& out) {
    for (const When at : visits) {
      out.visits.push_back(visit(at, out));
    }
    noteLaterSetups(visits, out);
    noteFaults(out);
    if (site_.next && site_.next->channel == channel_.tag && routine_.subject == "channel") {
      // Its truth stays out of the history's.
      History aside;
      out.next = visit(site_.next->at, aside);
    }
    finish(out);
  }

 private:
  Visit visit(When at, History& out) {
    Visit visit;
    visit.channel = channel_.tag;
    visit.subject = routine_.subject;
    visit.plan = plan_.code;
    visit.performed = at;
    enter(at, out);
    if (routine_.manner.step != 0.0 && !stepped_ && routine_.manner.stepAt <= at) {
      zero_ += routine_.manner.step;
      stepped_ = true;
    }
    visit.setup = setup_;
    visit.sensor = routine_.subject == "channel" ? "" : sensor_;
    visit.person = personFor(site_, channel_.place, at, random_);
    visit.standards = standardsFor(site_, channel_, setupSpec(), routine_.subject, at);
    visit.temperature = rounded(random_.uniform(17.0, 26.0), 0.1);
    visit.humidity = rounded(random_.uniform(38.0, 68.0), 1.0);
    visit.milliamps = routine_.subject == "channel" && sheet_->appliedUnit() == "mA";
    const double fault = visit.milliamps ? standardFault(site_, visit.standards, at) : 0.0;
    visit.faultyStandard = fault != 0.0;
    touched_ = touched_ || visit.faultyStandard;
    if (at <= site_.historyEnd) {
      skip(visit);
    }
    visit.found = readings(visit, at, fault, random_.chance(0.35));
    for (std::size_t i = 0; i < sheet_->points().size(); ++i) {
      count(i, visit);
    }
    if (worst_ > plan_.adjustLimit && adjustable()) {
      adjust(visit, at, fault, out);
      visit.left = readings(visit, at, fault, false);
    }
    return visit;
  }

  const SetupSpec& setupSpec() const { return channel_.setups.at(static_cast<std::size_t>(setup_) - 1); }

  bool adjustable() const {
    return routine_.manner.adjustable && setupSpec().kind != "threshold-input" &&
           setupSpec().kind != "discrete-output";
  }

  /// Begins anew under another setup or with another sensor.
  void enter(When at, History& out) {
    const int setup = setupAt(channel_, at);
    const std::string sensor = sensorAt(channel_, at);
    const bool sensorMatters = routine_.subject != "channel";
    if (sheet_ && setup == setup_ && (!sensorMatters || sensor == sensor_)) {
      return;
    }
    if (sheet_) {
      finish(out);
      const bool newSetup = setup != setup_;
      const When since =
          newSetup ? channel_.setups.at(static_cast<std::size_t>(setup) - 1).from : fittedSince(sensor);
      out.breaks.push_back(
          {channel_.tag, routine_.subject, newSetup ? "new setup" : "another sensor", since, "", "", 0.0});
    }
    setup_ = setup;
    sensor_ = sensor;
    const SensorSpec* fitted = sensor.empty() ? nullptr : &named(site_.sensors, &SensorSpec::serial, sensor);
    sheet_.emplace(plan_, routine_.subject, setupSpec(), fitted);
    begun_ = years(at);
    zero_ = 0.12 * random_.normal();
    span_ = 0.12 * random_.normal();
    // One subject in eight does not drift at all; the others do so that it shows.
    const bool drifts = !random_.chance(0.125);
    zeroRate_ = drifts ? drawnRate(routine_.manner.zeroRate) : 0.0;
    spanRate_ = drifts ? drawnRate(routine_.manner.spanRate) : 0.0;
    if (routine_.manner.fastRate != 0.0) {
      zeroRate_ = routine_.manner.fastRate;
    }
    bend_.clear();
    for (const SheetPoint& point : sheet_->points()) {
      if (!bend_.contains(point.key)) {
        bend_[point.key] = 0.05 * random_.normal();
      }
    }
    visits_.clear();
    touched_ = false;
  }

  double drawnRate(double most) {
    const double size = random_.uniform(0.3, 1.0) * most;
    return random_.chance(0.5) ? size : -size;
  }

  /// Setups that came after the last visit are breaks all the same.
  void noteLaterSetups(const std::vector<When>& visits, History& out) const {
    for (const SetupSpec& setup : channel_.setups) {
      if (!visits.empty() && visits.back() < setup.from && setup.from <= site_.historyEnd) {
        out.breaks.push_back({channel_.tag, routine_.subject, "new setup", setup.from, "", "", 0.0});
      }
    }
  }

  void noteFaults(History& out) const {
    const Manner& manner = routine_.manner;
    const auto note = [&](const std::string& kind, When at, const std::string& amount) {
      out.faults.push_back({channel_.tag, routine_.subject, kind, at, amount});
    };
    if (manner.step != 0.0) {
      note("step", manner.stepAt, shortest(manner.step));
    }
    if (manner.fastRate != 0.0) {
      note("fast drift", {}, shortest(manner.fastRate));
    }
    if (manner.intermittent) {
      note("intermittent", {}, "");
    }
    for (const Visit& visit : out.visits) {
      if (visit.channel == channel_.tag && visit.subject == routine_.subject && visit.faultyStandard) {
        note("faulty standard", visit.performed, shortest(site_.fault.share));
      }
    }
  }

  When fittedSince(const std::string& sensor) const {
    return named(channel_.fittings, &FittingSpec::sensor, sensor).from;
  }

  double noiseSd(const SheetPoint& point) const {
    if (point.role == Role::state) {
      return 0.03;
    }
    // At least 0.6 of a step: then rounding only adds a step / sqrt(12) and hides nothing of the drift.
    return std::max(routine_.manner.noise * sheet_->tolerance(point.expected), 0.6 * sheet_->step());
  }

  /// True drift per year in reading units.
  double rate(const SheetPoint& point) const {
    const bool drifts = point.role == Role::value || point.role == Role::switching;
    return drifts ? sheet_->tolerance(point.expected) * (zeroRate_ + spanRate_ * point.percent / 100.0) : 0.0;
  }

  double hysteresis(const SheetPoint& point) const {
    return point.role == Role::value && plan_.order == "up-down"
               ? routine_.manner.hysteresis * sheet_->tolerance(point.expected)
               : 0.0;
  }

  double trueError(const SheetPoint& point, double time) const {
    const double tolerance = sheet_->tolerance(point.expected);
    const double bend = bend_.at(point.key) * tolerance;
    if (point.role == Role::state) {
      return point.expected > 0.0 ? -0.4 : 0.06;
    }
    if (point.role != Role::value && point.role != Role::switching) {
      return bend;
    }
    const double side = point.direction == "down" ? 0.5 : -0.5;
    return tolerance * (zero_ + span_ * point.percent / 100.0) + bend + rate(point) * (time - begun_) +
           side * hysteresis(point);
  }

  std::vector<Line> readings(const Visit& visit, When at, double fault, bool loose) {
    worst_ = 0.0;
    std::vector<Line> lines;
    for (const SheetPoint& point : sheet_->points()) {
      if (std::find(visit.skipped.begin(), visit.skipped.end(), point.key) != visit.skipped.end()) {
        continue;
      }
      lines.push_back(line(point, at, fault, loose));
    }
    return lines;
  }

  Line line(const SheetPoint& point, When at, double fault, bool loose) {
    Line out;
    out.key = point.key;
    out.direction = point.direction;
    out.readingUnit = sheet_->readingUnit();
    double applied = point.nominal;
    double expected = point.expected;
    if (point.role == Role::value && point.key != "loss of communication") {
      applied = apply(point, at, out);
      // The standard's fault: what is at the terminals is less than what it shows.
      expected = sheet_->expected(applied * (1.0 - fault));
    }
    const double sd = noiseSd(point);
    double error = trueError(point, years(at)) + sd * random_.normal();
    if (routine_.manner.intermittent && loose && random_.chance(0.3)) {
      error += sheet_->tolerance(expected) * random_.uniform(1.5, 5.0) * (random_.chance(0.5) ? 1.0 : -1.0);
    }
    const double shown = sheet_->shown(expected + error);
    out.reading = fixedText(shown, readingDecimals());
    if (point.role == Role::value) {
      worst_ = std::max(worst_, std::abs(shown - sheet_->expected(applied)) / sheet_->tolerance(expected));
    }
    return out;
  }

  int readingDecimals() const { return sheet_->readingUnit() == "count" ? 0 : decimals(sheet_->step()); }

  /// What the technician applies, in the sheet's own unit, and how it is written down.
  double apply(const SheetPoint& point, When at, Line& out) {
    out.appliedUnit = sheet_->appliedUnit();
    double applied = point.nominal;
    if (sheet_->takesOhms() && at.day >= site_.ohmsSince) {
      const double element = setupSpec().element == "pt100" ? 100.0 : 1000.0;
      const double ohms = rounded(platinumOhms(element, applied), 0.01);
      out.applied = fixedText(ohms, 2);
      out.appliedUnit = "ohm";
      return platinumCelsius(element, ohms);
    }
    if (routine_.subject != "channel") {
      // A block or a hand pump settles near the nominal value, not on it.
      applied += 0.002 * std::max(1.0, std::abs(applied)) * random_.uniform(-0.5, 0.5);
      applied = std::max(applied, 0.0) * (point.nominal >= 0.0 ? 1.0 : 0.0) +
                std::min(applied, 0.0) * (point.nominal < 0.0 ? 1.0 : 0.0);
    }
    const double step = appliedStep(out.appliedUnit);
    applied = rounded(applied, step);
    out.applied = fixedText(applied, decimals(step));
    return applied;
  }

  void skip(Visit& visit) {
    const bool values = sheet_->points().front().role == Role::value;
    if (!values || !random_.chance(0.05)) {
      return;
    }
    static const std::vector<std::string> reasons{"valve could not be isolated",
                                                  "production needed the line back", "source battery empty"};
    visit.skipped.push_back(sheet_->points()[1 + static_cast<std::size_t>(random_.below(2))].key);
    for (const SheetPoint& point : sheet_->points()) {
      if (point.key == visit.skipped.front()) {
        visit.skippedDirections.push_back(point.direction);
      }
    }
    visit.skipReason = reasons[static_cast<std::size_t>(random_.below(3))];
    visit.remarks = visit.skipped.front() + " % not taken: " + visit.skipReason;
  }

  /// The technician trims until the standard agrees: what the standard is off by goes into the channel.
  void trimAwayFault(double fault) {
    const SheetPoint* low = nullptr;
    const SheetPoint* high = nullptr;
    for (const SheetPoint& point : sheet_->points()) {
      if (point.role != Role::value || point.key == "loss of communication") {
        continue;
      }
      low = low == nullptr || point.percent < low->percent ? &point : low;
      high = high == nullptr || point.percent > high->percent ? &point : high;
    }
    if (fault == 0.0 || low == nullptr || low->percent == high->percent) {
      return;
    }
    const auto off = [&](const SheetPoint& point) {
      return (sheet_->expected(point.nominal) - sheet_->expected(point.nominal * (1.0 - fault))) /
             sheet_->tolerance(point.expected);
    };
    const double slope = (off(*high) - off(*low)) / (high->percent - low->percent);
    zero_ += off(*low) - slope * low->percent;
    span_ += slope * 100.0;
  }

  void adjust(Visit& visit, When at, double fault, History& out) {
    const double time = years(at);
    std::map<std::string, double> before;
    for (const SheetPoint& point : sheet_->points()) {
      before.try_emplace(point.key, trueError(point, time));
    }
    const double zeroWas = zero_ + zeroRate_ * (time - begun_);
    const double spanWas = span_ + spanRate_ * (time - begun_);
    zero_ = 0.05 * random_.normal();
    span_ = 0.05 * random_.normal();
    trimAwayFault(fault);
    begun_ = time;
    visit.adjusted = true;
    visit.adjustment = routine_.manner.intermittent ? "terminal screw tightened, zero and span trimmed"
                                                    : "zero and span trimmed";
    visit.zeroMoved = zero_ - zeroWas;
    visit.spanMoved = span_ - spanWas;
    for (const SheetPoint& point : sheet_->points()) {
      const auto was = before.find(point.key);
      if (was != before.end()) {
        out.breaks.push_back({channel_.tag, routine_.subject, "adjustment", at, point.key,
                              sheet_->readingUnit(), trueError(point, time) - was->second});
        before.erase(was);
      }
    }
  }

  void count(std::size_t index, const Visit& visit) {
    const SheetPoint& point = sheet_->points()[index];
    const auto& skipped = visit.skipped;
    if (point.direction != "down" || plan_.order != "up-down" || point.role != Role::value) {
      visits_[point.key] += std::find(skipped.begin(), skipped.end(), point.key) == skipped.end() ? 1 : 0;
    }
  }

  /// Writes down the truth of what ends here.
  void finish(History& out) {
    if (!sheet_) {
      return;
    }
    std::map<std::string, bool> done;
    for (const SheetPoint& point : sheet_->points()) {
      if (std::exchange(done[point.key], true)) {
        continue;
      }
      TrueRate truth;
      truth.channel = channel_.tag;
      truth.subject = routine_.subject;
      truth.setup = setup_;
      truth.sensor = routine_.subject == "channel" ? "" : sensor_;
      truth.point = point.key;
      truth.unit = sheet_->readingUnit();
      truth.ratePerYear = rate(point);
      truth.noiseSd = noiseSd(point);
      truth.resolution = sheet_->step();
      truth.hysteresis = hysteresis(point);
      truth.visits = visits_[point.key];
      if (routine_.manner.intermittent) {
        truth.notRecoverable = "intermittent";
      } else if (stepped_ && point.role == Role::value) {
        truth.notRecoverable = "step";
      } else if (touched_ && point.role == Role::value) {
        truth.notRecoverable = "faulty standard";
      }
      out.rates.push_back(std::move(truth));
    }
  }

  const SiteSpec& site_;
  const ChannelSpec& channel_;
  const RoutineSpec& routine_;
  const PlanSpec& plan_;
  Random random_;
  std::optional<Sheet> sheet_;
  int setup_ = 0;
  std::string sensor_;
  // Of the present segment, in tolerances: error at 0 %, what is added towards 100 %, and both per year.
  double begun_ = 0.0, zero_ = 0.0, span_ = 0.0, zeroRate_ = 0.0, spanRate_ = 0.0;
  std::map<std::string, double> bend_;
  std::map<std::string, int> visits_;
  double worst_ = 0.0;  ///< largest |reading - expected| over tolerance of the run just taken
  bool touched_ = false;
  bool stepped_ = false;
};

}  // namespace

History simulate(const SiteSpec& site) {
  History history;
  const Schedule schedule(site);
  for (const ChannelSpec& channel : site.channels) {
    for (const RoutineSpec& routine : channel.routines) {
      Subject(site, channel, routine).run(schedule.visits(channel, routine), history);
    }
  }
  std::stable_sort(history.visits.begin(), history.visits.end(),
                   [](const Visit& a, const Visit& b) { return a.performed < b.performed; });
  std::stable_sort(history.breaks.begin(), history.breaks.end(),
                   [](const TrueBreak& a, const TrueBreak& b) { return a.at < b.at; });
  return history;
}

}  // namespace spanwright::sample
