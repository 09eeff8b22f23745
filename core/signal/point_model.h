// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is applied to a subject, what is then observed, and how the one follows from the other.
// Every kind of point answers through this one interface; nothing above it asks for the kind.
#pragma once

#include <memory>
#include <optional>
#include <string_view>
#include <variant>

#include "core/signal/setup.h"

namespace spanwright {

/// Why there is no expected value.
enum class RangeResult {
  belowRange,     ///< the applied value is under what the subject can take
  aboveRange,     ///< over it
  belowFunction,  ///< outside the sensor function's own range (for instance RTD under -200 degC)
  aboveFunction,
  notMonotonic,  ///< the sensor function has no single answer there (type B near 21 degC)
  wrongUnit,     ///< the applied or observed unit is not one this subject takes
  notANumber
};
/// "below the input range" and so on, a clause for sentences.
std::string_view rangeText(RangeResult result);

using Expected = std::variant<double, RangeResult>;

/// An error told in every way the record knows; what does not apply to the subject is nothing.
struct ErrorForms {
  double reading = 0.0;          ///< in the reading's own unit
  std::optional<double> signal;  ///< in signal units (V, mA)
  std::optional<double> counts;
  std::optional<double> units;  ///< in engineering units
  double percentOfSpan = 0.0;
};

/// One subject's behaviour. Immutable; copies share it. Computation only: knows no plan, no record.
class PointModel {
 public:
  virtual ~PointModel() = default;

  /// Unit and span of what is applied (signal at the terminals, process value of a loop, command of an
  /// output).
  virtual Span appliedSpan() const = 0;
  /// Unit and span of what is observed.
  virtual Span readingSpan() const = 0;
  /// Smallest change the reading can show, in reading units: the coarser of converter step and shown
  /// resolution. 0 when not known.
  virtual double step() const = 0;

  /// The reading an ideal subject shows for `applied`. Applied values up to 5 % of span outside the span are
  /// followed (over-range is legitimate to test); beyond that a named result, never a clamp.
  virtual Expected expected(double applied) const = 0;
  /// The applied value for which `reading` would be right.
  virtual Expected appliedFor(double reading) const = 0;
  /// Brings a typed applied value or reading to the model's own unit (degF to degC, mV to degC through the
  /// couple's function with the reference junction at `referenceJunction`, degC to counts through the
  /// scaling).
  virtual Expected normaliseApplied(Quantity applied, Celsius referenceJunction = {0.0}) const = 0;
  virtual Expected normaliseReading(Quantity reading) const = 0;
  /// The reading error told in every form, at the point where `reading` was expected to be `expectedReading`.
  virtual ErrorForms errorForms(double expectedReading, double reading) const = 0;
};

using PointModelPtr = std::shared_ptr<const PointModel>;

/// Signal injected at the channel's terminals (or commanded, for outputs). The setup must have no
/// setupFaults.
PointModelPtr channelModel(const ChannelSetup& setup);
/// The sensor alone: process value applied, its output observed.
PointModelPtr sensorModel(const SensorRange& sensor);
/// End to end: process value applied, the channel's reading observed.
PointModelPtr loopModel(const ChannelSetup& setup, const SensorRange& sensor);

}  // namespace spanwright
