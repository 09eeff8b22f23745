// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/doubt.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace spanwright {
namespace {

constexpr double kRounding = 1e-12;
constexpr double kLeastOfTolerance = 1.0 / 20.0;
constexpr std::array kFactors{10.0, 0.1, 1000.0, 0.001};

bool isDigit(char c) {
  return c >= '0' && c <= '9';
}

/// The limit on the error's side, as a size.
double limitFor(double error, const ErrorLimits& limits) {
  return error < 0.0 ? -limits.low : limits.high;
}

std::optional<Doubt> swappedDoubt(const ReadingWindow& own, const std::vector<OtherReading>& swapped) {
  for (const OtherReading& other : swapped) {
    if (own.holds(other.reading)) {
      return Doubt{.kind = DoubtKind::swappedDigits, .meantText = other.text, .meant = other.reading};
    }
  }
  return std::nullopt;
}

std::optional<Doubt> placeDoubt(double reading, const ReadingWindow& own,
                                const std::vector<ReadingWindow>& others) {
  for (const ReadingWindow& other : others) {
    if (other.sequence != own.sequence && other.holds(reading) && !own.holds(other.expected)) {
      return Doubt{.kind = DoubtKind::otherPoint, .sequence = other.sequence};
    }
  }
  return std::nullopt;
}

std::optional<Doubt> unitDoubt(double reading, const ReadingWindow& own) {
  if (own.holds(0.0)) {
    return std::nullopt;
  }
  for (const double factor : kFactors) {
    if (own.holds(reading * factor)) {
      return Doubt{.kind = DoubtKind::otherUnit, .meant = reading * factor};
    }
  }
  return std::nullopt;
}

std::optional<Doubt> farDoubt(double reading, const ReadingWindow& own, const UsualError& usual,
                              double step) {
  const double error = reading - own.expected;
  const double tolerance = limitFor(error, own.limits);
  if (!std::isfinite(tolerance)) {
    return std::nullopt;
  }
  const bool byHistory = usual.visits >= kUsualVisits;
  const double size =
      byHistory ? std::max({usual.size, step, kLeastOfTolerance * tolerance}) : std::max(tolerance, step);
  if (!(size > 0.0) || std::abs(error) <= kFarOff * size * (1.0 + kRounding)) {
    return std::nullopt;
  }
  return Doubt{.kind = DoubtKind::farOff, .usual = size, .byHistory = byHistory};
}

}  // namespace

bool ReadingWindow::holds(double reading) const {
  const double slack = kRounding * (std::abs(reading) + std::abs(expected));
  const double error = reading - expected;
  return error >= limits.low - slack && error <= limits.high + slack;
}

std::vector<std::string> swappedDigits(std::string_view typed) {
  std::vector<std::string> texts;
  for (std::size_t i = 0; i + 1 < typed.size(); ++i) {
    if (isDigit(typed[i]) && isDigit(typed[i + 1]) && typed[i] != typed[i + 1]) {
      std::string& text = texts.emplace_back(typed);
      std::swap(text[i], text[i + 1]);
    }
  }
  return texts;
}

std::optional<Doubt> doubtOf(double reading, const ReadingWindow& own,
                             const std::vector<ReadingWindow>& others,
                             const std::vector<OtherReading>& swapped, const UsualError& usual, double step) {
  const double error = reading - own.expected;
  if (std::abs(error) > kSlip * limitFor(error, own.limits)) {
    if (auto doubt = swappedDoubt(own, swapped)) {
      return doubt;
    }
    if (auto doubt = placeDoubt(reading, own, others)) {
      return doubt;
    }
    if (auto doubt = unitDoubt(reading, own)) {
      return doubt;
    }
  }
  return farDoubt(reading, own, usual, step);
}

}  // namespace spanwright
