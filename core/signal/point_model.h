// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is applied to a subject, what is then observed, and how the one follows from the other.
// Every kind of point answers through this one interface; nothing above it asks for the kind.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/signal/range_result.h"
#include "core/signal/setup.h"

namespace spanwright {

/// An error told in every way the record knows; what does not apply to the subject is nothing. Through a
/// square root or a sensor's function the forms follow by the local slope at the expected reading; where that
/// slope has no value (at no flow, or under the cut-off) they are nothing.
struct ErrorForms {
  double reading = 0.0;          ///< in the reading's own unit
  std::optional<double> signal;  ///< in `signalUnit`
  std::optional<double> counts;
  std::optional<double> units;   ///< in `engineeringUnit`
  double percentOfSpan = 0.0;    ///< of the reading span's width, with the sign of `reading`
  Unit signalUnit = Unit::none;  ///< V, mA; mV for a couple, ohm for an RTD
  Unit engineeringUnit = Unit::none;
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
  /// The same at one point: through a square root one converter step is worth more the lower the flow. step()
  /// is then the smallest of them, at full span.
  virtual double stepAt([[maybe_unused]] double expectedReading) const { return step(); }

  /// The reading an ideal subject shows for `applied`. Applied values up to 5 % of span outside the span are
  /// followed (over-range is legitimate to test); beyond that a named result, never a clamp.
  virtual Expected expected(double applied) const = 0;
  /// The applied value for which `reading` would be right.
  virtual Expected appliedFor(double reading) const = 0;
  /// Brings a typed applied value or reading to the model's own unit (degF to degC, mV to degC through the
  /// couple's function with the reference junction at `referenceJunction`, degC to counts through the
  /// scaling).
  virtual Expected normaliseApplied(Quantity applied, Celsius referenceJunction = {0.0}) const = 0;
  /// The mV read at a bare couple are those at terminals that are at `referenceJunction`; its own unit means
  /// them referred to 0 degC. A temperature read there stands for itself.
  virtual Expected normaliseReading(Quantity reading, Celsius referenceJunction = {0.0}) const = 0;
  /// The reading error told in every form, at the point where `reading` was expected to be `expectedReading`.
  virtual ErrorForms errorForms(double expectedReading, double reading) const = 0;
};

using PointModelPtr = std::shared_ptr<const PointModel>;

/// Signal injected at the channel's terminals (or commanded, for outputs). The setup must have no
/// setupFaults.
PointModelPtr channelModel(const ChannelSetup& setup);
/// The sensor alone: process value applied, its output observed.
PointModelPtr sensorModel(const SensorRange& sensor);
/// End to end: process value applied, the channel's reading observed. Where the reading stands for a quantity
/// of the process's own kind (degC for degC), the ideal loop shows the process value, so that a channel
/// scaled for another sensor shows as an error; else (kPa applied, m3/h read) the ideal reading follows
/// through the signal. A pair that cannot work together (see loopFaults) answers every question with
/// RangeResult::wrongUnit.
PointModelPtr loopModel(const ChannelSetup& setup, const SensorRange& sensor);

/// What is wrong with this sensor on this channel, each a clause: the channel takes no sensor, another couple
/// type, another signal, a scaling that is not the sensor's range. Empty when they fit. Neither may have
/// faults of its own.
std::vector<std::string> loopFaults(const ChannelSetup& setup, const SensorRange& sensor);

}  // namespace spanwright
