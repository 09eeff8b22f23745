// SPDX-License-Identifier: GPL-3.0-or-later
//
// Sensor and channel together: process value applied, the channel's reading observed.
#include <cassert>
#include <cmath>

#include "core/signal/models.h"
#include "core/signal/scaling.h"

namespace spanwright {

namespace {

class LoopModel final : public PointModel {
 public:
  LoopModel(ChannelModelPtr channel, PointModelPtr sensor, bool canWork)
      : channel_(std::move(channel)), sensor_(std::move(sensor)) {
    const auto engineering = channel_->engineeringUnit();
    if (!canWork)
      return;
    if (engineering && sameDimension(*engineering, sensor_->appliedSpan().unit))
      way_ = Way::processValue;
    else if (sameDimension(channel_->appliedSpan().unit, sensor_->readingSpan().unit))
      way_ = Way::signal;
  }

  Span appliedSpan() const override { return sensor_->appliedSpan(); }
  Span readingSpan() const override { return channel_->readingSpan(); }
  double step() const override { return channel_->step(); }
  double stepAt(double expectedReading) const override { return channel_->stepAt(expectedReading); }

  Expected expected(double applied) const override {
    if (way_ == Way::none)
      return RangeResult::wrongUnit;
    const Expected output = sensor_->expected(applied);
    if (!std::holds_alternative<double>(output))
      return output;
    const Expected atChannel =
        way_ == Way::processValue
            ? channel_->appliedForEngineering(
                  *convert(applied, sensor_->appliedSpan().unit, *channel_->engineeringUnit()))
            : inUnit({std::get<double>(output), sensor_->readingSpan().unit}, channel_->appliedSpan().unit);
    if (!std::holds_alternative<double>(atChannel))
      return atChannel;
    return channel_->expected(std::get<double>(atChannel));
  }

  Expected appliedFor(double reading) const override {
    if (way_ == Way::none)
      return RangeResult::wrongUnit;
    const Expected atChannel = channel_->appliedFor(reading);
    if (!std::holds_alternative<double>(atChannel))
      return atChannel;
    if (way_ == Way::signal) {
      const Quantity signal{std::get<double>(atChannel), channel_->appliedSpan().unit};
      return sensor_->appliedFor(*convert(signal.value, signal.unit, sensor_->readingSpan().unit));
    }
    const Expected value = channel_->engineeringFor(reading);
    if (!std::holds_alternative<double>(value))
      return value;
    const double applied =
        *convert(std::get<double>(value), *channel_->engineeringUnit(), sensor_->appliedSpan().unit);
    if (const auto fault = outsideSpan(sensor_->appliedSpan(), applied))
      return *fault;
    return applied;
  }

  Expected normaliseApplied(Quantity applied, Celsius referenceJunction) const override {
    if (way_ == Way::none)
      return RangeResult::wrongUnit;
    return sensor_->normaliseApplied(applied, referenceJunction);
  }
  Expected normaliseReading(Quantity reading, Celsius referenceJunction) const override {
    if (way_ == Way::none)
      return RangeResult::wrongUnit;
    return channel_->normaliseReading(reading, referenceJunction);
  }
  ErrorForms errorForms(double expectedReading, double reading) const override {
    return channel_->errorForms(expectedReading, reading);
  }

 private:
  enum class Way { none, processValue, signal };

  ChannelModelPtr channel_;
  PointModelPtr sensor_;
  Way way_ = Way::none;
};

Unit outputUnit(const SensorRange& sensor) {
  if (sensor.output)
    return sensor.output->unit;
  return sensor.thermocouple ? Unit::millivolt : Unit::ohm;
}

/// Why the sensor's output tells this channel nothing at all.
std::optional<std::string> cannotWork(const ChannelSetup& setup, const SensorRange& sensor) {
  const Dimension output = dimension(outputUnit(sensor));
  if (std::holds_alternative<ThermocoupleSetup>(setup.kind) && (sensor.output || !sensor.thermocouple))
    return "the channel takes a bare thermocouple and the sensor is none";
  if (std::holds_alternative<RtdSetup>(setup.kind) && (sensor.output || !sensor.rtd))
    return "the channel takes a bare RTD and the sensor is none";
  if (std::holds_alternative<ThresholdSetup>(setup.kind) && output != Dimension::voltage)
    return "the channel switches on a voltage and the sensor gives none";
  if (std::holds_alternative<AnalogInputSetup>(setup.kind) && output != Dimension::voltage &&
      output != Dimension::current)
    return "the channel reads a voltage or current and the sensor gives neither";
  if (std::holds_alternative<AnalogOutputSetup>(setup.kind) ||
      std::holds_alternative<DiscreteOutputSetup>(setup.kind))
    return "the channel is an output and reads no sensor";
  return std::nullopt;
}

/// Do both spans say the same, `a` told in the unit of `b`, within a millionth of `b`'s width?
bool sameSpan(const Span& a, const Span& b) {
  const auto low = convert(a.low, a.unit, b.unit);
  const auto high = convert(a.high, a.unit, b.unit);
  const double slack = 1e-6 * std::abs(b.width());
  return low && high && std::abs(*low - b.low) <= slack && std::abs(*high - b.high) <= slack;
}

void addAnalogFaults(const AnalogInputSetup& input, const SensorRange& sensor,
                     std::vector<std::string>& faults) {
  const Unit output = outputUnit(sensor);
  if (!sameDimension(output, input.signal.unit))
    faults.push_back("the sensor gives " + std::string(symbol(output)) + " and the channel takes " +
                     std::string(symbol(input.signal.unit)));
  else if (sensor.output && input.units && sameDimension(input.units->unit, sensor.process.unit) &&
           sameSpan(*sensor.output, input.signal) && !sameSpan(sensor.process, *input.units))
    faults.emplace_back("the channel is scaled for another range than the sensor's");
  if (sensor.transfer == TransferKind::squareRoot && input.transfer == TransferKind::squareRoot)
    faults.emplace_back("both sensor and channel take the square root");
}

}  // namespace

PointModelPtr loopModel(const ChannelSetup& setup, const SensorRange& sensor) {
  assert(setupFaults(setup).empty());
  ChannelModelPtr channel = std::visit([](const auto& kind) { return makeModel(kind); }, setup.kind);
  return std::make_shared<LoopModel>(std::move(channel), sensorModel(sensor), !cannotWork(setup, sensor));
}

std::vector<std::string> loopFaults(const ChannelSetup& setup, const SensorRange& sensor) {
  std::vector<std::string> faults;
  if (auto reason = cannotWork(setup, sensor))
    faults.push_back(std::move(*reason));
  else if (const auto* input = std::get_if<AnalogInputSetup>(&setup.kind))
    addAnalogFaults(*input, sensor, faults);
  else if (const auto* couple = std::get_if<ThermocoupleSetup>(&setup.kind);
           couple && couple->type != sensor.thermocouple)
    faults.emplace_back("the sensor is a thermocouple of another type than the channel is set to");
  else if (const auto* rtd = std::get_if<RtdSetup>(&setup.kind); rtd && rtd->element != sensor.rtd)
    faults.emplace_back("the sensor has another platinum element than the channel is set to");
  return faults;
}

}  // namespace spanwright
