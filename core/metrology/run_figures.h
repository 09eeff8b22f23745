// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a run of readings, up and down and repeated, says about an instrument: the accuracy-related factors of
// IEC 61298-2 (clause 4, numbers not checked against the text) and of the test procedures of
// ANSI/ISA-51.1-1979 (R1993).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/metrology/test_points.h"

namespace spanwright {

/// One reading of a run. Any one unit for `expected`, `reading` and the span.
struct RunReading {
  /// What an ideal instrument gives for what was applied. Readings of one test point need not have exactly
  /// the same (a calibrator is rarely set exactly): see kSamePointPercent.
  double expected = 0.0;
  double reading = 0.0;
  Direction direction = Direction::none;  ///< from which side the point was approached; none: not known
  int cycle = 1;                          ///< which repetition of the run, from 1
};

/// Readings whose expected values lie within this much of the span of each other belong to one test point
/// (counted from the lowest of them, so that points do not grow together). Common practice, no source.
inline constexpr double kSamePointPercent = 0.5;

/// A run has an end where a test point lies at most this much of the span from it: IEC 61298-2 wants points
/// "at or near" both ends (the figure of 10 % is from memory).
inline constexpr double kNearEndPercent = 10.0;

/// The mean errors at one test point, in % of span; a direction nobody took is empty.
struct PointErrors {
  double percent = 0.0;  ///< of span, where the expected value lies (mean of the readings')
  std::optional<double> up, down, unknown;
  double average = 0.0;  ///< mean of the directions that exist (each the mean of its cycles)
};

/// All in % of span. Empty where the run does not show it: zero and span error without a point near that end,
/// linearity with fewer than three test points, hysteresis where no point was taken from both sides,
/// repeatability where none was repeated from the same side.
struct RunFigures {
  std::vector<PointErrors> points;  ///< ascending
  /// The error at 0 % of span, and the error at 100 % less that at 0 % (ISA-51.1, "error, zero" and "error,
  /// span"): of the average errors, on the line through the lowest and the highest point, which is those
  /// points' own error when they lie at the ends.
  std::optional<double> zeroError, spanError;
  /// Largest positive and largest negative single error over all points, directions and cycles (ISA-51.1
  /// "accuracy, measured"; IEC 61298-2 "inaccuracy"). When all errors have one sign the other figure is the
  /// error nearest to it, not zero.
  double inaccuracyHigh = 0.0, inaccuracyLow = 0.0;
  /// Extremes of the averages of each direction at each point (IEC 61298-2 "maximum measured error").
  double averageErrorHigh = 0.0, averageErrorLow = 0.0;
  /// Of the two the one further from zero, with its sign; the positive one when both are as far.
  double maximumError = 0.0;
  /// Largest deviation (plus or minus) of the average errors from a straight line: through the two end
  /// points; placed so that the largest deviation is least (independent linearity); through the lower end
  /// point with the slope that makes it least.
  std::optional<double> linearityTerminal, linearityBest, linearityZero;
  /// Largest |down - up| at one point: of the averages (IEC 61298-2); inside one cycle, which still holds the
  /// dead band (ISA-51.1 "hysteresis plus dead band").
  std::optional<double> hysteresis, hysteresisWithinCycle;
  /// Largest spread (highest less lowest error) at one point approached from one side (IEC 61298-2
  /// "non-repeatability", ISA-51.1 "repeatability"); readings of unknown side are not compared.
  std::optional<double> repeatability;
};

/// What makes a run unusable, or nothing: no readings, a number that is not finite, a span of no width, a
/// cycle below 1, or two readings of one point from one known side in one cycle.
std::optional<std::string> runFault(const std::vector<RunReading>& readings, double spanLow, double spanHigh);

/// The figures over whatever points, directions and cycles there are; missing ones leave out, never fill in.
/// `spanLow` and `spanHigh` are the output at 0 % and 100 %, either may be the larger; errors keep the sign
/// of reading - expected. Throws std::invalid_argument with the words of runFault.
RunFigures runFigures(const std::vector<RunReading>& readings, double spanLow, double spanHigh);

/// Numbers the cycles of readings in the order they were written down, for files that do not say. In the
/// order of the work (rising expected values while up, falling ones while down) a cycle begins where a point
/// is taken a second time from the same side, or where the direction turns back to the one the cycle began
/// with. In any other order (by point, or every up run before every down run) the nth reading of a point from
/// one side is cycle n.
void numberCycles(std::vector<RunReading>& readings, double spanLow, double spanHigh);

/// One move of the input while looking for the dead band at one point, in % of input span: where the output
/// was last seen to move, and where it moved again after the input had been turned back.
struct DeadBandMove {
  double from = 0.0;
  double to = 0.0;
};

/// The largest |to - from|: the input can change that much after reversing without a change of the output
/// (IEC 61298-2 "dead band"; ISA-51.1 test procedures). Nothing without a move; std::invalid_argument for a
/// number that is not finite.
std::optional<double> deadBand(const std::vector<DeadBandMove>& moves);

}  // namespace spanwright
