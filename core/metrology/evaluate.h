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
  ErrorLimits limits;                ///< after the resolution floor
  double fractionOfTolerance = 0.0;  ///< |error| over the limit on its side; > 1 fails
  bool withinOneStep = false;        ///< |error| is no more than one step: no error can be told from it
  bool flooredByStep = false;        ///< the tolerance is finer than one step, so one step was used as limit
  Verdict verdict = Verdict::notJudged;
};

using Evaluation = std::variant<PointResult, RangeResult>;

/// Judges one reading by simple acceptance (ILAC-G8:09/2019, w = 0: accepted when the error is on or inside
/// its limits). `setup` gives switch levels, alarm levels, states; nullptr for a sensor on its own. The
/// resolution floor: a limit finer than one step cannot be shown, so limits are widened to one step and
/// `flooredByStep` says so.
Evaluation evaluatePoint(const TestPoint& point, const PointModel& model, const ChannelSetup* setup,
                         const Tolerance& tolerance, double applied, double reading);

/// The expected reading and limits before anything is typed, for showing on the sheet; a RangeResult as
/// above.
Evaluation expectPoint(const TestPoint& point, const PointModel& model, const ChannelSetup* setup,
                       const Tolerance& tolerance, double applied);

/// A reading the converter cannot give (beyond counts span or the reading span by more than 10 % of it).
bool readingImpossible(const TestPoint& point, const PointModel& model, double reading);

/// fail when any fails; pass when at least one passed and none failed; else notJudged.
Verdict overall(const std::vector<Verdict>& verdicts);

std::string_view text(Verdict verdict);  // "pass", "fail", "not judged"

}  // namespace spanwright
