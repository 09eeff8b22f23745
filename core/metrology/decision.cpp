// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/decision.h"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <limits>
#include <stdexcept>

namespace spanwright {

namespace {

ErrorLimits drawnIn(const ErrorLimits& limits, double width) {
  return {limits.low + width, limits.high - width};
}

double halfWidth(const ErrorLimits& limits) {
  return (limits.high - limits.low) / 2.0;  // infinite with an open side
}

// The least width from 0 at which `excess`, which falls, is no longer above 0. `most` may be infinite: then
// `unit` is doubled until it is enough. The answer keeps the limit (upper end of the last bracket).
template <typename Excess>
double leastWidth(const Excess& excess, double most, double unit) {
  if (excess(0.0) <= 0.0) {
    return 0.0;
  }
  double high = std::min(most, unit);
  while (high < most && excess(high) > 0.0) {
    high = std::min(most, 2.0 * high);
  }
  std::uintmax_t rounds = 200;
  const auto tolerance = [&](double a, double b) { return std::abs(b - a) <= 1e-13 * std::max(unit, b); };
  return boost::math::tools::toms748_solve(excess, 0.0, high, tolerance, rounds).second;
}

Guard bySpecificRisk(const DecisionRule& rule, const ErrorLimits& limits, double u) {
  const double half = halfWidth(limits);
  // Nearest to a limit is worst; with two limits both sides are alike.
  const auto excess = [&](double width) {
    const double at = std::isfinite(limits.high) ? limits.high - width : limits.low + width;
    return nonConformanceProbability(limits, at, u) - rule.falseAcceptLimit;
  };
  if (std::isfinite(half) && excess(half) > 0.0) {
    return {half, drawnIn(limits, half), GuardState::outOfReach};
  }
  const double width = leastWidth(excess, half, u);
  return {width, drawnIn(limits, width), GuardState::found};
}

Guard byGlobalRisk(const DecisionRule& rule, const ErrorLimits& limits, double u) {
  const auto excess = [&](double width) {
    const ErrorLimits acceptance = drawnIn(limits, width);
    const double risk = rule.basis == GuardBasis::anyPopulation
                            ? worstFalseAccept(limits, acceptance, u)
                            : globalRisk(limits, acceptance, *rule.population, u).falseAccept;
    return risk - rule.falseAcceptLimit;
  };
  const double width = leastWidth(excess, halfWidth(limits), u);
  return {width, drawnIn(limits, width), GuardState::found};
}

double slackOf(const ErrorLimits& limits, double error) {
  double size = std::abs(error);
  for (const double limit : {limits.low, limits.high}) {
    size = std::max(size, std::isfinite(limit) ? std::abs(limit) : 0.0);
  }
  return 1e-12 * size;
}

bool inside(const ErrorLimits& limits, double error, double slack) {
  return error >= limits.low - slack && error <= limits.high + slack;
}

}  // namespace

std::optional<std::string> ruleFault(const DecisionRule& rule, const ErrorLimits& limits) {
  switch (rule.basis) {
    case GuardBasis::none:
      return std::nullopt;
    case GuardBasis::factor:
      if (!std::isfinite(rule.factor)) {
        return "the guard band's factor must be a finite number";
      }
      return std::nullopt;
    case GuardBasis::width:
      if (!std::isfinite(rule.width)) {
        return "the guard band's width must be a finite number";
      }
      return std::nullopt;
    case GuardBasis::specificRisk:
    case GuardBasis::globalRisk:
    case GuardBasis::anyPopulation:
      break;
  }
  if (!(rule.falseAcceptLimit > 0.0 && rule.falseAcceptLimit < 0.5)) {
    return "the limit of false acceptance is a probability above 0 and below 0.5";
  }
  if (rule.basis == GuardBasis::globalRisk) {
    return rule.population ? populationFault(*rule.population)
                           : "a global limit of false acceptance needs the spread of the subjects' errors";
  }
  if (rule.basis == GuardBasis::anyPopulation && !std::isfinite(halfWidth(limits))) {
    return "a limit of false acceptance for any spread needs a tolerance with two limits";
  }
  return std::nullopt;
}

Guard guardFor(const DecisionRule& rule, const ErrorLimits& limits, double standardUncertainty,
               double expandedUncertainty) {
  for (const auto& fault : {riskFault(limits, standardUncertainty), riskFault(limits, expandedUncertainty),
                            ruleFault(rule, limits)}) {
    if (fault) {
      throw std::invalid_argument(*fault);
    }
  }
  switch (rule.basis) {
    case GuardBasis::specificRisk:
      return bySpecificRisk(rule, limits, standardUncertainty);
    case GuardBasis::globalRisk:
    case GuardBasis::anyPopulation:
      return byGlobalRisk(rule, limits, standardUncertainty);
    case GuardBasis::none:
    case GuardBasis::factor:
    case GuardBasis::width:
      break;
  }
  const double width = rule.basis == GuardBasis::none     ? 0.0
                       : rule.basis == GuardBasis::factor ? rule.factor * expandedUncertainty
                                                          : rule.width;
  const ErrorLimits acceptance = drawnIn(limits, width);
  return {width, acceptance,
          acceptance.low < acceptance.high ? GuardState::found : GuardState::acceptsNothing};
}

Decision decide(const ErrorLimits& limits, const Guard& guard, double error) {
  const double slack = slackOf(limits, error), band = std::abs(guard.width);
  if (guard.state == GuardState::found && inside(drawnIn(limits, band), error, slack)) {
    return Decision::pass;
  }
  if (inside(limits, error, slack)) {
    return Decision::conditionalPass;
  }
  return inside(drawnIn(limits, -band), error, slack) ? Decision::conditionalFail : Decision::fail;
}

bool accepted(const Guard& guard, double error) {
  return guard.state == GuardState::found &&
         inside(guard.acceptance, error, slackOf(guard.acceptance, error));
}

std::optional<double> testUncertaintyRatio(const ErrorLimits& limits, double expandedUncertainty) {
  if (const auto fault = riskFault(limits, expandedUncertainty)) {
    throw std::invalid_argument(*fault);
  }
  const double half = halfWidth(limits);
  const double room = std::isfinite(half)          ? half
                      : std::isfinite(limits.high) ? std::abs(limits.high)
                                                   : std::abs(limits.low);
  const double ratio = room / expandedUncertainty;
  return room > 0.0 && std::isfinite(ratio) ? std::optional(ratio) : std::nullopt;
}

double twoPercentFactor(double ratio) {
  assert(ratio > 0.0);
  return 1.04 - std::exp(0.38 * std::log(ratio) - 0.54);
}

std::string_view text(GuardState state) {
  switch (state) {
    case GuardState::found:
      return "found";
    case GuardState::acceptsNothing:
      return "accepts_nothing";
    case GuardState::outOfReach:
      return "out_of_reach";
  }
  return "";
}

std::string_view text(Decision decision) {
  switch (decision) {
    case Decision::pass:
      return "pass";
    case Decision::conditionalPass:
      return "conditional_pass";
    case Decision::conditionalFail:
      return "conditional_fail";
    case Decision::fail:
      return "fail";
  }
  return "";
}

}  // namespace spanwright
