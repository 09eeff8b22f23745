// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/leads.h"

#include <array>
#include <cassert>
#include <cmath>

#include "core/signal/rtd.h"

namespace spanwright {

namespace {
constexpr double kCopperOhmSquareMillimetrePerMetre = 1.0 / 58.0;
constexpr double kCopperPerKelvin = 0.00393;
constexpr double kCopperReferenceCelsius = 20.0;
}  // namespace

std::vector<std::string> leadFaults(int wires, const LeadResistances& leads) {
  std::vector<std::string> faults;
  if (wires < 2 || wires > 4) {
    faults.emplace_back("an RTD has 2, 3 or 4 wires");
    return faults;
  }
  static constexpr std::array<const char*, 4> kNames{"first", "second", "third", "fourth"};
  const std::array resistances{leads.first, leads.second, leads.third, leads.fourth};
  for (std::size_t i = 0; i < static_cast<std::size_t>(wires); ++i)
    if (!std::isfinite(resistances[i]) || resistances[i] < 0.0)
      faults.push_back(std::string("the ") + kNames[i] +
                       " lead's resistance must be a number not below zero");
  return faults;
}

double leadErrorOhms(int wires, const LeadResistances& leads, ThreeWireMethod method) {
  assert(leadFaults(wires, leads).empty());
  if (wires == 2)
    return leads.first + leads.second;
  if (wires == 3)
    return leads.first - (method == ThreeWireMethod::byVoltages ? leads.second : leads.third);
  return 0.0;
}

LeadAnswer leadEffect(RtdElement element, Celsius at, int wires, const LeadResistances& leads,
                      ThreeWireMethod method) {
  const double added = leadErrorOhms(wires, leads, method);
  const Expected ohms = rtdOhms(element, at);
  if (const auto* reason = std::get_if<RangeResult>(&ohms))
    return *reason;
  if (added == 0.0)
    return LeadEffect{0.0, 0.0, at};
  const Expected shown = rtdCelsius(element, Ohms{std::get<double>(ohms) + added});
  if (const auto* reason = std::get_if<RangeResult>(&shown))
    return *reason;
  return LeadEffect{added, std::get<double>(shown) - at.value, Celsius{std::get<double>(shown)}};
}

double copperLeadOhms(double metres, double squareMillimetres, Celsius at) {
  const double warmth = 1.0 + kCopperPerKelvin * (at.value - kCopperReferenceCelsius);
  assert(metres >= 0.0 && squareMillimetres > 0.0 && warmth > 0.0);
  return kCopperOhmSquareMillimetrePerMetre * metres / squareMillimetres * warmth;
}

}  // namespace spanwright
