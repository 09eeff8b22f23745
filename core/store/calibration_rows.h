// SPDX-License-Identifier: GPL-3.0-or-later
//
// Calibrations as rows. Private to the store.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/record/calibration.h"
#include "core/store/register_rows.h"
#include "core/store/store.h"

namespace spanwright {

/// A calibration c that is neither withdrawn nor superseded, as a part of a condition.
inline constexpr std::string_view kCounts =
    "NOT EXISTS (SELECT 1 FROM life_event l WHERE l.site = c.site AND l.calibration = c.id AND l.act IN "
    "('withdrawn', 'superseded'))";

/// Writes readings and standards, then the calibration's own row, which closes it. Returns its id.
/// InputError when it names what the register has not, or holds what a record cannot keep.
CalibrationId writeCalibration(Connection& connection, std::string_view site, const Keys& keys,
                               const Calibration& calibration, Moment recordedUtc);

/// With readings and standards; stops when `visit` says false. All of them as the record was at the first.
/// `filter` goes on after "WHERE c.site = $1 AND", with $2 for `value`, and orders the rows.
void readCalibrations(Connection& connection, std::string_view site, std::string_view filter,
                      std::int64_t value, const std::function<bool(Calibration&&)>& visit);

std::vector<CalibrationSummary> readSummaries(Connection& connection, std::string_view site,
                                              std::int64_t channel);
std::vector<CalibrationSummary> readInState(Connection& connection, std::string_view site, LifeState state);
std::vector<CalibrationSummary> readLatestPassing(Connection& connection, std::string_view site);

}  // namespace spanwright
