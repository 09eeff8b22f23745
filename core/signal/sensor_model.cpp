// SPDX-License-Identifier: GPL-3.0-or-later
//
// A sensor or transmitter on its own: process value applied, its output observed.
#include <array>
#include <cassert>
#include <cmath>

#include "core/signal/element.h"
#include "core/signal/point_model.h"
#include "core/signal/scaling.h"

namespace spanwright {

namespace {

/// A transmitter: a span in, a span out. With an element named it is still the transmitter's output that is
/// observed.
class TransmitterModel final : public PointModel {
 public:
  explicit TransmitterModel(const SensorRange& sensor)
      : process_(sensor.process),
        output_(*sensor.output),
        root_(sensor.transfer == TransferKind::squareRoot) {}

  Span appliedSpan() const override { return process_; }
  Span readingSpan() const override { return output_; }
  double step() const override { return 0.0; }

  Expected expected(double applied) const override {
    if (const auto fault = outsideSpan(process_, applied))
      return *fault;
    const double part = fractionOf(process_, applied);
    return valueAt(output_, root_ ? flowFraction(part, 0.0) : part);
  }

  Expected appliedFor(double reading) const override {
    if (!std::isfinite(reading))
      return RangeResult::notANumber;
    Expected part = fractionOf(output_, reading);
    if (root_)
      part = pressureFraction(std::get<double>(part), 0.0);
    if (!std::holds_alternative<double>(part))
      return part;
    const double applied = valueAt(process_, std::get<double>(part));
    if (const auto fault = outsideSpan(process_, applied))
      return *fault;
    return applied;
  }

  Expected normaliseApplied(Quantity applied, Celsius) const override {
    return inUnit(applied, process_.unit);
  }
  Expected normaliseReading(Quantity reading, Celsius) const override {
    return inUnit(reading, output_.unit);
  }

  ErrorForms errorForms(double expectedReading, double reading) const override {
    ErrorForms forms;
    forms.reading = reading - expectedReading;
    forms.percentOfSpan = 100.0 * forms.reading / std::abs(output_.width());
    forms.signal = forms.reading;
    forms.signalUnit = output_.unit;
    forms.engineeringUnit = process_.unit;
    const double flow = fractionOf(output_, expectedReading);
    const double part = forms.reading / output_.width();
    if (!root_)
      forms.units = part * process_.width();
    else if (flow > 0.0)
      forms.units = part * 2.0 * flow * process_.width();
    return forms;
  }

 private:
  Span process_;
  Span output_;
  bool root_;
};

/// A bare couple (reference junction at 0 degC) or platinum element.
class ElementModel final : public PointModel {
 public:
  ElementModel(const Span& process, Element element) : process_(process), element_(element) {
    output_ = {std::get<double>(element_.signal(celsius(process.low))),
               std::get<double>(element_.signal(celsius(process.high))), element_.signalUnit()};
  }

  Span appliedSpan() const override { return process_; }
  Span readingSpan() const override { return output_; }
  double step() const override { return 0.0; }

  Expected expected(double applied) const override {
    if (const auto fault = outsideSpan(process_, applied))
      return *fault;
    return element_.signal(celsius(applied));
  }

  Expected appliedFor(double reading) const override {
    const Expected temperature = element_.celsius(reading);
    if (!std::holds_alternative<double>(temperature))
      return temperature;
    const double applied = *convert(std::get<double>(temperature), Unit::celsius, process_.unit);
    if (const auto fault = outsideSpan(process_, applied))
      return *fault;
    return applied;
  }

  Expected normaliseApplied(Quantity applied, Celsius) const override {
    return inUnit(applied, process_.unit);
  }

  Expected normaliseReading(Quantity reading, Celsius referenceJunction) const override {
    const std::array forms{Form{output_.unit, 0}, Form{Unit::celsius, 1}};
    const auto form = formFor(reading.unit, forms);
    if (!form)
      return RangeResult::wrongUnit;
    const Expected value = inUnit(reading, form->unit);
    if (!std::holds_alternative<double>(value))
      return value;
    if (form->id == 1)
      return element_.signal(Celsius{std::get<double>(value)});
    const Expected atTerminals = element_.isCouple() ? element_.signal(referenceJunction) : Expected(0.0);
    if (!std::holds_alternative<double>(atTerminals))
      return atTerminals;
    return std::get<double>(value) + std::get<double>(atTerminals);
  }

  ErrorForms errorForms(double expectedReading, double reading) const override {
    ErrorForms forms;
    forms.reading = reading - expectedReading;
    forms.percentOfSpan = 100.0 * forms.reading / std::abs(output_.width());
    forms.signal = forms.reading;
    forms.signalUnit = output_.unit;
    forms.engineeringUnit = process_.unit;
    const Expected temperature = element_.celsius(expectedReading);
    if (!std::holds_alternative<double>(temperature))
      return forms;
    const Expected slope = element_.slope(Celsius{std::get<double>(temperature)});
    if (const auto* perKelvin = std::get_if<double>(&slope); perKelvin != nullptr && *perKelvin != 0.0)
      forms.units = *convertDifference(forms.reading / *perKelvin, Unit::kelvin, process_.unit);
    return forms;
  }

 private:
  Celsius celsius(double process) const { return {*convert(process, process_.unit, Unit::celsius)}; }

  Span process_;
  Element element_;
  Span output_;
};

}  // namespace

PointModelPtr sensorModel(const SensorRange& sensor) {
  assert(sensorFaults(sensor).empty());
  if (sensor.output)
    return std::make_shared<TransmitterModel>(sensor);
  if (sensor.thermocouple)
    return std::make_shared<ElementModel>(sensor.process, Element(*sensor.thermocouple));
  return std::make_shared<ElementModel>(sensor.process, Element(*sensor.rtd));
}

}  // namespace spanwright
