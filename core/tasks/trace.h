// SPDX-License-Identifier: GPL-3.0-or-later
//
// Traceability both ways: what a calibration rests on, down to the certificates of its standards, with its
// numbers recomputed; and what rests on a standard (ISO/IEC 17025:2017, 6.5.1 and 7.5.1).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/metrology/uncertainty.h"
#include "core/store/store.h"

namespace spanwright {

/// What a standard's certificate says at a value that the standard vouched for.
struct TracedValue {
  bool applied = false;  ///< else measured
  double value = 0.0;    ///< as in the reading
  Unit unit = Unit::none;
  std::string standard, certificate;  ///< empty: no named standard's certificate reaches it
  double at = 0.0;                    ///< the same on the certificate's range, in its unit
  Unit certificateUnit = Unit::none;
  double error = 0.0;        ///< there, in the certificate's unit; not corrected for
  double uncertainty = 0.0;  ///< there, expanded
  double coverageFactor = 2.0;
};

struct TracedReading {
  Phase phase = Phase::asFound;
  Reading reading;                   ///< as stored
  std::vector<TracedValue> values;   ///< empty for a skipped one
  std::optional<Budget> budget;      ///< recomputed; nothing where there is none
  std::vector<std::string> differs;  ///< clauses: what the recomputation from what was typed gives otherwise
  std::optional<double>
      leftBefore;  ///< error that the visit before left at this point, in the reading's unit
};

struct TracedStandard {
  UsedStandard used;                               ///< as the calibration names them
  std::string description;                         ///< maker, model; empty when not in the register
  std::optional<StandardCertificate> certificate;  ///< the one named; nothing when not in the register
  bool validOnDay = false;
};

struct CalibrationTrace {
  Calibration calibration;
  std::string title, place;           ///< of the channel
  std::optional<SetupVersion> setup;  ///< it was made under
  std::optional<Moment> setupUntil;   ///< when the next one came into force; nothing: still
  std::optional<Sensor> sensor;       ///< it names, or that was fitted then
  std::optional<Fitting> fitting;     ///< of that sensor on that day
  std::optional<Plan> plan;           ///< in the calibration's revision
  std::string personName;             ///< empty when not in the register
  std::vector<TracedStandard> standards;
  std::vector<TracedReading> readings;  ///< as found, then as left
  std::optional<IssuedCertificate> issued;
  std::optional<CalibrationId> before;  ///< the visit before of the same subject under the same setup
  /// Links of the chain that are missing or were not valid on the day, each a clause.
  std::vector<std::string> gaps;
  /// Of the visit as a whole; those of a reading stand with it.
  std::vector<std::string> differs;
  /// Do all stored numbers agree with the recomputed ones? To 1e-9 of their size.
  bool agrees() const;
};
/// InputError when there is no such calibration.
CalibrationTrace traceCalibration(const Store& store, CalibrationId id);

/// One calibration made with a standard.
struct UseOfStandard {
  CalibrationId calibration = 0;
  std::string channel;
  Subject subject = Subject::channel;
  Moment performed;
  Verdict found = Verdict::notJudged;
  Verdict left = Verdict::notJudged;
  std::string certificate;  ///< the one it names
  bool validOnDay = false;  ///< it is in the register and was valid
};
struct StandardTrace {
  Standard standard;
  std::vector<UseOfStandard> uses;  ///< oldest first
  std::vector<std::string> gaps;  ///< uses without a valid certificate, and certificates without traceability
};
/// InputError when there is no such standard.
StandardTrace traceStandard(const Store& store, std::string_view serial);

}  // namespace spanwright
