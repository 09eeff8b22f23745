// SPDX-License-Identifier: GPL-3.0-or-later
//
// A time axis whose labels stand on real calendar days: 1 January of years, or first days of months on short
// spans.
#pragma once

#include <QCategoryAxis>

#include "core/units/time.h"

namespace spanwright {

/// Days since 1970-01-01, with the part of the day; the x of every chart over time.
double chartDay(Moment moment);
double chartDay(Date date);
/// x of a time told in years of 365.25 days since `origin`.
double chartDay(Moment origin, double years);

/// The object name of such axes, by which a PlotView knows that it can be moved along them.
inline constexpr auto kTimeAxisName = "time";
/// Labels for [first, last] in chart days, at most about `most` of them.
QCategoryAxis* makeTimeAxis(double first, double last, int most = 10);
/// Moves such an axis to other times, with labels that suit them.
void showTimes(QCategoryAxis& axis, double first, double last, int most);

}  // namespace spanwright
