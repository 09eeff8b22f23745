// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/metrology/adjustment.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "core/metrology/adjustment_search.h"
#include "core/metrology/linear_program.h"
#include "core/metrology/run_figures.h"
#include "core/signal/converter.h"

namespace spanwright {

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

double place(const AdjustmentPoint& point, const ReadingScale& scale) {
  return (point.reading - scale.low) / (scale.high - scale.low);
}

double corrected(const AdjustmentPoint& point, const ReadingScale& scale, const Correction& correction) {
  return point.reading + correction.zero + correction.span * place(point, scale);
}

// As in evaluate.h: differences of less than 1e-12 of the numbers involved are rounding.
double fraction(double error, const ErrorLimits& limits, double slack) {
  const double limit = error > 0.0 ? limits.high : -limits.low;
  if (std::abs(error) <= slack) {
    return 0.0;
  }
  return limit > 0.0 ? std::abs(error) / limit : kInfinite;
}

double slackOf(const AdjustmentPoint& point, const ReadingScale& scale) {
  return 1e-12 * std::max({std::abs(scale.low), std::abs(scale.high), std::abs(point.reading),
                           std::abs(point.expected)});
}

// For readings in a straight line from what is corrected to what is shown.
class StraightEffect final : public CorrectionEffect {
 public:
  explicit StraightEffect(const ReadingScale& scale) : scale_(scale) {}

  std::vector<double> errorsAfter(const AdjustmentPoints& points, const Correction& correction,
                                  bool stepped) const override {
    std::vector<double> errors;
    for (const AdjustmentPoint& point : points) {
      const double step = stepped ? scale_.step : 0.0;
      errors.push_back(toStep(corrected(point, scale_, correction), step) - point.expected);
    }
    return errors;
  }
  BestCorrection best(const AdjustmentPoints& points, const TrimRange& trim) const override;

 private:
  const ReadingScale& scale_;
};

// The program in units of the largest error, so that its numbers are around 1.
class Search {
 public:
  Search(const StraightEffect& effect, const AdjustmentPoints& points, const ReadingScale& scale,
         TrimRange trim)
      : effect_(effect), points_(points), scale_(scale) {
    double lowest = kInfinite, highest = -kInfinite;
    for (const AdjustmentPoint& point : points) {
      unit_ = std::max(unit_, std::abs(point.reading - point.expected));
      lowest = std::min(lowest, place(point, scale));
      highest = std::max(highest, place(point, scale));
      for (const double limit : {-point.limits.low, point.limits.high}) {
        if (limit > 0.0 && std::isfinite(limit)) {
          leastLimit_ = std::min(leastLimit_, limit);
        }
      }
    }
    if (highest - lowest < kLeastSpread) {
      trim.spanLow = trim.spanHigh = 0.0;
    }
    // No correction that helps moves the reading by more than twice the largest error over the points' width,
    // at least a tenth of the span; seen from the ends of the span that can be as much as this.
    constexpr double kWide = 1000.0;
    zero_ = {std::max(trim.zeroLow / unit_, -kWide), std::min(trim.zeroHigh / unit_, kWide)};
    span_ = {std::max(trim.spanLow / unit_, -kWide), std::min(trim.spanHigh / unit_, kWide)};
  }

  BestCorrection best() const {
    BestCorrection result{{}, worst({})};
    if (!(unit_ > 0.0)) {
      return result;  // no error at all
    }
    // The fraction in units of (largest error / least limit), at most 1 with no correction on finite limits;
    // with a closed side more may be unavoidable, up to the widest correction.
    const auto found = leastOf({0.0, 0.0, 1.0}, fractionConstraints(), {zero_, span_, {0.0, 4000.0}});
    if (!found) {
      return result;
    }
    const Correction correction{(*found)[0] * unit_, (*found)[1] * unit_};
    if (const double fractionThere = worst(correction); fractionThere < result.worst) {
      result = {correction, fractionThere};
    }
    return result;
  }

 private:
  double worst(const Correction& correction) const {
    return worstFraction(points_, scale_, effect_.errorsAfter(points_, correction, false));
  }

