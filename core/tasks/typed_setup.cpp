// SPDX-License-Identifier: GPL-3.0-or-later
//
// A channel's setup, and a sensor's range, in fields.
#include <fmt/format.h>

#include "core/record/register_rules.h"
#include "core/signal/rtd.h"
#include "core/signal/thermocouple.h"
#include "core/tasks/typed_register.h"

namespace spanwright {

namespace {

AlarmLevels readAlarms(FieldReader& reader, Unit unit) {
  FieldReader alarms = reader.below("alarms");
  return {alarms.maybeNumber("low_low", unit), alarms.maybeNumber("low", unit),
          alarms.maybeNumber("high", unit), alarms.maybeNumber("high_high", unit),
          alarms.number("dead_band", 0.0)};
}

void put(TypedFields& into, const AlarmLevels& alarms) {
  into["alarms.low_low"] = typedNumber(alarms.lowLow);
  into["alarms.low"] = typedNumber(alarms.low);
  into["alarms.high"] = typedNumber(alarms.high);
  into["alarms.high_high"] = typedNumber(alarms.highHigh);
  into["alarms.dead_band"] = typedKnown(alarms.deadBand);
}

LossBehaviour readLoss(const FieldReader& reader, LossBehaviour fallback) {
  const std::string word = reader.text("on_loss");
  return word == "hold"      ? LossBehaviour::hold
         : word == "minimum" ? LossBehaviour::minimum
         : word == "off"     ? LossBehaviour::off
                             : fallback;
}

std::string lossWord(LossBehaviour behaviour) {
  return behaviour == LossBehaviour::hold ? "hold" : behaviour == LossBehaviour::minimum ? "minimum" : "off";
}

TransferKind readTransfer(const FieldReader& reader) {
  return reader.text("transfer") == "square-root" ? TransferKind::squareRoot : TransferKind::linear;
}

std::string transferWord(TransferKind transfer) {
  return transfer == TransferKind::squareRoot ? "square-root" : "linear";
}

/// What is read or commanded when nothing says so: units where there are any.
ReadsAs readAs(const FieldReader& reader, std::string_view field, bool units, bool counts) {
  const std::string word = reader.text(field);
  if (word.empty()) {
    return units || !counts ? ReadsAs::units : ReadsAs::counts;
  }
  return word == "counts" ? ReadsAs::counts : ReadsAs::units;
}

Span needed(FieldReader& reader, std::string_view field, std::string_view what) {
  return reader.needSpan(field, what).value_or(Span{});
}

SetupKind readThreshold(FieldReader& reader) {
  ThresholdSetup setup;
  setup.ratedVolts = reader.needNumber("rated_volts", "rated voltage", Unit::volt);
  setup.onLevel = reader.needNumber("on_level", "on level", Unit::volt);
  setup.offLevel = reader.needNumber("off_level", "off level", Unit::volt);
  setup.inputType = reader.whole("input_type", 0);
  return setup;
}

SetupKind readAnalogInput(FieldReader& reader) {
  AnalogInputSetup setup;
  setup.signal = needed(reader, "signal", "signal");
  setup.counts = reader.span("counts", Unit::count);
  setup.bits = reader.whole("bits", 0);
  setup.units = reader.span("units");
  setup.transfer = readTransfer(reader);
  setup.cutOffPercent = reader.number("cut_off_percent", 0.0, Unit::percent);
  setup.readsAs = readAs(reader, "reads_as", setup.units.has_value(), setup.counts.has_value());
  const Unit unit = setup.units ? setup.units->unit : Unit::none;
  setup.resolution = reader.number("resolution", 0.0);
  setup.alarms = readAlarms(reader, unit);
  return setup;
}

template <class Setup>
void readTemperature(FieldReader& reader, Setup& setup) {
  setup.range = needed(reader, "range", "temperature range");
  setup.resolution = reader.number("resolution", setup.resolution);
  setup.readsTenths = reader.yes("reads_tenths");
  setup.alarms = readAlarms(reader, setup.range.unit);
}

SetupKind readThermocouple(FieldReader& reader) {
  ThermocoupleSetup setup;
  if (const auto type = parseThermocoupleType(reader.text("couple"))) {
    setup.type = *type;
  } else {
    reader.wrong("couple", "the thermocouple's type is missing", "choose it");
  }
  readTemperature(reader, setup);
  return setup;
}

SetupKind readRtd(FieldReader& reader) {
  RtdSetup setup;
  setup.element = reader.text("element") == "pt1000" ? RtdElement::pt1000 : RtdElement::pt100;
  setup.wires = reader.whole("wires", 3);
  readTemperature(reader, setup);
  return setup;
}

SetupKind readAnalogOutput(FieldReader& reader) {
  AnalogOutputSetup setup;
  setup.signal = needed(reader, "signal", "signal");
  setup.counts = reader.span("counts", Unit::count);
  setup.bits = reader.whole("bits", 0);
  setup.units = reader.span("units");
  setup.commandedAs = readAs(reader, "commanded_as", setup.units.has_value(), setup.counts.has_value());
  setup.onLoss = readLoss(reader, LossBehaviour::minimum);
  return setup;
}

SetupKind readDiscreteOutput(FieldReader& reader) {
  DiscreteOutputSetup setup;
  setup.supplyVolts = reader.number("supply_volts", setup.supplyVolts, Unit::volt);
  setup.maxDropVolts = reader.number("max_drop_volts", setup.maxDropVolts, Unit::volt);
  setup.maxOffVolts = reader.number("max_off_volts", setup.maxOffVolts, Unit::volt);
  setup.onLoss = readLoss(reader, LossBehaviour::off);
  return setup;
}

struct Fill {
  TypedFields& into;
  void operator()(const ThresholdSetup& s) const {
    into["rated_volts"] = typedNumber(s.ratedVolts);
    into["on_level"] = typedNumber(s.onLevel);
    into["off_level"] = typedNumber(s.offLevel);
    into["input_type"] = std::to_string(s.inputType);
  }
  void operator()(const AnalogInputSetup& s) const {
    scaling(s);
    into["transfer"] = transferWord(s.transfer);
    into["cut_off_percent"] = typedKnown(s.cutOffPercent);
    into["reads_as"] = s.readsAs == ReadsAs::counts ? "counts" : "units";
    into["resolution"] = typedKnown(s.resolution);
    put(into, s.alarms);
  }
  void operator()(const ThermocoupleSetup& s) const {
    into["couple"] = text(s.type);
    temperature(s);
  }
  void operator()(const RtdSetup& s) const {
    into["element"] = s.element == RtdElement::pt1000 ? "pt1000" : "pt100";
    into["wires"] = std::to_string(s.wires);
    temperature(s);
  }
  void operator()(const AnalogOutputSetup& s) const {
    scaling(s);
    into["commanded_as"] = s.commandedAs == ReadsAs::counts ? "counts" : "units";
    into["on_loss"] = lossWord(s.onLoss);
  }
  void operator()(const DiscreteOutputSetup& s) const {
    into["supply_volts"] = typedNumber(s.supplyVolts);
    into["max_drop_volts"] = typedNumber(s.maxDropVolts);
    into["max_off_volts"] = typedNumber(s.maxOffVolts);
    into["on_loss"] = lossWord(s.onLoss);
  }

