// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/point_model.h"

#include <cassert>

#include "core/signal/models.h"

namespace spanwright {

std::string_view rangeText(RangeResult result) {
  switch (result) {
    case RangeResult::belowRange:
      return "below the input range";
    case RangeResult::aboveRange:
      return "above the input range";
    case RangeResult::belowFunction:
      return "below the range of the sensor's function";
    case RangeResult::aboveFunction:
      return "above the range of the sensor's function";
    case RangeResult::notMonotonic:
      return "where the function has no single answer";
    case RangeResult::wrongUnit:
      return "in a unit that does not fit here";
    case RangeResult::notANumber:
      return "not a number";
    case RangeResult::notAState:
      return "neither off (0) nor on (1)";
  }
  return "";
}

PointModelPtr channelModel(const ChannelSetup& setup) {
  assert(setupFaults(setup).empty());
  return std::visit([](const auto& kind) -> PointModelPtr { return makeModel(kind); }, setup.kind);
}

}  // namespace spanwright