  // error + zero + span * place <= fraction * limit, both ways; over zero, span, fraction.
  std::vector<HalfSpace> fractionConstraints() const {
    std::vector<HalfSpace> constraints;
    for (const AdjustmentPoint& point : points_) {
      const double error = (point.reading - point.expected) / unit_, at = place(point, scale_);
      if (std::isfinite(point.limits.high)) {
        constraints.push_back({{1.0, at, -point.limits.high / leastLimit_}, -error});
      }
      if (std::isfinite(point.limits.low)) {
        constraints.push_back({{-1.0, -at, point.limits.low / leastLimit_}, error});
      }
    }
    return constraints;
  }

  const StraightEffect& effect_;
  const AdjustmentPoints& points_;
  const ReadingScale& scale_;
  double unit_ = 0.0;
  double leastLimit_ = kInfinite;
  VariableRange zero_, span_;
};

BestCorrection StraightEffect::best(const AdjustmentPoints& points, const TrimRange& trim) const {
  return Search(*this, points, scale_, trim).best();
}

// The worst fraction that is left at the point where it is largest, could each be moved on its own: what its
// repeats differ by. `bySide`: readings from different sides are different points.
double scatter(const CorrectionEffect& effect, const AdjustmentPoints& points, const ReadingScale& scale,
               bool bySide) {
  AdjustmentPoints sorted = points;
  std::sort(sorted.begin(), sorted.end(), [&](const AdjustmentPoint& a, const AdjustmentPoint& b) {
    return std::pair(bySide ? a.direction : Direction::none, a.expected) <
           std::pair(bySide ? b.direction : Direction::none, b.expected);
  });
  const double same = kSamePointPercent / 100.0 * std::abs(scale.high - scale.low) * (1.0 + 1e-9);
  double worst = 0.0;
  for (std::size_t from = 0, to = 0; from < sorted.size(); from = to) {
    while (to < sorted.size() && sorted[to].expected - sorted[from].expected <= same &&
           (!bySide || sorted[to].direction == sorted[from].direction)) {
      ++to;
    }
    if (to - from < 2) {
      continue;
    }
    const AdjustmentPoints repeats(sorted.begin() + static_cast<std::ptrdiff_t>(from),
                                   sorted.begin() + static_cast<std::ptrdiff_t>(to));
    worst = std::max(worst, effect.best(repeats, TrimRange::zeroOnly()).worst);
  }
  return worst;
}

AdjustmentAdvice judge(const AdvisedAdjustment& found, const CorrectionEffect& effect,
                       const AdjustmentPoints& points) {
  if (found.worstExact > 1.0) {
    if (found.scatterFraction > 1.0) {
      return AdjustmentAdvice::notRepeatable;
    }
    if (found.hysteresisFraction > 1.0) {
      return AdjustmentAdvice::hysteresis;
    }
    return effect.best(points, {}).worst <= 1.0 ? AdjustmentAdvice::beyondTrim : AdjustmentAdvice::nonLinear;
  }
  if (found.worstPredicted > 1.0) {
    return AdjustmentAdvice::stepTooCoarse;
  }
  if (found.worstPredicted >= found.worstNow) {
    return AdjustmentAdvice::noGain;
  }
  // Out of tolerance, any way in is worth it.
  return found.worstNow <= 1.0 && found.worstNow - found.worstPredicted < found.scatterFraction
             ? AdjustmentAdvice::withinScatter
             : AdjustmentAdvice::adjust;
}

bool holdsZero(double low, double high) {
  return low <= 0.0 && 0.0 <= high;  // false for NaN
}

}  // namespace

std::optional<std::string> adjustmentFault(const std::vector<AdjustmentPoint>& points,
                                           const ReadingScale& scale, double adjustLimit,
                                           const TrimRange& trim) {
  if (points.empty()) {
    return "there are no readings to adjust by";
  }
  if (!std::isfinite(scale.low) || !std::isfinite(scale.high) || scale.low == scale.high) {
    return "the reading span needs two finite ends that differ";
  }
  if (!std::isfinite(scale.step) || scale.step < 0.0) {
    return "the step of the reading must be finite and not negative";
  }
  if (!(adjustLimit > 0.0 && adjustLimit <= 1.0)) {
    return "the adjust limit is a fraction of tolerance, above 0 and up to 1";
  }
  if (!holdsZero(trim.zeroLow, trim.zeroHigh) || !holdsZero(trim.spanLow, trim.spanHigh)) {
    return "the range of a trim must include leaving it alone";
  }
  for (const AdjustmentPoint& point : points) {
    if (!std::isfinite(point.expected) || !std::isfinite(point.reading)) {
      return "a reading or an expected value is not a finite number";
    }
    if (!holdsZero(point.limits.low, point.limits.high)) {
      return "the limits of an error must hold 0";
    }
    if (point.limits.low == 0.0 && point.limits.high == 0.0) {
      return "a tolerance of nothing cannot be adjusted to";
    }
  }
  return std::nullopt;
}

