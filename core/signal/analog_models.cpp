// SPDX-License-Identifier: GPL-3.0-or-later
//
// Voltage and current inputs, analog outputs.
#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

#include "core/signal/models.h"
#include "core/signal/scaling.h"

namespace spanwright {

namespace {

enum FormId { kSignal, kCounts, kUnits };

/// The forms a value has here, `first` before the others.
std::vector<Form> formsOf(const Span& signal, const std::optional<Span>& counts,
                          const std::optional<Span>& units, FormId first) {
  std::vector<Form> forms{{signal.unit, kSignal}};
  if (counts)
    forms.push_back({counts->unit, kCounts});
  if (units)
    forms.push_back({units->unit, kUnits});
  std::stable_partition(forms.begin(), forms.end(), [first](const Form& form) { return form.id == first; });
  return forms;
}

double percentOf(const Span& span, double error) {
  return 100.0 * error / std::abs(span.width());
}

class AnalogInputModel final : public ChannelModel {
 public:
  explicit AnalogInputModel(const AnalogInputSetup& setup)
      : setup_(setup), readsCounts_(setup.readsAs == ReadsAs::counts) {
    assert(readsCounts_ ? setup_.counts.has_value() : setup_.units.has_value());
  }

  Span appliedSpan() const override { return setup_.signal; }
  Span readingSpan() const override { return readsCounts_ ? *setup_.counts : *setup_.units; }

  double step() const override { return stepAt(readingSpan().high); }
  double stepAt(double expectedReading) const override {
    const double fraction = converterStep(setup_.bits, setup_.counts);
    const double width = std::abs(readingSpan().width());
    if (readsCounts_)
      return fraction * width;
    if (!root())
      return std::max(fraction * width, setup_.resolution);
    const double flow = std::max(0.0, fractionOf(*setup_.units, expectedReading));
    return std::max((std::sqrt(flow * flow + fraction) - flow) * width, setup_.resolution);
  }

  Expected expected(double applied) const override {
    if (const auto fault = outsideSpan(setup_.signal, applied))
      return *fault;
    const double fraction = fractionOf(setup_.signal, applied);
    return readsCounts_ ? valueAt(*setup_.counts, fraction) : valueAt(*setup_.units, unitsFraction(fraction));
  }

  Expected appliedFor(double reading) const override {
    if (!std::isfinite(reading))
      return RangeResult::notANumber;
    Expected fraction = fractionOf(readingSpan(), reading);
    if (!readsCounts_)
      fraction = signalFraction(std::get<double>(fraction), setup_.cutOffPercent);
    return within(fraction);
  }

  Expected normaliseApplied(Quantity applied, Celsius) const override {
    const auto form = formFor(applied.unit, formsOf(setup_.signal, std::nullopt, setup_.units, kSignal));
    if (!form)
      return RangeResult::wrongUnit;
    const Expected value = inUnit(applied, form->unit);
    if (form->id == kSignal || !std::holds_alternative<double>(value))
      return value;
    return appliedForEngineering(std::get<double>(value));
  }

  // The signal's unit is no reading: what is typed in it belongs in the applied column, and taking it would
  // make a reading right that nobody saw.
  Expected normaliseReading(Quantity reading, Celsius) const override {
    const FormId own = readsCounts_ ? kCounts : kUnits;
    auto forms = formsOf(setup_.signal, setup_.counts, setup_.units, own);
    std::erase_if(forms, [](const Form& form) { return form.id == kSignal; });
    const auto form = formFor(reading.unit, forms);
    if (!form)
      return RangeResult::wrongUnit;
    const Expected value = inUnit(reading, form->unit);
    if (form->id == own || !std::holds_alternative<double>(value))
      return value;
    Expected fraction = fractionOf(spanOf(form->id), std::get<double>(value));
    // What stands for a flow below the cut-off is still told in counts: the cut-off belongs to the display.
    if (form->id == kUnits)
      fraction = signalFraction(std::get<double>(fraction), 0.0);
    if (!std::holds_alternative<double>(fraction))
      return fraction;
    const double f = std::get<double>(fraction);
    return readsCounts_ ? valueAt(*setup_.counts, f) : valueAt(*setup_.units, unitsFraction(f));
  }

  ErrorForms errorForms(double expectedReading, double reading) const override {
    ErrorForms forms;
    forms.reading = reading - expectedReading;
    forms.percentOfSpan = percentOf(readingSpan(), forms.reading);
    forms.signalUnit = setup_.signal.unit;
    const double part = forms.reading / readingSpan().width();
    // d(flow)/d(signal) is 1/(2 flow); linear is 1.
    const std::optional<double> slope = slopeAt(expectedReading);
    std::optional<double> signalPart;
    if (readsCounts_)
      signalPart = part;
    else if (slope)
      signalPart = part / *slope;
    if (signalPart) {
      forms.signal = *signalPart * setup_.signal.width();
      if (setup_.counts)
        forms.counts = *signalPart * setup_.counts->width();
    }
    if (readsCounts_)
      forms.counts = forms.reading;
    if (setup_.units) {
      forms.engineeringUnit = setup_.units->unit;
      if (!readsCounts_)
        forms.units = forms.reading;
      else if (slope)
        forms.units = part * *slope * setup_.units->width();
    }
    return forms;
  }

