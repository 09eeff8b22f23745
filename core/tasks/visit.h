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
};

/// The sheet for this channel and subject at `when`: the setup then in force, the sensor then fitted, the
/// routine's plan. A Problem says what is missing.
std::variant<VisitSheet, Problem> openSheet(const Register& site, std::string_view channel, Subject subject,
                                            Moment when);

/// Standards of the register with a certificate valid on the day that covers `unit`, by serial.
std::vector<const Standard*> standardsFor(const Register& site, Date day, Unit unit);

/// One line of the sheet judged: the reading, or what was not understood in which of the two texts.
struct TypedProblem {
  bool inApplied = false;
  std::string what;  ///< a clause: "\"4..2\" is not a number"
};
/// Judges what was typed for one point. Units typed are understood and converted to the point's own; the
/// uncertainty is filled in from the standards when given.
std::variant<Reading, TypedProblem> judge(const VisitSheet& sheet, const TestPoint& point,
                                          const TypedReading& typed,
                                          const std::vector<const Standard*>& standards,
                                          DecimalSign sign = DecimalSign::either);

struct CheckedVisit {
  std::optional<Calibration> calibration;  ///< nothing when there are problems
  std::vector<Problem> problems;
};
/// Checks a proposed visit against the register and computes everything. `now` bounds dates (a later date is
/// refused). `historic`: an imported history may leave points out and needs no confirmed cautions; an entered
/// visit must give every point of the sheet a reading or a reason.
CheckedVisit checkVisit(const Register& site, const ProposedVisit& visit, Moment now, bool historic);

/// Checks and stores; InputError with every problem (also: the same visit is already there). Removes `draft`
/// in the same transaction when given.
Calibration enterVisit(Store& store, const ProposedVisit& visit, Moment now,
                       std::optional<std::int64_t> draft = std::nullopt);

/// The proposed visit that a draft amounts to.
ProposedVisit visitFromDraft(const Draft& draft);

}  // namespace spanwright