 private:
  template <class Setup>
  void scaling(const Setup& s) const {
    putSpan(into, "signal", s.signal);
    if (s.counts) {
      putSpan(into, "counts", *s.counts);
    }
    if (s.units) {
      putSpan(into, "units", *s.units);
    }
    into["bits"] = s.bits == 0 ? "" : std::to_string(s.bits);
  }
  template <class Setup>
  void temperature(const Setup& s) const {
    putSpan(into, "range", s.range);
    into["resolution"] = typedNumber(s.resolution);
    into["reads_tenths"] = typedYes(s.readsTenths);
    put(into, s.alarms);
  }
};

}  // namespace

SetupVersion readSetupVersion(FieldReader& reader) {
  using Read = SetupKind (*)(FieldReader&);
  static constexpr std::pair<std::string_view, Read> kKinds[] = {
      {"threshold-input", readThreshold},       {"analog-input", readAnalogInput},
      {"thermocouple-input", readThermocouple}, {"rtd-input", readRtd},
      {"analog-output", readAnalogOutput},      {"discrete-output", readDiscreteOutput}};
  SetupVersion version;
  version.remark = reader.text("remark");
  version.inForceFrom = reader.needMoment("from", "moment from which it is in force").value_or(Moment());
  version.setup.filterSeconds = reader.number("filter_seconds", 0.0, Unit::second);
  const std::size_t before = reader.problems().size();
  const std::string kind = reader.text("kind");
  for (const auto& [name, read] : kKinds) {
    if (name == kind) {
      version.setup.kind = read(reader);
      if (reader.problems().size() == before) {
        reader.take(setupProblems(version.setup));
      }
      return version;
    }
  }
  reader.wrong("kind", "the kind of the setup is missing", "choose it");
  return version;
}

TypedFields fieldsOf(const ChannelSetup& setup) {
  TypedFields fields;
  fields["kind"] = kindName(setup);
  fields["filter_seconds"] = typedKnown(setup.filterSeconds);
  std::visit(Fill{fields}, setup.kind);
  return fields;
}

Sensor readSensor(FieldReader& reader) {
  Sensor sensor;
  sensor.serial = reader.text("serial");
  sensor.maker = reader.text("maker");
  sensor.model = reader.text("model");
  sensor.description = reader.text("description");
  const std::size_t before = reader.problems().size();
  sensor.range.process = needed(reader, "process", "process range");
  sensor.range.output = reader.span("output");
  sensor.range.transfer = readTransfer(reader);
  const std::string element = reader.text("element");
  sensor.range.thermocouple = parseThermocoupleType(element);
  sensor.range.rtd = element == "pt100"    ? std::optional(RtdElement::pt100)
                     : element == "pt1000" ? std::optional(RtdElement::pt1000)
                                           : std::nullopt;
  if (reader.problems().size() == before) {
    reader.take(sensorProblems(sensor));
  }
  return sensor;
}

TypedFields fieldsOf(const Sensor& sensor) {
  TypedFields fields{{"serial", sensor.serial},
                     {"maker", sensor.maker},
                     {"model", sensor.model},
                     {"description", sensor.description},
                     {"transfer", transferWord(sensor.range.transfer)}};
  putSpan(fields, "process", sensor.range.process);
  if (sensor.range.output) {
    putSpan(fields, "output", *sensor.range.output);
  }
  if (sensor.range.thermocouple) {
    fields["element"] = text(*sensor.range.thermocouple);
  } else if (sensor.range.rtd) {
    fields["element"] = *sensor.range.rtd == RtdElement::pt100 ? "pt100" : "pt1000";
  }
  return fields;
}

}  // namespace spanwright
