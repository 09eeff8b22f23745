// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/site_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "core/record/register_rules.h"
#include "importers/site_parts.h"

namespace spanwright {
namespace {

constexpr Bounds kHoursOfWeek{0.0, 168.0, true};
constexpr std::array kWeekdays = [] {
  std::array<std::pair<std::string_view, int>, kWeekdayCodes.size()> days;
  for (std::size_t day = 0; day < days.size(); ++day) {
    days[day] = {kWeekdayCodes[day], static_cast<int>(day)};
  }
  return days;
}();
constexpr std::pair<std::string_view, Role> kRoles[] = {{"technician", Role::technician},
                                                        {"planner", Role::planner},
                                                        {"reviewer", Role::reviewer},
                                                        {"administrator", Role::administrator}};

/// The value a word stands for; reported with all the words when it is none of them.
template <typename T>
std::optional<T> wordValue(const TomlTable::Text& word, Choices<T> choices, const TomlTable& table,
                           std::string_view key) {
  std::string all;
  for (const auto& [name, value] : choices) {
    if (name == word.value) {
      return value;
    }
    all += (all.empty() ? "" : ", ") + std::string(name);
  }
  table.problems().add(word.at, fmt::format("{} of {} holds {}", key, table.name(), inQuotes(word.value)),
                       "one of the words " + all + " is expected");
  return std::nullopt;
}

void readSite(TomlTable& file, SiteInfo& site) {
  auto table = file.needTable("site");
  if (!table) {
    return;
  }
  table->rename("[site]");
  const std::size_t before = table->problems().count();
  site.code = table->needText("code");
  site.name = table->needText("name");
  report(*table, siteProblems(site), before);
  site.address = table->texts("address");
  site.issuer = table->text("issuer");
  site.issuerAddress = table->texts("issuer_address");
  site.customer = table->text("customer");
  site.customerContact = table->text("customer_contact");
  site.note = table->text("note");
  site.dueDateAgreed = table->yes("due_date_agreed", false);
  table->finish();
}

void readWorkingDays(TomlTable& table, CalendarRules& rules) {
  if (!table.has("working_days")) {
    return;
  }
  rules.workingWeekdays.clear();
  const auto words = table.placedTexts("working_days");
  for (const auto& word : words) {
    const auto day = wordValue<int>(word, kWeekdays, table, "working_days");
    if (day && std::find(rules.workingWeekdays.begin(), rules.workingWeekdays.end(), *day) !=
                   rules.workingWeekdays.end()) {
      table.problems().add(word.at, fmt::format("{} stands twice among the working days", word.value),
                           "name each day once");
    } else if (day) {
      rules.workingWeekdays.push_back(*day);
    }
  }
  if (words.empty()) {
    table.problem("working_days", "names no day", "at least one working day is needed to plan on");
  }
}

/// A list of {first, last, name}.
void readDays(TomlTable& table, std::string_view key, std::vector<DayRange>& days) {
  for (auto& item : table.tables(key, fmt::format("{} of {}, entry", key, table.name()))) {
    const auto first = item.needDate("first");
    const auto last = item.needDate("last");
    if (first && last && *last < *first) {
      item.problem("last", fmt::format("is before first ({})", formatDate(*first)), "exchange the two dates");
    }
    std::string name = item.text("name");
    if (first && last) {
      days.push_back({*first, *last, std::move(name)});
    }
    item.finish();
  }
}

void readCalendar(TomlTable& file, CalendarRules& rules) {
  auto table = file.table("calendar");
  if (!table) {
    return;
  }
  table->rename("[calendar]");
  readWorkingDays(*table, rules);
  readDays(*table, "closed", rules.closed);
  rules.dueSoonDays = table->whole("due_soon_days", rules.dueSoonDays, 0, 3660);
  rules.graceDays = table->whole("grace_days", rules.graceDays, 0, 3660);
  rules.earlyDays = table->whole("early_days", rules.earlyDays, 0, 3660);
  table->finish();
}

void readPeople(TomlTable& file, SiteReading& reading) {
  for (auto& table : file.tables("person", "[[person]]")) {
    const std::size_t before = table.problems().count();
    Person person;
    person.login = table.needText("login");
    if (!person.login.empty()) {
      table.rename("[[person]] " + inQuotes(person.login));
      reading.logins.add(person.login, table.at("login"), table.problems());
    }
    person.name = table.needText("name");
    const auto words = table.placedTexts("roles");
    for (const auto& word : words) {
      if (const auto role = wordValue<Role>(word, kRoles, table, "roles")) {
        person.roles.push_back(*role);
      }
    }
    if (words.empty() && !table.has("roles")) {
      table.problem("roles", "is missing",
                    "add roles = [\"technician\"], or planner, reviewer, administrator");
    }
    person.leftOn = table.date("left_on");
    person.hoursPerWeek = table.maybeNumber("hours_per_week", kHoursOfWeek);
    readDays(table, "away", person.away);
    report(table, personProblems(person), before);
    table.finish();
    reading.site.people.push_back(std::move(person));
  }
}

/// Adds the place and, before it, every parent that was not listed.
void addPlace(const std::string& path, Register& site, std::map<std::string, int>& children) {
  const auto cut = path.rfind(" / ");
  const std::string parent = cut == std::string::npos ? "" : path.substr(0, cut);
  if (!parent.empty() && !children.contains(parent)) {
    addPlace(parent, site, children);
  }
  const std::string name = cut == std::string::npos ? path : path.substr(cut + 3);
  site.places.push_back({path, name, parent, ++children[parent]});
  children.emplace(path, 0);
}

void readPlaces(TomlTable& file, SiteReading& reading) {
  std::map<std::string, int> children;  // by path, how many it has so far; holds every place added
  for (auto& table : file.tables("place", "[[place]]")) {
    const std::string path = table.needText("path");
    table.finish();
    if (path.empty()) {
      continue;
    }
    if (const auto wrong = placePathProblems(path); !wrong.empty()) {
      reading.places.add(path, table.at("path"), table.problems());  // what names it is not wrong too
      report(table, wrong, table.problems().count());
      continue;
    }
    const bool listed = reading.places.has(path);
    reading.places.add(path, table.at("path"), table.problems());
    if (children.contains(path)) {
      if (!listed) {
        table.problem("path", fmt::format("({}) stands after a place within it", inQuotes(path)),
                      "move it before its parts");
      }
      continue;
    }
    addPlace(path, reading.site, children);
  }
  // Parents that were only implied can be named by channels like any other.
  for (const Place& place : reading.site.places) {
    if (!reading.places.has(place.path)) {
      reading.places.add(place.path, file.at(), file.problems());
    }
  }
}

std::optional<Span> spanIn(TomlTable& span, std::optional<Unit> fixed) {
  const std::size_t before = span.problems().count();
  Span read;
  read.low = span.needNumber("low");
  read.high = span.needNumber("high");
  read.unit = fixed ? *fixed : span.needUnit("unit").value_or(Unit::none);
  span.finish();
  if (span.problems().count() == before && read.low == read.high) {
    span.problem("high", "is equal to low", "a span needs two different ends");
  }
  return span.problems().count() == before ? std::optional(read) : std::nullopt;
}

}  // namespace

void report(const TomlTable& table, const std::vector<Problem>& problems, std::size_t before) {
  if (table.problems().count() != before) {
    return;
  }
  for (const Problem& each : problems) {
    table.problems().add(table.at(each.where.field), fmt::format("{}: {}", table.name(), each.what),
                         each.todo);
  }
}

std::optional<Span> readSpan(TomlTable& table, std::string_view key, std::optional<Unit> fixed) {
  auto span = table.table(key);
  return span ? spanIn(*span, fixed) : std::nullopt;
}

std::optional<Span> needSpan(TomlTable& table, std::string_view key, std::optional<Unit> fixed) {
  auto span = table.needTable(key);
  return span ? spanIn(*span, fixed) : std::nullopt;
}

Register readSiteFile(const std::filesystem::path& file) {
  const toml::table parsed = parseTomlFile(file);
  ProblemList problems(file.string());
  TomlTable root(parsed, "the site file", problems, toml::source_position{1, 1});
  SiteReading reading;
  readSite(root, reading.site.site);
  readCalendar(root, reading.site.calendar);
  readPeople(root, reading);
  readPlaces(root, reading);
  readIntervals(root, reading);
  readPlans(root, reading);
  readStandards(root, reading);
  readSensors(root, reading);
  readChannels(root, reading);
  root.finish();
  problems.throwIfAny();
  // The record has its own rules; anything this reader did not find at its place is still refused, without
  // one.
  for (auto& fault : registerFaults(reading.site)) {
    problems.add({}, std::move(fault), "correct the site file");
  }
  problems.throwIfAny();
  reading.site.index();
  return std::move(reading.site);
}

}  // namespace spanwright
