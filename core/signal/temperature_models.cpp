// SPDX-License-Identifier: GPL-3.0-or-later
//
// Thermocouple and RTD inputs: simulated temperature applied, temperature read.
#include <algorithm>
#include <array>
#include <cmath>

#include "core/signal/element.h"
#include "core/signal/models.h"
#include "core/signal/scaling.h"

namespace spanwright {

namespace {

class TemperatureInputModel final : public ChannelModel {
 public:
  TemperatureInputModel(Element element, Span range, double resolution, bool readsTenths)
      : element_(element), range_(range), resolution_(resolution), perDegree_(readsTenths ? 10.0 : 1.0) {}

  Span appliedSpan() const override { return range_; }
  Span readingSpan() const override {
    return {range_.low * perDegree_, range_.high * perDegree_, tenths() ? Unit::count : range_.unit};
  }

  double step() const override { return tenths() ? std::max(1.0, resolution_ * perDegree_) : resolution_; }

  Expected expected(double applied) const override {
    if (const auto fault = outsideSpan(range_, applied))
      return *fault;
    const Expected told = element_.told(celsius(applied));
    if (!std::holds_alternative<double>(told))
      return told;
    return applied * perDegree_;
  }

  Expected appliedFor(double reading) const override {
    const double applied = reading / perDegree_;
    if (const auto fault = outsideSpan(range_, applied))
      return *fault;
    const Expected told = element_.told(celsius(applied));
    if (!std::holds_alternative<double>(told))
      return told;
    return applied;
  }

  Expected normaliseApplied(Quantity applied, Celsius referenceJunction) const override {
    const std::array forms{Form{range_.unit, 0}, Form{element_.signalUnit(), 1}};
    const auto form = formFor(applied.unit, forms);
    if (!form)
      return RangeResult::wrongUnit;
    const Expected value = inUnit(applied, form->unit);
    if (form->id == 0 || !std::holds_alternative<double>(value))
      return value;
    const Expected temperature = element_.celsius(std::get<double>(value), referenceJunction);
    if (!std::holds_alternative<double>(temperature))
      return temperature;
    return inUnit({std::get<double>(temperature), Unit::celsius}, range_.unit);
  }

  Expected normaliseReading(Quantity reading, Celsius) const override {
    if (tenths() && sameDimension(reading.unit, Unit::count))
      return inUnit(reading, Unit::count);
    const Expected value = inUnit(reading, range_.unit);
    if (!std::holds_alternative<double>(value))
      return value;
    return std::get<double>(value) * perDegree_;
  }

  ErrorForms errorForms(double expectedReading, double reading) const override {
    ErrorForms forms;
    forms.reading = reading - expectedReading;
    forms.percentOfSpan = 100.0 * forms.reading / std::abs(readingSpan().width());
    forms.units = forms.reading / perDegree_;
    forms.engineeringUnit = range_.unit;
    if (tenths())
      forms.counts = forms.reading;
    forms.signalUnit = element_.signalUnit();
    const Expected slope = element_.slope(celsius(expectedReading / perDegree_));
    if (const auto* perKelvin = std::get_if<double>(&slope))
      forms.signal = *convertDifference(*forms.units, range_.unit, Unit::kelvin) * *perKelvin;
    return forms;
  }

  std::optional<Unit> engineeringUnit() const override { return range_.unit; }
  Expected appliedForEngineering(double value) const override {
    return inUnit({value, range_.unit}, range_.unit);
  }
  Expected engineeringFor(double reading) const override {
    return inUnit({reading / perDegree_, range_.unit}, range_.unit);
  }

 private:
  bool tenths() const { return perDegree_ != 1.0; }
  Celsius celsius(double inRangeUnit) const { return {*convert(inRangeUnit, range_.unit, Unit::celsius)}; }

  Element element_;
  Span range_;
  double resolution_;
  double perDegree_;  ///< reading for one degree
};

}  // namespace

ChannelModelPtr makeModel(const ThermocoupleSetup& setup) {
  return std::make_shared<TemperatureInputModel>(Element(setup.type), setup.range, setup.resolution,
                                                 setup.readsTenths);
}

ChannelModelPtr makeModel(const RtdSetup& setup) {
  return std::make_shared<TemperatureInputModel>(Element(setup.element), setup.range, setup.resolution,
                                                 setup.readsTenths);
}

}  // namespace spanwright
