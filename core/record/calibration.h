// SPDX-License-Identifier: GPL-3.0-or-later
//
// One visit's record.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/metrology/evaluate.h"
#include "core/metrology/test_points.h"
#include "core/units/time.h"

namespace spanwright {

using CalibrationId = std::int64_t;

enum class Phase { asFound, asLeft };

/// One line of the sheet as done. What was typed is kept beside the number; what was computed then is kept
/// too, so that a certificate shows what the person saw and a recomputation can be compared with it.
struct Reading {
  TestPoint point;
  double applied = 0.0;     ///< in point.appliedUnit
  std::string appliedText;  ///< as typed or as in the source
  double indicated = 0.0;   ///< in point.readingUnit
  std::string indicatedText;
  std::string skipReason;  ///< not empty: the point was skipped, numbers are meaningless
  double expected = 0.0;
  ErrorLimits limits;
  std::optional<double> expandedUncertainty;  ///< in point.readingUnit, 95.45 %
  double coverageFactor = 2.0;
  Verdict verdict = Verdict::notJudged;
  bool withinOneStep = false;
  bool flooredByStep = false;

  bool skipped() const { return !skipReason.empty(); }
  double error() const { return indicated - expected; }
};

struct UsedStandard {
  std::string serial;
  std::string certificate;  ///< number of the certificate valid on the day
};

struct Conditions {
  std::optional<double> temperature;  ///< degC
  std::optional<double> humidity;     ///< % relative
  std::string note;
  /// Of a couple's mV fed or measured through copper leads, degC; nothing: mV are emf referred to 0 degC.
  std::optional<double> referenceJunction = {};
};

/// What a visit did to the subject; empty text and false when it was left as found.
struct Adjustment {
  bool adjusted = false;
  bool repaired = false;
  std::string text;
};

struct Calibration {
  CalibrationId id = 0;  ///< 0 until stored
  std::string channel;   ///< tag; for a sensor on the bench the channel it is fitted on
  Subject subject = Subject::channel;
  int setupVersion = 0;
  std::string sensor;  ///< serial, for sensor and loop; may be empty for channel
  std::string plan;
  std::string planRevision;
  Moment performed;    ///< site local time
  std::string person;  ///< login
  std::vector<UsedStandard> standards;
  Conditions conditions;
  bool cautionsConfirmed = false;
  Adjustment adjustment;
  std::vector<Reading> asFound;
  std::vector<Reading> asLeft;  ///< empty: as found stands as left
  Verdict foundVerdict = Verdict::notJudged;
  Verdict leftVerdict = Verdict::notJudged;  ///< of what stands as left
  std::string remarks;
  std::string source;            ///< "entered" or the name of the file it was imported from
  CalibrationId corrects = 0;    ///< the calibration whose place this one takes; 0: none
  std::string correctionReason;  ///< why, when it corrects one
  Moment recordedUtc;            ///< set by the store

  /// The readings that stand as left: asLeft, or asFound when nothing was done afterwards.
  const std::vector<Reading>& standingAsLeft() const { return asLeft.empty() ? asFound : asLeft; }
};

/// Over the readings that were not skipped: fail when any failed, pass when all passed, not judged when one
/// was not or when there is none.
Verdict overall(const std::vector<Reading>& readings);

/// The same visit with the same content? Ignores id, source, recordedUtc and everything computed.
bool sameContent(const Calibration& a, const Calibration& b);

std::string_view text(Phase phase);  // "as found", "as left"

}  // namespace spanwright
