// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is known of the drift of one subject at one test point: all that a table, a chart or a list needs of
// it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/drift/band.h"
#include "core/drift/fit.h"
#include "core/drift/growth.h"
#include "core/drift/influence.h"
#include "core/drift/segments.h"
#include "core/record/calibration.h"
#include "core/record/register.h"
#include "core/units/time.h"

namespace spanwright {

/// Where the band and with it the forecast come from.
enum class BandBasis {
  none,         ///< too few readings, and no group to lean on
  own,          ///< the point's own fit
  likeSubjects  ///< its own readings together with those of like subjects (core/drift/like_subjects.h)
};
std::string_view text(BandBasis basis);  ///< "none", "own readings", "like subjects"

enum class FindingKind {
  step,            ///< the error jumped between two visits and nobody wrote down why
  intermittent,    ///< scatters far more than like subjects do
  growingScatter,  ///< the error wanders: the longer ago the last visit, the less is known
  fastDrift,       ///< drifts far faster than like subjects do
  robustDisagrees  ///< the robust rate is another: single readings decide the fitted one
};
std::string_view text(FindingKind kind);  ///< "step", "intermittent", "growing scatter" ...

/// A quiet point, of which none of these is true, is given a finding of each kind in one case of 5000 at
/// most: of each kind, a site of 300 points is wrongly pointed at about once in sixteen reports. Measured by
/// tests/bench/drift_bench.
/// Steps and intermittent contacts are looked for from four degrees of freedom on, where that was measured to
/// hold.
inline constexpr double kFalseAlarm = 2e-4;

struct DriftFinding {
  FindingKind kind = FindingKind::step;
  std::optional<Date> after, before;  ///< steps: the visits between which it most likely happened
  double amount = 0.0;  ///< step: the jump in the item's unit; intermittent: scatter over that of like
                        ///< subjects; fast drift: rate less the group's mean, per year; growing scatter: sd
                        ///< gained in a year; robust: robust less fitted rate
  double pValue = 0.0;  ///< chance of as much in a quiet point
  std::string words;    ///< a sentence
};

/// The group a point belongs to: like subjects at the same point. Figures in the item's unit.
struct DriftGroup {
  std::string
      name;      ///< subject, kind, type and range family, point; and the area when the group is of one area
  int size = 0;  ///< members that tell a rate, this one included when it does
  bool tooSmall = true;  ///< to say anything: each is on its own
  double rateMean = 0.0;
  double rateSpread = 0.0;               ///< standard deviation of rates between its members
  double scatter = 0.0;                  ///< of a reading
  double scatterDegreesOfFreedom = 0.0;  ///< with which it counts beside a member's own; infinite: alike
};

/// A loop and the parts it is made of, at the same point, in the unit of this item, per year.
struct DriftParts {
  struct Rate {
    double rate = 0.0;
    double standardError = 0.0;
  };
  std::optional<Rate> channel, sensor, loop;  ///< where the record holds them
  /// Of three, the loop less the sum of the others, which ought to be nothing; of two, the third that follows
  /// from them (`follows` says which).
  Rate difference;
  std::optional<Subject> follows;
  std::optional<double>
      pValue;  ///< of three: chance of so large a difference when the parts make up the loop
};

/// Drift of one subject at one test point under the setup and sensor in force last.
struct DriftItem {
  std::string channel;
  Subject subject = Subject::channel;
  std::string point;                   ///< pointKey
  std::optional<double> pointPercent;  ///< nothing for switch, alarm and state points
  Unit unit = Unit::none;              ///< of errors and limits; rates are in it per year
  Moment origin;                       ///< time 0 of segments, fit and band: the first reading's moment
  std::vector<Segment> segments;       ///< all of them, for the chart
  std::vector<Segment> fitted;         ///< those under the setup and sensor in force last, which the fit used
  int calibrations = 0;                ///< visits with a reading in `fitted`
  int otherUnitVisits = 0;  ///< earlier visits not in `segments`: read in a unit that cannot become `unit`
  int otherPlanVisits = 0;  ///< visits by a plan without a point of the present one: read off the straight
                            ///< line (zero and span) through their errors
  std::optional<DriftFit> fit;              ///< of its own readings alone
  std::optional<RateTest> rateTest;         ///< significance of that rate
  std::optional<PointInfluence> influence;  ///< the reading that decides most of that rate
  std::optional<ScatterGrowth> growth;      ///< whether scatter grows with time; widens the band when it does

  std::optional<DriftBand> band;  ///< what the next reading will be; for charts: predictAt
  BandBasis basis = BandBasis::none;
  std::optional<double> pooledRate;  ///< the rate drawn towards those of like subjects
  std::optional<double> pooledRateStandardError;
  int likeSubjects = 0;  ///< how many rates were pooled, this one included; 0 when none were
  DriftGroup group;

  ErrorLimits limits;  ///< tolerance at this point, by the plan in force; as last judged when the plan in
                       ///< force no longer has the point
  std::optional<double>
      inTolerance;  ///< probability that a reading taken on the day asked is within `limits`
  std::optional<Date>
      bandOutOn;  ///< first day from then on which the 95 % band leaves the limits, within ten years
  std::optional<Date> lineOutOn;       ///< likewise the line itself; without a band that of the fit
  std::vector<DriftFinding> findings;  ///< most certain first
  std::optional<DriftParts> parts;  ///< for a loop and its parts, where the record holds at least two of them
};

/// The line and its 95 % band at a moment, from the first fitted reading on as far as a chart goes; nothing
/// when neither band nor fit is there. Without a band of its own low and high are missing.
std::optional<Prediction> predictAt(const DriftItem& item, Moment at, double confidence = 0.95);
/// The same at `years` after the item's origin.
std::optional<Prediction> predictAt(const DriftItem& item, double years, double confidence = 0.95);
/// Probability that a reading taken at a moment lies within the item's limits; nothing without band or
/// limits.
std::optional<double> probabilityInTolerance(const DriftItem& item, Moment at);
/// The moment of a reading or of anything else told in years since the item's origin.
Moment momentOf(const DriftItem& item, double years);
/// The whole history up to now in the words of the trade, one sentence; "" when there is nothing to say:
/// which basis the band has and how large the group is, or why there is none.
std::string basisSentence(const DriftItem& item);

}  // namespace spanwright
