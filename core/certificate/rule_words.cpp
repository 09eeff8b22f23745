// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/rule_words.h"

#include <fmt/format.h>

#include <limits>
#include <string_view>

#include "core/metrology/ruling.h"
#include "core/units/number.h"

namespace spanwright {

namespace {

/// Worst case of one limit and a coverage factor of 2: the true error of one just accepted is beyond it.
std::string guardFactorRisk(double factor) {
  constexpr double kOpen = std::numeric_limits<double>::infinity();
  return formatSignificant(100.0 * nonConformanceProbability({-kOpen, 0.0}, -2.0 * factor, 1.0), 2) + " %";
}

}  // namespace

std::string ruleText(const DecisionRule& rule) {
  constexpr std::string_view kGuarded =
      "a point passes when its error is inside its limits by w or more, w being the guard band; nearer to a "
      "limit it is inside but not accepted (conditional pass, stated as fail), outside by no more than w it "
      "is a "
      "conditional fail; the notes say which";
  switch (rule.basis) {
    case GuardBasis::factor:
      return fmt::format(
          "guarded acceptance (ILAC-G8:09/2019 4.2.2 and 4.2.3; JCGM 106:2012 8.3), w = r U with r = {} "
          "and U the expanded uncertainty printed with the point: {}.",
          formatShortest(rule.factor), kGuarded);
    case GuardBasis::none:
      break;
    default:
      return fmt::format(
          "guarded acceptance (ILAC-G8:09/2019 4.2.2 and 4.2.3; JCGM 106:2012 8.3), w the least that "
          "keeps the risk stated below: {}.",
          kGuarded);
  }
  return "simple acceptance (ILAC-G8:09/2019, guard band w = 0): a point passes when its error is on or "
         "inside "
         "its limits. The uncertainty does not move the limits.";
}

std::string riskText(const DecisionRule& rule) {
  const std::string limit = percentText(rule.falseAcceptLimit);
  switch (rule.basis) {
    case GuardBasis::factor:
      return fmt::format(
          "for an error just accepted the probability that the true error is beyond that limit is {} "
          "for k = 2 (normal distribution), and less for a larger k.",
          guardFactorRisk(rule.factor));
    case GuardBasis::specificRisk:
      return fmt::format(
          "for every error accepted the probability that the true error is outside its limits is at "
          "most {} % (specific consumer's risk, JCGM 106:2012 9.3; normal distribution).",
          limit);
    case GuardBasis::anyPopulation:
      return fmt::format(
          "of all points judged so, at most {} % are accepted while their true error is outside its "
          "limits, however the true errors spread about the middle of the limits (global consumer's "
          "risk, JCGM 106:2012 9.5; normal distributions).",
          limit);
    default:
      break;
  }
  return "for an error on a limit the probability that the true error is outside is up to 50 %.";
}

}  // namespace spanwright
