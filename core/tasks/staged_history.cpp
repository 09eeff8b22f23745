// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/staged_history.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <charconv>

#include "core/units/number.h"

namespace spanwright {
namespace {

constexpr char kBetween = '\x1f';
constexpr std::size_t kMomentLength = 19;  // 2026-03-01T08:30:00

class Packer {
 public:
  void text(std::string_view field) {
    number(static_cast<std::int64_t>(field.size()));
    packed_ += field;
  }
  void number(std::int64_t value) {
    char digits[24];
    const auto end = std::to_chars(digits, digits + sizeof digits, value);
    packed_.append(digits, end.ptr);
    packed_ += ':';
  }
  void real(const std::optional<double>& value) { text(value ? formatShortest(*value) : std::string()); }
  std::string take() { return std::move(packed_); }

 private:
  std::string packed_;
};

class Unpacker {
 public:
  explicit Unpacker(std::string_view packed) : left_(packed) {}
  std::string text() {
    const auto size = static_cast<std::size_t>(number());
    assert(size <= left_.size());
    std::string field(left_.substr(0, size));
    left_.remove_prefix(size);
    return field;
  }
  std::int64_t number() {
    std::int64_t value = 0;
    const auto end = std::from_chars(left_.data(), left_.data() + left_.size(), value);
    assert(end.ec == std::errc() && *end.ptr == ':');
    left_.remove_prefix(static_cast<std::size_t>(end.ptr - left_.data()) + 1);
    return value;
  }
  int small() { return static_cast<int>(number()); }
  std::optional<double> real() {
    const auto parsed = parseNumber(text());
    return parsed ? std::optional(parsed->value) : std::nullopt;
  }

 private:
  std::string_view left_;
};

/// Adds `more` to `all` behind a semicolon unless it is there already.
void joinText(std::vector<std::string>& seen, std::string& all, const std::string& more) {
  if (more.empty() || std::find(seen.begin(), seen.end(), more) != seen.end()) {
    return;
  }
  seen.push_back(more);
  all += (all.empty() ? "" : "; ") + more;
}

/// A condition that was written down with every reading: the first stands, and the note says how far it went.
class Range {
 public:
  void add(const std::optional<double>& value) {
    if (!value) {
      return;
    }
    first_ = first_ ? first_ : value;
    low_ = low_ ? std::min(*low_, *value) : *value;
    high_ = high_ ? std::max(*high_, *value) : *value;
  }
  std::optional<double> first() const { return first_; }
  void note(std::string_view what, std::string_view unit, std::string& into) const {
    if (first_ && *low_ != *high_) {
      into += fmt::format("{}{} from {} to {} {} during the visit", into.empty() ? "" : "; ", what,
                          formatShortest(*low_), formatShortest(*high_), unit);
    }
  }

