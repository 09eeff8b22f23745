// SPDX-License-Identifier: GPL-3.0-or-later
//
// Is adjusting worth it, what to set, and what will be left. The method is the project's own: of all zero and
// span corrections the one that leaves the least worst fraction of tolerance (minimax).
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/metrology/test_points.h"
#include "core/metrology/tolerance.h"

namespace spanwright {

/// One as-found value point. All in reading units.
struct AdjustmentPoint {
  double expected = 0.0;
  double reading = 0.0;
  /// What the error may be: low <= 0 <= high, an open side infinite, at least one side more than nothing.
  ErrorLimits limits;
  Direction direction = Direction::none;
};

/// What can be set, in reading units: how far the reading at the low end of the span can be moved, and how
/// far the distance between the ends. Each must include 0 (leaving it alone); infinite: no limit known.
struct TrimRange {
  double zeroLow = -std::numeric_limits<double>::infinity();
  double zeroHigh = std::numeric_limits<double>::infinity();
  double spanLow = -std::numeric_limits<double>::infinity();
  double spanHigh = std::numeric_limits<double>::infinity();

  static TrimRange zeroOnly() { return {.spanLow = 0.0, .spanHigh = 0.0}; }
  static TrimRange spanOnly() { return {.zeroLow = 0.0, .zeroHigh = 0.0}; }
};

/// Span low and high of the reading, and the smallest step it can show (0: any value).
struct ReadingScale {
  double low = 0.0;
  double high = 0.0;
  double step = 0.0;
};

enum class AdjustmentAdvice {
  adjust,         ///< the correction brings the worst fraction down
  notNeeded,      ///< the worst fraction is inside the adjust limit
  noGain,         ///< no correction that the steps of the reading let through makes it better
  withinScatter,  ///< in tolerance, and the gain is less than what repeats of one point differ by
  // Adjusting alone cannot bring every point inside; something else is wrong.
  notRepeatable,  ///< repeats of one point from one side differ by more than the tolerance holds
  hysteresis,     ///< up and down readings of one point do
  stepTooCoarse,  ///< the steps of the reading are too far apart for the tolerance
  beyondTrim,     ///< it would, had the trims the range
  nonLinear,      ///< the errors do not lie along a line
};
std::string_view text(AdjustmentAdvice advice);  // "adjust", "not needed", ...
/// One sentence for a person.
std::string_view explain(AdjustmentAdvice advice);

/// reading -> reading + zero + span * (reading - scale.low) / (scale.high - scale.low)
struct Correction {
  double zero = 0.0;  ///< reading units
  double span = 0.0;  ///< reading units at the high end, on top of zero
};

struct AdvisedAdjustment {
  AdjustmentAdvice advice = AdjustmentAdvice::notNeeded;
  /// The best one found; zero for notNeeded and noGain. For withinScatter and the five that cannot help it
  /// still is what would help most.
  Correction correction;
  std::vector<double> predictedErrors;  ///< as left, after rounding to the step, one per point
  double worstNow = 0.0;                ///< fraction of tolerance; infinite as in PointResult
  double worstPredicted = 0.0;          ///< the same of predictedErrors; never above worstNow
  double worstExact = 0.0;              ///< before rounding to the step: the least there can be
  /// Worst fraction left at a single point if only that one mattered: by the differences of its repeats from
  /// one side, and by those and its hysteresis.
  double scatterFraction = 0.0;
  double hysteresisFraction = 0.0;
};

/// What makes the input unusable, or nothing: no points, a number that is not finite, a span of no width, a
/// negative step, limits that leave nothing or do not hold 0, an adjust limit that is not from above 0 to 1,
/// a trim range without 0.
std::optional<std::string> adjustmentFault(const std::vector<AdjustmentPoint>& points,
                                           const ReadingScale& scale, double adjustLimit,
                                           const TrimRange& trim);

/// The advice. The correction is found exactly, as a linear program in zero, span and the worst fraction.
/// Where several are equally good it is one of them, and a trim that makes no difference is left alone. When
/// the points lie within 10 % of span of each other the span is left alone: it cannot be told from one place.
/// `adjustLimit` is a fraction of tolerance. The corrected reading is rounded to the nearest step, without
/// regard to the ends of the converter. Repeats are known by expected values within kSamePointPercent of
/// span. Throws std::invalid_argument with the words of adjustmentFault.
AdvisedAdjustment adviseAdjustment(const std::vector<AdjustmentPoint>& points, const ReadingScale& scale,
                                   double adjustLimit, const TrimRange& trim = {});

/// A square root between what is corrected and what is read: signal = flow^2, both as fractions of their
/// spans.
struct RootTransfer {
  double cutOffPercent = 0.0;  ///< below this percent of flow the reading is that of no flow
  double step = 0.0;  ///< one step of the converter before the root, as a fraction of span; 0: not known
};

/// adjustmentFault, or a cut-off or step that cannot be, or a value expected below no flow.
std::optional<std::string> rootAdjustmentFault(const std::vector<AdjustmentPoint>& points,
                                               const ReadingScale& scale, const RootTransfer& root,
                                               double adjustLimit, const TrimRange& trim);

/// The advice where zero and span are set before a square root: signal -> signal + zero + span * signal, as
/// fractions of the span before the root; `correction` and `trim` are in these, everything else in reading
/// units as above. What each reading tells of the signal is taken back through the root, each limit at each
/// fraction of tolerance likewise, so that the worst fraction of the readings' own tolerances is the least
/// there is. Predicted errors are brought through the step of the converter, the root with its cut-off, and
/// the step of the reading
/// (`scale.step`). A reading that the transfer never shows (below no flow, or between it and the cut-off)
/// says nothing about the signal: the signal there is taken as right, and the reading's difference from it to
/// stay. Throws std::invalid_argument with the words of rootAdjustmentFault.
AdvisedAdjustment adviseRootAdjustment(const std::vector<AdjustmentPoint>& points, const ReadingScale& scale,
                                       const RootTransfer& root, double adjustLimit,
                                       const TrimRange& trim = {});

}  // namespace spanwright
