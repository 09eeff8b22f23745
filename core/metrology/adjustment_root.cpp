// SPDX-License-Identifier: GPL-3.0-or-later
//
// Advice on adjusting what is shown through a square root. Everything here is in fractions of span: of the
// reading, "flow", and of what lies before the root, "signal".
#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "core/metrology/adjustment_search.h"
#include "core/metrology/linear_program.h"
#include "core/signal/converter.h"
#include "core/signal/scaling.h"

namespace spanwright {

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();

/// What a reading tells of the signal. `offset` is the part of the reading that no signal gives: below no
/// flow, or between no flow and the cut-off. It is taken to come after the root and to stay whatever is
/// corrected before it.
struct Seen {
  double signal = 0.0;
  double offset = 0.0;
};

class RootEffect final : public CorrectionEffect {
 public:
  RootEffect(const ReadingScale& scale, const RootTransfer& root) : scale_(scale), root_(root) {}

  std::vector<double> errorsAfter(const AdjustmentPoints& points, const Correction& correction,
                                  bool stepped) const override {
    std::vector<double> errors;
    for (const AdjustmentPoint& point : points) {
      if (!stepped && correction.zero == 0.0 && correction.span == 0.0) {
        errors.push_back(point.reading - point.expected);  // not by way of the root and back
        continue;
      }
      const Seen seen = seenAt(point);
      const double signal = seen.signal + correction.zero + correction.span * seen.signal;
      const double flow = flowFraction(stepped ? toStep(signal, root_.step) : signal, root_.cutOffPercent);
      const double reading = scale_.low + (flow + seen.offset) * width();
      errors.push_back(toStep(reading, stepped ? scale_.step : 0.0) - point.expected);
    }
    return errors;
  }

  // A smaller worst fraction leaves every signal a smaller interval, so the least one that still leaves a
  // correction is found by halving. Whether it does is a linear program.
  BestCorrection best(const AdjustmentPoints& points, const TrimRange& trim) const override {
    BestCorrection result{{}, worst(points, {})};
    const VariableRange zero = limited(trim.zeroLow, trim.zeroHigh);
    const VariableRange span =
        spread(points) < kLeastSpread ? VariableRange{} : limited(trim.spanLow, trim.spanHigh);
    constexpr double kMostFraction = 1e6;  // a closed side may allow nothing without a correction
    double can = std::min(result.worst, kMostFraction), cannot = 0.0;
    for (int round = 0; round < 100 && can - cannot > 1e-12 * can; ++round) {
      // The first question is whether anything helps at all.
      const bool first = round == 0 && result.worst > kMostFraction;
      const double fraction = first ? can : cannot + (can - cannot) / 2.0;
      const auto correction = correctionFor(points, fraction, zero, span);
      if (!correction && first) {
        break;
      }
      if (!correction) {
        cannot = fraction;
        continue;
      }
      can = fraction;
      if (const double there = worst(points, *correction); there < result.worst) {
        result = {*correction, there};
      }
    }
    return result;
  }

 private:
  double width() const { return scale_.high - scale_.low; }
  double flowOf(double reading) const { return (reading - scale_.low) / width(); }

  Seen seenAt(const AdjustmentPoint& point) const {
    const double shown = flowOf(point.reading), right = flowOf(point.expected);
    const Expected signal = pressureFraction(shown, root_.cutOffPercent);
    if (const double* told = std::get_if<double>(&signal)) {
      return {*told, 0.0};
    }
    return {right * right, shown - right};
  }

  double worst(const AdjustmentPoints& points, const Correction& correction) const {
    return worstFraction(points, scale_, errorsAfter(points, correction, false));
  }

  double spread(const AdjustmentPoints& points) const {
    double lowest = kInfinite, highest = -kInfinite;
    for (const AdjustmentPoint& point : points) {
      lowest = std::min(lowest, seenAt(point).signal);
      highest = std::max(highest, seenAt(point).signal);
    }
    return highest - lowest;
  }

  /// A correction by more than ten spans is none.
  static VariableRange limited(double low, double high) {
    constexpr double kWide = 10.0;
    return {std::max(low, -kWide), std::min(high, kWide)};
  }

  /// The largest signal that shows no more than `flow`, and the smallest that shows at least `flow`.
  double mostSignal(double flow) const {
    const double cutOff = root_.cutOffPercent / 100.0;
    const double shown = flow < cutOff ? cutOff * (1.0 - 1e-7) : flow;
    return shown * shown;
  }
  double leastSignal(double flow) const {
    const double shown = std::max(flow, root_.cutOffPercent / 100.0);
    return flow > 0.0 ? shown * shown : -kInfinite;
  }

  /// A correction that keeps every point within `fraction` of its limits; of several the one that stays
  /// furthest inside on the signal's side.
  std::optional<Correction> correctionFor(const AdjustmentPoints& points, double fraction,
                                          const VariableRange& zero, const VariableRange& span) const {
    std::vector<HalfSpace> constraints;  // over zero, span and how far outside
    for (const AdjustmentPoint& point : points) {
      const Seen seen = seenAt(point);
      const double right = flowOf(point.expected) - seen.offset;
      const double one = point.limits.low / width(), other = point.limits.high / width();
      const double most = right + within(fraction, std::max(one, other));
      const double least = right + within(fraction, std::min(one, other));
      if (most < 0.0) {
        return std::nullopt;  // no signal shows so little
      }
      if (std::isfinite(most)) {
        constraints.push_back({{1.0, seen.signal, -1.0}, mostSignal(most) - seen.signal});
      }
      if (const double bound = leastSignal(least); std::isfinite(bound)) {
        constraints.push_back({{-1.0, -seen.signal, -1.0}, seen.signal - bound});
      }
    }
    constexpr double kRounding = 1e-14;
    const auto found = leastOf({0.0, 0.0, 1.0}, constraints, {zero, span, {-1.0, 100.0}});
    if (!found || (*found)[2] > kRounding) {
      return std::nullopt;
    }
    return Correction{(*found)[0], (*found)[1]};
  }

  /// An open side stays open at any fraction.
  static double within(double fraction, double limit) {
    return std::isfinite(limit) ? fraction * limit : limit;
  }

  const ReadingScale& scale_;
  const RootTransfer& root_;
};

}  // namespace

std::optional<std::string> rootAdjustmentFault(const std::vector<AdjustmentPoint>& points,
                                               const ReadingScale& scale, const RootTransfer& root,
                                               double adjustLimit, const TrimRange& trim) {
  if (auto fault = adjustmentFault(points, scale, adjustLimit, trim)) {
    return fault;
  }
  if (!(root.cutOffPercent >= 0.0 && root.cutOffPercent < 100.0)) {
    return "the cut-off is a percentage of flow from 0 to below 100";
  }
  if (!std::isfinite(root.step) || root.step < 0.0) {
    return "the step of the converter must be finite and not negative";
  }
  for (const AdjustmentPoint& point : points) {
    if ((point.expected - scale.low) / (scale.high - scale.low) < -1e-9) {
      return "a value is expected below no flow, where a square root has none";
    }
  }
  return std::nullopt;
}

AdvisedAdjustment adviseRootAdjustment(const std::vector<AdjustmentPoint>& points, const ReadingScale& scale,
                                       const RootTransfer& root, double adjustLimit, const TrimRange& trim) {
  if (const auto fault = rootAdjustmentFault(points, scale, root, adjustLimit, trim)) {
    throw std::invalid_argument(*fault);
  }
  return adviseBy(RootEffect(scale, root), points, scale, adjustLimit, trim);
}

}  // namespace spanwright
