// SPDX-License-Identifier: GPL-3.0-or-later
//
// How values that are no plain numbers or texts are written in a record: enums as words, moments as ISO 8601,
// setups, sensor ranges, test schemes and tolerances as JSON. These words and keys are part of the record's
// form: they stay as they are even when what people are shown changes.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/metrology/evaluate.h"
#include "core/metrology/test_points.h"
#include "core/metrology/tolerance.h"
#include "core/record/calibration.h"
#include "core/record/register.h"
#include "core/signal/setup.h"
#include "core/store/sqlite_connection.h"

namespace spanwright {

// Enums. From a row: StorageError (damaged) for a word not known.
std::string_view stored(Phase value);
std::string_view stored(Subject value);
std::string_view stored(Verdict value);
std::string_view stored(PointRole value);
std::string_view stored(Direction value);
std::string_view stored(AlarmLevel value);
std::string_view stored(Unit value);

Phase phaseAt(const Query& row, int column);
Subject subjectAt(const Query& row, int column);
Verdict verdictAt(const Query& row, int column);
PointRole pointRoleAt(const Query& row, int column);
Direction directionAt(const Query& row, int column);
std::optional<AlarmLevel> alarmLevelAt(const Query& row, int column);  ///< NULL is nothing
Unit unitAt(const Query& row, int column);

// Days and moments; a record keeps whole seconds. "Not a date" is NULL.
std::optional<std::string> stored(Date value);
std::optional<std::string> stored(Moment value);
std::string storedUtc(Moment value);  ///< with a trailing Z
Moment wholeSeconds(Moment value);
Date dateAt(const Query& row, int column);
Moment momentAt(const Query& row, int column);
Moment utcAt(const Query& row, int column);

// JSON. InputError when a text is not UTF-8.
struct StoredSetup {
  std::string_view kind;
  std::string parameters;
};
StoredSetup storedSetup(const SetupKind& setup);
std::string storedJson(const SensorRange& range);
std::string storedJson(const TestScheme& scheme);
std::string storedJson(const Tolerance& tolerance);
/// "simple", or for a guarded rule JSON. InputError for a rule no plan can have.
std::string storedRule(const DecisionRule& rule);
std::string storedJson(const std::vector<std::string>& lines);
std::string storedJson(const std::vector<int>& numbers);
std::string storedJson(const std::vector<Role>& roles);

SetupKind setupAt(const Query& row, int kindColumn, int parametersColumn);
SensorRange sensorRangeAt(const Query& row, int column);
TestScheme testSchemeAt(const Query& row, int column);
Tolerance toleranceAt(const Query& row, int column);
DecisionRule decisionRuleAt(const Query& row, int column);
std::vector<std::string> linesAt(const Query& row, int column);
std::vector<int> numbersAt(const Query& row, int column);
std::vector<Role> rolesAt(const Query& row, int column);

}  // namespace spanwright
