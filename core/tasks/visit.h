// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entering a visit: the sheet to fill, each value judged as it comes, the whole checked and stored.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/metrology/evaluate.h"
#include "core/record/calibration.h"
#include "core/record/problem.h"
#include "core/record/proposal.h"
#include "core/record/register.h"
#include "core/store/store.h"

namespace spanwright {

/// Everything needed to fill in one visit's sheet. Holds pointers into the register it was opened from: keep
/// that alive.
struct VisitSheet {
  const Register* site = nullptr;
  const Channel* channel = nullptr;
  Subject subject = Subject::channel;
  const SetupVersion* setup = nullptr;
  const Sensor* sensor = nullptr;  ///< nullptr for subject channel with nothing fitted
  const Plan* plan = nullptr;
  Moment when;
  PointModelPtr model;
  std::vector<TestPoint> points;
  /// degC, of the visit (Conditions); set after opening. mV of a couple become temperatures by it.
  std::optional<double> referenceJunction;

  Celsius junction() const { return {referenceJunction.value_or(0.0)}; }
  /// The couple whose mV are fed or measured on this sheet, see coupleInMillivolts.
  std::optional<ThermocoupleType> couple() const;
};

/// The sheet for this channel and subject at `when`: the setup then in force, the sensor then fitted, the
/// routine's plan. A Problem says what is missing.
std::variant<VisitSheet, Problem> openSheet(const Register& site, std::string_view channel, Subject subject,
                                            Moment when);

/// Standards of the register with a certificate valid on the day that covers `unit` (or another unit of the
/// same quantity), by serial.
std::vector<const Standard*> standardsFor(const Register& site, Date day, Unit unit);
/// Those that can be used for something on this sheet: for what is applied, or for what is observed at
/// outputs and at sensors. A thermocouple or RTD input takes a standard of temperature (simulated) as well as
/// one of mV or ohm.
std::vector<const Standard*> standardsFor(const VisitSheet& sheet);

/// One line of the sheet judged: the reading, or what was not understood in which of the two texts.
struct TypedProblem {
  bool inApplied = false;
  std::string what;  ///< a clause: "\"4..2\" is not a number"
  std::string todo;  ///< a clause: "type one number, with its unit if you like"
};
/// Judges what was typed for one point. Units typed are understood and converted to the point's own; the
/// uncertainty is filled in from the standards when given and when one of them covers the value (then k and
/// expanded uncertainty at 95.45 %, GUM). The verdict is that of the plan's decision rule; without
/// uncertainty a guarded rule judges only what is outside its limits. A value applied more than 5 % of span
/// from the point's nominal is refused: it belongs to another point. mV of a couple are taken at the sheet's
/// reference junction. Repeatability needs the other runs and
/// is added by checkVisit only.
std::variant<Reading, TypedProblem> judge(const VisitSheet& sheet, const TestPoint& point,
                                          const TypedReading& typed,
                                          const std::vector<const Standard*>& standards,
                                          DecimalSign sign = DecimalSign::either);

/// The verdict by the plan's decision rule, from the reading's error, limits and uncertainty as they now
/// stand; skipped readings are left alone. judge() and checkVisit() have done it.
void judgeByRule(const VisitSheet& sheet, Reading& reading);

struct CheckedVisit {
  std::optional<Calibration> calibration;  ///< nothing when there are problems
  std::vector<Problem> problems;
};
/// Checks a proposed visit against the register and computes everything; reports every problem at once. `now`
/// bounds dates (a later date is refused). An entered visit must give every point of the sheet a reading or a
/// reason, must have the plan's cautions confirmed, and must name standards whose certificates reach every
/// value that was applied or should have been observed. (What was observed instead may lie beyond; such a
/// reading has no uncertainty.) `historic`: an imported history may leave points out, needs no confirmed
/// cautions, may name no standard or one that does not reach a value (there is then no uncertainty), and may
/// concern a channel since retired. Readings without sequence and key go by their applied value, and without
/// that by the order of the plan. As-left readings need as-found ones before them (or a reason for each that
/// is missing); an adjustment or repair needs as-left readings. A reference junction goes with couples only
/// (see junctionFault); while it is refused, readings are not looked at.
CheckedVisit checkVisit(const Register& site, const ProposedVisit& visit, Moment now, bool historic);

/// Checks and stores; InputError with every problem (also: the same visit is already there, the calibration
/// it corrects takes no correction). Removes `draft` in the same transaction when given. A correction takes
/// the place of what it corrects at once when nobody's signature stands under that, else when it is signed
/// itself.
Calibration enterVisit(Store& store, const ProposedVisit& visit, Moment now,
                       std::optional<std::int64_t> draft = std::nullopt);

/// The proposed visit that a draft amounts to.
ProposedVisit visitFromDraft(const Draft& draft);

}  // namespace spanwright