double worstFraction(const AdjustmentPoints& points, const ReadingScale& scale,
                     const std::vector<double>& errors) {
  double worst = 0.0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    worst = std::max(worst, fraction(errors[i], points[i].limits, slackOf(points[i], scale)));
  }
  return worst;
}

AdvisedAdjustment adviseBy(const CorrectionEffect& effect, const AdjustmentPoints& points,
                           const ReadingScale& scale, double adjustLimit, const TrimRange& trim) {
  AdvisedAdjustment result;
  const std::vector<double> errorsNow = effect.errorsAfter(points, {}, false);
  result.worstNow = worstFraction(points, scale, errorsNow);
  result.scatterFraction = scatter(effect, points, scale, true);
  result.hysteresisFraction = scatter(effect, points, scale, false);
  const BestCorrection best = effect.best(points, trim);
  result.worstExact = best.worst;
  const auto leaveAlone = [&] {
    result.correction = {};
    result.predictedErrors = errorsNow;
    result.worstPredicted = result.worstNow;
  };
  if (result.worstNow <= adjustLimit) {
    leaveAlone();
    return result;
  }
  result.correction = best.correction;
  result.predictedErrors = effect.errorsAfter(points, best.correction, true);
  result.worstPredicted = worstFraction(points, scale, result.predictedErrors);
  result.advice = judge(result, effect, points);
  // The steps may spoil the gain.
  if (result.worstPredicted >= result.worstNow) {
    leaveAlone();
  }
  return result;
}

AdvisedAdjustment adviseAdjustment(const std::vector<AdjustmentPoint>& points, const ReadingScale& scale,
                                   double adjustLimit, const TrimRange& trim) {
  if (const auto fault = adjustmentFault(points, scale, adjustLimit, trim)) {
    throw std::invalid_argument(*fault);
  }
  return adviseBy(StraightEffect(scale), points, scale, adjustLimit, trim);
}

std::string_view text(AdjustmentAdvice advice) {
  switch (advice) {
    case AdjustmentAdvice::adjust:
      return "adjust";
    case AdjustmentAdvice::notNeeded:
      return "not needed";
    case AdjustmentAdvice::noGain:
      return "no gain";
    case AdjustmentAdvice::withinScatter:
      return "within scatter";
    case AdjustmentAdvice::notRepeatable:
      return "not repeatable";
    case AdjustmentAdvice::hysteresis:
      return "hysteresis";
    case AdjustmentAdvice::stepTooCoarse:
      return "step too coarse";
    case AdjustmentAdvice::beyondTrim:
      return "beyond trim";
    case AdjustmentAdvice::nonLinear:
      return "non-linear";
  }
  return "";
}

std::string_view explain(AdjustmentAdvice advice) {
  switch (advice) {
    case AdjustmentAdvice::adjust:
      return "Adjust: the correction brings the worst point down.";
    case AdjustmentAdvice::notNeeded:
      return "Leave it: every point is inside the adjust limit.";
    case AdjustmentAdvice::noGain:
      return "Leave it: no correction makes the worst point better.";
    case AdjustmentAdvice::withinScatter:
      return "Leave it: in tolerance, and repeats of one point differ by more than adjusting would gain.";
    case AdjustmentAdvice::notRepeatable:
      return "Adjusting cannot help: repeats of one point differ by more than the tolerance holds.";
    case AdjustmentAdvice::hysteresis:
      return "Adjusting cannot help: up and down readings of one point differ by more than the tolerance "
             "holds.";
    case AdjustmentAdvice::stepTooCoarse:
      return "Adjusting cannot help: the steps of the reading are too far apart for the tolerance.";
    case AdjustmentAdvice::beyondTrim:
      return "Adjusting cannot help: the correction needed is beyond the range of the trims.";
    case AdjustmentAdvice::nonLinear:
      return "Adjusting cannot help: the errors do not lie along a line, and a zero and span correction "
             "leaves a "
             "point outside.";
  }
  return "";
}

}  // namespace spanwright
