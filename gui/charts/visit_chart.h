// SPDX-License-Identifier: GPL-3.0-or-later
//
// Error over input for one visit being typed or for several of the past. Points of value by percent of span;
// where a sheet has other points (levels, states), by their place in the sheet.
//
// Series by object name: "found-0", "left-0" ... (one visit each), "predicted", "limit-low", "limit-high".
#pragma once

#include <QChart>
#include <vector>

#include "core/record/calibration.h"
#include "gui/charts/chart_look.h"

namespace spanwright {

struct VisitLine {
  QString name;                       ///< for the legend; the phase is added
  std::vector<const Reading*> found;  ///< in the order done
  std::vector<const Reading*> left;
};

/// An error not yet there: what adjusting would leave. Drawn hollow.
struct PredictedMark {
  double x = 0.0;  ///< see visitChartX
  double error = 0.0;
};

/// The first of `visits` gives the limits and is drawn strongest. `points` are the sheet's, for labels.
QChart* makeVisitChart(const QString& title, const std::vector<TestPoint>& points,
                       const std::vector<VisitLine>& visits,
                       const std::vector<std::pair<double, ErrorLimits>>& limits, const ChartLook& look,
                       const std::vector<PredictedMark>& predicted = {});

/// x of a point in that chart.
double visitChartX(const std::vector<TestPoint>& points, const TestPoint& point);

}  // namespace spanwright
