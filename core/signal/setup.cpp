// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/setup.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/signal/element.h"
#include "core/units/number.h"

namespace spanwright {

namespace {

/// Collects clauses, each with the field it is about.
class Faults {
 public:
  void require(bool holds, std::string_view field, std::string clause) {
    if (!holds)
      list_.push_back({std::string(field), std::move(clause)});
  }
  bool none() const { return list_.empty(); }
  std::vector<SetupFault> take() { return std::move(list_); }

 private:
  std::vector<SetupFault> list_;
};

std::vector<std::string> clausesOf(std::vector<SetupFault> faults) {
  std::vector<std::string> clauses;
  clauses.reserve(faults.size());
  for (SetupFault& fault : faults)
    clauses.push_back(std::move(fault.what));
  return clauses;
}

bool notNegative(double value) {
  return std::isfinite(value) && value >= 0.0;
}
bool positive(double value) {
  return std::isfinite(value) && value > 0.0;
}

bool usable(const Span& span) {
  return std::isfinite(span.width()) && span.low != span.high;
}

void requireSpan(Faults& faults, std::string_view field, const Span& span, const std::string& whose) {
  const bool finite = std::isfinite(span.low) && std::isfinite(span.high);
  faults.require(finite, field, "the " + whose + "'s low and high must be numbers");
  faults.require(!finite || span.low != span.high, field, "the " + whose + "'s low and high are equal");
  faults.require(!finite || std::isfinite(span.width()), field,
                 "the " + whose + "'s low and high are too far apart");
}

void requireCountSpan(Faults& faults, const std::optional<Span>& counts) {
  if (!counts)
    return;
  requireSpan(faults, "counts", *counts, "count range");
  faults.require(counts->unit == Unit::count, "counts", "the count range must be in counts");
}

void requireBits(Faults& faults, int bits) {
  faults.require(bits >= 0 && bits <= 32, "bits",
                 "the converter's resolution must be 1 to 32 bits, or 0 when not known");
}

/// `range` is what the levels are told in, when it is known.
void requireAlarms(Faults& faults, const AlarmLevels& alarms, const Span& range) {
  const std::array levels{std::pair{"low-low", alarms.lowLow}, std::pair{"low", alarms.low},
                          std::pair{"high", alarms.high}, std::pair{"high-high", alarms.highHigh}};
  faults.require(notNegative(alarms.deadBand), "alarms", "the alarms' dead band must not be negative");
  const double low = std::min(range.low, range.high);
  const double high = std::max(range.low, range.high);
  std::string before;
  double last = 0.0;
  for (const auto& [name, level] : levels) {
    if (!level)
      continue;
    const std::string alarm = std::string("the ") + name + " alarm";
    if (!std::isfinite(*level)) {
      faults.require(false, "alarms", alarm + " must be a number");
      continue;
    }
    std::string outside = alarm;
    outside.append(" at ").append(formatShortest(*level)).append(" lies outside the range ");
    outside.append(formatShortest(low)).append(" to ").append(formatShortest(high));
    faults.require(*level >= low && *level <= high, "alarms", std::move(outside));
    faults.require(before.empty() || *level > last, "alarms", alarm + " must be above " + before);
    before = alarm;
    last = *level;
  }
  faults.require(!usable(range) || alarms.deadBand < high - low, "alarms",
                 "the alarms' dead band is wider than the range");
}

void add(Faults& faults, const ThresholdSetup& setup) {
  faults.require(positive(setup.ratedVolts), "rated_volts", "the rated voltage must be above 0 V");
  faults.require(std::isfinite(setup.onLevel) && std::isfinite(setup.offLevel), "on_level",
                 "the on and off levels must be numbers");
  if (!faults.none())
    return;
  faults.require(setup.onLevel > setup.offLevel, "on_level", "the on level must be above the off level");
  faults.require(setup.onLevel <= setup.ratedVolts, "on_level",
                 "the on level is above the rated voltage and never reached");
  faults.require(setup.offLevel >= 0.0, "off_level", "the off level must not be below 0 V");
  faults.require(setup.inputType >= 0 && setup.inputType <= 3, "input_type",
                 "the input type must be 1, 2 or 3 of IEC 61131-2, or 0 for none");
  faults.require(setup.inputType == 0 || setup.ratedVolts == 24.0, "input_type",
                 "the limits of IEC 61131-2 are known here for 24 V DC only");
}

void add(Faults& faults, const AnalogInputSetup& setup) {
  requireSpan(faults, "signal", setup.signal, "signal");
  const Dimension signal = dimension(setup.signal.unit);
  faults.require(signal == Dimension::voltage || signal == Dimension::current, "signal",
                 "the signal must be a voltage or current");
  requireCountSpan(faults, setup.counts);
  if (setup.units)
    requireSpan(faults, "units", *setup.units, "engineering range");
  requireBits(faults, setup.bits);
  faults.require(setup.readsAs == ReadsAs::units || setup.counts, "counts",
                 "a reading in counts needs a count range");
  faults.require(setup.readsAs == ReadsAs::counts || setup.units, "units",
                 "a reading in engineering units needs an engineering range");
  const bool root = setup.transfer == TransferKind::squareRoot;
  faults.require(!root || setup.units, "units", "the square root needs an engineering range");
  faults.require(notNegative(setup.cutOffPercent) && setup.cutOffPercent < 100.0, "cut_off_percent",
                 "the cut-off must be from 0 % to below 100 %");
  faults.require(root || !(setup.cutOffPercent > 0.0), "cut_off_percent",
                 "a cut-off belongs to the square root only");
  faults.require(notNegative(setup.resolution), "resolution", "the resolution must not be negative");
  const std::optional<Span>& alarmRange = setup.units ? setup.units : setup.counts;
  if (alarmRange)
    requireAlarms(faults, setup.alarms, *alarmRange);
}

void requireTemperatureRange(Faults& faults, std::string_view field, const Span& range,
                             const Element& element, const std::string& whose) {
  requireSpan(faults, field, range, whose);
  const auto low = convert(range.low, range.unit, Unit::celsius);
  const auto high = convert(range.high, range.unit, Unit::celsius);
  faults.require(low.has_value(), field, "the " + whose + " must be a temperature");
  if (!low || !usable(range))
    return;
  // A range typed in degF or K may miss the function's end by rounding only.
  constexpr double kSlack = 1e-9;
  const double first = element.low().value;
  const double last = element.high().value;
  faults.require(std::min(*low, *high) >= first - kSlack && std::max(*low, *high) <= last + kSlack, field,
                 "the " + whose + " leaves the sensor's function, " + formatShortest(first) + " to " +
                     formatShortest(last) + " degC");
}

void add(Faults& faults, const ThermocoupleSetup& setup) {
  requireTemperatureRange(faults, "range", setup.range, Element(setup.type), "temperature range");
  faults.require(notNegative(setup.resolution), "resolution", "the resolution must not be negative");
  requireAlarms(faults, setup.alarms, setup.range);
}

void add(Faults& faults, const RtdSetup& setup) {
  requireTemperatureRange(faults, "range", setup.range, Element(setup.element), "temperature range");
  faults.require(setup.wires >= 2 && setup.wires <= 4, "wires", "an RTD has 2, 3 or 4 wires");
  faults.require(notNegative(setup.resolution), "resolution", "the resolution must not be negative");
  requireAlarms(faults, setup.alarms, setup.range);
}

void add(Faults& faults, const AnalogOutputSetup& setup) {
  requireSpan(faults, "signal", setup.signal, "signal");
  const Dimension signal = dimension(setup.signal.unit);
  faults.require(signal == Dimension::voltage || signal == Dimension::current, "signal",
                 "the signal must be a voltage or current");
  requireCountSpan(faults, setup.counts);
  if (setup.units)
    requireSpan(faults, "units", *setup.units, "engineering range");
  requireBits(faults, setup.bits);
  faults.require(setup.commandedAs == ReadsAs::units || setup.counts, "counts",
                 "a command in counts needs a count range");
  faults.require(setup.commandedAs == ReadsAs::counts || setup.units, "units",
                 "a command in engineering units needs an engineering range");
}

void add(Faults& faults, const DiscreteOutputSetup& setup) {
  faults.require(positive(setup.supplyVolts), "supply_volts", "the supply must be above 0 V");
  faults.require(notNegative(setup.maxDropVolts), "max_drop_volts",
                 "the voltage drop's limit must not be negative");
  faults.require(notNegative(setup.maxOffVolts), "max_off_volts",
                 "the off voltage's limit must not be negative");
  faults.require(!(setup.maxDropVolts + setup.maxOffVolts >= setup.supplyVolts), "max_off_volts",
                 "the limits of drop and off voltage leave nothing between on and off");
  faults.require(setup.onLoss != LossBehaviour::minimum, "on_loss",
                 "a discrete output holds or goes off on loss, it has no minimum");
}

}  // namespace

std::string_view kindName(const ChannelSetup& setup) {
  // In the order of SetupKind's alternatives.
  static constexpr std::array<std::string_view, std::variant_size_v<SetupKind>> kNames{
      "threshold-input", "analog-input",  "thermocouple-input",
      "rtd-input",       "analog-output", "discrete-output"};
  return kNames[setup.kind.index()];
}

const AlarmLevels* alarmLevels(const ChannelSetup& setup) {
  const AlarmLevels* alarms = nullptr;
  if (const auto* input = std::get_if<AnalogInputSetup>(&setup.kind))
    alarms = &input->alarms;
  else if (const auto* couple = std::get_if<ThermocoupleSetup>(&setup.kind))
    alarms = &couple->alarms;
  else if (const auto* rtd = std::get_if<RtdSetup>(&setup.kind))
    alarms = &rtd->alarms;
  if (alarms == nullptr || !(alarms->lowLow || alarms->low || alarms->high || alarms->highHigh))
    return nullptr;
  return alarms;
}

std::vector<SetupFault> setupFaultsByField(const ChannelSetup& setup) {
  Faults faults;
  std::visit([&faults](const auto& kind) { add(faults, kind); }, setup.kind);
  faults.require(notNegative(setup.filterSeconds), "filter_seconds",
                 "the filter's time must not be negative");
  return faults.take();
}

std::vector<SetupFault> sensorFaultsByField(const SensorRange& range) {
  Faults faults;
  faults.require(!(range.thermocouple && range.rtd), "thermocouple",
                 "the sensor cannot be a thermocouple and an RTD at once");
  if (range.thermocouple)
    requireTemperatureRange(faults, "process", range.process, Element(*range.thermocouple), "process range");
  else if (range.rtd)
    requireTemperatureRange(faults, "process", range.process, Element(*range.rtd), "process range");
  else
    requireSpan(faults, "process", range.process, "process range");
  if (range.output)
    requireSpan(faults, "output", *range.output, "output");
  faults.require(range.output || range.thermocouple || range.rtd, "output",
                 "the sensor needs an output, or a thermocouple type or RTD element");
  faults.require(range.output || range.transfer == TransferKind::linear, "transfer",
                 "a bare thermocouple or RTD follows its own function and takes no square root");
  return faults.take();
}

std::vector<std::string> setupFaults(const ChannelSetup& setup) {
  return clausesOf(setupFaultsByField(setup));
}

std::vector<std::string> sensorFaults(const SensorRange& range) {
  return clausesOf(sensorFaultsByField(range));
}

}  // namespace spanwright
