// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the readings of one phase of a visit say as a whole: the figures of the run, whether adjusting is
// worth it and what to set, and which fault of a thermocouple or RTD they look like.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/metrology/adjustment.h"
#include "core/metrology/run_figures.h"
#include "core/signal/couple_diagnosis.h"
#include "core/signal/rtd_diagnosis.h"
#include "core/tasks/visit.h"

namespace spanwright {

/// Why nothing is said about adjusting.
enum class AdviceGap {
  noValuePoints,  ///< the sheet has levels or states only: there is no zero and span to set
  unfinished,     ///< some value point has neither a reading nor a reason for its lack
  tooFewPoints,   ///< fewer than two different test points were read
  unusable        ///< the numbers are, see `fault`
};

/// What a point's error would be after the correction, rounded to the step of the reading.
struct PredictedError {
  int sequence = 0;  ///< of the sheet's point
  double error = 0.0;
};

/// A fault the readings look like, and what it leaves unexplained (K, as in FaultFit).
struct SensorDiagnosis {
  std::variant<CoupleFault, RtdFault> fault;
  double residual = 0.0;
};
std::string describe(const SensorDiagnosis& diagnosis);

struct VisitAdvice {
  Span span;  ///< of the reading
  double adjustLimit = 0.0;
  /// In % of span; nothing without a reading at a value point or when those are unusable for a run.
  std::optional<RunFigures> figures;
  /// Exactly one of the two is there.
  std::optional<AdvisedAdjustment> adjustment;
  std::optional<AdviceGap> gap;
  int missing = 0;    ///< unfinished: how many value points
  std::string fault;  ///< unusable: a clause
  /// What the correction is set on: the reading, or with a square root in between what lies before it (the
  /// input's signal, or the process value of a transmitter that takes the root).
  Span correctionSpan;
  bool beforeRoot = false;
  /// The correction as it is set: the shift at the low end of `correctionSpan`, and the change of that span
  /// in percent. Nothing where it is less than 0.0005 % of it, unless that is all there is.
  std::optional<double> zeroShift, spanPercent;
  int zeroDecimals = 3;  ///< that show 0.001 % of that span, or two digits of a smaller shift
  /// Of the value points read, in the order given. Empty without an adjustment.
  std::vector<PredictedError> predicted;
  /// Thermocouple and RTD inputs: the faults the readings look like, best first, but copper leads
  /// (see diagnoseCopperLeads) before all. Offered, never decided.
  std::vector<SensorDiagnosis> diagnoses;

  /// Is a correction advised?
  bool adjusts() const { return adjustment && adjustment->advice == AdjustmentAdvice::adjust; }
  /// Is the subject outside its tolerance in a way no adjusting mends?
  bool cannotHelp() const;
};

/// From the readings of one phase, those of value points only, each judged against its own limits and the
/// plan's adjust limit. `ambient`, degC, stands for the temperature of a thermocouple input's terminals
/// where the sheet has no reference junction; 23 degC when it is not known.
VisitAdvice adviseVisit(const VisitSheet& sheet, const std::vector<Reading>& readings,
                        std::optional<double> ambient = std::nullopt);

/// The same for a stored visit, on the sheet that applied when it was made; a Problem when there is none any
/// more.
std::variant<VisitAdvice, Problem> adviseCalibration(const Register& site, const Calibration& calibration,
                                                     Phase phase);

/// Decimals that show a percentage of tolerance: one where whole percents would put it on the limit.
int toleranceDecimals(double fraction);
/// Why nothing is said, a clause.
std::string explain(const VisitAdvice& advice, AdviceGap gap);
/// One plain sentence for the terminal; a second one when there are diagnoses.
std::string adviceText(const VisitAdvice& advice);

}  // namespace spanwright
