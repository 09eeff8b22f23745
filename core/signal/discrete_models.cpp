// SPDX-License-Identifier: GPL-3.0-or-later
//
// Threshold inputs and discrete outputs: volts, and what they should be.
#include <cmath>

#include "core/signal/models.h"
#include "core/signal/scaling.h"

namespace spanwright {

namespace {

ErrorForms voltForms(double expectedReading, double reading, const Span& span) {
  ErrorForms forms;
  forms.reading = reading - expectedReading;
  forms.signal = forms.reading;
  forms.signalUnit = Unit::volt;
  forms.percentOfSpan = 100.0 * forms.reading / std::abs(span.width());
  return forms;
}

/// The voltage is ramped and the reading is the voltage at which the input switched: what is applied is what
/// is read. The levels it should switch at belong to the setup.
class ThresholdModel final : public ChannelModel {
 public:
  explicit ThresholdModel(const ThresholdSetup& setup) : span_{0.0, setup.ratedVolts, Unit::volt} {}

  Span appliedSpan() const override { return span_; }
  Span readingSpan() const override { return span_; }
  double step() const override { return 0.0; }
  Expected expected(double applied) const override {
    if (const auto fault = outsideSpan(span_, applied))
      return *fault;
    return applied;
  }
  Expected appliedFor(double reading) const override { return expected(reading); }
  Expected normaliseApplied(Quantity applied, Celsius) const override { return inUnit(applied, Unit::volt); }
  Expected normaliseReading(Quantity reading, Celsius) const override { return inUnit(reading, Unit::volt); }
  ErrorForms errorForms(double expectedReading, double reading) const override {
    return voltForms(expectedReading, reading, span_);
  }

 private:
  Span span_;
};

/// Commanded 0 (off) or 1 (on); ideally no volts or the whole supply at the load.
class DiscreteOutputModel final : public ChannelModel {
 public:
  explicit DiscreteOutputModel(const DiscreteOutputSetup& setup)
      : volts_{0.0, setup.supplyVolts, Unit::volt} {}

  Span appliedSpan() const override { return {0.0, 1.0, Unit::none}; }
  Span readingSpan() const override { return volts_; }
  double step() const override { return 0.0; }
  Expected expected(double applied) const override {
    if (!std::isfinite(applied))
      return RangeResult::notANumber;
    if (applied == 0.0)
      return volts_.low;
    if (applied == 1.0)
      return volts_.high;
    return RangeResult::notAState;
  }
  /// The state whose ideal voltage this is: a voltage between is nobody's ideal.
  Expected appliedFor(double reading) const override {
    if (!std::isfinite(reading))
      return RangeResult::notANumber;
    if (reading == volts_.low)
      return 0.0;
    if (reading == volts_.high)
      return 1.0;
    return RangeResult::notAState;
  }
  Expected normaliseApplied(Quantity applied, Celsius) const override {
    const Expected state = inUnit(applied, Unit::none);
    if (const auto* value = std::get_if<double>(&state); value != nullptr && *value != 0.0 && *value != 1.0)
      return RangeResult::notAState;
    return state;
  }
  Expected normaliseReading(Quantity reading, Celsius) const override { return inUnit(reading, Unit::volt); }
  ErrorForms errorForms(double expectedReading, double reading) const override {
    return voltForms(expectedReading, reading, volts_);
  }

 private:
  Span volts_;
};

}  // namespace

ChannelModelPtr makeModel(const ThresholdSetup& setup) {
  return std::make_shared<ThresholdModel>(setup);
}
ChannelModelPtr makeModel(const DiscreteOutputSetup& setup) {
  return std::make_shared<DiscreteOutputModel>(setup);
}

}  // namespace spanwright
