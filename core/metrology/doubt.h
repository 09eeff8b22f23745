// SPDX-License-Identifier: GPL-3.0-or-later
//
// Readings that look like slips of the pen or the keys, to be asked about once before they are believed.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/metrology/tolerance.h"

namespace spanwright {

enum class DoubtKind {
  swappedDigits,  ///< two neighbouring digits swapped make it right
  otherPoint,     ///< it is right at another point of the sheet
  otherUnit,      ///< ten or a thousand times it, or a tenth or a thousandth, is right
  farOff          ///< far beyond what is usual there
};

/// What is right at one point: its expected reading and the errors within tolerance, reading units.
struct ReadingWindow {
  int sequence = 0;
  double expected = 0.0;
  ErrorLimits limits;
  /// On a limit counts as inside, as when it is judged; differences of 1e-12 of the numbers are rounding.
  bool holds(double reading) const;
};

/// How large errors usually were at a point.
struct UsualError {
  std::size_t visits = 0;  ///< that read it
  double size = 0.0;       ///< root mean square of the errors, reading units
};
/// So many visits are needed before anything is called usual.
inline constexpr std::size_t kUsualVisits = 3;
/// Beyond so many times the usual (without one: the tolerance) an error is far off.
inline constexpr double kFarOff = 10.0;

/// Up to so many times its tolerance an error is a finding as one makes on any round, not a slip.
inline constexpr double kSlip = 3.0;

struct Doubt {
  DoubtKind kind = DoubtKind::farOff;
  std::string meantText = {};  ///< swappedDigits: what would have been typed
  double meant = 0.0;          ///< swappedDigits, otherUnit: the reading it would be
  int sequence = 0;            ///< otherPoint: of that point
  double usual = 0.0;          ///< farOff: the size of error it was held against, reading units
  bool byHistory = false;      ///< farOff: `usual` is that of visits before, else the tolerance
};

/// Every text that comes of swapping two neighbouring digits that differ: "9.18" gives "9.81". Digits with a
/// decimal sign between them are not neighbours.
std::vector<std::string> swappedDigits(std::string_view typed);

/// A text and the reading it stands for.
struct OtherReading {
  std::string text;
  double reading = 0.0;
};
/// The first of these that holds, in the order of DoubtKind; nothing when the reading looks fine:
///  swapped, other point, other unit: the error is beyond kSlip times the tolerance on its side, and that way
///    the reading would be within it. Another point must be one whose expected reading is itself out of this
///    point's tolerance; factors are not tried where 0 is within it, since there the smaller the better.
///  far off: the error is beyond kFarOff times the usual one, where that is taken to be no less than a step
///    and no less than a twentieth of the tolerance (on its side): what is within half the tolerance is never
///    asked about. With fewer than kUsualVisits visits: beyond kFarOff times the tolerance. An open side has
///    none.
/// `swapped` are the readings of swappedDigits that could be read.
std::optional<Doubt> doubtOf(double reading, const ReadingWindow& own,
                             const std::vector<ReadingWindow>& others,
                             const std::vector<OtherReading>& swapped, const UsualError& usual, double step);

}  // namespace spanwright
