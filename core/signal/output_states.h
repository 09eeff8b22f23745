// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an output must do in every state it can be in, as a table: for showing beside the states observed.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/signal/setup.h"

namespace spanwright {

/// What a row stands for: communication with the controller is there, or has been lost.
enum class Link { present, lost };

/// One row: after this command, with the link so, the output is `on` and its load sees `low` to `high` volts.
struct DiscreteState {
  bool commandedOn = false;
  Link link = Link::present;
  bool on = false;
  double low = 0.0;  ///< V, limits included
  double high = 0.0;
};

/// Off and on with the link, then off and on before it was lost. On: the supply, less the allowed drop and up
/// to 10 % more (common practice, no source). Off: no further from 0 V than the limit, either way. On loss
/// the output holds what was commanded or goes off. The setup must have no setupFaults.
std::vector<DiscreteState> stateTable(const DiscreteOutputSetup& setup);

/// What an analog output gives, in its signal's unit, when the link is lost after `commanded` (0 at the low
/// end of the command's span, 1 at its high end): that signal still when it holds, the lower end of the
/// signal for minimum, zero for off.
double signalOnLoss(const AnalogOutputSetup& setup, double commanded);

}  // namespace spanwright
