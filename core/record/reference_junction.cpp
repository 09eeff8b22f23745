// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/record/reference_junction.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/signal/thermocouple.h"
#include "core/units/number.h"
#include "core/units/quantity.h"

namespace spanwright {

std::optional<ThermocoupleType> coupleInMillivolts(Subject subject, const ChannelSetup* setup,
                                                   const SensorRange* sensor) {
  if (subject == Subject::channel && setup != nullptr) {
    const auto* input = std::get_if<ThermocoupleSetup>(&setup->kind);
    return input != nullptr ? std::optional(input->type) : std::nullopt;
  }
  if (subject == Subject::sensor && sensor != nullptr && !sensor->output) {
    return sensor->thermocouple;
  }
  return std::nullopt;
}

bool toldInMillivolts(Subject subject, const Reading& reading) {
  const bool measured = subject == Subject::sensor;
  const auto typed =
      parseQuantity(measured ? reading.indicatedText : reading.appliedText, DecimalSign::either);
  if (!typed) {
    return false;
  }
  // A bare number is in the point's own unit: mV where they are measured, degrees where they are fed.
  return typed->unit ? dimension(*typed->unit) == Dimension::voltage : measured;
}

std::optional<Problem> junctionFault(double celsius, const std::optional<ThermocoupleType>& couple) {
  if (!couple) {
    return Problem{{},
                   "a reference junction is given, but no mV of a couple are fed or measured at this visit",
                   "leave it out"};
  }
  if (!(celsius >= kColdestJunction && celsius <= kWarmestJunction)) {
    return Problem{{},
                   fmt::format("the reference junction is not between {} and {} degC",
                               formatShortest(kColdestJunction), formatShortest(kWarmestJunction)),
                   "correct it, or leave it out when the mV are emf referred to 0 degC"};
  }
  if (const Celsius low = thermocoupleRange(*couple).low; celsius < low.value) {
    return Problem{
        {},
        fmt::format("the reference junction is at {} degC, where a type {} couple has no emf function",
                    formatShortest(celsius), text(*couple)),
        fmt::format("correct it; the function begins at {} degC", formatShortest(low.value))};
  }
  return std::nullopt;
}

std::string junctionText(const Calibration& calibration, const ChannelSetup* setup,
                         const SensorRange* sensor) {
  if (const auto& junction = calibration.conditions.referenceJunction) {
    return formatShortest(*junction) + " °C";
  }
  const auto told = [&](const std::vector<Reading>& readings) {
    return std::any_of(readings.begin(), readings.end(), [&](const Reading& reading) {
      return !reading.skipped() && toldInMillivolts(calibration.subject, reading);
    });
  };
  const bool concerned = coupleInMillivolts(calibration.subject, setup, sensor).has_value();
  return concerned && (told(calibration.asFound) || told(calibration.asLeft)) ? "emf referred to 0 °C" : "";
}

}  // namespace spanwright
