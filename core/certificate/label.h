// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a label says that is stuck on a channel, however it is drawn.
#pragma once

#include <string>

namespace spanwright {

struct ChannelLabel {
  std::string tag;
  std::string subject;      ///< "sensor", "loop"; empty for the channel itself
  std::string calibrated;   ///< "2026-02-20"
  std::string due;          ///< empty: not printed (ISO/IEC 17025:2017 7.8.4.3)
  std::string certificate;  ///< number; empty: none was issued
};

/// What the label's code holds: the same facts as plain text, a line each, each after its word.
std::string labelText(const ChannelLabel& label);

}  // namespace spanwright
