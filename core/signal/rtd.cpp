// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/rtd.h"

#include <cmath>
#include <string>

namespace spanwright {

namespace {

constexpr double kA = 3.9083e-3;
constexpr double kB = -5.775e-7;
constexpr double kC = -4.183e-12;
// What unit conversions may add at the ends of the range.
constexpr double kSlackKelvin = 1e-9;

/// R(t)/R0.
double ratio(double t) {
  const double platinum = 1.0 + t * (kA + kB * t);
  return t < 0.0 ? platinum + kC * (t - 100.0) * t * t * t : platinum;
}

/// d(R/R0)/dt.
double ratioSlope(double t) {
  const double slope = kA + 2.0 * kB * t;
  return t < 0.0 ? slope + kC * t * t * (4.0 * t - 300.0) : slope;
}

std::optional<RangeResult> outsideFunction(double t) {
  if (!std::isfinite(t))
    return RangeResult::notANumber;
  if (t < kRtdLow.value - kSlackKelvin)
    return RangeResult::belowFunction;
  if (t > kRtdHigh.value + kSlackKelvin)
    return RangeResult::aboveFunction;
  return std::nullopt;
}

}  // namespace

Ohms nominalResistance(RtdElement element) {
  return {element == RtdElement::pt100 ? 100.0 : 1000.0};
}

Expected rtdOhms(RtdElement element, Celsius at) {
  if (const auto fault = outsideFunction(at.value))
    return *fault;
  return nominalResistance(element).value * ratio(at.value);
}

Expected rtdCelsius(RtdElement element, Ohms resistance) {
  if (!std::isfinite(resistance.value))
    return RangeResult::notANumber;
  const double r = resistance.value / nominalResistance(element).value;
  if (r < ratio(kRtdLow.value - kSlackKelvin))
    return RangeResult::belowFunction;
  if (r > ratio(kRtdHigh.value + kSlackKelvin))
    return RangeResult::aboveFunction;
  // The root of the quadratic in the form that does not cancel near 0 degC.
  double t = 2.0 * (r - 1.0) / (kA + std::sqrt(kA * kA + 4.0 * kB * (r - 1.0)));
  if (r < 1.0) {
    for (int i = 0; i < 20; ++i) {
      const double change = (ratio(t) - r) / ratioSlope(t);
      t -= change;
      if (std::abs(change) < 1e-13)
        break;
    }
  }
  return t;
}

Expected rtdOhmsPerKelvin(RtdElement element, Celsius at) {
  if (const auto fault = outsideFunction(at.value))
    return *fault;
  return nominalResistance(element).value * ratioSlope(at.value);
}

std::string_view text(RtdElement element) {
  return element == RtdElement::pt100 ? "pt100" : "pt1000";
}

std::optional<RtdElement> parseRtdElement(std::string_view text) {
  std::string plain;
  for (const char c : text)
    if (c != ' ')
      plain += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  if (plain == "pt100")
    return RtdElement::pt100;
  if (plain == "pt1000")
    return RtdElement::pt1000;
  return std::nullopt;
}

}  // namespace spanwright
