// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/output_states.h"

#include <algorithm>

#include "core/signal/scaling.h"

namespace spanwright {

std::vector<DiscreteState> stateTable(const DiscreteOutputSetup& setup) {
  std::vector<DiscreteState> rows;
  for (const Link link : {Link::present, Link::lost}) {
    for (const bool commandedOn : {false, true}) {
      const bool on = commandedOn && (link == Link::present || setup.onLoss == LossBehaviour::hold);
      rows.push_back({commandedOn, link, on, on ? setup.supplyVolts - setup.maxDropVolts : -setup.maxOffVolts,
                      on ? 1.1 * setup.supplyVolts : setup.maxOffVolts});
    }
  }
  return rows;
}

double signalOnLoss(const AnalogOutputSetup& setup, double commanded) {
  switch (setup.onLoss) {
    case LossBehaviour::hold:
      return valueAt(setup.signal, commanded);
    case LossBehaviour::minimum:
      return std::min(setup.signal.low, setup.signal.high);
    case LossBehaviour::off:
      return 0.0;
  }
  return 0.0;
}

}  // namespace spanwright
