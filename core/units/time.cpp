// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/time.h"

#include <algorithm>
#include <string>

#include "core/units/text.h"

namespace spanwright {

namespace {

using boost::gregorian::gregorian_calendar;
using boost::posix_time::time_duration;

// The years Boost's gregorian date holds.
constexpr int kFirstYear = 1400;
constexpr int kLastYear = 9999;

/// Exactly `count` digits at the front of `text`, taken off it.
std::optional<int> takeDigits(std::string_view& text, std::size_t count) {
  if (text.size() < count)
    return std::nullopt;
  int value = 0;
  for (const char c : text.substr(0, count)) {
    if (c < '0' || c > '9')
      return std::nullopt;
    value = value * 10 + (c - '0');
  }
  text.remove_prefix(count);
  return value;
}

bool takeChar(std::string_view& text, char wanted) {
  if (!text.starts_with(wanted))
    return false;
  text.remove_prefix(1);
  return true;
}

unsigned short daysInMonth(int year, int month) {
  return gregorian_calendar::end_of_month_day(static_cast<unsigned short>(year),
                                              static_cast<unsigned short>(month));
}

Date makeDate(int year, int month, int day) {
  return {static_cast<unsigned short>(year), static_cast<unsigned short>(month),
          static_cast<unsigned short>(day)};
}

/// A date at the front of `text`, taken off it. Written by hand because Boost's parsers accept rests and
/// throw.
std::optional<Date> takeDate(std::string_view& text) {
  const auto year = takeDigits(text, 4);
  if (!year || !takeChar(text, '-'))
    return std::nullopt;
  const auto month = takeDigits(text, 2);
  if (!month || !takeChar(text, '-'))
    return std::nullopt;
  const auto day = takeDigits(text, 2);
  if (!day || *year < kFirstYear || *year > kLastYear || *month < 1 || *month > 12)
    return std::nullopt;
  if (*day < 1 || *day > daysInMonth(*year, *month))
    return std::nullopt;
  return makeDate(*year, *month, *day);
}

std::string padded(long long value, std::size_t width) {
  const std::string digits = std::to_string(value);
  return digits.size() < width ? std::string(width - digits.size(), '0') + digits : digits;
}

class SystemClock : public Clock {
 public:
  Moment localNow() const override { return boost::posix_time::second_clock::local_time(); }
  Moment utcNow() const override { return boost::posix_time::second_clock::universal_time(); }
};

}  // namespace

std::optional<Date> parseDate(std::string_view text) {
  text = trimmed(text);
  const auto date = takeDate(text);
  return text.empty() ? date : std::nullopt;
}

std::optional<Moment> parseMoment(std::string_view text) {
  text = trimmed(text);
  const auto date = takeDate(text);
  if (!date)
    return std::nullopt;
  if (text.empty())
    return Moment(*date);
  if (!takeChar(text, 'T') && !takeChar(text, ' '))
    return std::nullopt;
  const auto hour = takeDigits(text, 2);
  if (!hour || !takeChar(text, ':'))
    return std::nullopt;
  const auto minute = takeDigits(text, 2);
  std::optional<int> second = 0;
  if (takeChar(text, ':'))
    second = takeDigits(text, 2);
  if (!minute || !second || !text.empty() || *hour > 23 || *minute > 59 || *second > 59)
    return std::nullopt;
  return Moment(*date, time_duration(*hour, *minute, *second));
}

std::string formatDate(Date date) {
  if (date.is_special())
    return "";
  const auto ymd = date.year_month_day();
  return padded(ymd.year, 4) + '-' + padded(ymd.month, 2) + '-' + padded(ymd.day, 2);
}

std::string formatMoment(Moment moment) {
  if (moment.is_special())
    return "";
  const time_duration time = moment.time_of_day();
  return formatDate(moment.date()) + 'T' + padded(time.hours(), 2) + ':' + padded(time.minutes(), 2) + ':' +
         padded(time.seconds(), 2);
}

double yearsBetween(Moment from, Moment to) {
  const time_duration span = to - from;
  const double seconds =
      static_cast<double>(span.ticks()) / static_cast<double>(time_duration::ticks_per_second());
  return seconds / (365.25 * 86400.0);
}

Date addMonths(Date date, int months) {
  if (date.is_special())
    return date;
  const auto ymd = date.year_month_day();
  const long long index = static_cast<long long>(ymd.year) * 12 + (ymd.month - 1) + months;
  const long long year = index / 12;
  if (index < 0 || year < kFirstYear || year > kLastYear)
    return Date(boost::date_time::not_a_date_time);
  const int month = static_cast<int>(index % 12) + 1;
  const int day = std::min<int>(ymd.day, daysInMonth(static_cast<int>(year), month));
  return makeDate(static_cast<int>(year), month, day);
}

const Clock& systemClock() {
  static const SystemClock clock;
  return clock;
}

}  // namespace spanwright
