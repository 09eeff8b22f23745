// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_sites/generator/calendar.h"

#include "sample_sites/generator/text.h"

namespace spanwright::sample {

namespace {

using std::chrono::year_month_day;

int number(std::chrono::month month) {
  return static_cast<int>(static_cast<unsigned>(month));
}

int number(std::chrono::day day) {
  return static_cast<int>(static_cast<unsigned>(day));
}

std::string clock(int minute) {
  return padded(minute / 60, 2) + ":" + padded(minute % 60, 2);
}

}  // namespace

Day day(int year, unsigned month, unsigned dayOfMonth) {
  return Day(std::chrono::year(year) / std::chrono::month(month) / std::chrono::day(dayOfMonth));
}

int yearOf(Day day) {
  return static_cast<int>(year_month_day(day).year());
}

When when(int year, unsigned month, unsigned dayOfMonth, int hour, int minute) {
  return {day(year, month, dayOfMonth), hour * 60 + minute};
}

double years(When when) {
  const auto days = static_cast<double>((when.day - day(2018, 1, 1)).count());
  return (days + when.minute / 1440.0) / 365.25;
}

std::string isoDate(Day day) {
  const year_month_day date(day);
  return padded(static_cast<int>(date.year()), 4) + "-" + padded(number(date.month()), 2) + "-" +
         padded(number(date.day()), 2);
}

std::string isoTime(When when) {
  return isoDate(when.day) + "T" + clock(when.minute) + ":00";
}

std::string shortIso(When when) {
  return isoDate(when.day) + " " + clock(when.minute);
}

std::string germanTime(When when) {
  const year_month_day date(when.day);
  return padded(number(date.day()), 2) + "." + padded(number(date.month()), 2) + "." +
         padded(static_cast<int>(date.year()), 4) + " " + clock(when.minute);
}

bool isWorkingDay(Day day) {
  const std::chrono::weekday weekday(day);
  if (weekday == std::chrono::Saturday || weekday == std::chrono::Sunday) {
    return false;
  }
  const year_month_day date(day);
  const int monthAndDay = number(date.month()) * 100 + number(date.day());
  const bool winter = monthAndDay >= 1224 || monthAndDay <= 102;
  const bool summer = monthAndDay >= 801 && monthAndDay <= 815;
  return !winter && !summer;
}

Day workingDay(Day day) {
  while (!isWorkingDay(day)) {
    day += std::chrono::days(1);
  }
  return day;
}

}  // namespace spanwright::sample
