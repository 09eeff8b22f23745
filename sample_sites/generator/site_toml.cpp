// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writes the site file in the form sample_sites/README.md describes.
#include "sample_sites/generator/site.h"
#include "sample_sites/generator/text.h"

namespace spanwright::sample {

namespace {

/// Collects `key = value` lines, leaving out what is not there.
class Lines {
 public:
  explicit Lines(std::string indent = "") : indent_(std::move(indent)) {}
  void raw(const std::string& line) { text_ += line.empty() ? "\n" : indent_ + line + "\n"; }
  void set(const std::string& key, const std::string& value) { raw(key + " = " + value); }
  void string(const std::string& key, const std::string& value) { set(key, quoted(value)); }
  void optional(const std::string& key, const std::string& value) {
    if (!value.empty()) {
      string(key, value);
    }
  }
  void number(const std::string& key, double value) { set(key, shortest(value)); }
  void range(const std::string& key, const Range& range, bool withUnit = true) {
    if (range.given()) {
      set(key, "{ low = " + shortest(range.low) + ", high = " + shortest(range.high) +
                   (withUnit ? ", unit = " + quoted(range.unit) : "") + " }");
    }
  }
  void indent(const std::string& by) { indent_ = by; }
  const std::string& text() const { return text_; }

 private:
  std::string indent_;
  std::string text_;
};

std::string list(const std::vector<std::string>& items) {
  std::vector<std::string> parts;
  parts.reserve(items.size());
  for (const std::string& item : items) {
    parts.push_back(quoted(item));
  }
  return "[" + joined(parts, ", ") + "]";
}

std::string list(const std::vector<double>& items) {
  std::vector<std::string> parts;
  parts.reserve(items.size());
  for (const double item : items) {
    parts.push_back(shortest(item));
  }
  return "[" + joined(parts, ", ") + "]";
}

std::optional<double> unlessZero(double value) {
  return value == 0.0 ? std::nullopt : std::optional<double>(value);
}

/// `{ a = 1, b = 2 }` of the terms that are there.
std::string table(const std::vector<std::pair<std::string, std::optional<double>>>& terms) {
  std::vector<std::string> parts;
  for (const auto& [key, value] : terms) {
    if (value) {
      parts.push_back(key + " = " + shortest(*value));
    }
  }
  return "{ " + joined(parts, ", ") + " }";
}

void writeDays(Lines& out, const std::string& key, const std::vector<ClosedSpec>& days) {
  if (days.empty()) {
    return;
  }
  out.raw(key + " = [");
  for (const ClosedSpec& range : days) {
    out.raw("  { first = " + isoDate(range.first) + ", last = " + isoDate(range.last) +
            ", name = " + quoted(range.name) + " },");
  }
  out.raw("]");
}

void writeHead(Lines& out, const SiteSpec& site) {
  out.raw(site.head);
  out.raw("[site]");
  out.string("code", site.code);
  out.string("name", site.name);
  out.set("address", list(site.address));
  out.string("issuer", site.issuer);
  out.set("issuer_address", list(site.issuerAddress));
  out.string("customer", site.customer);
  out.string("customer_contact", site.contact);
  out.string("note", site.note);
  out.set("due_date_agreed", site.dueDateAgreed ? "true" : "false");
  out.raw("");
  out.raw("[calendar]");
  out.raw("working_days = [\"mon\", \"tue\", \"wed\", \"thu\", \"fri\"]");
  writeDays(out, "closed", site.closed);
  out.number("due_soon_days", site.dueSoonDays);
  out.number("grace_days", site.graceDays);
  out.number("early_days", site.earlyDays);
}

void writePeopleAndPlaces(Lines& out, const SiteSpec& site) {
  for (const PersonSpec& person : site.people) {
    out.raw("");
    out.raw("[[person]]");
    out.string("login", person.login);
    out.string("name", person.name);
    out.set("roles", list(person.roles));
    if (person.leftOn) {
      out.set("left_on", isoDate(*person.leftOn));
    }
    if (person.hoursPerWeek > 0.0) {
      out.number("hours_per_week", person.hoursPerWeek);
    }
    writeDays(out, "away", person.away);
  }
  for (const std::string& place : site.places) {
    out.raw("");
    out.raw("[[place]]");
    out.string("path", place);
  }
  for (const IntervalSpec& interval : site.intervals) {
    out.raw("");
    out.raw("[[interval]]");
    out.string("code", interval.code);
    out.string("policy", interval.policy);
    out.number(interval.months > 0 ? "months" : "days",
               interval.months > 0 ? interval.months : interval.days);
    if (interval.minimumDays > 0) {
      out.number("minimum_days", interval.minimumDays);
      out.number("maximum_days", interval.maximumDays);
    }
    for (const auto& [key, value] : interval.own) {
      out.number(key, value);
    }
  }
}

void writePlan(Lines& out, const PlanSpec& plan) {
  out.raw("");
  out.raw("[[plan]]");
  out.string("code", plan.code);
  out.string("revision", plan.revision);
  out.string("title", plan.title);
  out.string("procedure", plan.procedure);
  if (!plan.points.empty()) {
    out.set("points", list(plan.points));
    out.string("order", plan.order);
  }
  out.raw("repeats = 1");
  if (plan.alarms) {
    out.raw("alarms = true");
  }
  if (plan.loss) {
    out.raw("loss = true");
  }
  out.set("tolerance", table({{"absolute", unlessZero(plan.tolerance.absolute)},
                              {"percent_of_reading", unlessZero(plan.tolerance.percentOfReading)},
                              {"percent_of_span", unlessZero(plan.tolerance.percentOfSpan)},
                              {"counts", unlessZero(plan.tolerance.counts)}}));
  out.number("adjust_limit", plan.adjustLimit);
  out.raw("decision_rule = " + plan.decisionRule);
  out.number("settle_seconds", plan.settleSeconds);
  out.number("minutes", plan.minutes);
  if (plan.junctionUncertainty > 0.0) {
    out.number("reference_junction_uncertainty", plan.junctionUncertainty);
  }
  if (plan.leadHalfWidth > 0.0) {
    out.number("lead_resistance_half_width", plan.leadHalfWidth);
  }
  out.raw("cautions = [");
  for (const std::string& caution : plan.cautions) {
    out.raw("  " + quoted(caution) + ",");
  }
  out.raw("]");
}

void writeRange(Lines& out, const std::string& heading, const CertRange& range) {
  out.raw(heading);
  out.string("unit", range.unit);
  out.number("resolution", range.resolution);
  out.raw("points = [");
  for (const CertPoint& point : range.points) {
    out.raw("  { nominal = " + shortest(point.nominal) + ", error = " + shortest(point.error) +
            ", uncertainty = " + shortest(point.uncertainty) + " },");
  }
  out.raw("]");
}

void writeStandard(Lines& out, const StandardSpec& standard) {
  out.raw("");
  out.raw("[[standard]]");
  out.string("serial", standard.serial);
  out.string("maker", standard.maker);
  out.string("model", standard.model);
  out.string("description", standard.description);
  out.string("location", standard.location);
  for (const CertSpec& certificate : standard.certificates) {
    out.indent("  ");
    out.raw("[[standard.certificate]]");
    out.string("number", certificate.number);
    out.string("issuer", certificate.issuer);
    out.string("traceability", certificate.traceability);
    out.set("issued", isoDate(certificate.issued));
    out.set("valid_from", isoDate(certificate.validFrom));
    out.set("valid_until", isoDate(certificate.validUntil));
    out.number("k", certificate.k);
    out.indent("    ");
    for (const CertRange& range : certificate.ranges) {
      writeRange(out, "[[standard.certificate.range]]", range);
    }
    out.indent("");
  }
}

void writeSensor(Lines& out, const SensorSpec& sensor) {
  out.raw("");
  out.raw("[[sensor]]");
  out.string("serial", sensor.serial);
  out.string("maker", sensor.maker);
  out.string("model", sensor.model);
  out.string("description", sensor.description);
  out.range("process", sensor.process);
  out.range("output", sensor.output);
  if (sensor.output.given()) {
    out.string("transfer", sensor.squareRoot ? "square-root" : "linear");
  }
  out.optional("thermocouple", sensor.thermocouple);
  out.optional("rtd", sensor.rtd);
}

void writeAnalogInput(Lines& out, const SetupSpec& setup) {
  out.range("signal", setup.signal);
  out.range("counts", setup.counts, false);
  if (setup.bits > 0) {
    out.number("bits", setup.bits);
  }
  out.range("units", setup.units);
  out.string("transfer", setup.squareRoot ? "square-root" : "linear");
  if (setup.cutOffPercent > 0.0) {
    out.number("cut_off_percent", setup.cutOffPercent);
  }
  out.string("reads_as", setup.inCounts ? "counts" : "units");
  if (setup.resolution > 0.0) {
    out.number("resolution", setup.resolution);
  }
}

void writeSetup(Lines& out, const SetupSpec& setup) {
  out.raw("[[channel.setup]]");
  out.set("from", isoTime(setup.from));
  out.string("kind", setup.kind);
  out.string("remark", setup.remark);
  if (setup.filterSeconds > 0.0) {
    out.number("filter_seconds", setup.filterSeconds);
  }
  if (setup.kind == "threshold-input") {
    out.number("rated_volts", setup.ratedVolts);
    out.number("on_level", setup.onLevel);
    out.number("off_level", setup.offLevel);
    out.number("input_type", setup.inputType);
  } else if (setup.kind == "analog-input") {
    writeAnalogInput(out, setup);
  } else if (setup.kind == "analog-output") {
    out.range("signal", setup.signal);
    out.range("counts", setup.counts, false);
    if (setup.bits > 0) {
      out.number("bits", setup.bits);
    }
    out.range("units", setup.units);
    out.string("commanded_as", setup.inCounts ? "counts" : "units");
    out.string("on_loss", setup.onLoss);
  } else if (setup.kind == "discrete-output") {
    out.number("supply_volts", setup.supplyVolts);
    out.number("max_drop_volts", setup.maxDropVolts);
    out.number("max_off_volts", setup.maxOffVolts);
    out.string("on_loss", setup.onLoss);
  } else {
    const bool couple = setup.kind == "thermocouple-input";
    out.string(couple ? "couple" : "element", couple ? setup.couple : setup.element);
    if (!couple) {
      out.number("wires", setup.wires);
    }
    out.range("range", setup.units);
    out.number("resolution", setup.resolution);
    out.set("reads_tenths", setup.readsTenths ? "true" : "false");
  }
  if (setup.hasAlarms) {
    out.set("alarms", table({{"low_low", setup.alarms.lowLow},
                             {"low", setup.alarms.low},
                             {"high", setup.alarms.high},
                             {"high_high", setup.alarms.highHigh},
                             {"dead_band", unlessZero(setup.alarms.deadBand)}}));
  }
}

void writeChannel(Lines& out, const ChannelSpec& channel) {
  out.raw("");
  out.raw("[[channel]]");
  out.string("tag", channel.tag);
  out.string("place", channel.place);
  out.string("terminal", channel.terminal);
  out.string("title", channel.title);
  out.indent("  ");
  for (const SetupSpec& setup : channel.setups) {
    writeSetup(out, setup);
  }
  for (const FittingSpec& fitting : channel.fittings) {
    out.raw("[[channel.fitting]]");
    out.string("sensor", fitting.sensor);
    out.set("from", isoTime(fitting.from));
    if (fitting.until) {
      out.set("until", isoTime(*fitting.until));
    }
  }
  for (const RoutineSpec& routine : channel.routines) {
    out.raw("[[channel.routine]]");
    out.string("subject", routine.subject);
    out.string("plan", routine.plan);
    out.string("interval", routine.interval);
  }
  out.indent("");
}

}  // namespace

std::string siteToml(const SiteSpec& site) {
  Lines out;
  writeHead(out, site);
  writePeopleAndPlaces(out, site);
  for (const PlanSpec& plan : site.plans) {
    writePlan(out, plan);
  }
  for (const StandardSpec& standard : site.standards) {
    writeStandard(out, standard);
  }
  for (const SensorSpec& sensor : site.sensors) {
    writeSensor(out, sensor);
  }
  for (const ChannelSpec& channel : site.channels) {
    writeChannel(out, channel);
  }
  return out.text();
}

std::string foundToml(const SiteSpec& site) {
  Lines out;
  for (const StandardSpec& standard : site.standards) {
    for (const CertSpec& certificate : standard.certificates) {
      if (standard.serial != site.fault.serial || certificate.issued < site.fault.from.day) {
        continue;
      }
      out.raw("# What the laboratory found of " + standard.serial +
              " before adjusting it (invented): spanwright reach RECORD " + standard.serial +
              " --found found.toml");
      out.set("found_on", isoDate(certificate.issued));
      out.string("certificate", certificate.number);
      out.string("remark", "as found before adjustment; the current source was knocked");
      out.number("k", certificate.k);
      for (const CertRange& range : certificate.ranges) {
        out.raw("");
        writeRange(out, "[[range]]", range);
      }
      return out.text();
    }
  }
  return {};
}

}  // namespace spanwright::sample
