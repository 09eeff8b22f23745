// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/sheet.h"

#include <algorithm>
#include <cmath>

#include "sample_sites/generator/text.h"

namespace spanwright::sample {

namespace {

// A bench meter's last digit, per unit it shows.
double meterStep(const std::string& unit) {
  return unit == "V" || unit == "mA" ? 0.001 : 0.01;
}

}  // namespace

double platinumOhms(double nominalOhms, double celsius) {
  // IEC 60751: coefficients of the interpolation equations.
  constexpr double kA = 3.9083e-3;
  constexpr double kB = -5.775e-7;
  constexpr double kC = -4.183e-12;
  const double below = celsius < 0.0 ? kC * (celsius - 100.0) * celsius * celsius * celsius : 0.0;
  return nominalOhms * (1.0 + kA * celsius + kB * celsius * celsius + below);
}

double platinumCelsius(double nominalOhms, double ohms) {
  // Halving needs no derivative and ends at the same double everywhere.
  double low = -200.0;
  double high = 850.0;
  for (int i = 0; i < 80; ++i) {
    const double middle = low + (high - low) / 2.0;
    (platinumOhms(nominalOhms, middle) < ohms ? low : high) = middle;
  }
  return low;
}

Sheet::Sheet(const PlanSpec& plan, const std::string& subject, const SetupSpec& setup,
             const SensorSpec* sensor)
    : tolerance_(plan.tolerance) {
  const bool alone = subject == "sensor";
  if (alone) {
    applied_ = sensor->process;
    reading_ = sensor->output;
    root_ = sensor->squareRoot;
    step_ = meterStep(reading_.unit);
    valuePoints(plan);
    return;
  }
  if (setup.kind == "threshold-input") {
    reading_ = {0.0, setup.ratedVolts, "V"};
    step_ = 0.01;
    points_ = {{"on", "up", Role::switching, 0.0, 0.0, setup.onLevel},
               {"off", "down", Role::switching, 100.0, 0.0, setup.offLevel}};
    return;
  }
  if (setup.kind == "discrete-output") {
    reading_ = {0.0, setup.supplyVolts, "V"};
    step_ = 0.01;
    points_ = {{"on", "", Role::state, 0.0, 0.0, setup.supplyVolts}, {"off", "", Role::state, 0.0, 0.0, 0.0}};
  } else if (setup.kind == "analog-output") {
    applied_ = setup.inCounts ? setup.counts : setup.units;
    reading_ = setup.signal;
    step_ = meterStep(reading_.unit);
    valuePoints(plan);
  } else {
    const bool analog = setup.kind == "analog-input";
    applied_ = analog ? setup.signal : setup.units;
    reading_ = analog && setup.inCounts ? setup.counts : setup.units;
    root_ = setup.squareRoot;
    step_ = setup.inCounts ? 1.0 : setup.resolution;
    if (setup.inCounts && setup.bits > 0) {
      converterStep_ = setup.counts.width() / (std::ldexp(1.0, setup.bits) - 1.0);
      step_ = std::max(step_, converterStep_);
    }
    if (setup.readsTenths) {
      // 100.0 degC arrives as the whole number 1000.
      perUnit_ = 10.0;
      reading_ = {setup.units.low * perUnit_, setup.units.high * perUnit_, "count"};
      step_ = std::max(1.0, setup.resolution * perUnit_);
    }
    ohms_ = setup.kind == "rtd-input" && subject == "channel";
    if (subject == "loop") {
      applied_ = sensor->process;
      root_ = root_ || sensor->squareRoot;
    }
    valuePoints(plan);
    if (plan.alarms && setup.hasAlarms) {
      alarmPoints(setup);
    }
  }
  if (plan.loss) {
    lossPoint(setup);
  }
}

void Sheet::valuePoints(const PlanSpec& plan) {
  const auto sweep = [&](bool up) {
    std::vector<double> percents = plan.points;
    if (!up) {
      std::reverse(percents.begin(), percents.end());
    }
    for (const double percent : percents) {
      const double nominal = applied_.low + applied_.width() * percent / 100.0;
      points_.push_back(
          {shortest(percent), up ? "up" : "down", Role::value, percent, nominal, expected(nominal)});
    }
  };
  sweep(true);
  if (plan.order == "up-down") {
    sweep(false);
  }
}

void Sheet::alarmPoints(const SetupSpec& setup) {
  const Alarms& alarms = setup.alarms;
  const auto add = [&](const std::optional<double>& level, const std::string& name, bool high, bool reset) {
    if (level) {
      const double at = *level + (reset ? (high ? -alarms.deadBand : alarms.deadBand) : 0.0);
      points_.push_back({name + (reset ? " reset" : " trip"), high != reset ? "up" : "down", Role::alarm, 0.0,
                         0.0, at * perUnit_});
    }
  };
  add(alarms.high, "high", true, false);
  add(alarms.highHigh, "high-high", true, false);
  add(alarms.highHigh, "high-high", true, true);
  add(alarms.high, "high", true, true);
  add(alarms.low, "low", false, false);
  add(alarms.lowLow, "low-low", false, false);
  add(alarms.lowLow, "low-low", false, true);
  add(alarms.low, "low", false, true);
}

void Sheet::lossPoint(const SetupSpec& setup) {
  SheetPoint point{"loss of communication", "", Role::loss, 0.0, 0.0, 0.0};
  if (setup.kind == "discrete-output") {
    point.role = Role::state;
    point.expected = setup.onLoss == "hold" ? setup.supplyVolts : 0.0;
  } else if (setup.onLoss == "hold") {
    point.nominal = applied_.low + applied_.width() / 2.0;
    point.percent = 50.0;
    point.expected = expected(point.nominal);
    point.role = Role::value;
  } else {
    point.nominal = applied_.low + applied_.width() / 2.0;
    point.expected = setup.onLoss == "minimum" ? reading_.low : 0.0;
  }
  points_.push_back(point);
}

double Sheet::expected(double applied) const {
  const double share = (applied - applied_.low) / applied_.width();
  return reading_.low + reading_.width() * (root_ ? std::sqrt(std::max(share, 0.0)) : share);
}

double Sheet::tolerance(double expected) const {
  const double countsPerUnit = reading_.unit == "count" ? 1.0 : 0.0;
  return tolerance_.absolute + tolerance_.percentOfReading / 100.0 * std::abs(expected) +
         tolerance_.percentOfSpan / 100.0 * reading_.width() +
         (countsPerUnit > 0.0 ? tolerance_.counts / countsPerUnit : 0.0);
}

double Sheet::shown(double reading) const {
  if (converterStep_ > 0.0) {
    return rounded(rounded(reading - reading_.low, converterStep_) + reading_.low, 1.0);
  }
  return rounded(reading, step_);
}

}  // namespace spanwright::sample
