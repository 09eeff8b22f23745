// SPDX-License-Identifier: GPL-3.0-or-later
//
// Inside the room: the models behind point_model.h, one maker per kind.
#pragma once

#include <memory>
#include <optional>

#include "core/signal/point_model.h"

namespace spanwright {

/// A channel's model, with what a loop needs to know of it.
class ChannelModel : public PointModel {
 public:
  /// The unit of what the reading stands for (degC behind counts); nothing when it stands only for itself.
  virtual std::optional<Unit> engineeringUnit() const { return std::nullopt; }
  /// The applied value that stands for `value` in the engineering unit.
  virtual Expected appliedForEngineering(double) const { return RangeResult::wrongUnit; }
  /// The engineering value `reading` stands for.
  virtual Expected engineeringFor(double) const { return RangeResult::wrongUnit; }
};
using ChannelModelPtr = std::shared_ptr<const ChannelModel>;

ChannelModelPtr makeModel(const ThresholdSetup& setup);
ChannelModelPtr makeModel(const AnalogInputSetup& setup);
ChannelModelPtr makeModel(const ThermocoupleSetup& setup);
ChannelModelPtr makeModel(const RtdSetup& setup);
ChannelModelPtr makeModel(const AnalogOutputSetup& setup);
ChannelModelPtr makeModel(const DiscreteOutputSetup& setup);

}  // namespace spanwright
