// SPDX-License-Identifier: GPL-3.0-or-later
//
// All channels beside each other: which one leaves its tolerance first, and which one has used most of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/record/register.h"
#include "core/tasks/drift_item.h"

namespace spanwright {

/// One subject of one channel, by the point of it that is worst in the order asked for.
struct FleetRow {
  std::string channel, place, title;
  Subject subject = Subject::channel;
  std::string point;  ///< as in DriftItem
  std::optional<double> pointPercent;
  Unit unit = Unit::none;
  std::optional<double> ratePerYear;  ///< the band's, else the fit's
  /// Share of the tolerance that the line has used on the day: its error over the limit on its side, 1 at the
  /// limit. Nothing when there is no line; infinite outside on a side that allows no error at all.
  std::optional<double> used;
  std::optional<double> usedByBand;   ///< likewise the edge of the 95 % band that has used more
  std::optional<double> inTolerance;  ///< the lowest probability over the points
  std::optional<Date> bandOutOn, lineOutOn;
  std::optional<long> daysToForecast;  ///< from the day to bandOutOn; 0 when the band is out already
  BandBasis basis = BandBasis::none;
  int points = 0;                      ///< of the subject that were looked at
  std::vector<DriftFinding> findings;  ///< of all its points, most certain first
};

enum class FleetOrder {
  forecast,       ///< days to the forecast, then share of tolerance used
  toleranceUsed,  ///< by the line
  findings        ///< those with findings first, most certain first, then by forecast
};

/// One row for each subject with a point in `items` (of driftReport for that day), worst first; ties in the
/// order of the items. The point shown is the worst one in that order, so it may differ between orders.
std::vector<FleetRow> fleetRanking(const std::vector<DriftItem>& items, const Register& site, Date day,
                                   FleetOrder order);

/// For each subject the point whose band leaves its tolerance first, the soonest subject first; at most so
/// many.
std::vector<DriftItem> firstToLeave(const std::vector<DriftItem>& items, std::size_t most);

/// |error| over the limit on its side; see PointResult::fractionOfTolerance.
double shareOfTolerance(const ErrorLimits& limits, double error);

}  // namespace spanwright