 private:
  std::optional<double> first_, low_, high_;
};

ProposedReading proposed(const HistoryRow& row) {
  ProposedReading reading;
  reading.key = row.key;
  reading.direction = row.direction;
  reading.typed = row.typed;
  reading.where = Where{{}, row.line, row.indicatedColumn, {}};
  if (row.appliedColumn > 0) {
    reading.appliedWhere = Where{{}, row.line, row.appliedColumn, {}};
  }
  return reading;
}

}  // namespace

std::string visitKey(const std::string& channel, Subject subject, Moment performed) {
  std::string key = channel;
  key += kBetween;
  key += static_cast<char>('0' + static_cast<int>(subject));
  key += formatMoment(performed);
  return key;
}

std::string packRow(const HistoryRow& row, std::size_t source) {
  Packer packer;
  packer.number(static_cast<std::int64_t>(source));
  packer.number(row.line);
  packer.number(0);
  packer.number(row.phase == Phase::asLeft ? 1 : 0);
  packer.number(static_cast<int>(row.direction));
  packer.number(row.indicatedColumn);
  packer.number(row.appliedColumn);
  packer.number(row.adjusted ? 1 : 0);
  packer.text(row.key);
  packer.text(row.typed.appliedText);
  packer.text(row.typed.indicatedText);
  packer.text(row.typed.skipReason);
  packer.text(row.person);
  packer.real(row.temperature);
  packer.real(row.humidity);
  packer.real(row.referenceJunction);
  packer.text(row.adjustmentText);
  packer.text(row.remarks);
  packer.number(static_cast<std::int64_t>(row.standards.size()));
  for (const auto& standard : row.standards) {
    packer.text(standard);
  }
  return packer.take();
}

std::string packMark(int line, std::size_t source) {
  Packer packer;
  packer.number(static_cast<std::int64_t>(source));
  packer.number(line);
  packer.number(1);
  return packer.take();
}

Unpacked unpackRow(std::string_view key, std::string_view payload) {
  Unpacked unpacked;
  HistoryRow& row = unpacked.row;
  Unpacker unpacker(payload);
  unpacked.source = static_cast<std::size_t>(unpacker.number());
  row.line = unpacker.small();
  unpacked.mark = unpacker.number() == 1;
  assert(key.size() >= kMomentLength + 2);
  const std::size_t momentAt = key.size() - kMomentLength;
  row.channel = std::string(key.substr(0, momentAt - 2));
  row.subject = static_cast<Subject>(key[momentAt - 1] - '0');
  if (unpacked.mark) {
    return unpacked;
  }
  row.performed = parseMoment(key.substr(momentAt)).value_or(Moment());
  row.phase = unpacker.number() == 1 ? Phase::asLeft : Phase::asFound;
  row.direction = static_cast<Direction>(unpacker.number());
  row.indicatedColumn = unpacker.small();
  row.appliedColumn = unpacker.small();
  row.adjusted = unpacker.number() == 1;
  row.key = unpacker.text();
  row.typed.appliedText = unpacker.text();
  row.typed.indicatedText = unpacker.text();
  row.typed.skipReason = unpacker.text();
  row.person = unpacker.text();
  row.temperature = unpacker.real();
  row.humidity = unpacker.real();
  row.referenceJunction = unpacker.real();
  row.adjustmentText = unpacker.text();
  row.remarks = unpacker.text();
  for (auto standards = unpacker.number(); standards > 0; --standards) {
    row.standards.push_back(unpacker.text());
  }
  return unpacked;
}

ProposedVisit joinRows(const std::vector<HistoryRow>& rows, std::vector<Rejection>& contradictions) {
  assert(!rows.empty());
  ProposedVisit visit;
  visit.channel = rows.front().channel;
  visit.subject = rows.front().subject;
  visit.performed = rows.front().performed;
  visit.where.line = rows.front().line;
  std::vector<std::string> remarks;
  std::vector<std::string> adjustments;
  Range temperature;
  Range humidity;
  int personLine = 0;
  int junctionLine = 0;
  for (const HistoryRow& row : rows) {
    if (!row.person.empty() && personLine == 0) {
      visit.person = row.person;
      personLine = row.line;
    } else if (!row.person.empty() && row.person != visit.person) {
      contradictions.push_back({Where{{}, row.line, 0, {}},
                                fmt::format("the line names {} for a visit that line {} says {} made",
                                            row.person, personLine, visit.person),
                                {row.line}});
    }
    for (const auto& standard : row.standards) {
      if (std::find(visit.standards.begin(), visit.standards.end(), standard) == visit.standards.end()) {
        visit.standards.push_back(standard);
      }
    }
    temperature.add(row.temperature);
    humidity.add(row.humidity);
    if (row.referenceJunction && junctionLine == 0) {
      visit.conditions.referenceJunction = row.referenceJunction;
      junctionLine = row.line;
    } else if (row.referenceJunction && row.referenceJunction != visit.conditions.referenceJunction) {
      contradictions.push_back(
          {Where{{}, row.line, 0, {}},
           fmt::format(
               "the line gives a reference junction of {} degC for a visit that line {} gives one of {} "
               "degC",
               formatShortest(*row.referenceJunction), junctionLine,
               formatShortest(*visit.conditions.referenceJunction)),
           {row.line}});
    }
    visit.adjustment.adjusted = visit.adjustment.adjusted || row.adjusted;
    joinText(adjustments, visit.adjustment.text, row.adjustmentText);
    joinText(remarks, visit.remarks, row.remarks);
    (row.phase == Phase::asFound ? visit.asFound : visit.asLeft).push_back(proposed(row));
  }
  visit.conditions.temperature = temperature.first();
  visit.conditions.humidity = humidity.first();
  temperature.note("temperature", "degC", visit.conditions.note);
  humidity.note("humidity", "%", visit.conditions.note);
  return visit;
}

}  // namespace spanwright
