// SPDX-License-Identifier: GPL-3.0-or-later
//
// Core's days and moments as Qt's, for boxes in which they are chosen, and back.
#pragma once

#include <QDateTime>

#include "core/units/time.h"

namespace spanwright {

/// Of a day that is one ("not a date" has no counterpart).
inline QDate toQt(Date day) {
  const auto parts = day.year_month_day();
  return {parts.year, parts.month, parts.day};
}
inline QDateTime toQt(Moment moment) {
  return {toQt(moment.date()), QTime(0, 0).addSecs(static_cast<int>(moment.time_of_day().total_seconds()))};
}
inline Date fromQt(QDate day) {
  return {static_cast<unsigned short>(day.year()), static_cast<unsigned short>(day.month()),
          static_cast<unsigned short>(day.day())};
}

}  // namespace spanwright
