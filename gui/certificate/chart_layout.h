// SPDX-License-Identifier: GPL-3.0-or-later
//
// The error chart: errors against their limits, told apart by shape so that it reads on any printer.
#pragma once

#include <vector>

#include "core/certificate/certificate.h"
#include "gui/certificate/page_flow.h"

namespace spanwright {

/// Where an axis has its ticks; from ticks.front() to ticks.back().
struct Axis {
  std::vector<double> ticks;
  int decimals = 0;
};
/// An axis of about `wanted` round steps that covers low..high.
Axis roundAxis(double low, double high, int wanted);

/// Places the chart with its heading; nothing for a chart without marks.
void placeChart(PageFlow& flow, const CertificateChart& chart);

}  // namespace spanwright
