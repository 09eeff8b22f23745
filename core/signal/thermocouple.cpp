// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/thermocouple.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/signal/thermocouple_tables.h"
#include "core/units/text.h"

namespace spanwright {

namespace {

// What a conversion between temperature units may add at the very end of a range: 1372 degC comes back from
// degF as 1372.0000000000002.
constexpr double kSlackKelvin = 1e-9;
constexpr double kSlackMillivolts = 1e-10;

struct ValueAndSlope {
  double value = 0.0;  ///< mV
  double slope = 0.0;  ///< mV/K
};

/// The piece `t` lies in; at a join the lower one.
std::size_t segmentAt(ThermocoupleType type, double t) {
  const auto segments = coupleSegments(type);
  std::size_t at = 0;
  while (at + 1 < segments.size() && t > segments[at].high)
    ++at;
  return at;
}

ValueAndSlope evaluateSegment(ThermocoupleType type, std::size_t segment, double t) {
  ValueAndSlope result;
  const auto& coefficients = coupleSegments(type)[segment].coefficients;
  for (std::size_t i = coefficients.size(); i-- > 0;) {
    result.slope = result.slope * t + result.value;
    result.value = result.value * t + coefficients[i];
  }
  if (type == ThermocoupleType::K && segment > 0) {
    const double distance = t - kTypeKA2;
    const double term = kTypeKA0 * std::exp(kTypeKA1 * distance * distance);
    result.value += term;
    result.slope += 2.0 * kTypeKA1 * distance * term;
  }
  return result;
}

ValueAndSlope evaluate(ThermocoupleType type, double t) {
  return evaluateSegment(type, segmentAt(type, t), t);
}

std::optional<RangeResult> outsideFunction(ThermocoupleType type, double t) {
  if (!std::isfinite(t))
    return RangeResult::notANumber;
  const CelsiusRange range = thermocoupleRange(type);
  if (t < range.low.value - kSlackKelvin)
    return RangeResult::belowFunction;
  if (t > range.high.value + kSlackKelvin)
    return RangeResult::aboveFunction;
  return std::nullopt;
}

/// The t between `low` and `high` with E(t) = emf; E must rise all the way. Newton's step is taken where it
/// stays inside the bracket and halving where it does not, so every start converges.
double solve(ThermocoupleType type, double emf, double low, double high) {
  double t = 0.5 * (low + high);
  for (int i = 0; i < 200; ++i) {
    const ValueAndSlope e = evaluate(type, t);
    const double error = e.value - emf;
    if (error == 0.0)
      return t;
    (error > 0.0 ? high : low) = t;
    double next = e.slope > 0.0 ? t - error / e.slope : low;
    if (next <= low || next >= high)
      next = 0.5 * (low + high);
    if (std::abs(next - t) <= 1e-13 * std::max(1.0, std::abs(t)))
      return next;
    t = next;
  }
  return t;
}

/// Where type B's emf is lowest: the zero of its slope, which rises there. About 21.02 degC.
double typeBMinimum() {
  static const double minimum = [] {
    double low = 0.0;
    double high = 50.0;
    for (int i = 0; i < 100; ++i) {
      const double middle = 0.5 * (low + high);
      (evaluate(ThermocoupleType::B, middle).slope < 0.0 ? low : high) = middle;
    }
    return low;
  }();
  return minimum;
}

}  // namespace

CelsiusRange thermocoupleRange(ThermocoupleType type) {
  const auto segments = coupleSegments(type);
  return {{segments.front().low}, {segments.back().high}};
}

Expected thermocoupleMillivolts(ThermocoupleType type, Celsius hot) {
  if (const auto fault = outsideFunction(type, hot.value))
    return *fault;
  return evaluate(type, hot.value).value;
}

Expected thermocoupleMillivolts(ThermocoupleType type, Celsius hot, Celsius referenceJunction) {
  const Expected there = thermocoupleMillivolts(type, hot);
  const Expected here = thermocoupleMillivolts(type, referenceJunction);
  if (!std::holds_alternative<double>(there))
    return there;
  if (!std::holds_alternative<double>(here))
    return here;
  return std::get<double>(there) - std::get<double>(here);
}

Expected thermocoupleCelsius(ThermocoupleType type, Millivolts emf, Celsius referenceJunction) {
  if (!std::isfinite(emf.value))
    return RangeResult::notANumber;
  const Expected reference = thermocoupleMillivolts(type, referenceJunction);
  if (!std::holds_alternative<double>(reference))
    return reference;
  const double sum = emf.value + std::get<double>(reference);
  const CelsiusRange range = thermocoupleRange(type);
  double low = range.low.value;
  if (type == ThermocoupleType::B) {
    low = typeBMinimum();
    if (sum <= 0.0 && sum >= evaluate(type, low).value)
      return RangeResult::notMonotonic;
  }
  if (sum < evaluate(type, low).value - kSlackMillivolts)
    return RangeResult::belowFunction;
  if (sum > evaluate(type, range.high.value).value + kSlackMillivolts)
    return RangeResult::aboveFunction;
  return solve(type, sum, low, range.high.value);
}

Expected seebeckMicrovoltsPerKelvin(ThermocoupleType type, Celsius at) {
  if (const auto fault = outsideFunction(type, at.value))
    return *fault;
  const std::size_t segment = segmentAt(type, at.value);
  const double slope = evaluateSegment(type, segment, at.value).slope;
  const bool join =
      at.value == coupleSegments(type)[segment].high && segment + 1 < coupleSegments(type).size();
  return join ? 500.0 * (slope + evaluateSegment(type, segment + 1, at.value).slope) : 1000.0 * slope;
}

namespace {
// In the order of the enumeration.
constexpr std::array<std::string_view, 9> kLetters{"B", "C", "E", "J", "K", "N", "R", "S", "T"};
}  // namespace

std::string_view text(ThermocoupleType type) {
  return kLetters[static_cast<std::size_t>(type)];
}

std::optional<ThermocoupleType> parseThermocoupleType(std::string_view text) {
  text = trimmed(text);
  if (text.size() != 1)
    return std::nullopt;
  const char letter = text[0] >= 'a' && text[0] <= 'z' ? static_cast<char>(text[0] - 'a' + 'A') : text[0];
  for (std::size_t i = 0; i < kLetters.size(); ++i)
    if (kLetters[i][0] == letter)
      return static_cast<ThermocoupleType>(i);
  return std::nullopt;
}

}  // namespace spanwright
