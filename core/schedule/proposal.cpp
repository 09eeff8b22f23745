// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/schedule/proposal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

#include "core/schedule/wear.h"
#include "core/units/number.h"

namespace spanwright {

namespace {

// A hundred years: what the calendar and the record take.
constexpr double kLongestDays = 36525.0;
// Common practice, no source.
constexpr double kWearLevel = 0.05;

std::string daysText(int days) {
  return fmt::format("{} day{}", days, days == 1 ? "" : "s");
}

/// "90 %", "99.5 %": a probability for people.
std::string percentText(double probability) {
  const auto rounded = parseNumber(formatSignificant(100.0 * probability, 3));
  return fmt::format("{} %", formatShortest(rounded ? rounded->value : 0.0));
}

/// Whole days, never more than `days`.
int wholeDays(double days) {
  return static_cast<int>(std::floor(std::clamp(days, 1.0, kLongestDays)));
}

/// `wanted` within the limits; the evidence says which of them was applied.
IntervalProposal limited(int wanted, IntervalLimits limits, std::string evidence) {
  assert(limits.maximumDays == 0 || limits.minimumDays <= limits.maximumDays);
  IntervalProposal proposal{wanted, std::move(evidence)};
  if (limits.maximumDays > 0 && wanted > limits.maximumDays) {
    proposal.days = limits.maximumDays;
    proposal.evidence +=
        fmt::format(" That is {}; the policy allows at most {}.", daysText(wanted), daysText(*proposal.days));
  } else if (wanted < limits.minimumDays) {
    proposal.days = limits.minimumDays;
    proposal.evidence += fmt::format(" That is {}; the policy allows no less than {}.", daysText(wanted),
                                     daysText(*proposal.days));
  }
  return proposal;
}

std::string countText(const ReliabilityFit& fit) {
  return fmt::format("{} of {} visits found in tolerance", fit.outcomes - fit.out, fit.outcomes);
}

/// The interval that these outcomes lead to, with the words for it. `least`: of the limits.
struct Estimate {
  double days = 0.0;
  std::string words;
};

Estimate estimate(const ReliabilityFit& fit, const ReliabilityRule& rule, int least) {
  const std::string confidence = percentText(rule.confidence), target = percentText(rule.target);
  if (fit.mix == OutcomeMix::allOut) {
    return {std::max(1.0, static_cast<double>(least)),
            fmt::format("none was found in tolerance, so that no interval meets {}; the shortest one allowed "
                        "is proposed",
                        target)};
  }
  if (fit.mix == OutcomeMix::allIn) {
    const double days = *intervalForTarget(fit.rateHigh, rule.target);
    return {days,
            fmt::format("none was found out, so that the rate of leaving tolerance has only an upper limit "
                        "({} per year at {} confidence); with it {} are still in tolerance after {}",
                        formatSignificant(*fit.rateHigh * 365.25, 3), confidence, target,
                        daysText(wholeDays(days)))};
  }
  const double days = *intervalForTarget(fit.rate, rule.target);
  return {days,
          fmt::format("leaving tolerance {} times a year, {} are still in tolerance after {} ({} to {} at "
                      "{} confidence)",
                      formatSignificant(*fit.rate * 365.25, 3), target, daysText(wholeDays(days)),
                      wholeDays(*intervalForTarget(fit.rateHigh, rule.target)),
                      wholeDays(*intervalForTarget(fit.rateLow, rule.target)), confidence)};
}

/// Whether failures grow or fall with age, which the exponential model cannot say; nothing where that is not
/// seen.
std::string wearText(const std::vector<ToleranceOutcome>& outcomes, const ReliabilityRule& rule) {
  std::vector<FailureWindow> windows;
  windows.reserve(outcomes.size());
  for (const ToleranceOutcome& outcome : outcomes) {
    windows.push_back(outcome.inTolerance ? FailureWindow{outcome.intervalDays, std::nullopt}
                                          : FailureWindow{0.0, outcome.intervalDays});
  }
  const auto fit = fitWear(windows);
  if (!fit || fit->probability >= kWearLevel) {
    return "";
  }
  return fmt::format(
      " The rate is not constant: with a shape of {} (a constant one has a probability of {}) {} "
      "are still in tolerance after {}.",
      formatSignificant(fit->shape, 2), percentText(fit->probability), percentText(rule.target),
      daysText(wholeDays(fit->scale * std::pow(-std::log(rule.target), 1.0 / fit->shape))));
}

/// Worse than the others of the group explain? The words for it, or nothing.
std::optional<std::string> misfitText(const OutcomeGroup& group) {
  const auto out = std::count_if(group.own.begin(), group.own.end(),
                                 [](const ToleranceOutcome& o) { return !o.inTolerance; });
  if (group.others.empty() || out == 0) {
    return std::nullopt;
  }
  const ReliabilityFit others = fitReliability(group.others);
  if (others.mix == OutcomeMix::allOut) {
    return std::nullopt;  // nothing is worse
  }
  // Where no other was found out, what is still believable of them is their upper limit.
  const double rate = others.mix == OutcomeMix::allIn ? *others.rateHigh : *others.rate;
  const double probability = misfit(group.own, rate);
  if (probability >= kMisfitLevel) {
    return std::nullopt;
  }
  double expected = 0.0;
  for (const ToleranceOutcome& outcome : group.own) {
    expected += 1.0 - reliabilityAt(rate, outcome.intervalDays);
  }
  return fmt::format(
      "This one does not fit the group: {} of its own {} visits found it out of tolerance, where "
      "the others lead to expect {} (so many or more have a probability of {}).",
      out, group.own.size(), formatSignificant(expected, 2), percentText(probability));
}

}  // namespace

IntervalProposal proposeFixed(int nowDays, IntervalLimits limits) {
  assert(nowDays > 0);
  return limited(nowDays, limits, "The policy is fixed: it stays as it is.");
}

IntervalProposal proposeStaircase(int nowDays, const std::vector<IntervalOutcome>& since,
                                  const StaircaseRule& rule, IntervalLimits limits) {
  assert(nowDays > 0 && rule.lengthen > 1.0 && rule.shorten > 0.0 && rule.shorten < 1.0);
  if (since.empty()) {
    return limited(nowDays, limits, "No visit has put the present interval to the test: no step.");
  }
  const IntervalOutcome& last = since.back();
  const std::string visit = fmt::format("The visit of {}, {} after the as-left before it, found ",
                                        formatDate(last.performed), daysText(wholeDays(last.intervalDays)));
  switch (last.found) {
    case FoundState::within:
      return limited(wholeDays(nowDays * rule.lengthen), limits,
                     fmt::format("{}everything within the adjust limit: a step up by {}.", visit,
                                 formatShortest(rule.lengthen)));
    case FoundState::beyondAdjustLimit:
      break;
    case FoundState::out:
      return limited(
          std::min(nowDays, static_cast<int>(std::ceil(nowDays * rule.shorten))), limits,
          fmt::format("{}it out of tolerance: a step down by {}.", visit, formatShortest(rule.shorten)));
  }
  return limited(nowDays, limits, visit + "it in tolerance but beyond the adjust limit: no step.");
}

double misfit(const std::vector<ToleranceOutcome>& own, double rate) {
  // Probabilities of 0, 1, 2 ... out, taking one outcome after the other.
  std::vector<double> probability{1.0};
  std::size_t out = 0;
  for (const ToleranceOutcome& outcome : own) {
    const double in = reliabilityAt(rate, outcome.intervalDays);
    probability.push_back(0.0);
    for (std::size_t k = probability.size() - 1; k > 0; --k) {
      probability[k] = probability[k] * in + probability[k - 1] * (1.0 - in);
    }
    probability[0] *= in;
    out += outcome.inTolerance ? 0U : 1U;
  }
  double sum = 0.0;
  for (std::size_t k = probability.size(); k-- > out;) {
    sum += probability[k];
  }
  return std::min(sum, 1.0);
}

IntervalProposal proposeReliability(const OutcomeGroup& group, const ReliabilityRule& rule,
                                    IntervalLimits limits) {
  assert(rule.target > 0.0 && rule.target < 1.0 && rule.leastOutcomes > 0);
  std::vector<ToleranceOutcome> all = group.own;
  all.insert(all.end(), group.others.begin(), group.others.end());
  const std::string of =
      fmt::format("group \"{}\" ({} subject{})", group.name, group.subjects, group.subjects == 1 ? "" : "s");
  if (std::ssize(all) < rule.leastOutcomes) {
    return {std::nullopt, fmt::format("Too few outcomes: {} in the {}, the policy asks for {}.", all.size(),
                                      of, rule.leastOutcomes)};
  }
  const ReliabilityFit fit = fitReliability(all, rule.confidence);
  const Estimate pooled = estimate(fit, rule, limits.minimumDays);
  std::string evidence = fmt::format("{} in the {}: {}.", countText(fit), of, pooled.words);
  evidence += wearText(all, rule);
  double days = pooled.days;
  if (const auto words = misfitText(group)) {
    evidence += " " + *words;
    const ReliabilityFit own = fitReliability(group.own, rule.confidence);
    if (const Estimate alone = estimate(own, rule, limits.minimumDays); alone.days < days) {
      days = alone.days;
      evidence += fmt::format(" By its own record: {}.", alone.words);
    }
  }
  return limited(wholeDays(days), limits, std::move(evidence));
}

IntervalProposal proposeForecast(const ForecastEvidence& evidence, IntervalLimits limits) {
  assert(!evidence.provenOn.is_special());
  if (evidence.pointsWithBand == 0) {
    return {std::nullopt,
            fmt::format("No forecast: none of {} point{} with history has a fit that gives a band.",
                        evidence.points, evidence.points == 1 ? "" : "s")};
  }
  std::string rest;
  if (evidence.pointsWithBand < evidence.points) {
    rest = fmt::format(" {} of {} points have no band and are not vouched for.",
                       evidence.points - evidence.pointsWithBand, evidence.points);
  }
  const std::string from = formatDate(evidence.provenOn);
  if (!evidence.outOn) {
    const int most = limits.maximumDays > 0 ? limits.maximumDays : wholeDays(kLongestDays);
    return {most, fmt::format("From the as-left of {} the 95 % band of no point leaves tolerance within ten "
                              "years: the longest interval the policy allows, {}.{}",
                              from, daysText(most), rest)};
  }
  const auto until = static_cast<int>((*evidence.outOn - evidence.provenOn).days());
  std::string words = fmt::format("From the as-left of {} the 95 % band at {} leaves tolerance first, on {}",
                                  from, evidence.outAt, formatDate(*evidence.outOn));
  words += evidence.lineOn ? fmt::format(" (the fitted line on {}).", formatDate(*evidence.lineOn))
                           : std::string(" (the fitted line not within ten years).");
  return limited(std::max(1, until - 1), limits, words + rest);
}

}  // namespace spanwright
