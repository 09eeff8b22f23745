// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/describe.h"

#include <cmath>

#include "sample_sites/generator/random.h"
#include "sample_sites/generator/text.h"

namespace spanwright::sample {

namespace {

SetupSpec setupOf(const std::string& kind) {
  SetupSpec setup;
  setup.kind = kind;
  return setup;
}

SetupSpec analogInput(Range signal, Range units, double resolution) {
  SetupSpec setup = setupOf("analog-input");
  setup.signal = std::move(signal);
  setup.counts = {0.0, 32000.0, "count"};
  setup.units = std::move(units);
  setup.bits = 16;
  setup.resolution = resolution;
  setup.filterSeconds = 0.5;
  return setup;
}

CertRange certRange(const StandardRange& range, Random& random, std::vector<double>& drift) {
  CertRange out{range.unit, range.resolution, {}};
  for (std::size_t i = 0; i < range.nominals.size(); ++i) {
    const double nominal = range.nominals[i];
    const double uncertainty = range.uncertainty + range.uncertaintyPerUnit * std::abs(nominal);
    // Errors wander by a fraction of the uncertainty from year to year and are stated to a tenth of the
    // resolution.
    drift[i] += 0.2 * random.normal();
    const double step = range.resolution / 10.0;
    out.points.push_back(
        {nominal, rounded(drift[i] * uncertainty, step), std::ceil(uncertainty / step - 1e-9) * step});
  }
  for (CertPoint& point : out.points) {
    point.error = tidy(point.error, decimals(range.resolution) + 1);
    point.uncertainty = tidy(point.uncertainty, decimals(range.resolution) + 1);
  }
  return out;
}

}  // namespace

SetupSpec current(Range units, double resolution, double low) {
  return analogInput({low, 20.0, "mA"}, std::move(units), resolution);
}

SetupSpec voltage(Range units, double resolution) {
  return analogInput({0.0, 10.0, "V"}, std::move(units), resolution);
}

SetupSpec countsOf(SetupSpec setup, double countsHigh, int bits) {
  setup.inCounts = true;
  setup.counts.high = countsHigh;
  setup.bits = bits;
  setup.resolution = 0.0;
  return setup;
}

SetupSpec rootFlow(Range units, double resolution, double cutOffPercent) {
  SetupSpec setup = current(std::move(units), resolution);
  setup.squareRoot = true;
  setup.cutOffPercent = cutOffPercent;
  return setup;
}

SetupSpec couple(const std::string& type, double low, double high, double resolution, bool tenths) {
  SetupSpec setup = setupOf("thermocouple-input");
  setup.couple = type;
  setup.units = {low, high, "degC"};
  setup.resolution = resolution;
  setup.readsTenths = tenths;
  setup.filterSeconds = 1.0;
  return setup;
}

SetupSpec rtd(const std::string& element, int wires, double low, double high, bool tenths) {
  SetupSpec setup = setupOf("rtd-input");
  setup.element = element;
  setup.wires = wires;
  setup.units = {low, high, "degC"};
  setup.resolution = 0.1;
  setup.readsTenths = tenths;
  setup.filterSeconds = 1.0;
  return setup;
}

SetupSpec threshold(double rated, double on, double off, int inputType) {
  SetupSpec setup = setupOf("threshold-input");
  setup.ratedVolts = rated;
  setup.onLevel = on;
  setup.offLevel = off;
  setup.inputType = inputType;
  setup.filterSeconds = 0.01;
  return setup;
}

SetupSpec analogOut(Range signal, Range units, const std::string& onLoss) {
  SetupSpec setup = setupOf("analog-output");
  setup.signal = std::move(signal);
  setup.counts = {0.0, 32000.0, "count"};
  setup.bits = 16;
  setup.units = std::move(units);
  setup.onLoss = onLoss;
  return setup;
}

SetupSpec analogOutCounts(Range signal, double countsHigh, const std::string& onLoss) {
  SetupSpec setup = analogOut(std::move(signal), {}, onLoss);
  setup.counts.high = countsHigh;
  setup.inCounts = true;
  setup.bits = 12;
  return setup;
}

SetupSpec discreteOut(const std::string& onLoss) {
  SetupSpec setup = setupOf("discrete-output");
  setup.onLoss = onLoss;
  return setup;
}

SetupSpec withAlarms(SetupSpec setup, const Alarms& alarms) {
  setup.alarms = alarms;
  setup.hasAlarms = true;
  return setup;
}

SetupSpec since(SetupSpec setup, When from, const std::string& remark) {
  setup.from = from;
  setup.remark = remark;
  return setup;
}

Manner steady() {
  Manner manner;
  manner.zeroRate = 0.01;
  manner.spanRate = 0.015;
  return manner;
}

Manner drifting() {
  Manner manner;
  manner.zeroRate = 0.06;
  manner.spanRate = 0.2;
  return manner;
}

Manner restless() {
  Manner manner;
  manner.zeroRate = 0.2;
  manner.spanRate = 0.5;
  return manner;
}

Manner stepping(Manner manner, When at, double tolerances) {
  manner.stepAt = at;
  manner.step = tolerances;
  manner.adjustable = false;
  return manner;
}

ChannelSpec& Station::add(const std::string& tag, const std::string& title, SetupSpec setup,
                          const std::string& plan, const std::string& interval, const Manner& manner) {
  if (setup.remark.empty()) {
    setup = since(std::move(setup), commissioned(), "commissioning");
  }
  ChannelSpec channel;
  channel.tag = tag;
  channel.place = place_;
  channel.terminal = std::to_string(++terminal_);
  channel.title = title;
  channel.setups.push_back(std::move(setup));
  channel.routines.push_back({"channel", plan, interval, manner});
  site_->channels.push_back(std::move(channel));
  return site_->channels.back();
}

void fit(ChannelSpec& channel, const std::string& sensor) {
  channel.fittings.push_back({sensor, channel.setups.front().from, std::nullopt});
}

void routine(ChannelSpec& channel, const std::string& subject, const std::string& plan,
             const std::string& interval, const Manner& manner) {
  channel.routines.push_back({subject, plan, interval, manner});
}

When commissioned() {
  return when(2018, 10, 1);
}

StandardSpec standard(const std::string& serial, const std::string& model, const std::string& description,
                      const std::string& location, unsigned month, int firstYear, int lastYear,
                      const std::vector<StandardRange>& ranges) {
  Random random("standard " + serial);
  StandardSpec out{serial, "Invented Instruments", model, description, location, {}};
  std::vector<std::vector<double>> drift;
  drift.reserve(ranges.size());
  for (const StandardRange& range : ranges) {
    drift.emplace_back(range.nominals.size(), 0.0);
  }
  for (int year = firstYear; year <= lastYear; ++year) {
    CertSpec certificate;
    certificate.number =
        serial.substr(0, 2) + "-" + std::to_string(year) + "-" + padded(100 + random.below(900), 4);
    certificate.issuer = "Harrow Vale calibration laboratory (invented)";
    certificate.traceability = "to the SI through an accredited laboratory (invented)";
    certificate.issued = workingDay(day(year, month, 3) + std::chrono::days(random.below(12)));
    certificate.validFrom = certificate.issued;
    // Longer than a year, so that the next one overlaps.
    certificate.validUntil = certificate.issued + std::chrono::days(395);
    for (std::size_t i = 0; i < ranges.size(); ++i) {
      certificate.ranges.push_back(certRange(ranges[i], random, drift[i]));
    }
    out.certificates.push_back(std::move(certificate));
  }
  return out;
}

std::vector<std::string> cautions(std::vector<std::string> own) {
  std::vector<std::string> all{
      "Work only under the site's own permit and isolation rules; this list does not replace them.",
      "Tell the control room, and put the loop in manual or bypass it under the site's own rules before "
      "injecting.",
  };
  all.insert(all.end(), own.begin(), own.end());
  return all;
}

}  // namespace spanwright::sample
