// SPDX-License-Identifier: GPL-3.0-or-later
//
// From an applied value and a reading to an error and a verdict.
#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "core/metrology/test_points.h"
#include "core/metrology/tolerance.h"
#include "core/signal/point_model.h"

namespace spanwright {

enum class Verdict { pass, fail, notJudged };

/// Everything computed from one reading.
struct PointResult {
  double expected = 0.0;  ///< reading units
  double error = 0.0;     ///< reading - expected, reading units
  ErrorForms forms;
  ErrorLimits limits;  ///< after the resolution floor
  /// |error| over the limit on its side: above 1 exactly when the verdict is fail. Infinite when outside on a
  /// side that allows no error at all.
  double fractionOfTolerance = 0.0;
  bool withinOneStep = false;  ///< |error| is no more than one step: no error can be told from it
  bool flooredByStep = false;  ///< the tolerance is finer than one step, so one step was used as limit
  Verdict verdict = Verdict::notJudged;
};

using Evaluation = std::variant<PointResult, RangeResult>;

/// Judges one reading by simple acceptance (ILAC-G8:09/2019, w = 0: accepted when the error is on or inside
/// its limits). `setup` gives switch levels, alarm levels, states; nullptr for a sensor on its own. The
/// resolution floor: a limit finer than one step cannot be shown, so limits are widened to one step and
/// `flooredByStep` says so. Differences of less than 1e-12 of the numbers involved are taken as rounding.
///
/// Expected reading and limits by role:
///  value        the model's reading for `applied`; the tolerance
///  switch       the setup's level; the tolerance, narrowed to what a claimed IEC 61131-2 type allows: on
///  above its
///               highest off voltage and at or below its lowest on voltage, off at or above its highest off
///               voltage and below its lowest on voltage
///  alarm        the level, or for reset the level and its dead band; the tolerance
///  state        on: the supply, less the allowed drop and up to 10 % more (common practice, no source);
///               off: 0, no further than maxOffVolts either way; the tolerance has no part in it
///  loss         analog: minimum (low end of the signal), hold (what `applied` commanded) or 0; the
///  tolerance.
///               discrete: commanded on before; still on for hold, else off; limits as for states
/// A RangeResult says why nothing is expected: wrongUnit also when the setup has no such point.
Evaluation evaluatePoint(const TestPoint& point, const PointModel& model, const ChannelSetup* setup,
                         const Tolerance& tolerance, double applied, double reading);

/// The expected reading and limits before anything is typed, for showing on the sheet; a RangeResult as
/// above.
Evaluation expectPoint(const TestPoint& point, const PointModel& model, const ChannelSetup* setup,
                       const Tolerance& tolerance, double applied);

/// What a reading can be at all, in reading units, low below high: the reading span and 10 % of it on either
/// side for what a converter gives; for volts, milliamperes and ohms, which a measuring instrument shows
/// whatever the subject does (0 mA from a dead 4-20 mA output), twice the span's larger end either way, which
/// still catches a lost decimal sign.
Span possibleReadings(const TestPoint& point, const PointModel& model);
/// Is the reading outside that, or not a number?
bool readingImpossible(const TestPoint& point, const PointModel& model, double reading);

/// fail when any fails; pass when at least one passed and none failed; else notJudged.
Verdict overall(const std::vector<Verdict>& verdicts);

std::string_view text(Verdict verdict);  // "pass", "fail", "not judged"

}  // namespace spanwright
