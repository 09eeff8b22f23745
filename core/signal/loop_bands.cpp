// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/loop_bands.h"

#include <algorithm>
#include <cmath>

namespace spanwright {

namespace {

constexpr double kSlack = 1e-9;

struct Row {
  std::string_view name;
  std::string_view meaning;
};
// In the order of LoopBand.
constexpr std::array kRows{
    Row{"failure_low", "failure information, below the measuring information"},
    Row{"gap_low", "neither measuring nor failure information"},
    Row{"underrange", "measuring information, below the range's start"},
    Row{"normal", "measuring information inside the range"},
    Row{"overrange", "measuring information, above the range's end"},
    Row{"gap_high", "neither measuring nor failure information"},
    Row{"failure_high", "failure information, above the measuring information"},
};

/// Between neighbouring bands.
constexpr std::array kEnds{3.6, 3.8, 4.0, 20.0, 20.5, 21.0};
static_assert(kRows.size() == kEnds.size() + 1 && kRows.size() == kLoopBands.size());

const Row& row(LoopBand band) {
  return kRows[static_cast<std::size_t>(band)];
}

}  // namespace

std::string_view text(LoopBand band) {
  return row(band).name;
}

std::string_view meaning(LoopBand band) {
  return row(band).meaning;
}

LoopBandEnds loopBandEnds(LoopBand band) {
  const auto at = static_cast<std::size_t>(band);
  LoopBandEnds ends;
  if (at > 0)
    ends.low = kEnds[at - 1];
  if (at < kEnds.size())
    ends.high = kEnds[at];
  return ends;
}

std::optional<LoopBand> loopBand(double milliamperes) {
  if (!std::isfinite(milliamperes))
    return std::nullopt;
  const double current = milliamperes;
  // On an end the middle one of two neighbours wins, but failure over gap.
  if (current <= kEnds[0] + kSlack)
    return LoopBand::failureLow;
  if (current < kEnds[1] - kSlack)
    return LoopBand::gapLow;
  if (current < kEnds[2] - kSlack)
    return LoopBand::underrange;
  if (current <= kEnds[3] + kSlack)
    return LoopBand::normal;
  if (current <= kEnds[4] + kSlack)
    return LoopBand::overrange;
  if (current < kEnds[5] - kSlack)
    return LoopBand::gapHigh;
  return LoopBand::failureHigh;
}

bool hasLoopBands(const Span& signal) {
  const auto low = convert(std::min(signal.low, signal.high), signal.unit, Unit::milliampere);
  const auto high = convert(std::max(signal.low, signal.high), signal.unit, Unit::milliampere);
  return low && high && std::abs(*low - 4.0) <= kSlack && std::abs(*high - 20.0) <= kSlack;
}

}  // namespace spanwright
