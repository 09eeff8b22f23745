// SPDX-License-Identifier: GPL-3.0-or-later
//
// A standard's own control chart: its error at one value over its certificates, with the limits core worked
// out.
#pragma once

#include <QChart>

#include "core/tasks/standards.h"
#include "gui/charts/chart_look.h"
#include "gui/charts/plot_view.h"

namespace spanwright {

struct StandardChart {
  QChart* chart = nullptr;  ///< the caller takes it
  std::vector<PlotNote> notes;
  QString spoken;
};

/// `value` must have an error. Without limits (ChartGap) the errors alone are drawn, and `spoken` says why.
StandardChart makeStandardChart(const Standard& standard, const ChartedValue& value, const ChartLook& look);
/// Some error, change or average of it lies beyond its limits.
bool isBeyond(const ChartedValue& value);
/// "20 mA"
QString valueWord(const ChartedValue& value);

}  // namespace spanwright
