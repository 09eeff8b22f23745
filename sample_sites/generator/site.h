// SPDX-License-Identifier: GPL-3.0-or-later
//
// An invented site: what its site file says, and beside each routine how it behaves over the years.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sample_sites/generator/calendar.h"

namespace spanwright::sample {

struct Range {
  double low = 0.0;
  double high = 0.0;
  std::string unit;  ///< empty: there is no such range
  double width() const { return high - low; }
  bool given() const { return !unit.empty(); }
};

struct Alarms {
  std::optional<double> lowLow = {}, low = {}, high = {}, highHigh = {};
  double deadBand = 0.0;
};

struct SetupSpec {
  When from;
  std::string kind;
  std::string remark;
  double filterSeconds = 0.0;
  // analog-input, analog-output; `units` is also the temperature range of the temperature inputs
  Range signal, counts, units;
  int bits = 0;
  bool squareRoot = false;
  double cutOffPercent = 0.0;
  bool inCounts = false;  ///< reads as counts, is commanded in counts
  double resolution = 0.0;
  Alarms alarms;
  bool hasAlarms = false;
  // temperature inputs
  std::string couple, element;
  int wires = 3;
  bool readsTenths = false;
  // threshold-input
  double ratedVolts = 24.0, onLevel = 0.0, offLevel = 0.0;
  int inputType = 0;
  // outputs
  std::string onLoss;
  double supplyVolts = 24.0, maxDropVolts = 2.0, maxOffVolts = 1.0;
};

struct FittingSpec {
  std::string sensor;
  When from;
  std::optional<When> until;
};

/// How a subject behaves. Rates and noise are fractions of the tolerance, so that one manner suits every
/// range.
struct Manner {
  double zeroRate = 0.0;  ///< largest drift per year at 0 %, either sign; the truth is drawn below it
  double spanRate = 0.0;  ///< largest further drift per year from 0 % to 100 %
  double noise = 0.15;    ///< standard deviation of one reading
  double hysteresis = 0.05;
  bool adjustable = true;
  bool intermittent = false;
  // Seeded faults, in tolerances.
  double fastRate = 0.0;  ///< per year, instead of a drawn one; 0: none
  When stepAt = {};       ///< between two visits, and nobody writes it down
  double step = 0.0;      ///< 0: none
};

struct RoutineSpec {
  std::string subject;
  std::string plan;
  std::string interval;
  Manner manner;
};

struct ChannelSpec {
  std::string tag, place, terminal, title;
  std::vector<SetupSpec> setups;
  std::vector<FittingSpec> fittings;
  std::vector<RoutineSpec> routines;
  std::vector<When> extraVisits;  ///< beside the rounds, all routines: after a new setup or another sensor
};

struct SensorSpec {
  std::string serial, maker, model, description;
  Range process, output = {};
  bool squareRoot = false;
  std::string thermocouple = {}, rtd = {};
};

struct ToleranceSpec {
  double absolute = 0.0, percentOfReading = 0.0, percentOfSpan = 0.0, counts = 0.0;
};

struct PlanSpec {
  std::string code, revision, title, procedure;
  std::vector<double> points;
  std::string order = "up";
  bool alarms = false, loss = false;
  ToleranceSpec tolerance;
  double adjustLimit = 0.7;
  double settleSeconds = 5.0, minutes = 25.0;
  std::vector<std::string> cautions;
  std::string decisionRule = "\"simple\"";  ///< as the site file writes it
  double junctionUncertainty = 0.0;         ///< K; 0: not stated
  double leadHalfWidth = 0.0;               ///< ohm; 0: not stated
};

struct CertPoint {
  double nominal = 0.0, error = 0.0, uncertainty = 0.0;
};
struct CertRange {
  std::string unit;
  double resolution = 0.0;
  std::vector<CertPoint> points;
};
struct CertSpec {
  std::string number, issuer, traceability;
  Day issued, validFrom, validUntil;
  double k = 2.0;
  std::vector<CertRange> ranges;
};
struct StandardSpec {
  std::string serial, maker, model, description, location;
  std::vector<CertSpec> certificates;
};

struct IntervalSpec {
  std::string code, policy;
  int months = 0, days = 0, minimumDays = 0, maximumDays = 0;
  std::vector<std::pair<std::string, double>> own = {};  ///< further keys, by the policy
};
struct ClosedSpec {
  Day first, last;
  std::string name;
};
struct PersonSpec {
  std::string login, name;
  std::vector<std::string> roles;
  std::optional<Day> leftOn;
  double hoursPerWeek = 0.0;  ///< 0: not stated
  std::vector<ClosedSpec> away = {};
};

/// One yearly round through a place: every channel there is visited within a few working days.
struct RoundSpec {
  std::string place;
  unsigned month = 1;
  unsigned day = 1;
  int firstYear = 2018, lastYear = 2026;
  std::string signalSource;  ///< the standard taken along for V and mA
};

/// Which standards are taken along for what.
struct StandardsSpec {
  std::string couples, resistance, block, pressure, meter;
  std::string oldMeter;  ///< for discrete outputs before `oldMeterUntil`
  Day oldMeterUntil = {};
};

/// A current source that was bad for a while: it drives less than it shows, by a share of the value.
struct FaultSpec {
  std::string serial;
  When from, until;
  double share = 0.0;
};

struct NextSpec {
  std::string channel;
  When at;
};

struct SiteSpec {
  std::string head;  ///< comment lines at the top of the site file
  std::string code, name, issuer, customer, contact, note;
  std::vector<std::string> address, issuerAddress;
  bool dueDateAgreed = false;
  int dueSoonDays = 30, graceDays = 14, earlyDays = 30;
  std::vector<ClosedSpec> closed;
  std::vector<PersonSpec> people;
  std::vector<std::string> places;
  std::vector<IntervalSpec> intervals;
  std::vector<PlanSpec> plans;
  std::vector<StandardSpec> standards;
  std::vector<SensorSpec> sensors;
  std::vector<ChannelSpec> channels;
  std::vector<RoundSpec> rounds;
  When historyEnd;  ///< no visit later than this
  StandardsSpec tools;
  FaultSpec fault;
  Day ohmsSince =
      {};  ///< resistance thermometers: from this day on ohms are written down, before that degrees
  std::optional<NextSpec> next;  ///< the visit of visit.toml
};

SiteSpec larkmead();
SiteSpec tiny();

/// The site file's text.
std::string siteToml(const SiteSpec& site);
/// What was found at the faulty standard's recalibration; empty for a site without one.
std::string foundToml(const SiteSpec& site);

}  // namespace spanwright::sample
