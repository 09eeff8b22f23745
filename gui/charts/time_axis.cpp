// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/charts/time_axis.h"

#include <QDate>
#include <QLocale>
#include <QSignalBlocker>
#include <array>

#include "gui/words/days.h"

namespace spanwright {
namespace {

const QDate kEpoch(1970, 1, 1);
constexpr double kDaysPerYear = 365.25;

double dayOf(QDate date) {
  return static_cast<double>(kEpoch.daysTo(date));
}

int monthsPerLabel(double days, int most) {
  constexpr std::array<int, 9> kSteps{1, 2, 3, 6, 12, 24, 60, 120, 240};
  for (const int step : kSteps) {
    if (days / (kDaysPerYear / 12.0) / step <= most) {
      return step;
    }
  }
  return 600;
}

}  // namespace

double chartDay(Date date) {
  return dayOf(toQt(date));
}

double chartDay(Moment moment) {
  return chartDay(moment.date()) + static_cast<double>(moment.time_of_day().total_seconds()) / 86400.0;
}

double chartDay(Moment origin, double years) {
  return chartDay(origin) + years * kDaysPerYear;
}

QCategoryAxis* makeTimeAxis(double first, double last, int most) {
  auto* axis = new QCategoryAxis;
  axis->setObjectName(QLatin1String(kTimeAxisName));
  axis->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
  showTimes(*axis, first, last, most);
  return axis;
}

void showTimes(QCategoryAxis& axis, double first, double last, int most) {
  {
    // Each label would lay out the chart anew; the range does it once for all.
    const QSignalBlocker quiet(&axis);
    for (const QString& label : axis.categoriesLabels()) {
      axis.remove(label);
    }
    const int step = monthsPerLabel(last - first, most);
    const QDate begin = kEpoch.addDays(static_cast<qint64>(first));
    for (int month = (begin.year() * 12 + begin.month() - 1) / step * step;; month += step) {
      const QDate day(month / 12, month % 12 + 1, 1);
      if (dayOf(day) > last) {
        break;
      }
      if (dayOf(day) >= first) {
        axis.append(
            QLocale().toString(day, step % 12 == 0 ? QStringLiteral("yyyy") : QStringLiteral("MMM yyyy")),
            dayOf(day));
      }
    }
  }
  axis.setRange(first, last);
}

}  // namespace spanwright
