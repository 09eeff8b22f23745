// SPDX-License-Identifier: GPL-3.0-or-later
//
// Setups and sensors in one line.
#include "core/signal/rtd.h"
#include "core/signal/setup.h"
#include "core/signal/thermocouple.h"
#include "core/units/number.h"

namespace spanwright {

namespace {

/// "4-20 mA", "-50..150 degC": a minus sign beside a dash would be misread.
std::string text(const Span& span) {
  const bool dash = span.low >= 0.0 && span.high >= 0.0;
  std::string out = formatShortest(span.low) + (dash ? "-" : "..") + formatShortest(span.high);
  if (span.unit == Unit::count)
    return out + " counts";
  if (!symbol(span.unit).empty())
    out += ' ' + std::string(symbol(span.unit));
  return out;
}

std::string volts(double value) {
  return formatShortest(value) + " V";
}

/// What the signal becomes: the form that is read first, the other behind it in brackets.
std::string meaning(const std::optional<Span>& counts, const std::optional<Span>& units, ReadsAs first) {
  const std::optional<Span>& main = first == ReadsAs::counts ? counts : units;
  const std::optional<Span>& other = first == ReadsAs::counts ? units : counts;
  std::string out = main ? text(*main) : "";
  if (other)
    out += (out.empty() ? "" : " ") + ("(" + text(*other) + ")");
  return out;
}

std::string bits(int count) {
  return count > 0 ? ", " + std::to_string(count) + " bit" : "";
}

std::string_view onLossText(LossBehaviour behaviour) {
  switch (behaviour) {
    case LossBehaviour::hold:
      return ", holds on loss";
    case LossBehaviour::minimum:
      return ", minimum on loss";
    case LossBehaviour::off:
      return ", off on loss";
  }
  return "";
}

std::string platinum(RtdElement element) {
  return element == RtdElement::pt100 ? "Pt100" : "Pt1000";
}

std::string line(const ThresholdSetup& setup) {
  std::string out =
      volts(setup.ratedVolts) + " input, on at " + volts(setup.onLevel) + ", off at " + volts(setup.offLevel);
  if (setup.inputType > 0)
    out += ", IEC 61131-2 type " + std::to_string(setup.inputType);
  return out;
}

std::string line(const AnalogInputSetup& setup) {
  std::string out =
      text(setup.signal) + " to " + meaning(setup.counts, setup.units, setup.readsAs) + bits(setup.bits);
  if (setup.transfer == TransferKind::squareRoot) {
    out += ", square root";
    if (setup.cutOffPercent > 0.0)
      out += " above " + formatShortest(setup.cutOffPercent) + " %";
  }
  return out;
}

std::string line(const ThermocoupleSetup& setup) {
  return "type " + std::string(text(setup.type)) + " thermocouple, " + text(setup.range) +
         (setup.readsTenths ? " in tenths" : "");
}

std::string line(const RtdSetup& setup) {
  return platinum(setup.element) + ", " + std::to_string(setup.wires) + " wires, " + text(setup.range) +
         (setup.readsTenths ? " in tenths" : "");
}

std::string line(const AnalogOutputSetup& setup) {
  std::string out =
      meaning(setup.counts, setup.units, setup.commandedAs) + " to " + text(setup.signal) + bits(setup.bits);
  out += onLossText(setup.onLoss);
  return out;
}

std::string line(const DiscreteOutputSetup& setup) {
  std::string out = volts(setup.supplyVolts) + " output, drop up to " + volts(setup.maxDropVolts);
  out += onLossText(setup.onLoss);
  return out;
}

}  // namespace

std::string describe(const ChannelSetup& setup) {
  std::string out = std::visit([](const auto& kind) { return line(kind); }, setup.kind);
  if (setup.filterSeconds > 0.0)
    out += ", filter " + formatShortest(setup.filterSeconds) + " s";
  return out;
}

std::string describe(const SensorRange& range) {
  std::string element;
  if (range.thermocouple)
    element = "type " + std::string(text(*range.thermocouple)) + " thermocouple, ";
  else if (range.rtd)
    element = platinum(*range.rtd) + ", ";
  if (!range.output)
    return element + text(range.process);
  std::string out = element + text(range.process) + " to " + text(*range.output);
  if (range.transfer == TransferKind::squareRoot)
    out += ", square root";
  return out;
}

namespace {

std::string ends(const Span& signal, const std::optional<Span>& counts, const std::optional<Span>& units,
                 ReadsAs first) {
  const std::optional<Span>& main = first == ReadsAs::counts ? counts : units;
  if (!main)
    return "";
  const auto value = [](double number, Unit unit) {
    const std::string_view name = unit == Unit::count ? "counts" : symbol(unit);
    return formatShortest(number) + (name.empty() ? "" : " " + std::string(name));
  };
  return value(signal.low, signal.unit) + " = " + value(main->low, main->unit) + ", " +
         value(signal.high, signal.unit) + " = " + value(main->high, main->unit);
}

}  // namespace

std::string describeEnds(const ChannelSetup& setup) {
  if (const auto* input = std::get_if<AnalogInputSetup>(&setup.kind))
    return ends(input->signal, input->counts, input->units, input->readsAs);
  if (const auto* output = std::get_if<AnalogOutputSetup>(&setup.kind))
    return ends(output->signal, output->counts, output->units, output->commandedAs);
  return "";
}

}  // namespace spanwright
