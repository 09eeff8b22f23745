// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/metrology/ruling.h"
#include "core/record/register_rules.h"
#include "importers/site_parts.h"

namespace spanwright {
namespace {

constexpr std::pair<std::string_view, RunOrder> kOrders[] = {{"up", RunOrder::up},
                                                             {"down", RunOrder::down},
                                                             {"up-down", RunOrder::upDown},
                                                             {"down-up", RunOrder::downUp}};
// How far outside its span a channel is followed (see PointModel::expected).
constexpr double kLowestPercent = -5.0;
constexpr double kHighestPercent = 105.0;

ToleranceSide readSide(TomlTable& table) {
  ToleranceSide side;
  side.absolute = table.number("absolute", 0.0, kNotNegative);
  side.percentOfReading = table.number("percent_of_reading", 0.0, kNotNegative);
  side.percentOfSpan = table.number("percent_of_span", 0.0, kNotNegative);
  side.counts = table.number("counts", 0.0, kNotNegative);
  return side;
}

void readTolerance(TomlTable& plan, Tolerance& tolerance) {
  auto table = plan.needTable("tolerance");
  if (!table) {
    return;
  }
  if (table->has("plus") || table->has("minus")) {
    auto plus = table->needTable("plus");
    auto minus = table->needTable("minus");
    if (plus) {
      tolerance.plus = readSide(*plus);
      plus->finish();
    }
    if (minus) {
      tolerance.minus = readSide(*minus);
      minus->finish();
    }
  } else {
    tolerance.plus = readSide(*table);
    tolerance.minus = tolerance.plus;
    table->know("plus");
    table->know("minus");
  }
  table->finish();
}

void readPoints(TomlTable& table, TestScheme& scheme) {
  for (const auto& point : table.numbers("points")) {
    if (point.value < kLowestPercent || point.value > kHighestPercent) {
      table.problems().add(
          point.at, fmt::format("points of {} holds {}", table.name(), point.value),
          fmt::format("% of span from {} to {} is expected", kLowestPercent, kHighestPercent));
    } else if (!scheme.percents.empty() && point.value <= scheme.percents.back()) {
      table.problems().add(
          point.at,
          fmt::format("points of {} has {} after {}", table.name(), point.value, scheme.percents.back()),
          "list the points ascending, each once; order says in which order they are done");
    } else {
      scheme.percents.push_back(point.value);
    }
  }
  scheme.order = table.choice<RunOrder>("order", kOrders).value_or(RunOrder::up);
  scheme.repeats = table.whole("repeats", 1, 1, 20);
  scheme.alarms = table.yes("alarms", false);
  scheme.loss = table.yes("loss", false);
}

DecisionRule guardBandRule(TomlTable& table) {
  DecisionRule rule;
  rule.basis = GuardBasis::factor;
  rule.factor = table.needNumber("factor", {0.0, kWidestGuardFactor, true});
  return rule;
}

DecisionRule falseAcceptRule(TomlTable& table) {
  DecisionRule rule;
  rule.basis = table.yes("any_spread", false) ? GuardBasis::anyPopulation : GuardBasis::specificRisk;
  const double limit = table.needNumber("limit", kPositive);
  if (limit < 0.5) {
    rule.falseAcceptLimit = limit;
  } else {
    table.problem("limit", fmt::format("is {}", limit), "a probability below 0.5 is expected; 2 % is 0.02");
  }
  return rule;
}

/// "simple", or a table with the rule's name and numbers.
void readDecisionRule(TomlTable& plan, DecisionRule& rule) {
  if (!plan.isTable("decision_rule")) {
    // Only simple acceptance has no numbers; those of the others are not left to a default unsaid.
    const std::string word = plan.text("decision_rule", "simple");
    if (word != "simple") {
      plan.problem(
          "decision_rule", "is " + inQuotes(word),
          "write \"simple\", { rule = \"guard-band\", factor = 1.0 } or { rule = \"false-accept\", limit "
          "= 0.02 }");
    }
    return;
  }
  using Read = DecisionRule (*)(TomlTable&);
  constexpr Read kSimple = [](TomlTable&) { return DecisionRule{}; };
  constexpr std::pair<std::string_view, Read> kRules[] = {
      {"simple", kSimple}, {"guard-band", guardBandRule}, {"false-accept", falseAcceptRule}};
  if (auto table = plan.table("decision_rule")) {
    if (const auto read = table->needChoice<Read>("rule", kRules)) {
      rule = (*read)(*table);
      table->finish();
    }
  }
}

std::optional<double> positiveIfStated(TomlTable& table, std::string_view key) {
  table.know(key);
  return table.has(key) ? std::optional(table.needNumber(key, kPositive)) : std::nullopt;
}

}  // namespace

void readPlans(TomlTable& file, SiteReading& reading) {
  for (auto& table : file.tables("plan", "[[plan]]")) {
    const std::size_t before = table.problems().count();
    Plan plan;
    plan.code = table.needText("code");
    if (!plan.code.empty()) {
      table.rename("[[plan]] " + inQuotes(plan.code));
      reading.plans.add(plan.code, table.at("code"), table.problems());
    }
    plan.revision = table.needText("revision");
    plan.title = table.needText("title");
    plan.procedure = table.text("procedure");
    readPoints(table, plan.scheme);
    readTolerance(table, plan.tolerance);
    plan.adjustLimit = table.number("adjust_limit", plan.adjustLimit, {0.0, 1.0, true});
    readDecisionRule(table, plan.decisionRule);
    plan.settleSeconds = table.number("settle_seconds", 0.0, {0.0, 86400.0});
    plan.minutes = table.number("minutes", plan.minutes, {0.0, 10080.0, true});
    plan.cautions = table.texts("cautions");
    plan.junctionUncertainty = positiveIfStated(table, "reference_junction_uncertainty");
    plan.leadHalfWidth = positiveIfStated(table, "lead_resistance_half_width");
    table.finish();
    report(table, planProblems(plan), before);
    reading.site.plans.push_back(std::move(plan));
  }
}

}  // namespace spanwright
