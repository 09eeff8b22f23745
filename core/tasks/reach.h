// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reach of a bad standard: which calibrations rest on it since it was last known good, and what becomes of
// them with the error found at its own recalibration (ISO/IEC 17025:2017, 6.4.9 asks for the effect of
// equipment found defective on earlier results to be examined; how is left open, so the rules below are
// common practice, no source).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/found.h"
#include "core/record/proposal.h"
#include "core/store/store.h"

namespace spanwright {

/// Certificates that can be the last good one, newest first: issued before `found.foundOn`, and not the one
/// that reports the finding.
std::vector<const StandardCertificate*> lastGoodCandidates(const Standard& standard,
                                                           const FoundErrors& found);

/// Why a certificate is taken for the last good one.
enum class LastGoodWhy {
  noneOlder,      ///< there is no candidate
  decided,        ///< a person decided it
  disagrees,      ///< the newest that does not show yet what was found
  allAgree,       ///< the newest that can be compared; none disagrees
  noneComparable  ///< the newest; none has a value in common with what was found
};
/// A clause.
std::string_view text(LastGoodWhy why);

struct LastGood {
  const StandardCertificate* certificate = nullptr;  ///< of the standard given
  LastGoodWhy why = LastGoodWhy::noneOlder;
};

/// The standard's last good certificate, or nullptr when there is none.
///
/// The newest of the candidates with which the finding disagrees is the last good one: the standard was then
/// not yet as it was found. A newer one that agrees with the finding already shows the fault (an as-found
/// certificate from before an adjustment, an interval whose certificate nobody looked at), so calibrations
/// before it are in doubt too. Disagreeing is a difference, at one of the certificate's values which the
/// finding reaches, of more than both expanded uncertainties in root sum of squares (E_n above 1, as in
/// ISO/IEC 17043 Annex B, from memory); an uncertainty the finding does not state counts as 0. When no
/// candidate disagrees, nothing has changed as far as certificates tell: the newest counts. One that has no
/// value in common with the finding says nothing and is passed over while there is another. A number in
/// `found.lastGood` decides instead; it must be a candidate (InputError otherwise).
LastGood lastGoodCertificate(const Standard& standard, const FoundErrors& found);

/// What is wrong with a finding in this unit: none of the standard's certificates can be compared with it, so
/// it is somebody else's, or the unit is wrong. Nothing when one can, or there is no certificate.
std::optional<Problem> unitFault(const Standard& standard, Unit unit);

/// One reading, recomputed. Errors and limits are in the reading's unit.
struct ReachedPoint {
  Phase phase = Phase::asFound;
  TestPoint test;
  std::string label;
  Unit unit = Unit::none;               ///< of the reading
  std::optional<double> standardValue;  ///< what the standard applied or measured; nothing: another one did
  Unit standardUnit = Unit::none;
  std::optional<double> certificateError;  ///< what the certificate of the day says of the standard there
  std::optional<double> foundError;        ///< what was found there
  bool beyondFound = false;                ///< up to 5 % beyond the found values: their nearer end was used
  bool notInFinding = false;               ///< the finding has no range for a value of it: left as it was
  double oldError = 0.0;
  std::optional<double> newError;  ///< nothing: cannot be told
  ErrorLimits limits;              ///< around the new expected value when there is one
  Verdict was = Verdict::notJudged;
  Verdict becomes = Verdict::notJudged;
  std::optional<double> fractionOfTolerance;  ///< of the new error; above 1 is outside
  std::string reason;                         ///< why it can no longer be judged, a clause; else empty
};

struct ReachedPhase {
  Verdict was = Verdict::notJudged;
  Verdict becomes = Verdict::notJudged;
  bool flips() const { return was != becomes; }
};

/// What is to be done about a calibration.
enum class ReachedThen {
  unchanged,   ///< its verdicts stand
  nothing,     ///< they change, and yet no visit is needed
  visitAgain,  ///< its channel
  cleared      ///< a later calibration makes a visit unnecessary
};

struct ReachedCalibration {
  CalibrationId id = 0;
  std::string channel, place;
  Subject subject = Subject::channel;
  Moment performed;
  std::string certificate;  ///< of the standard, as the calibration names it
  ReachedPhase asFound;
  ReachedPhase asLeft;               ///< what stands as left: the as-found readings when nothing was done
  bool leftApart = false;            ///< there are as-left readings of their own
  std::vector<ReachedPoint> points;  ///< skipped ones left out
  std::string reason;                ///< why none of it can be judged again; else empty
  bool needsVisit = false;
  std::optional<CalibrationId> clearedBy;  ///< the later calibration that makes a visit unnecessary
  bool flips() const { return asFound.flips() || asLeft.flips(); }
  ReachedThen then() const;
  /// The point whose new error is nearest to its limit or furthest beyond; nullptr when none has one.
  const ReachedPoint* worst() const;
};

/// A channel to visit again.
struct ReachVisit {
  std::string place, channel;
  Subject subject = Subject::channel;
  std::vector<CalibrationId> calibrations;  ///< that are in doubt, oldest first
};

struct Reach {
  std::string standard;
  std::optional<StandardCertificate> lastGood;
  LastGoodWhy why = LastGoodWhy::noneOlder;
  std::vector<std::string> passedOver;  ///< numbers of newer certificates that already show what was found
  bool agrees = false;                  ///< the finding agrees with the certificates: nothing has changed
  std::optional<Date> since;            ///< validity start of the last good certificate; nothing: all
  std::vector<ReachedCalibration> calibrations;  ///< oldest first
  std::vector<ReachVisit> visits;                ///< in walking order
  /// How many calibrations change a verdict.
  std::size_t flips() const;
  /// How many points lie beyond the found values, and how many the finding says nothing of.
  std::size_t beyondFound() const;
  std::size_t notInFinding() const;
};

/// Every calibration made with the standard from the validity start of its last good certificate to
/// `found.foundOn`, that day included, and later ones still made under a certificate from before the finding.
///
/// Recomputed: a visit takes what a standard shows as true; the error its certificate states is never
/// corrected for (judge() has no such step). So the whole error found is taken off what the standard applied
/// or measured, not its difference from the certificate: true value = indication - error, the error linear
/// between the found values and brought through the sensor function where they are of another quantity. The
/// expected reading, error, limits and verdict by the plan's decision rule follow anew. Where the finding
/// states uncertainties it takes the certificate's place in the budget.
/// A value is the standard's when it is the first named whose certificate of the day reaches it, or failing
/// that has its unit. Other values stay as they are. A value further beyond the found values than 5 % of
/// their width is not extrapolated: the point can no longer be judged and says so.
///
/// A visit is needed when what stood as left no longer passes or can no longer be judged, unless a later
/// calibration of the same subject passed that this finding does not reach, or the channel is retired.
/// InputError when there is no such standard, or nothing says what it was found to be. Stops early, with what
/// it has, when `progress` says so.
Reach reachOfStandard(const Store& store, std::string_view serial, const FoundErrors& found,
                      const Progress& progress = {});

/// The channels to visit again as a CSV table (RFC 4180) under a line of headings, in walking order.
std::string visitsCsv(const Reach& reach);

}  // namespace spanwright
