// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/connection_uncertainty.h"

#include "core/record/reference_junction.h"
#include "core/signal/rtd.h"
#include "core/signal/thermocouple.h"
#include "core/units/quantity.h"

namespace spanwright {
namespace {

/// What the channel shows for a signal at its terminals, told with the reference junction at a temperature.
std::optional<double> shownFor(const VisitSheet& sheet, Quantity signal, Celsius referenceJunction) {
  const Expected applied = sheet.model->normaliseApplied(signal, referenceJunction);
  if (!std::holds_alternative<double>(applied)) {
    return std::nullopt;
  }
  const Expected shown = sheet.model->expected(std::get<double>(applied));
  const double* value = std::get_if<double>(&shown);
  return value != nullptr ? std::optional(*value) : std::nullopt;
}

/// Change of `shown` per unit, over plus and minus `spread`.
template <class Shown>
std::optional<double> slopeOver(double spread, const Shown& shown) {
  const auto here = shown(0.0), above = shown(spread), below = shown(-spread);
  if (above && below) {
    return (*above - *below) / (2.0 * spread);
  }
  if (above && here) {
    return (*above - *here) / spread;
  }
  if (below && here) {
    return (*here - *below) / spread;
  }
  return std::nullopt;
}

/// The applied temperature as the element's signal.
template <class Signal>
std::optional<double> signalOf(const Reading& reading, const Signal& signal) {
  const auto at = convert(reading.applied, reading.point.appliedUnit, Unit::celsius);
  const Expected told = at ? signal(Celsius{*at}) : Expected(RangeResult::wrongUnit);
  const double* value = std::get_if<double>(&told);
  return value != nullptr ? std::optional(*value) : std::nullopt;
}

const SensorRange* bareSensor(const VisitSheet& sheet) {
  return sheet.subject == Subject::sensor && sheet.sensor != nullptr && !sheet.sensor->range.output
             ? &sheet.sensor->range
             : nullptr;
}

/// Reading units per kelvin of the reference junction; nothing where there is none or no slope.
struct Slope {
  bool concerned = false;
  std::optional<double> value;
};

Slope junctionSlope(const VisitSheet& sheet, const Reading& reading, bool inVolts, double spread) {
  const auto* couple = sheet.subject == Subject::channel && sheet.setup != nullptr
                           ? std::get_if<ThermocoupleSetup>(&sheet.setup->setup.kind)
                           : nullptr;
  if (couple != nullptr && (inVolts || toldInMillivolts(sheet.subject, reading))) {
    const auto emf = signalOf(
        reading, [&](Celsius at) { return thermocoupleMillivolts(couple->type, at, sheet.junction()); });
    return {
        true,
        emf ? slopeOver(
                  spread,
                  [&](double shift) {
                    return shownFor(sheet, {*emf, Unit::millivolt}, Celsius{sheet.junction().value + shift});
                  })
            : std::nullopt};
  }
  const SensorRange* bare = bareSensor(sheet);
  if (bare != nullptr && bare->thermocouple && inVolts) {
    // A warmer reference junction takes its emf from what is measured.
    return {true, slopeOver(spread, [&](double shift) -> std::optional<double> {
              const Expected emf =
                  thermocoupleMillivolts(*bare->thermocouple, Celsius{sheet.junction().value + shift});
              return std::holds_alternative<double>(emf)
                         ? convert(-std::get<double>(emf), Unit::millivolt, reading.point.readingUnit)
                         : std::nullopt;
            })};
  }
  return {};
}

Slope leadSlope(const VisitSheet& sheet, const Reading& reading, double spread) {
  const auto* rtd = sheet.subject == Subject::channel && sheet.setup != nullptr
                        ? std::get_if<RtdSetup>(&sheet.setup->setup.kind)
                        : nullptr;
  if (rtd != nullptr) {
    const auto ohms = signalOf(reading, [&](Celsius at) { return rtdOhms(rtd->element, at); });
    return {true, ohms ? slopeOver(spread,
                                   [&](double shift) {
                                     return shownFor(sheet, {*ohms + shift, Unit::ohm}, Celsius{0.0});
                                   })
                       : std::nullopt};
  }
  const SensorRange* bare = bareSensor(sheet);
  if (bare != nullptr && bare->rtd) {
    return {true, convertDifference(1.0, Unit::ohm, reading.point.readingUnit)};
  }
  return {};
}

}  // namespace

std::optional<std::vector<BudgetLine>> connectionLines(const VisitSheet& sheet, const Reading& reading,
                                                       bool inVolts) {
  std::vector<BudgetLine> lines;
  if (const auto expanded = sheet.plan->junctionUncertainty) {
    const double uncertainty = *expanded / 2.0;
    const Slope slope = junctionSlope(sheet, reading, inVolts, uncertainty);
    if (slope.concerned && !slope.value) {
      return std::nullopt;
    }
    if (slope.concerned) {
      lines.push_back({"reference junction", uncertainty, *slope.value});
    }
  }
  if (const auto halfWidth = sheet.plan->leadHalfWidth) {
    const double uncertainty = rectangular(*halfWidth);
    const Slope slope = leadSlope(sheet, reading, uncertainty);
    if (slope.concerned && !slope.value) {
      return std::nullopt;
    }
    if (slope.concerned) {
      lines.push_back({"leads", uncertainty, *slope.value});
    }
  }
  return lines;
}

}  // namespace spanwright
