// SPDX-License-Identifier: GPL-3.0-or-later
//
// How long to wait before a reading is believed.
#pragma once

#include <optional>

#include "core/signal/setup.h"

namespace spanwright {

/// Whole seconds after a step until what is left of it is under 0.7 %: five of the input filter's time
/// constants, rounded up. Nothing when the setup has no filter, so that it says nothing about waiting.
std::optional<int> settleSeconds(const ChannelSetup& setup);

}  // namespace spanwright
