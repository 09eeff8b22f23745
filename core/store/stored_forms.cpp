// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/stored_forms.h"

#include <fmt/format.h>

#include <boost/date_time/posix_time/posix_time.hpp>
#include <unordered_map>

#include "core/store/stored_words.h"

namespace spanwright {
namespace {

template <class E, std::size_t N>
E wordAt(const words::Table<E, N>& table, const Query& row, int column) {
  const std::string_view text = row.textView(column);
  if (const auto found = words::value(table, text)) {
    return *found;
  }
  row.damaged(fmt::format("\"{}\" is not a value this program writes", text));
}

}  // namespace

std::optional<Unit> words::unit(std::string_view text) {
  static const auto kUnits = [] {
    std::unordered_map<std::string_view, Unit> units;
    for (const Unit unit : allUnits()) {
      units.emplace(symbol(unit), unit);
    }
    return units;
  }();
  const auto found = kUnits.find(text);
  return found == kUnits.end() ? std::nullopt : std::optional(found->second);
}

std::string_view stored(Phase value) {
  return words::word(words::kPhases, value);
}
std::string_view stored(Subject value) {
  return words::word(words::kSubjects, value);
}
std::string_view stored(Verdict value) {
  return words::word(words::kVerdicts, value);
}
std::string_view stored(PointRole value) {
  return words::word(words::kPointRoles, value);
}
std::string_view stored(Direction value) {
  return words::word(words::kDirections, value);
}
std::string_view stored(AlarmLevel value) {
  return words::word(words::kAlarmLevels, value);
}
std::string_view stored(Unit value) {
  return symbol(value);
}

Phase phaseAt(const Query& row, int column) {
  return wordAt(words::kPhases, row, column);
}
Subject subjectAt(const Query& row, int column) {
  return wordAt(words::kSubjects, row, column);
}
Verdict verdictAt(const Query& row, int column) {
  return wordAt(words::kVerdicts, row, column);
}
PointRole pointRoleAt(const Query& row, int column) {
  return wordAt(words::kPointRoles, row, column);
}
Direction directionAt(const Query& row, int column) {
  return wordAt(words::kDirections, row, column);
}

std::optional<AlarmLevel> alarmLevelAt(const Query& row, int column) {
  return row.isNull(column) ? std::nullopt : std::optional(wordAt(words::kAlarmLevels, row, column));
}

Unit unitAt(const Query& row, int column) {
  if (const auto unit = words::unit(row.textView(column))) {
    return *unit;
  }
  row.damaged(fmt::format("\"{}\" is not a unit", row.textView(column)));
}

std::optional<std::string> stored(Date value) {
  return value.is_special() ? std::nullopt : std::optional(formatDate(value));
}

std::optional<std::string> stored(Moment value) {
  return value.is_special() ? std::nullopt : std::optional(formatMoment(value));
}

std::string storedUtc(Moment value) {
  return formatMoment(value) + "Z";
}

Moment wholeSeconds(Moment value) {
  if (value.is_special()) {
    return value;
  }
  return {value.date(), boost::posix_time::seconds(value.time_of_day().total_seconds())};
}

Date dateAt(const Query& row, int column) {
  if (row.isNull(column)) {
    return {};
  }
  if (const auto date = parseDate(row.textView(column))) {
    return *date;
  }
  row.damaged(fmt::format("\"{}\" is not a date", row.textView(column)));
}

Moment momentAt(const Query& row, int column) {
  if (row.isNull(column)) {
    return {};
  }
  if (const auto moment = parseMoment(row.textView(column))) {
    return *moment;
  }
  row.damaged(fmt::format("\"{}\" is not a moment", row.textView(column)));
}

Moment utcAt(const Query& row, int column) {
  std::string_view text = row.textView(column);
  if (text.ends_with('Z')) {
    text.remove_suffix(1);
    if (const auto moment = parseMoment(text)) {
      return *moment;
    }
  }
  row.damaged(fmt::format("\"{}\" is not a moment of universal time", row.textView(column)));
}

}  // namespace spanwright
