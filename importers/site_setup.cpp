// SPDX-License-Identifier: GPL-3.0-or-later
//
// One version of a channel's setup, by kind.
#include <fmt/format.h>

#include "core/record/register_rules.h"
#include "importers/site_parts.h"

namespace spanwright {
namespace {

enum class Kind { threshold, analogInput, thermocouple, rtd, analogOutput, discreteOutput };
constexpr std::pair<std::string_view, Kind> kKinds[] = {
    {"threshold-input", Kind::threshold},       {"analog-input", Kind::analogInput},
    {"thermocouple-input", Kind::thermocouple}, {"rtd-input", Kind::rtd},
    {"analog-output", Kind::analogOutput},      {"discrete-output", Kind::discreteOutput}};
constexpr std::pair<std::string_view, ReadsAs> kReadsAs[] = {{"counts", ReadsAs::counts},
                                                             {"units", ReadsAs::units}};
constexpr std::pair<std::string_view, LossBehaviour> kAnalogLoss[] = {
    {"hold", LossBehaviour::hold}, {"minimum", LossBehaviour::minimum}, {"off", LossBehaviour::off}};
constexpr std::pair<std::string_view, LossBehaviour> kDiscreteLoss[] = {{"hold", LossBehaviour::hold},
                                                                        {"off", LossBehaviour::off}};

AlarmLevels readAlarms(TomlTable& setup) {
  AlarmLevels alarms;
  auto table = setup.table("alarms");
  if (!table) {
    return alarms;
  }
  alarms.lowLow = table->maybeNumber("low_low");
  alarms.low = table->maybeNumber("low");
  alarms.high = table->maybeNumber("high");
  alarms.highHigh = table->maybeNumber("high_high");
  alarms.deadBand = table->number("dead_band", 0.0, kNotNegative);
  table->finish();
  return alarms;
}

/// A span whose unit must measure one of two things.
void checkUnit(const TomlTable& table, std::string_view key, const std::optional<Span>& span,
               std::initializer_list<Dimension> allowed, std::string todo) {
  if (!span) {
    return;
  }
  for (const Dimension each : allowed) {
    if (dimension(span->unit) == each) {
      return;
    }
  }
  table.problem(key, fmt::format("is in {}", symbol(span->unit)), std::move(todo));
}

Span signalSpan(TomlTable& table) {
  const auto signal = needSpan(table, "signal");
  checkUnit(table, "signal", signal, {Dimension::voltage, Dimension::current}, "V, mV or mA is expected");
  return signal.value_or(Span{});
}

Span temperatureRange(TomlTable& table) {
  const auto range = needSpan(table, "range");
  checkUnit(table, "range", range, {Dimension::temperature}, "degC, degF or K is expected");
  return range.value_or(Span{});
}

ThresholdSetup readThreshold(TomlTable& table) {
  ThresholdSetup setup;
  setup.ratedVolts = table.needNumber("rated_volts", kPositive);
  setup.onLevel = table.needNumber("on_level");
  setup.offLevel = table.needNumber("off_level");
  setup.inputType = table.whole("input_type", 0, 0, 3);
  return setup;
}

AnalogInputSetup readAnalogInput(TomlTable& table) {
  AnalogInputSetup setup;
  setup.signal = signalSpan(table);
  setup.counts = readSpan(table, "counts", Unit::count);
  setup.bits = table.whole("bits", 0, 1, 32);
  setup.units = readSpan(table, "units");
  setup.transfer = table.choice<TransferKind>("transfer", kTransfers).value_or(TransferKind::linear);
  setup.cutOffPercent = table.number("cut_off_percent", 0.0, {0.0, 100.0});
  const ReadsAs natural = table.has("units") || !table.has("counts") ? ReadsAs::units : ReadsAs::counts;
  setup.readsAs = table.choice<ReadsAs>("reads_as", kReadsAs).value_or(natural);
  setup.resolution = table.number("resolution", 0.0, kNotNegative);
  setup.alarms = readAlarms(table);
  return setup;
}

ThermocoupleSetup readThermocouple(TomlTable& table) {
  ThermocoupleSetup setup;
  setup.type = table.needChoice<ThermocoupleType>("couple", kCouples).value_or(ThermocoupleType::K);
  setup.range = temperatureRange(table);
  setup.resolution = table.number("resolution", setup.resolution, kNotNegative);
  setup.readsTenths = table.yes("reads_tenths", false);
  setup.alarms = readAlarms(table);
  return setup;
}

RtdSetup readRtd(TomlTable& table) {
  RtdSetup setup;
  setup.element = table.needChoice<RtdElement>("element", kElements).value_or(RtdElement::pt100);
  setup.wires = table.whole("wires", 3, 2, 4);
  setup.range = temperatureRange(table);
  setup.resolution = table.number("resolution", setup.resolution, kNotNegative);
  setup.readsTenths = table.yes("reads_tenths", false);
  setup.alarms = readAlarms(table);
  return setup;
}

AnalogOutputSetup readAnalogOutput(TomlTable& table) {
  AnalogOutputSetup setup;
  setup.signal = signalSpan(table);
  setup.counts = readSpan(table, "counts", Unit::count);
  setup.bits = table.whole("bits", 0, 1, 32);
  setup.units = readSpan(table, "units");
  const ReadsAs natural = table.has("units") || !table.has("counts") ? ReadsAs::units : ReadsAs::counts;
  setup.commandedAs = table.choice<ReadsAs>("commanded_as", kReadsAs).value_or(natural);
  setup.onLoss = table.choice<LossBehaviour>("on_loss", kAnalogLoss).value_or(LossBehaviour::minimum);
  return setup;
}

DiscreteOutputSetup readDiscreteOutput(TomlTable& table) {
  DiscreteOutputSetup setup;
  setup.supplyVolts = table.number("supply_volts", setup.supplyVolts, kPositive);
  setup.maxDropVolts = table.number("max_drop_volts", setup.maxDropVolts, kNotNegative);
  setup.maxOffVolts = table.number("max_off_volts", setup.maxOffVolts, kNotNegative);
  setup.onLoss = table.choice<LossBehaviour>("on_loss", kDiscreteLoss).value_or(LossBehaviour::off);
  return setup;
}

SetupKind readKind(TomlTable& table, Kind kind) {
  switch (kind) {
    case Kind::threshold:
      return readThreshold(table);
    case Kind::analogInput:
      return readAnalogInput(table);
    case Kind::thermocouple:
      return readThermocouple(table);
    case Kind::rtd:
      return readRtd(table);
    case Kind::analogOutput:
      return readAnalogOutput(table);
    case Kind::discreteOutput:
      break;
  }
  return readDiscreteOutput(table);
}

}  // namespace

std::optional<SetupVersion> readSetup(TomlTable& table) {
  const std::size_t before = table.problems().count();
  SetupVersion version;
  const auto from = table.needMoment("from");
  version.remark = table.text("remark");
  version.setup.filterSeconds = table.number("filter_seconds", 0.0, {0.0, 86400.0});
  const auto kind = table.needChoice<Kind>("kind", kKinds);
  if (!kind) {
    return std::nullopt;  // which keys are right depends on the kind, so the others cannot be judged
  }
  version.setup.kind = readKind(table, *kind);
  table.finish();
  report(table, setupProblems(version.setup), before);
  if (!from) {
    return std::nullopt;
  }
  version.inForceFrom = *from;
  return version;
}

}  // namespace spanwright
