// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/visit_output.h"

#include <cmath>
#include <ostream>

#include "cli/ruling_output.h"
#include "cli/table.h"
#include "core/record/reference_junction.h"
#include "core/units/number.h"
#include "core/units/quantity.h"

namespace spanwright {

namespace {

const DecisionRule* ruleFor(const Register& site, const Calibration& calibration) {
  return ruleOf(site.plan(calibration.plan), calibration);
}

Json pointJson(const Reading& reading, Phase phase, const DecisionRule* rule) {
  Json point{{"phase", phase == Phase::asFound ? "as_found" : "as_left"}, {"point", reading.point.label}};
  if (reading.skipped()) {
    point["skipped"] = reading.skipReason;
    return point;
  }
  point["applied"] = reading.applied;
  point["applied_unit"] = symbol(reading.point.appliedUnit);
  point["reading"] = reading.indicated;
  point["unit"] = symbol(reading.point.readingUnit);
  point["expected"] = reading.expected;
  point["error"] = reading.error();
  point["limit_low"] = orNull(reading.limits.low);
  point["limit_high"] = orNull(reading.limits.high);
  point["expanded_uncertainty"] = orNull(reading.expandedUncertainty);
  point["verdict"] = text(reading.verdict);
  addRuling(point, rule, reading);
  point["within_one_step"] = reading.withinOneStep;
  return point;
}

// As many as were typed, when what was typed was in the reading's own unit.
int shownDecimals(const Reading& reading) {
  const auto typed = parseQuantity(reading.indicatedText);
  const bool ownUnit = typed && (!typed->unit || *typed->unit == reading.point.readingUnit);
  return ownUnit ? typed->decimals : 3;
}

void addRows(Table& table, const std::vector<Reading>& readings, Phase phase, const DecisionRule* rule) {
  for (const Reading& reading : readings) {
    if (reading.skipped()) {
      table.add(
          {std::string(text(phase)), reading.point.label, "", "", "", "", "skipped: " + reading.skipReason});
      continue;
    }
    const int decimals = shownDecimals(reading);
    const auto limit = [&](double value) {
      return std::isfinite(value) ? formatFixed(value, decimals + 1) : "open";
    };
    table.add({std::string(text(phase)), reading.point.label,
               formatFixed(reading.expected, decimals + 1) + " " +
                   std::string(displaySymbol(reading.point.readingUnit)),
               formatFixed(reading.indicated, decimals), formatFixed(reading.error(), decimals + 1),
               limit(reading.limits.low) + " .. " + limit(reading.limits.high),
               ruledVerdict(rule, reading) + (reading.withinOneStep ? " (inside one step)" : "")});
  }
}

using Advised = std::variant<VisitAdvice, Problem>;

std::optional<RunFigures> figuresOf(const Advised& advised) {
  const auto* advice = std::get_if<VisitAdvice>(&advised);
  return advice ? advice->figures : std::nullopt;
}

Json figuresJson(const std::optional<RunFigures>& figures) {
  if (!figures) {
    return nullptr;
  }
  return {{"zero_error", orNull(figures->zeroError)},
          {"span_error", orNull(figures->spanError)},
          {"max_error", figures->maximumError},
          {"linearity_terminal", orNull(figures->linearityTerminal)},
          {"linearity_best", orNull(figures->linearityBest)},
          {"linearity_zero", orNull(figures->linearityZero)},
          {"hysteresis", orNull(figures->hysteresis)},
          {"repeatability", orNull(figures->repeatability)}};
}

std::string adviceSentence(const Advised& advised) {
  if (const auto* problem = std::get_if<Problem>(&advised)) {
    return "Nothing can be said about adjusting: " + problem->what + ".";
  }
  return adviceText(std::get<VisitAdvice>(advised));
}

Json diagnosesJson(const VisitAdvice& advice) {
  Json diagnoses = Json::array();
  for (const SensorDiagnosis& diagnosis : advice.diagnoses) {
    diagnoses.push_back({{"what", describe(diagnosis)}, {"residual_kelvin", diagnosis.residual}});
  }
  return diagnoses;
}

Json adviceJson(const Advised& advised, const Calibration& calibration) {
  Json json{{"advice", nullptr}, {"sentence", adviceSentence(advised)}};
  const auto* advice = std::get_if<VisitAdvice>(&advised);
  if (!advice || !advice->adjustment) {
    return json;
  }
  json["advice"] = text(advice->adjustment->advice);
  json["zero"] = advice->zeroShift.value_or(0.0);
  json["unit"] = symbol(advice->correctionSpan.unit);
  json["span_percent"] = advice->spanPercent.value_or(0.0);
  json["before_square_root"] = advice->beforeRoot;
  json["worst_now"] = orNull(advice->adjustment->worstNow);
  json["worst_predicted"] = orNull(advice->adjustment->worstPredicted);
  json["adjust_limit"] = advice->adjustLimit;
  json["predicted"] = Json::array();
  for (const PredictedError& predicted : advice->predicted) {
    for (const Reading& reading : calibration.asFound) {
      if (reading.point.sequence == predicted.sequence) {
        json["predicted"].push_back({{"point", reading.point.label}, {"error", predicted.error}});
      }
    }
  }
  json["diagnoses"] = diagnosesJson(*advice);
  return json;
}

void printJunction(std::ostream& out, const Register& site, const Calibration& calibration) {
  const Channel* channel = site.channel(calibration.channel);
  const SetupVersion* setup = channel != nullptr ? setupInForce(*channel, calibration.performed) : nullptr;
  const Sensor* sensor = site.sensor(calibration.sensor);
  const std::string text = junctionText(calibration, setup != nullptr ? &setup->setup : nullptr,
                                        sensor != nullptr ? &sensor->range : nullptr);
  if (!text.empty()) {
    out << "Reference junction: " << text << ".\n\n";
  }
}

}  // namespace

Json visitJson(const Register& site, const Calibration& calibration) {
  const DecisionRule* rule = ruleFor(site, calibration);
  Json points = Json::array();
  for (const Reading& reading : calibration.asFound) {
    points.push_back(pointJson(reading, Phase::asFound, rule));
  }
  for (const Reading& reading : calibration.asLeft) {
    points.push_back(pointJson(reading, Phase::asLeft, rule));
  }
  const Advised found = adviseCalibration(site, calibration, Phase::asFound);
  const Advised left = adviseCalibration(site, calibration, Phase::asLeft);
  return {{"calibration", calibration.id},
          {"channel", calibration.channel},
          {"subject", text(calibration.subject)},
          {"setup", calibration.setupVersion},
          {"performed", formatMoment(calibration.performed)},
          {"person", calibration.person},
          {"outcome", text(calibration.leftVerdict)},
          {"as_found", text(calibration.foundVerdict)},
          {"as_left", text(calibration.leftVerdict)},
          {"temperature", orNull(calibration.conditions.temperature)},
          {"humidity", orNull(calibration.conditions.humidity)},
          {"reference_junction", orNull(calibration.conditions.referenceJunction)},
          {"decision_rule", rule != nullptr ? Json(describe(*rule)) : Json(nullptr)},
          {"points", points},
          {"figures", figuresJson(figuresOf(found))},
          {"figures_as_left", figuresJson(figuresOf(left))},
          {"advice", adviceJson(found, calibration)}};
}

void printPoints(std::ostream& out, const Register& site, const Calibration& calibration) {
  printJunction(out, site, calibration);
  const DecisionRule* rule = ruleFor(site, calibration);
  Table table({{"phase"},
               {"point"},
               {"expected", Table::Align::right},
               {"reading", Table::Align::right},
               {"error", Table::Align::right},
               {"limits", Table::Align::right},
               {"verdict"}});
  addRows(table, calibration.asFound, Phase::asFound, rule);
  addRows(table, calibration.asLeft, Phase::asLeft, rule);
  table.print(out);
}

void printFigures(std::ostream& out, const Register& site, const Calibration& calibration) {
  const Advised advised = adviseCalibration(site, calibration, Phase::asFound);
  const auto found = figuresOf(advised);
  const auto left = figuresOf(adviseCalibration(site, calibration, Phase::asLeft));
  if (!found && !left) {
    const auto* problem = std::get_if<Problem>(&advised);
    out << "No run figures: "
        << (problem ? problem->what : "there are no readings of value to take them from") << ".\n";
    return;
  }
  Table table(
      {{"run figure, % of span"}, {"as found", Table::Align::right}, {"as left", Table::Align::right}});
  const auto add = [&](const char* name, auto take) {
    const auto shown = [&](const std::optional<RunFigures>& figures) {
      const std::optional<double> value = figures ? take(*figures) : std::nullopt;
      return value ? formatFixed(*value, 4) : std::string(figures ? "not shown" : "");
    };
    table.add({name, shown(found), shown(left)});
  };
  using Value = std::optional<double>;
  add("zero error", [](const RunFigures& f) -> Value { return f.zeroError; });
  add("span error", [](const RunFigures& f) -> Value { return f.spanError; });
  add("maximum error (averages)", [](const RunFigures& f) -> Value { return f.maximumError; });
  add("linearity, terminal-based (plus or minus)",
      [](const RunFigures& f) -> Value { return f.linearityTerminal; });
  add("linearity, best straight line (plus or minus)",
      [](const RunFigures& f) -> Value { return f.linearityBest; });
  add("linearity, zero-based (plus or minus)", [](const RunFigures& f) -> Value { return f.linearityZero; });
  add("hysteresis, of averages", [](const RunFigures& f) -> Value { return f.hysteresis; });
  add("non-repeatability", [](const RunFigures& f) -> Value { return f.repeatability; });
  table.print(out);
}

void printAdvice(std::ostream& out, const Register& site, const Calibration& calibration) {
  if (calibration.asLeft.empty()) {
    out << adviceSentence(adviseCalibration(site, calibration, Phase::asFound)) << '\n';
  }
}

}  // namespace spanwright
