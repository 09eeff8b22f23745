// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cassert>
#include <cmath>

#include "core/tasks/advice.h"
#include "core/units/number.h"

namespace spanwright {
namespace {

std::string barePercent(double fraction) {
  return std::isfinite(fraction) ? formatFixed(100.0 * fraction, toleranceDecimals(fraction)) + " %"
                                 : "more than a limit of nothing allows";
}

std::string ofTolerance(double fraction) {
  return barePercent(fraction) + (std::isfinite(fraction) ? " of tolerance" : "");
}

std::string withSign(double value, int decimals) {
  return (value > 0.0 ? "+" : "") + formatFixed(value, decimals);
}

std::string correctionText(const VisitAdvice& advice) {
  const std::string unit = advice.correctionSpan.unit == Unit::none
                               ? std::string()
                               : " " + std::string(displaySymbol(advice.correctionSpan.unit));
  const std::string zero =
      advice.zeroShift ? fmt::format("zero by {}{}", withSign(*advice.zeroShift, advice.zeroDecimals), unit)
                       : "";
  const std::string span =
      advice.spanPercent ? fmt::format("span by {} %", withSign(*advice.spanPercent, 3)) : "";
  return "Shift " + zero + (zero.empty() || span.empty() ? "" : " and ") + span +
         (advice.beforeRoot ? " before the square root" : "");
}

/// Why not, after "Adjusting is not worth it" or "Adjusting cannot help".
std::string_view reason(AdjustmentAdvice advice) {
  switch (advice) {
    case AdjustmentAdvice::notRepeatable:
      return "repeats of one point differ by more than the tolerance holds";
    case AdjustmentAdvice::hysteresis:
      return "up and down readings of one point differ by more than the tolerance holds";
    case AdjustmentAdvice::stepTooCoarse:
      return "the steps of the reading are too far apart for the tolerance";
    case AdjustmentAdvice::beyondTrim:
      return "the correction needed is beyond the range of the trims";
    case AdjustmentAdvice::nonLinear:
      return "the errors do not lie along a line";
    case AdjustmentAdvice::noGain:
      return "no correction makes it better";
    case AdjustmentAdvice::withinScatter:
      return "repeats of one point differ by more than adjusting would gain";
    case AdjustmentAdvice::adjust:
    case AdjustmentAdvice::notNeeded:
      break;
  }
  return "";
}

std::string sentenceOf(const VisitAdvice& advice) {
  const AdvisedAdjustment& found = *advice.adjustment;
  const std::string now = ofTolerance(found.worstNow);
  if (found.advice == AdjustmentAdvice::adjust) {
    return fmt::format("{}: the worst point would use {}, now {}.", correctionText(advice),
                       ofTolerance(found.worstPredicted), barePercent(found.worstNow));
  }
  if (found.advice == AdjustmentAdvice::notNeeded) {
    return fmt::format("Adjusting is not worth it: the worst point uses {}, the limit for adjusting is {} %.",
                       now, formatShortest(std::round(1000.0 * advice.adjustLimit) / 10.0));
  }
  return fmt::format("{}: the worst point uses {}, and {}.",
                     advice.cannotHelp() ? "Adjusting cannot help" : "Adjusting is not worth it", now,
                     reason(found.advice));
}

}  // namespace

std::string explain(const VisitAdvice& advice, AdviceGap gap) {
  switch (gap) {
    case AdviceGap::noValuePoints:
      return "the sheet has no points of value, so there is no zero and span to set";
    case AdviceGap::unfinished:
      return advice.missing == 1 ? "one point of value has neither a reading nor a reason for its lack"
                                 : fmt::format(
                                       "{} points of value have neither a reading nor a reason for "
                                       "its lack",
                                       advice.missing);
    case AdviceGap::tooFewPoints:
      return "readings at two different test points at least are needed";
    case AdviceGap::unusable:
      return advice.fault;
  }
  return "";
}

std::string adviceText(const VisitAdvice& advice) {
  assert(advice.adjustment.has_value() != advice.gap.has_value());
  if (advice.gap) {
    return "Nothing can be said about adjusting: " + explain(advice, *advice.gap) + ".";
  }
  std::string sentence = sentenceOf(advice);
  for (std::size_t i = 0; i < advice.diagnoses.size(); ++i) {
    sentence += (i == 0 ? " It looks as if " : ", or ") + describe(advice.diagnoses[i]);
  }
  return advice.diagnoses.empty() ? sentence : sentence + ".";
}

}  // namespace spanwright
