// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tasks/typed_fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/text.h"

namespace spanwright {

namespace {

std::vector<std::string_view> linesOf(std::string_view text) {
  std::vector<std::string_view> lines;
  while (!text.empty()) {
    const auto end = std::min(text.find('\n'), text.size());
    if (const auto line = trimmed(text.substr(0, end)); !line.empty()) {
      lines.push_back(line);
    }
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

/// Takes the next word off the front.
std::string_view nextWord(std::string_view& line) {
  line = trimmed(line);
  const auto end = std::min(line.find(' '), line.size());
  const std::string_view word = line.substr(0, end);
  line = trimmed(line.substr(end));
  return word;
}

}  // namespace

std::string typedText(const TypedFields& fields, std::string_view field) {
  const auto found = fields.find(field);
  return found == fields.end() ? std::string() : std::string(trimmed(found->second));
}

FieldReader::FieldReader(const TypedFields& fields, std::string prefix)
    : fields_(&fields), prefix_(std::move(prefix)), problems_(std::make_shared<std::vector<Problem>>()) {}

FieldReader FieldReader::below(std::string_view part) const {
  FieldReader reader = *this;
  reader.prefix_ += std::string(part) + '.';
  return reader;
}

std::string FieldReader::text(std::string_view field) const {
  return typedText(*fields_, full(field));
}

std::vector<std::string> FieldReader::lines(std::string_view field) const {
  const std::string all = text(field);
  const auto parts = linesOf(all);
  return {parts.begin(), parts.end()};
}

bool FieldReader::yes(std::string_view field) const {
  return text(field) == "yes";
}

void FieldReader::wrong(std::string_view field, std::string what, std::string todo) {
  Problem problem{{}, std::move(what), std::move(todo)};
  problem.where.field = full(field);
  problems_->push_back(std::move(problem));
}

void FieldReader::take(const std::vector<Problem>& problems) {
  for (const Problem& each : problems) {
    wrong(each.where.field, each.what, each.todo);
  }
}

std::optional<double> FieldReader::maybeNumber(std::string_view field, Unit unit) {
  const std::string typed = text(field);
  if (typed.empty()) {
    return std::nullopt;
  }
  const auto quantity = parseQuantity(typed);
  if (!quantity) {
    wrong(field, fmt::format("\"{}\" is not a number", typed), "write it as 0.25");
    return std::nullopt;
  }
  if (!quantity->unit || *quantity->unit == unit) {
    return quantity->value;
  }
  const auto converted = unit == Unit::none ? std::nullopt : convert(quantity->value, *quantity->unit, unit);
  if (!converted) {
    wrong(field, fmt::format("\"{}\" is in {}", typed, displaySymbol(*quantity->unit)),
          unit == Unit::none ? std::string("give the number alone")
                             : fmt::format("{} is expected", displaySymbol(unit)));
  }
  return converted;
}

double FieldReader::number(std::string_view field, double fallback, Unit unit) {
  return maybeNumber(field, unit).value_or(fallback);
}

double FieldReader::needNumber(std::string_view field, std::string_view what, Unit unit) {
  if (!has(field)) {
    wrong(field, fmt::format("the {} is missing", what), "give it");
    return 0.0;
  }
  return number(field, 0.0, unit);
}

int FieldReader::whole(std::string_view field, int fallback) {
  constexpr double kMost = 1e6;
  const auto value = maybeNumber(field);
  if (!value) {
    return fallback;
  }
  if (*value != std::floor(*value) || std::abs(*value) > kMost) {
    wrong(field, fmt::format("\"{}\" is not a whole number", text(field)), "write it without decimals");
    return fallback;
  }
  return static_cast<int>(*value);
}

std::optional<Span> FieldReader::span(std::string_view field, std::optional<Unit> fixed) {
  const std::string name(field);
  const std::string typed[] = {text(name + ".low"), text(name + ".high")};
  const std::string unitText = text(name + ".unit");
  if (typed[0].empty() && typed[1].empty()) {
    return std::nullopt;
  }
  std::optional<Unit> unit = fixed;
  if (!fixed && !unitText.empty()) {
    unit = parseUnit(unitText);
    if (!unit) {
      wrong(field, fmt::format("the unit \"{}\" is not known", unitText), "write it as mA, V, bar or degC");
      return std::nullopt;
    }
  }
  double ends[2] = {0.0, 0.0};
  for (int i = 0; i < 2; ++i) {
    const auto quantity = parseQuantity(typed[i]);
    if (!quantity) {
      wrong(field,
            typed[i].empty() ? fmt::format("its {} end is missing", i == 0 ? "low" : "high")
                             : fmt::format("\"{}\" is not a number", typed[i]),
            "give both ends, as 4 and 20");
      return std::nullopt;
    }
    if (quantity->unit && !unit) {
      unit = quantity->unit;
    }
    const auto end = quantity->unit ? convert(quantity->value, *quantity->unit, *unit) : quantity->value;
    if (!end) {
      wrong(field, fmt::format("\"{}\" is not in {}", typed[i], displaySymbol(*unit)),
            "give both ends in the same unit");
      return std::nullopt;
    }
    ends[i] = *end;
  }
  if (!unit) {
    wrong(field, "its unit is missing", "write it as mA, V, bar or degC");
    return std::nullopt;
  }
  return Span{ends[0], ends[1], *unit};
}

std::optional<Span> FieldReader::needSpan(std::string_view field, std::string_view what,
                                          std::optional<Unit> fixed) {
  const std::string name(field);
  if (!has(name + ".low") && !has(name + ".high")) {
    wrong(field, fmt::format("the {} is missing", what), "give both ends");
    return std::nullopt;
  }
  return span(field, fixed);
}

std::optional<Date> FieldReader::maybeDate(std::string_view field) {
  const std::string typed = text(field);
  if (typed.empty()) {
    return std::nullopt;
  }
  const auto day = parseDate(typed);
  if (!day) {
    wrong(field, fmt::format("\"{}\" is not a day", typed), "write it as 2026-03-01");
  }
  return day;
}

std::optional<Moment> FieldReader::needMoment(std::string_view field, std::string_view what) {
  const std::string typed = text(field);
  const auto moment = parseMoment(typed);
  if (!moment) {
    wrong(field,
          typed.empty() ? fmt::format("the {} is missing", what)
                        : fmt::format("\"{}\" is not a day with its time", typed),
          "write it as 2026-03-01 08:30");
  }
  return moment;
}

std::vector<DayRange> FieldReader::days(std::string_view field) {
  std::vector<DayRange> ranges;
  for (const std::string& typed : lines(field)) {
    std::string_view rest = typed;
    const std::string_view first = nextWord(rest);
    const auto from = parseDate(first);
    if (!from) {
      wrong(field, fmt::format("\"{}\" does not begin with a day", typed),
            "write a line as 2026-07-01 to 2026-07-14 holidays");
      continue;
    }
    DayRange range{*from, *from, {}};
    std::string_view after = rest;
    std::string_view word = nextWord(after);
    if (word == "to" || word == "-" || word == "bis") {
      word = nextWord(after);
    }
    if (const auto until = parseDate(word)) {
      range.last = *until;
      rest = after;
    }
    range.name = rest;
    ranges.push_back(std::move(range));
  }
  return ranges;
}

std::vector<double> FieldReader::numbers(std::string_view field) {
  // A comma parts numbers where a blank or another separator follows it; "0,5" is a half.
  std::string typed = text(field);
  for (std::size_t i = 0; i < typed.size(); ++i) {
    if (typed[i] == ';' || typed[i] == '%' || typed[i] == '\n' ||
        (typed[i] == ',' && (i + 1 == typed.size() || typed[i + 1] == ' '))) {
      typed[i] = ' ';
    }
  }
  std::vector<double> values;
  std::string_view rest = typed;
  while (!trimmed(rest).empty()) {
    const std::string word(nextWord(rest));
    if (const auto value = parseNumber(word, DecimalSign::either)) {
      values.push_back(value->value);
    } else {
      wrong(field, fmt::format("\"{}\" is not a number", word), "list them as 0, 25, 50, 75, 100");
      return {};
    }
  }
  return values;
}

void putSpan(TypedFields& into, const std::string& field, const Span& span) {
  into[field + ".low"] = typedNumber(span.low);
  into[field + ".high"] = typedNumber(span.high);
  into[field + ".unit"] = symbol(span.unit);
}

std::string typedNumber(double value) {
  return formatShortest(value);
}

std::string typedNumber(const std::optional<double>& value) {
  return value ? formatShortest(*value) : std::string();
}

std::string typedKnown(double value) {
  return value == 0.0 ? std::string() : formatShortest(value);
}

std::string typedYes(bool on) {
  return on ? "yes" : "";
}

std::string typedDays(const std::vector<DayRange>& days) {
  std::string text;
  for (const DayRange& each : days) {
    text += fmt::format("{}{} to {}{}{}", text.empty() ? "" : "\n", formatDate(each.first),
                        formatDate(each.last), each.name.empty() ? "" : " ", each.name);
  }
  return text;
}

std::string typedNumbers(const std::vector<double>& numbers) {
  std::string text;
  for (const double each : numbers) {
    text += (text.empty() ? "" : ", ") + formatShortest(each);
  }
  return text;
}

std::string typedLines(const std::vector<std::string>& lines) {
  return fmt::format("{}", fmt::join(lines, "\n"));
}

}  // namespace spanwright