  std::optional<Unit> engineeringUnit() const override {
    return setup_.units ? std::optional(setup_.units->unit) : std::nullopt;
  }

  Expected appliedForEngineering(double value) const override {
    if (!setup_.units)
      return RangeResult::wrongUnit;
    if (!std::isfinite(value))
      return RangeResult::notANumber;
    const Expected fraction = signalFraction(fractionOf(*setup_.units, value), 0.0);
    if (!std::holds_alternative<double>(fraction))
      return fraction;
    return valueAt(setup_.signal, std::get<double>(fraction));
  }

  Expected engineeringFor(double reading) const override {
    if (!setup_.units)
      return RangeResult::wrongUnit;
    if (!std::isfinite(reading))
      return RangeResult::notANumber;
    if (!readsCounts_)
      return reading;
    return valueAt(*setup_.units, unitsFraction(fractionOf(*setup_.counts, reading)));
  }

 private:
  bool root() const { return setup_.transfer == TransferKind::squareRoot; }
  const Span& spanOf(int id) const { return id == kCounts ? *setup_.counts : *setup_.units; }

  double unitsFraction(double signalPart) const {
    return root() ? flowFraction(signalPart, setup_.cutOffPercent) : signalPart;
  }
  Expected signalFraction(double unitsPart, double cutOff) const {
    return root() ? pressureFraction(unitsPart, cutOff) : Expected(unitsPart);
  }

  Expected within(const Expected& fraction) const {
    if (!std::holds_alternative<double>(fraction))
      return fraction;
    const double applied = valueAt(setup_.signal, std::get<double>(fraction));
    if (const auto fault = outsideSpan(setup_.signal, applied))
      return *fault;
    return applied;
  }

  /// d(units fraction)/d(signal fraction) where `expectedReading` is right.
  std::optional<double> slopeAt(double expectedReading) const {
    if (!root())
      return 1.0;
    const double at = fractionOf(readingSpan(), expectedReading);
    const double flow = readsCounts_ ? unitsFraction(at) : at;
    if (!(flow > 0.0) || 100.0 * flow < setup_.cutOffPercent)
      return std::nullopt;
    return 0.5 / flow;
  }

  AnalogInputSetup setup_;
  bool readsCounts_;
};

class AnalogOutputModel final : public ChannelModel {
 public:
  explicit AnalogOutputModel(const AnalogOutputSetup& setup)
      : setup_(setup), ownForm_(setup.commandedAs == ReadsAs::counts ? kCounts : kUnits) {
    assert(ownForm_ == kCounts ? setup_.counts.has_value() : setup_.units.has_value());
  }

  Span appliedSpan() const override { return command(ownForm_); }
  Span readingSpan() const override { return setup_.signal; }
  double step() const override {
    return converterStep(setup_.bits, setup_.counts) * std::abs(setup_.signal.width());
  }

  Expected expected(double applied) const override {
    if (const auto fault = outsideSpan(appliedSpan(), applied))
      return *fault;
    return valueAt(setup_.signal, fractionOf(appliedSpan(), applied));
  }

  Expected appliedFor(double reading) const override {
    if (!std::isfinite(reading))
      return RangeResult::notANumber;
    const double applied = valueAt(appliedSpan(), fractionOf(setup_.signal, reading));
    if (const auto fault = outsideSpan(appliedSpan(), applied))
      return *fault;
    return applied;
  }

  Expected normaliseApplied(Quantity applied, Celsius) const override {
    std::vector<Form> forms = formsOf(setup_.signal, setup_.counts, setup_.units, ownForm_);
    std::erase_if(forms, [](const Form& form) { return form.id == kSignal; });
    const auto form = formFor(applied.unit, forms);
    if (!form)
      return RangeResult::wrongUnit;
    const Expected value = inUnit(applied, form->unit);
    if (form->id == ownForm_ || !std::holds_alternative<double>(value))
      return value;
    return valueAt(appliedSpan(), fractionOf(command(form->id), std::get<double>(value)));
  }

  Expected normaliseReading(Quantity reading, Celsius) const override {
    return inUnit(reading, setup_.signal.unit);
  }

  ErrorForms errorForms(double expectedReading, double reading) const override {
    ErrorForms forms;
    forms.reading = reading - expectedReading;
    forms.percentOfSpan = percentOf(setup_.signal, forms.reading);
    forms.signal = forms.reading;
    forms.signalUnit = setup_.signal.unit;
    const double part = forms.reading / setup_.signal.width();
    if (setup_.counts)
      forms.counts = part * setup_.counts->width();
    if (setup_.units) {
      forms.units = part * setup_.units->width();
      forms.engineeringUnit = setup_.units->unit;
    }
    return forms;
  }

 private:
  const Span& command(int id) const { return id == kCounts ? *setup_.counts : *setup_.units; }

  AnalogOutputSetup setup_;
  FormId ownForm_;
};

}  // namespace

ChannelModelPtr makeModel(const AnalogInputSetup& setup) {
  return std::make_shared<AnalogInputModel>(setup);
}
ChannelModelPtr makeModel(const AnalogOutputSetup& setup) {
  return std::make_shared<AnalogOutputModel>(setup);
}

}  // namespace spanwright
