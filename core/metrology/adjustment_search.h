// SPDX-License-Identifier: GPL-3.0-or-later
//
// What advice on adjusting has in common, whether the reading follows the correction straight or through a
// root.
#pragma once

#include <limits>
#include <vector>

#include "core/metrology/adjustment.h"

namespace spanwright {

using AdjustmentPoints = std::vector<AdjustmentPoint>;

/// Points nearer to each other than this share of span cannot tell a span error from a zero error.
inline constexpr double kLeastSpread = 0.1;

struct BestCorrection {
  Correction correction;
  double worst = std::numeric_limits<double>::infinity();  ///< fraction of tolerance left, before steps
};

/// How readings answer a correction, and which correction is the best.
class CorrectionEffect {
 public:
  virtual ~CorrectionEffect() = default;
  /// Errors of the corrected points in reading units, `stepped`: as the converter and display would show
  /// them.
  virtual std::vector<double> errorsAfter(const AdjustmentPoints& points, const Correction& correction,
                                          bool stepped) const = 0;
  /// The correction inside `trim` with the least worst fraction, none when none is better than leaving it.
  virtual BestCorrection best(const AdjustmentPoints& points, const TrimRange& trim) const = 0;
};

/// Largest error as a fraction of its limit; infinite on a side that allows none.
double worstFraction(const AdjustmentPoints& points, const ReadingScale& scale,
                     const std::vector<double>& errors);

/// The advice, for points, scale, limit and trim without an adjustmentFault.
AdvisedAdjustment adviseBy(const CorrectionEffect& effect, const AdjustmentPoints& points,
                           const ReadingScale& scale, double adjustLimit, const TrimRange& trim);

}  // namespace spanwright
