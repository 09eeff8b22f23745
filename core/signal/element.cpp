// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/element.h"

#include "core/signal/rtd.h"
#include "core/signal/thermocouple.h"

namespace spanwright {

Celsius Element::low() const {
  const auto* type = std::get_if<ThermocoupleType>(&kind_);
  return type != nullptr ? thermocoupleRange(*type).low : kRtdLow;
}

Celsius Element::high() const {
  const auto* type = std::get_if<ThermocoupleType>(&kind_);
  return type != nullptr ? thermocoupleRange(*type).high : kRtdHigh;
}

Expected Element::signal(Celsius at) const {
  if (const auto* type = std::get_if<ThermocoupleType>(&kind_))
    return thermocoupleMillivolts(*type, at);
  return rtdOhms(std::get<RtdElement>(kind_), at);
}

Expected Element::celsius(double signal, Celsius referenceJunction) const {
  if (const auto* type = std::get_if<ThermocoupleType>(&kind_))
    return thermocoupleCelsius(*type, Millivolts{signal}, referenceJunction);
  return rtdCelsius(std::get<RtdElement>(kind_), Ohms{signal});
}

Expected Element::slope(Celsius at) const {
  if (const auto* type = std::get_if<ThermocoupleType>(&kind_)) {
    const Expected microvolts = seebeckMicrovoltsPerKelvin(*type, at);
    if (const auto* value = std::get_if<double>(&microvolts))
      return *value / 1000.0;
    return microvolts;
  }
  return rtdOhmsPerKelvin(std::get<RtdElement>(kind_), at);
}

Expected Element::told(Celsius at) const {
  const Expected there = signal(at);
  if (!std::holds_alternative<double>(there))
    return there;
  const Expected back = celsius(std::get<double>(there));
  if (!std::holds_alternative<double>(back))
    return back;
  return at.value;
}

}  // namespace spanwright
