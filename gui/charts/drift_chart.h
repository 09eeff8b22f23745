// SPDX-License-Identifier: GPL-3.0-or-later
//
// Error over time at one test point, drawn from what core/drift computed. Nothing is fitted or joined here.
//
// Series by object name, so that a chart can be checked by its series: "segment-0" ... (line through one
// segment's readings), "found" and "left" (markers), "arrow-1" ... (from what was found to what was left,
// where an adjustment or a repair opens segment 1 ...), "limit-low", "limit-high", "fit-0" ... (fitted line
// of each fitted segment; that of the last one is the line of the forecast), "band" (area), "break-1" ...
// (vertical line at the start of segment 1 ...), "step" (area between the visits a step lies between),
// "forecast" (vertical line).
#pragma once

#include <QChart>
#include <vector>

#include "core/tasks/status.h"
#include "gui/charts/chart_look.h"
#include "gui/charts/plot_view.h"

namespace spanwright {

struct DriftChart {
  QChart* chart = nullptr;      ///< the caller takes it
  std::vector<PlotNote> notes;  ///< reasons of breaks, the forecast day
  QString spoken;               ///< the chart in one sentence
};

/// A break after the last reading, which no segment opens yet: a setup or sensor that has no calibration of
/// its own.
struct LaterBreak {
  Moment at;
  BreakCause cause = BreakCause::newSetup;
};
/// `item` must hold at least one segment. Later breaks are drawn as "later-break-0" ...
DriftChart makeDriftChart(const DriftItem& item, Date today, const ChartLook& look,
                          const std::vector<LaterBreak>& later = {});

}  // namespace spanwright
