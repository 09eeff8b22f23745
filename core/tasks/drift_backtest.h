// SPDX-License-Identifier: GPL-3.0-or-later
//
// How good the forecasts are on the record's own past: each subject's last visit is hidden and forecast from
// the rest.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/store/store.h"
#include "core/tasks/drift_history.h"
#include "core/tasks/drift_item.h"

namespace spanwright {

/// One as-found value that was hidden, and what was said of it.
struct HiddenReading {
  std::string channel;
  Subject subject = Subject::channel;
  std::string point;
  Unit unit = Unit::none;
  Moment at;
  double found = 0.0;
  Prediction forecast;  ///< with the band, where there is one
  BandBasis basis = BandBasis::none;
  double lastValue = 0.0;     ///< naive: what was last read stays (as left, after an adjustment)
  double straightLine = 0.0;  ///< naive: one straight line through all readings, breaks or not
  double tolerance = 0.0;     ///< half the width of the limits, the unit of the mean errors below
};

struct Backtest {
  std::vector<HiddenReading> readings;
  int withBand = 0;
  int inBand = 0;  ///< of those with a band, inside its 95 %
  // Mean absolute errors in parts of the tolerance, of all readings.
  double forecastError = 0.0;
  double lastValueError = 0.0;
  double straightLineError = 0.0;
};

/// Hides the last as-found visit of every subject of every channel not retired and forecasts each of its
/// points from what came before, the whole site at once, so that like subjects do not know it either. Not
/// counted: points that had fewer than two readings left under the same setup and sensor, or no limits. The
/// record as it stood at the end of `today`.
Backtest backtestDrift(const Store& store, Date today);

/// driftReport over the whole site (core/tasks/status.h) with each subject's visits as `edit` leaves them.
using VisitEdit = std::function<void(const std::string& channel, Subject, std::vector<VisitMeans>&)>;
std::vector<DriftItem> driftReportOf(const Store& store, Date today, const VisitEdit& edit);

}  // namespace spanwright
