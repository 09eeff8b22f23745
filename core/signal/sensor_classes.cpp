// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/signal/sensor_classes.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <string>

#include "core/signal/rtd.h"
#include "core/units/text.h"

namespace spanwright {

namespace {

// What a conversion between temperature units may add at the very end of a range.
constexpr double kSlackKelvin = 1e-9;

/// max(fixed, relative |t|) from `low` to `high`; above `bend` fixed + relative (t - bend) instead.
struct CoupleRule {
  ThermocoupleClass coupleClass;
  std::string_view types;
  double low, high;
  double fixed;
  double relative;
  double bend = 0.0;
};

constexpr std::array kCoupleRules{
    CoupleRule{ThermocoupleClass::class1, "T", -40, 350, 0.5, 0.004},
    CoupleRule{ThermocoupleClass::class2, "T", -40, 350, 1.0, 0.0075},
    CoupleRule{ThermocoupleClass::class3, "T", -200, 40, 1.0, 0.015},
    CoupleRule{ThermocoupleClass::class1, "E", -40, 800, 1.5, 0.004},
    CoupleRule{ThermocoupleClass::class2, "E", -40, 900, 2.5, 0.0075},
    CoupleRule{ThermocoupleClass::class1, "J", -40, 750, 1.5, 0.004},
    CoupleRule{ThermocoupleClass::class2, "J", -40, 750, 2.5, 0.0075},
    CoupleRule{ThermocoupleClass::class1, "KN", -40, 1000, 1.5, 0.004},
    CoupleRule{ThermocoupleClass::class2, "KN", -40, 1200, 2.5, 0.0075},
    CoupleRule{ThermocoupleClass::class3, "EKN", -200, 40, 2.5, 0.015},
    CoupleRule{ThermocoupleClass::class1, "RS", 0, 1600, 1.0, 0.003, 1100},
    CoupleRule{ThermocoupleClass::class2, "RS", 0, 1600, 1.5, 0.0025},
    CoupleRule{ThermocoupleClass::class2, "B", 600, 1700, 0.0, 0.0025},
    CoupleRule{ThermocoupleClass::class3, "B", 600, 1700, 4.0, 0.005},
    CoupleRule{ThermocoupleClass::class2, "C", 426, 2315, 0.0, 0.01},
    CoupleRule{ThermocoupleClass::astmStandard, "C", 0, 2315, 0.0, 0.01},
};

const CoupleRule* ruleFor(ThermocoupleType type, ThermocoupleClass coupleClass) {
  const auto* const found =
      std::find_if(kCoupleRules.begin(), kCoupleRules.end(), [&](const CoupleRule& rule) {
        return rule.coupleClass == coupleClass && rule.types.find(text(type)) != std::string_view::npos;
      });
  return found == kCoupleRules.end() ? nullptr : found;
}

std::optional<NoTolerance> outside(const CelsiusRange& range, Celsius at) {
  if (!std::isfinite(at.value))
    return NoTolerance::notANumber;
  if (at.value < range.low.value - kSlackKelvin)
    return NoTolerance::belowClass;
  if (at.value > range.high.value + kSlackKelvin)
    return NoTolerance::aboveClass;
  return std::nullopt;
}

ClassTolerance byRule(const RtdClassRule& rule, const CelsiusRange& range, Celsius at) {
  if (const auto reason = outside(range, at))
    return *reason;
  return rule.fixed + rule.perKelvin * std::abs(at.value);
}

struct ThermometerRow {
  RtdClassRule rule;
  CelsiusRange wire, film;
};
// In the order of RtdClass.
constexpr std::array kThermometers{
    ThermometerRow{{0.1, 0.0017}, {{-50}, {250}}, {{0}, {150}}},
    ThermometerRow{{0.15, 0.002}, {{-100}, {450}}, {{-30}, {300}}},
    ThermometerRow{{0.3, 0.005}, {{-196}, {600}}, {{-50}, {500}}},
    ThermometerRow{{0.6, 0.01}, {{-196}, {600}}, {{-50}, {600}}},
};

struct ResistorRow {
  std::string_view name;
  RtdClass sameRuleAs;
  CelsiusRange range;
};
// In the order of RtdResistorClass.
constexpr std::array kResistors{
    ResistorRow{"W 0.1", RtdClass::aa, {{-100}, {350}}}, ResistorRow{"F 0.1", RtdClass::aa, {{0}, {150}}},
    ResistorRow{"W 0.15", RtdClass::a, {{-100}, {450}}}, ResistorRow{"F 0.15", RtdClass::a, {{-30}, {300}}},
    ResistorRow{"W 0.3", RtdClass::b, {{-196}, {660}}},  ResistorRow{"F 0.3", RtdClass::b, {{-50}, {500}}},
    ResistorRow{"W 0.6", RtdClass::c, {{-196}, {660}}},  ResistorRow{"F 0.6", RtdClass::c, {{-50}, {600}}},
};

const ThermometerRow& row(RtdClass rtdClass) {
  return kThermometers[static_cast<std::size_t>(rtdClass)];
}
const ResistorRow& row(RtdResistorClass resistorClass) {
  return kResistors[static_cast<std::size_t>(resistorClass)];
}

}  // namespace

std::string_view text(NoTolerance reason) {
  switch (reason) {
    case NoTolerance::noSuchClass:
      return "not defined for this type";
    case NoTolerance::belowClass:
      return "below the range of the class";
    case NoTolerance::aboveClass:
      return "above the range of the class";
    case NoTolerance::notANumber:
      return "not a number";
  }
  return "";
}

std::string_view text(ThermocoupleClass coupleClass) {
  switch (coupleClass) {
    case ThermocoupleClass::class1:
      return "class 1";
    case ThermocoupleClass::class2:
      return "class 2";
    case ThermocoupleClass::class3:
      return "class 3";
    case ThermocoupleClass::astmStandard:
      return "ASTM standard";
  }
  return "";
}

std::optional<CelsiusRange> classRange(ThermocoupleType type, ThermocoupleClass coupleClass) {
  const CoupleRule* rule = ruleFor(type, coupleClass);
  if (rule == nullptr)
    return std::nullopt;
  return CelsiusRange{{rule->low}, {rule->high}};
}

ClassTolerance thermocoupleTolerance(ThermocoupleType type, ThermocoupleClass coupleClass, Celsius at) {
  const CoupleRule* rule = ruleFor(type, coupleClass);
  if (rule == nullptr)
    return NoTolerance::noSuchClass;
  // The ASTM limit is 1 % of the temperature and so none at 0 degC: no couple is that good, and zero is no
  // tolerance.
  if (at.value == 0.0 && rule->fixed == 0.0)
    return NoTolerance::belowClass;
  if (const auto reason = outside({{rule->low}, {rule->high}}, at))
    return *reason;
  if (rule->bend > 0.0)
    return rule->fixed + rule->relative * std::max(0.0, at.value - rule->bend);
  return std::max(rule->fixed, rule->relative * std::abs(at.value));
}

std::string_view text(RtdConstruction construction) {
  return construction == RtdConstruction::wire ? "wire-wound" : "film";
}

std::optional<RtdConstruction> parseRtdConstruction(std::string_view text) {
  text = trimmed(text);
  if (text == "wire" || text == "wire-wound")
    return RtdConstruction::wire;
  if (text == "film")
    return RtdConstruction::film;
  return std::nullopt;
}

std::string_view text(RtdClass rtdClass) {
  static constexpr std::array<std::string_view, 4> kNames{"AA", "A", "B", "C"};
  return kNames[static_cast<std::size_t>(rtdClass)];
}

RtdClassRule rtdClassRule(RtdClass rtdClass) {
  return row(rtdClass).rule;
}

CelsiusRange classRange(RtdClass rtdClass, RtdConstruction construction) {
  return construction == RtdConstruction::wire ? row(rtdClass).wire : row(rtdClass).film;
}

ClassTolerance rtdTolerance(RtdClass rtdClass, RtdConstruction construction, Celsius at) {
  return byRule(rtdClassRule(rtdClass), classRange(rtdClass, construction), at);
}

std::string_view text(RtdResistorClass resistorClass) {
  return row(resistorClass).name;
}

CelsiusRange classRange(RtdResistorClass resistorClass) {
  return row(resistorClass).range;
}

ClassTolerance rtdTolerance(RtdResistorClass resistorClass, Celsius at) {
  return byRule(rtdClassRule(row(resistorClass).sameRuleAs), classRange(resistorClass), at);
}

ClassTolerance inOhms(const ClassTolerance& kelvin, RtdElement element, Celsius at) {
  const auto* tolerance = std::get_if<double>(&kelvin);
  if (tolerance == nullptr)
    return kelvin;
  const Expected slope = rtdOhmsPerKelvin(element, at);
  assert(std::holds_alternative<double>(slope));
  return *tolerance * std::get<double>(slope);
}

}  // namespace spanwright
