// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/settling.h"

#include <cmath>

namespace spanwright {

std::optional<int> settleSeconds(const ChannelSetup& setup) {
  constexpr double kTimeConstants = 5.0;  // exp(-5) is 0.67 %
  if (!(setup.filterSeconds > 0.0)) {
    return std::nullopt;
  }
  return static_cast<int>(std::ceil(kTimeConstants * setup.filterSeconds));
}

}  // namespace spanwright
