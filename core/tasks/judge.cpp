// SPDX-License-Identifier: GPL-3.0-or-later
//
// One line of the sheet: from what was typed to a judged reading.
#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "core/record/reference_junction.h"
#include "core/record/ruled_reading.h"
#include "core/signal/thermocouple.h"
#include "core/tasks/point_uncertainty.h"
#include "core/tasks/visit.h"
#include "core/units/text.h"

namespace spanwright {
namespace {

using Typed = std::variant<double, TypedProblem>;

/// A value applied further from its point's nominal than this, in % of span, belongs to another point.
constexpr double kNominalPercent = 5.0;

/// The words for a text that is no quantity: what of it was not understood.
TypedProblem notUnderstood(std::string_view typed, DecimalSign sign, bool inApplied) {
  const std::string_view body = trimmed(typed);
  for (std::size_t length = body.size(); length > 1; --length) {
    const std::string_view number = trimmed(body.substr(0, length - 1));
    const std::string_view rest = trimmed(body.substr(length - 1));
    const bool restIsWord =
        !rest.empty() && std::string_view("+-.,0123456789").find(rest.front()) == std::string_view::npos;
    if (restIsWord && parseNumber(number, sign)) {
      return {inApplied, fmt::format("the unit \"{}\" in \"{}\" is not understood", rest, body),
              "write the unit's symbol, or leave it out"};
    }
  }
  return {inApplied, fmt::format("\"{}\" is not a number", body),
          "type one number, with its unit if you like"};
}

TypedProblem notTaken(std::string_view typed, RangeResult why, Unit given, Unit own, bool inApplied) {
  if (why == RangeResult::wrongUnit) {
    const std::string_view wanted = symbol(own);
    return {inApplied,
            fmt::format("\"{}\" is in {}, which cannot be told as {} here", trimmed(typed), symbol(given),
                        wanted),
            fmt::format("give it in {}", wanted)};
  }
  return {inApplied, fmt::format("\"{}\" is {}", trimmed(typed), rangeText(why)),
          "correct the value or its unit"};
}

/// The number in `typed` in the unit `own`.
Typed typedValue(const VisitSheet& sheet, std::string_view typed, DecimalSign sign, Unit own,
                 bool inApplied) {
  const auto quantity = parseQuantity(typed, sign);
  if (!quantity) {
    return notUnderstood(typed, sign, inApplied);
  }
  const Quantity given{quantity->value, quantity->unit.value_or(own)};
  const bool atTerminals = !inApplied && sheet.referenceJunction && sheet.subject == Subject::sensor &&
                           dimension(given.unit) == Dimension::voltage;
  if (given.unit == own && !atTerminals) {
    return given.value;
  }
  if (sameDimension(given.unit, own) && !atTerminals) {
    return *convert(given.value, given.unit, own);
  }
  const Expected result = inApplied ? sheet.model->normaliseApplied(given, sheet.junction())
                                    : sheet.model->normaliseReading(given, sheet.junction());
  if (const auto* why = std::get_if<RangeResult>(&result)) {
    return notTaken(typed, *why, given.unit, own, inApplied);
  }
  return std::get<double>(result);
}

Typed indicatedValue(const VisitSheet& sheet, const TestPoint& point, std::string_view typed,
                     DecimalSign sign) {
  if (trimmed(typed).empty()) {
    return TypedProblem{false, "there is no reading",
                        "give the reading, or the reason why the point was skipped"};
  }
  Typed value = typedValue(sheet, typed, sign, point.readingUnit, false);
  if (const double* number = std::get_if<double>(&value);
      number != nullptr && readingImpossible(point, *sheet.model, *number)) {
    const Span possible = possibleReadings(point, *sheet.model);
    return TypedProblem{
        false,
        fmt::format("{} cannot be: readings here lie between {} and {}",
                    formatQuantity(*number, point.readingUnit), formatQuantity(possible.low, possible.unit),
                    formatQuantity(possible.high, possible.unit)),
        "check the decimal sign and the unit"};
  }
  return value;
}

bool isState(PointRole role) {
  return role == PointRole::stateOn || role == PointRole::stateOff;
}

/// A state's command may be typed as the word itself.
std::optional<Typed> commandWord(const TestPoint& point, std::string_view typed) {
  const std::string_view word = trimmed(typed);
  if (!isState(point.role) || (word != "on" && word != "off")) {
    return std::nullopt;
  }
  if ((word == "on") == (point.role == PointRole::stateOn)) {
    return point.nominalApplied;
  }
  return TypedProblem{true, fmt::format("\"{}\" is not what is commanded at this point", word),
                      "type the reading on the line of its own point"};
}

/// To somebody who typed mV: what they are at this point, at the visit's reference junction.
std::string millivoltsThere(const VisitSheet& sheet, const TestPoint& point, std::string_view typed) {
  Reading reading;
  reading.appliedText = std::string(typed);
  const auto couple = sheet.couple();
  const auto at = convert(point.nominalApplied, point.appliedUnit, Unit::celsius);
  if (!couple || !at || sheet.subject != Subject::channel || !toldInMillivolts(sheet.subject, reading)) {
    return {};
  }
  const Expected emf = thermocoupleMillivolts(*couple, Celsius{*at}, sheet.junction());
  const double* value = std::get_if<double>(&emf);
  return value == nullptr ? std::string()
                          : fmt::format("; with the reference junction at {} degC the point is at {} mV",
                                        formatShortest(sheet.junction().value), formatFixed(*value, 3));
}

Typed appliedValue(const VisitSheet& sheet, const TestPoint& point, std::string_view typed, DecimalSign sign,
                   double indicated) {
  const bool switching = (point.role == PointRole::switchOn || point.role == PointRole::switchOff) &&
                         sheet.subject == Subject::channel;
  if (trimmed(typed).empty()) {
    // What is applied at a switch point is the very voltage that was observed.
    return switching ? indicated : point.nominalApplied;
  }
  if (auto word = commandWord(point, typed)) {
    return *word;
  }
  Typed value = typedValue(sheet, typed, sign, point.appliedUnit, true);
  const double* number = std::get_if<double>(&value);
  const bool atNominal = point.role == PointRole::value || isState(point.role);
  const double reach = kNominalPercent / 100.0 * std::abs(sheet.model->appliedSpan().width());
  if (number != nullptr && atNominal &&
      !(std::abs(*number - point.nominalApplied) <= reach * (1.0 + 1e-12))) {
    return TypedProblem{
        true,
        fmt::format("{} is too far from the {} of this point", formatQuantity(*number, point.appliedUnit),
                    formatQuantity(point.nominalApplied, point.appliedUnit)),
        "correct it, or type the reading on the line of its own point" +
            millivoltsThere(sheet, point, typed)};
  }
  return value;
}

std::variant<Reading, TypedProblem> skippedReading(Reading reading, const TypedReading& typed) {
  if (!trimmed(typed.indicatedText).empty()) {
    return TypedProblem{false, "the point has a reading and a reason for skipping it",
                        "leave one of them out"};
  }
  reading.skipReason = trimmed(typed.skipReason);
  return reading;
}

}  // namespace

std::variant<Reading, TypedProblem> judge(const VisitSheet& sheet, const TestPoint& point,
                                          const TypedReading& typed,
                                          const std::vector<const Standard*>& standards, DecimalSign sign) {
  Reading reading;
  reading.point = point;
  reading.appliedText = trimmed(typed.appliedText);
  reading.indicatedText = trimmed(typed.indicatedText);
  if (!trimmed(typed.skipReason).empty()) {
    return skippedReading(std::move(reading), typed);
  }
  const Typed indicated = indicatedValue(sheet, point, typed.indicatedText, sign);
  if (const auto* trouble = std::get_if<TypedProblem>(&indicated)) {
    return *trouble;
  }
  reading.indicated = std::get<double>(indicated);
  const Typed applied = appliedValue(sheet, point, typed.appliedText, sign, reading.indicated);
  if (const auto* trouble = std::get_if<TypedProblem>(&applied)) {
    return *trouble;
  }
  reading.applied = std::get<double>(applied);
  const Evaluation evaluation =
      evaluatePoint(point, *sheet.model, sheet.setup != nullptr ? &sheet.setup->setup : nullptr,
                    sheet.plan->tolerance, reading.applied, reading.indicated);
  if (const auto* why = std::get_if<RangeResult>(&evaluation)) {
    return TypedProblem{true,
                        fmt::format("nothing can be expected at {}: it is {}",
                                    formatQuantity(reading.applied, point.appliedUnit), rangeText(*why)),
                        "correct the applied value, or skip the point and say why"};
  }
  const PointResult& result = std::get<PointResult>(evaluation);
  reading.expected = result.expected;
  reading.limits = result.limits;
  reading.withinOneStep = result.withinOneStep;
  reading.flooredByStep = result.flooredByStep;
  fillUncertainty(sheet, reading, standards);
  judgeByRule(sheet, reading);
  return reading;
}

void judgeByRule(const VisitSheet& sheet, Reading& reading) {
  if (reading.skipped()) {
    return;
  }
  // Simple acceptance is evaluated again: the verdict that stands may come from a rule that lacked the
  // uncertainty.
  const Evaluation evaluation =
      evaluatePoint(reading.point, *sheet.model, sheet.setup != nullptr ? &sheet.setup->setup : nullptr,
                    sheet.plan->tolerance, reading.applied, reading.indicated);
  const auto* simple = std::get_if<PointResult>(&evaluation);
  assert(simple != nullptr);  // it was expected once from the same values
  reading.verdict = rulingOn(sheet.plan->decisionRule, ruledError(reading), simple->verdict).verdict;
}

}  // namespace spanwright
