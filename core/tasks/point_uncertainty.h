// SPDX-License-Identifier: GPL-3.0-or-later
//
// The uncertainty budget of one reading, filled in from the record.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/metrology/uncertainty.h"
#include "core/tasks/certificate_value.h"
#include "core/tasks/visit.h"

namespace spanwright {

/// Standard deviation of one reading, pooled over a phase's repeated points (same point, same direction),
/// with its degrees of freedom (pooled as in GUM 4.2.4). `degreesOfFreedom` 0: nothing was repeated.
struct Repeatability {
  double standardDeviation = 0.0;
  double degreesOfFreedom = 0.0;
};
Repeatability repeatability(const std::vector<Reading>& readings);

/// The budget of `reading`, in its reading unit:
///  - each standard's certificate, U/k interpolated linearly between its values, brought to the reading
///  through the
///    model's slope (GUM 5.1.3 NOTE 2: half the change of the result for plus and minus one standard
///    uncertainty);
///  - each standard's drift since that certificate, likewise: the change of its error, at this value, between
///    two certificates that reach it, at least 90 days apart, scaled by the time since, as half-width of a
///    rectangular distribution (common practice, no source); no line for a standard with one certificate
///    only;
///  - each standard's resolution, step/sqrt(12), likewise;
///  - the resolution of the reading where the subject shows it itself: the model's step, or the digits typed;
///  - repeatability when points were repeated;
///  - the reference junction of a couple fed with mV and the leads of an RTD, where the plan states them
///    (connectionLines); none is assumed.
/// Of several standards that cover a value the first named counts. Nothing when a value is covered by none,
/// or when nothing contributes.
std::optional<Budget> pointBudget(const VisitSheet& sheet, const Reading& reading,
                                  const std::vector<const Standard*>& standards,
                                  const Repeatability& repeated = {});

/// Name of the budget line that a standard's certificate gives.
std::string certificateLine(const Standard& standard);

/// Why a reading has no budget.
enum class UncertaintyGap {
  noStandard,       ///< none is named
  noneValid,        ///< no named standard has a certificate valid on the day
  otherQuantity,    ///< no certificate is for a quantity such as the value's
  outOfReach,       ///< no certificate reaches the value
  noSlope,          ///< the model has no slope there that would bring an uncertainty to the reading
  nothingToCombine  ///< every part of it is zero
};

/// Why a reading was not judged: what the decision rule lacks, and for lack of an uncertainty also why there
/// is none, and for which value.
struct NotJudged {
  std::string reason;  ///< a clause
  std::optional<UncertaintyGap> gap;
  MeasuredValue value;
};
/// Nothing for a reading that was skipped or has a verdict. `standards` as handed to judge().
std::optional<NotJudged> whyNotJudged(const VisitSheet& sheet, const Reading& reading,
                                      const std::vector<const Standard*>& standards);

/// Puts the budget's outcome into the reading, or takes it out.
void fillUncertainty(const VisitSheet& sheet, Reading& reading, const std::vector<const Standard*>& standards,
                     const Repeatability& repeated = {});

}  // namespace spanwright
