// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/toml_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/units/number.h"

namespace spanwright {
namespace {

std::string joined(const std::vector<std::string_view>& names) {
  std::string all;
  for (const auto name : names) {
    all += (all.empty() ? "" : ", ") + std::string(name);
  }
  return all;
}

std::string clockText(const toml::time& time) {
  return fmt::format("{:02}:{:02}:{:02}", time.hour, time.minute, time.second);
}

std::string dayText(const toml::date& day) {
  return fmt::format("{:04}-{:02}-{:02}", day.year, day.month, day.day);
}

/// What stands there, for "found" in messages.
std::string described(const toml::node& node) {
  if (const auto* text = node.as_string()) {
    return "the text " + inQuotes(text->get());
  }
  if (const auto* whole = node.as_integer()) {
    return fmt::format("the number {}", whole->get());
  }
  if (const auto* number = node.as_floating_point()) {
    return std::isfinite(number->get()) ? "the number " + formatShortest(number->get())
                                        : "not a finite number";
  }
  if (const auto* flag = node.as_boolean()) {
    return flag->get() ? "true" : "false";
  }
  if (const auto* day = node.as_date()) {
    return "the date " + dayText(day->get());
  }
  if (const auto* time = node.as_time()) {
    return "the time " + clockText(time->get());
  }
  if (const auto* moment = node.as_date_time()) {
    return "the date and time " + dayText(moment->get().date) + "T" + clockText(moment->get().time) +
           (moment->get().offset ? " with an offset" : "");
  }
  return node.is_array() ? "a list" : "a table";
}

std::string boundsText(Bounds bounds) {
  if (std::isinf(bounds.low)) {
    return std::isinf(bounds.high) ? "a number" : "a number not above " + formatShortest(bounds.high);
  }
  if (std::isinf(bounds.high)) {
    return (bounds.lowOpen ? "a number above " : "a number not below ") + formatShortest(bounds.low);
  }
  const std::string low = formatShortest(bounds.low), high = formatShortest(bounds.high);
  return bounds.lowOpen ? fmt::format("a number above {}, at most {},", low, high)
                        : fmt::format("a number from {} to {}", low, high);
}

std::optional<Date> dayFrom(const toml::date& day) {
  return parseDate(dayText(day));
}

bool blank(std::string_view text) {
  return text.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

}  // namespace

TomlTable::TomlTable(const toml::table& table, std::string name, ProblemList& problems,
                     toml::source_position fallback)
    : table_(&table), name_(std::move(name)), problems_(&problems), at_(table.source().begin) {
  if (at_.line == 0) {
    at_ = fallback;
  }
}

toml::source_position TomlTable::at(std::string_view key) const {
  const toml::node* node = table_->get(key);
  return node == nullptr || node->source().begin.line == 0 ? at_ : node->source().begin;
}

void TomlTable::problem(std::string_view key, std::string_view what, std::string todo) const {
  problems_->add(at(key), fmt::format("{} of {} {}", key, name_, what), std::move(todo));
}

const toml::node* TomlTable::get(std::string_view key) {
  known_.emplace(key);
  return table_->get(key);
}

const toml::node* TomlTable::need(std::string_view key, std::string_view expected) {
  const toml::node* node = get(key);
  if (node == nullptr) {
    problems_->add(at_, fmt::format("{} has no {}", name_, key), fmt::format("add {}: {}", key, expected));
  }
  return node;
}

void TomlTable::wrongKind(std::string_view key, const toml::node& node, std::string_view expected) const {
  problems_->add(node.source().begin, fmt::format("{} of {} is {}", key, name_, described(node)),
                 fmt::format("{} is expected", expected));
}

std::string TomlTable::text(std::string_view key, std::string fallback) {
  const toml::node* node = get(key);
  if (node == nullptr) {
    return fallback;
  }
  if (const auto* text = node->as_string()) {
    return text->get();
  }
  wrongKind(key, *node, "a text in quotes");
  return fallback;
}

std::string TomlTable::needText(std::string_view key) {
  const toml::node* node = need(key, "a text in quotes");
  if (node == nullptr) {
    return {};
  }
  std::string value = text(key);
  if (node->is_string() && blank(value)) {
    problem(key, "is empty", "write it in quotes");
    return {};
  }
  return value;
}

std::string TomlTable::typedText(std::string_view key) {
  const toml::node* node = get(key);
  if (node == nullptr) {
    return {};
  }
  if (const auto* text = node->as_string()) {
    return text->get();
  }
  wrongKind(key, *node, "a text in quotes, which keeps the digits as they were read,");
  return {};
}

std::vector<TomlTable::Text> TomlTable::placedTexts(std::string_view key) {
  std::vector<Text> all;
  const toml::node* node = get(key);
  if (node == nullptr) {
    return all;
  }
  const auto* list = node->as_array();
  if (list == nullptr) {
    wrongKind(key, *node, "a list of texts in [ ]");
    return all;
  }
  for (const auto& item : *list) {
    if (const auto* text = item.as_string()) {
      all.push_back({text->get(), item.source().begin});
    } else {
      wrongKind(key, item, "a text in quotes");
    }
  }
  return all;
}

std::vector<std::string> TomlTable::texts(std::string_view key) {
  std::vector<std::string> all;
  for (auto& item : placedTexts(key)) {
    all.push_back(std::move(item.value));
  }
  return all;
}

bool TomlTable::yes(std::string_view key, bool fallback) {
  const toml::node* node = get(key);
  if (node == nullptr) {
    return fallback;
  }
  if (const auto* flag = node->as_boolean()) {
    return flag->get();
  }
  wrongKind(key, *node, "true or false");
  return fallback;
}

std::optional<double> TomlTable::numberIn(std::string_view key, const toml::node& node, Bounds bounds) const {
  const auto value = node.is_number() ? node.value<double>() : std::nullopt;
  const bool inside = value && std::isfinite(*value) && *value <= bounds.high &&
                      (bounds.lowOpen ? *value > bounds.low : *value >= bounds.low);
  if (!inside) {
    wrongKind(key, node, boundsText(bounds));
    return std::nullopt;
  }
  return value;
}

std::optional<double> TomlTable::maybeNumber(std::string_view key, Bounds bounds) {
  const toml::node* node = get(key);
  return node == nullptr ? std::nullopt : numberIn(key, *node, bounds);
}

double TomlTable::number(std::string_view key, double fallback, Bounds bounds) {
  return maybeNumber(key, bounds).value_or(fallback);
}

double TomlTable::needNumber(std::string_view key, Bounds bounds) {
  const toml::node* node = need(key, boundsText(bounds));
  return node == nullptr ? 0.0 : numberIn(key, *node, bounds).value_or(0.0);
}

int TomlTable::whole(std::string_view key, int fallback, int low, int high) {
  const toml::node* node = get(key);
  if (node == nullptr) {
    return fallback;
  }
  const auto* value = node->as_integer();
  if (value == nullptr || value->get() < low || value->get() > high) {
    wrongKind(key, *node, fmt::format("a whole number from {} to {}", low, high));
    return fallback;
  }
  return static_cast<int>(value->get());
}

std::vector<TomlTable::Number> TomlTable::numbers(std::string_view key) {
  std::vector<Number> all;
  const toml::node* node = get(key);
  if (node == nullptr) {
    return all;
  }
  const auto* list = node->as_array();
  if (list == nullptr) {
    wrongKind(key, *node, "a list of numbers in [ ]");
    return all;
  }
  for (const auto& item : *list) {
    if (const auto value = numberIn(key, item, kAnyNumber)) {
      all.push_back({*value, item.source().begin});
    }
  }
  return all;
}

std::optional<Date> TomlTable::dateIn(std::string_view key, const toml::node& node) const {
  const auto* day = node.as_date();
  const auto parsed = day == nullptr ? std::nullopt : dayFrom(day->get());
  if (!parsed) {
    wrongKind(key, node, "a date without quotes such as 2026-03-01");
  }
  return parsed;
}

std::optional<Date> TomlTable::date(std::string_view key) {
  const toml::node* node = get(key);
  return node == nullptr ? std::nullopt : dateIn(key, *node);
}

std::optional<Date> TomlTable::needDate(std::string_view key) {
  const toml::node* node = need(key, "a date without quotes such as 2026-03-01");
  return node == nullptr ? std::nullopt : dateIn(key, *node);
}

std::optional<Moment> TomlTable::momentIn(std::string_view key, const toml::node& node) const {
  std::optional<Moment> parsed;
  if (const auto* day = node.as_date()) {
    parsed = parseMoment(dayText(day->get()));
  } else if (const auto* moment = node.as_date_time()) {
    const auto& value = moment->get();
    // The record keeps the site's local time to the second: an offset or a fraction would be lost silently.
    if (!value.offset && value.time.nanosecond == 0) {
      parsed = parseMoment(dayText(value.date) + "T" + clockText(value.time));
    }
  }
  if (!parsed) {
    wrongKind(
        key, node,
        "a local date and time without quotes, offset and fractions of a second such as 2026-03-01T08:30:00");
  }
  return parsed;
}

std::optional<Moment> TomlTable::moment(std::string_view key) {
  const toml::node* node = get(key);
  return node == nullptr ? std::nullopt : momentIn(key, *node);
}

std::optional<Moment> TomlTable::needMoment(std::string_view key) {
  const toml::node* node = need(key, "a date and time without quotes such as 2026-03-01T08:30:00");
  return node == nullptr ? std::nullopt : momentIn(key, *node);
}

std::optional<Unit> TomlTable::unitIn(std::string_view key, const toml::node& node) const {
  const auto* text = node.as_string();
  const auto parsed = text == nullptr ? std::nullopt : parseUnit(text->get());
  if (!parsed) {
    std::vector<std::string_view> symbols;
    for (const Unit each : allUnits()) {
      if (!symbol(each).empty()) {
        symbols.push_back(symbol(each));
      }
    }
    wrongKind(key, node, "a unit in quotes, one of " + joined(symbols) + ",");
  }
  return parsed;
}

std::optional<Unit> TomlTable::unit(std::string_view key) {
  const toml::node* node = get(key);
  return node == nullptr ? std::nullopt : unitIn(key, *node);
}

std::optional<Unit> TomlTable::needUnit(std::string_view key) {
  const toml::node* node = need(key, "a unit in quotes such as \"mA\" or \"degC\"");
  return node == nullptr ? std::nullopt : unitIn(key, *node);
}

std::optional<std::string> TomlTable::choiceIn(std::string_view key, const toml::node& node,
                                               const std::vector<std::string_view>& names) const {
  const auto* text = node.as_string();
  if (text == nullptr || std::find(names.begin(), names.end(), text->get()) == names.end()) {
    wrongKind(key, node, (names.size() == 1 ? "the word " : "one of the words ") + joined(names));
    return std::nullopt;
  }
  return text->get();
}

std::optional<TomlTable> TomlTable::table(std::string_view key) {
  const toml::node* node = get(key);
  if (node == nullptr) {
    return std::nullopt;
  }
  const auto* inner = node->as_table();
  if (inner == nullptr) {
    wrongKind(key, *node, "a table in { } or under [ ]");
    return std::nullopt;
  }
  return TomlTable(*inner, fmt::format("{} of {}", key, name_), *problems_, at_);
}

std::optional<TomlTable> TomlTable::needTable(std::string_view key) {
  return need(key, "a table in { }") == nullptr ? std::nullopt : table(key);
}

std::vector<TomlTable> TomlTable::tables(std::string_view key, std::string_view itemName) {
  std::vector<TomlTable> all;
  const toml::node* node = get(key);
  if (node == nullptr) {
    return all;
  }
  const auto* list = node->as_array();
  if (list == nullptr) {
    wrongKind(key, *node, fmt::format("a list of tables (each under [[ ]] or in {{ }})"));
    return all;
  }
  for (const auto& item : *list) {
    if (const auto* inner = item.as_table()) {
      all.emplace_back(*inner, fmt::format("{} {}", itemName, all.size() + 1), *problems_, at_);
    } else {
      wrongKind(key, item, "a table in { }");
    }
  }
  return all;
}

std::vector<TomlTable::Key> TomlTable::keys() {
  std::vector<Key> all;
  for (const auto& [key, node] : *table_) {
    known_.emplace(key.str());
    const auto at = key.source().begin;
    all.push_back({std::string(key.str()), at.line == 0 ? at_ : at});
  }
  return all;
}

void TomlTable::finish() {
  for (const auto& [key, node] : *table_) {
    if (!known_.contains(key.str())) {
      const std::vector<std::string_view> known(known_.begin(), known_.end());
      const auto at = key.source().begin;
      problems_->add(at.line == 0 ? at_ : at,
                     fmt::format("{} is not a key of {}", inQuotes(key.str()), name_),
                     "the keys it can have are " + joined(known));
    }
  }
}

}  // namespace spanwright
