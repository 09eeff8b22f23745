// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/ruling.h"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <tuple>

#include "core/units/number.h"

namespace spanwright {

namespace {

bool above0(double value) {
  return std::isfinite(value) && value > 0.0;
}

/// What keeps a guard band from being found, or nothing.
std::optional<std::string> obstacle(const DecisionRule& rule, const RuledError& reading) {
  if (!reading.expandedUncertainty) {
    return "the decision rule needs an uncertainty, and there is none";
  }
  if (!above0(*reading.expandedUncertainty) || !above0(reading.coverageFactor)) {
    return "the decision rule needs an uncertainty and coverage factor above 0";
  }
  if (!std::isfinite(reading.error)) {
    return "the error is not a number";
  }
  if (auto fault = riskFault(reading.limits, *reading.expandedUncertainty / reading.coverageFactor)) {
    return fault;
  }
  return ruleFault(rule, reading.limits);
}

/// guardFor with a memory for the one rule that is slow to work out: whatever the spread takes up to a fifth
/// of a second, and the same readings are ruled on again whenever they are shown.
Guard guardOf(const DecisionRule& rule, const RuledError& reading, double standard) {
  constexpr std::size_t kMost = 4096;
  if (rule.basis != GuardBasis::anyPopulation) {
    return guardFor(rule, reading.limits, standard, *reading.expandedUncertainty);
  }
  thread_local std::map<std::tuple<double, double, double, double>, Guard> known;
  const std::tuple key{rule.falseAcceptLimit, reading.limits.low, reading.limits.high, standard};
  if (const auto found = known.find(key); found != known.end()) {
    return found->second;
  }
  if (known.size() >= kMost) {
    known.clear();
  }
  return known.emplace(key, guardFor(rule, reading.limits, standard, *reading.expandedUncertainty))
      .first->second;
}

Decision plainAnswer(Verdict verdict) {
  return verdict == Verdict::pass ? Decision::pass : Decision::fail;
}

}  // namespace

std::optional<std::string> planRuleFault(const DecisionRule& rule) {
  switch (rule.basis) {
    case GuardBasis::none:
      return std::nullopt;
    case GuardBasis::factor:
      if (!(rule.factor > 0.0 && rule.factor <= kWidestGuardFactor)) {
        return fmt::format("the guard band's factor must be above 0, at most {}",
                           formatShortest(kWidestGuardFactor));
      }
      return std::nullopt;
    case GuardBasis::specificRisk:
    case GuardBasis::anyPopulation:
      if (!(rule.falseAcceptLimit > 0.0 && rule.falseAcceptLimit < 0.5)) {
        return "the limit of false acceptance is a probability above 0 and below 0.5";
      }
      return std::nullopt;
    case GuardBasis::width:
    case GuardBasis::globalRisk:
      break;
  }
  return "a plan's guard band is told by a factor or a limit of false acceptance, not in units of a reading";
}

std::string percentText(double probability) {
  // 100 times 0.07 is not quite 7.
  return formatShortest(parseNumber(formatSignificant(100.0 * probability, 6))->value);
}

std::string describe(const DecisionRule& rule) {
  const std::string risk = percentText(rule.falseAcceptLimit);
  switch (rule.basis) {
    case GuardBasis::none:
      return "simple acceptance";
    case GuardBasis::factor:
      return fmt::format("guard band of {} U", formatShortest(rule.factor));
    case GuardBasis::width:
      return fmt::format("guard band of {}", formatShortest(rule.width));
    case GuardBasis::specificRisk:
      return fmt::format("guard band for at most {} % false acceptance of the worst error accepted", risk);
    case GuardBasis::globalRisk:
      return fmt::format("guard band for at most {} % false acceptance over the subjects", risk);
    case GuardBasis::anyPopulation:
      break;
  }
  return fmt::format("guard band for at most {} % false acceptance whatever the spread of the subjects",
                     risk);
}

Ruling rulingOn(const DecisionRule& rule, const RuledError& reading, Verdict verdict) {
  Ruling ruling;
  if (rule.basis == GuardBasis::none) {
    ruling.verdict = verdict;
    ruling.guard = Guard{0.0, reading.limits, GuardState::found};
    if (verdict == Verdict::notJudged) {
      ruling.reason = "there is no verdict";
    } else {
      ruling.answer = plainAnswer(verdict);
    }
    return ruling;
  }
  if (const auto missing = obstacle(rule, reading)) {
    ruling.reason = *missing;
    ruling.verdict = verdict == Verdict::fail ? Verdict::fail : Verdict::notJudged;
    return ruling;
  }
  const Guard guard = guardOf(rule, reading, *reading.expandedUncertainty / reading.coverageFactor);
  ruling.guard = guard;
  const bool outside = verdict == Verdict::fail;
  ruling.verdict = !outside && accepted(guard, reading.error) ? Verdict::pass : Verdict::fail;
  // Without a band both limits may themselves be outside, which only the verdict tells.
  ruling.answer =
      guard.width == 0.0 ? plainAnswer(ruling.verdict) : decide(reading.limits, guard, reading.error);
  return ruling;
}

std::optional<double> uncertaintyRatio(const RuledError& reading) {
  if (!reading.expandedUncertainty || riskFault(reading.limits, *reading.expandedUncertainty)) {
    return std::nullopt;
  }
  return testUncertaintyRatio(reading.limits, *reading.expandedUncertainty);
}

}  // namespace spanwright
