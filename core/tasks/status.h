// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is due, what drifts, what is known of a channel. Loads from the store and computes; writes nothing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/drift/fit.h"
#include "core/drift/segments.h"
#include "core/record/calibration.h"
#include "core/record/register.h"
#include "core/schedule/due.h"
#include "core/store/store.h"

namespace spanwright {

struct DueItem {
  std::string channel, place;
  Subject subject = Subject::channel;
  Due due;
  int intervalDays = 0;
  std::string reason;  ///< in words: "365 days after the passing as-left of 2025-11-20"
};
/// Every routine of every channel not retired, most pressing first.
std::vector<DueItem> dueList(const Store& store, Date today);

/// Drift of one subject at one test point under the setup and sensor in force last.
struct DriftItem {
  std::string channel;
  Subject subject = Subject::channel;
  std::string point;                   ///< pointKey
  std::optional<double> pointPercent;  ///< nothing for switch, alarm and state points
  Unit unit = Unit::none;
  double originYears = 0.0;       ///< unused by readers; times below are years since `origin`
  Moment origin;                  ///< time 0 of segments and fit
  std::vector<Segment> segments;  ///< all of them, for the chart
  std::vector<Segment> fitted;    ///< those under the setup and sensor in force last, which the fit used
  int calibrations = 0;
  std::optional<DriftFit> fit;
  std::optional<double> pooledRate;  ///< the rate drawn towards those of like subjects
  ErrorLimits limits;                ///< tolerance at this point
  std::optional<Date> bandOutOn;     ///< first day the 95 % band leaves the limits, within ten years
  std::optional<Date> lineOutOn;
};
/// For one channel, or all when `channel` is empty. Needs histories with readings: reads the whole record
/// once.
std::vector<DriftItem> driftReport(const Store& store, std::string_view channel, Date today);

/// Worst of a channel's routines, for trees and lists. (`nothing` when it has no routine.)
std::optional<DueState> channelState(const std::vector<DueItem>& due, std::string_view channel);

}  // namespace spanwright
