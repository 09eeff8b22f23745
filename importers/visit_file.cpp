// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/visit_file.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/record/reference_junction.h"
#include "importers/file_words.h"
#include "importers/toml_reader.h"

namespace spanwright {
namespace {

void checkTyped(const TomlTable& table, std::string_view key, const std::string& text) {
  if (!text.empty() && !parseQuantity(text, DecimalSign::either)) {
    table.problem(key, "is " + inQuotes(text),
                  "a number with or without its unit is expected, such as \"4.000 mA\"");
  }
}

ProposedReading readReading(TomlTable& table) {
  const std::size_t before = table.problems().count();
  ProposedReading reading;
  reading.typed.appliedText = table.typedText("applied");
  reading.typed.indicatedText = table.typedText("reading");
  reading.typed.skipReason = table.text("skip");
  reading.key = table.text("point");
  reading.direction = table.choice<Direction>("direction", kDirections).value_or(Direction::none);
  if (table.has("skip") && reading.typed.skipReason.find_first_not_of(" \t") == std::string::npos) {
    table.problem("skip", "is empty", "say why the point was skipped");
  }
  if (table.has("reading") == table.has("skip")) {
    table.problem("reading", table.has("skip") ? "stands beside skip" : "and skip are both missing",
                  "give a reading or, when there is none, skip = \"why\"");
  }
  if (table.problems().count() == before && table.has("reading") && reading.typed.indicatedText.empty()) {
    table.problem("reading", "is empty", "write what was read, or skip = \"why\" instead");
  }
  checkTyped(table, "applied", reading.typed.appliedText);
  checkTyped(table, "reading", reading.typed.indicatedText);
  if (table.has("direction") && !table.has("point")) {
    table.problem("direction", "is given without point", "name the point too, or leave both out");
  }
  reading.where = table.problems().where(table.at(table.has("reading") ? "reading" : "skip"));
  if (table.has("applied")) {
    reading.appliedWhere = table.problems().where(table.at("applied"));
  }
  table.finish();
  return reading;
}

std::vector<ProposedReading> readReadings(TomlTable& file, std::string_view key) {
  std::vector<ProposedReading> readings;
  auto tables = file.tables(key, std::string(key) + ", entry");
  const auto named =
      std::count_if(tables.begin(), tables.end(), [](const TomlTable& t) { return t.has("point"); });
  const bool inOrder = named == 0;
  for (auto& table : tables) {
    if (!inOrder && !table.has("point")) {
      table.problem("point", "is missing while others have it", "name the point of every entry, or of none");
    }
    readings.push_back(readReading(table));
    if (inOrder) {
      readings.back().sequence = static_cast<int>(readings.size());
    }
  }
  return readings;
}

void readConditions(TomlTable& file, Conditions& conditions) {
  auto table = file.table("conditions");
  if (!table) {
    return;
  }
  conditions.temperature = table->maybeNumber("temperature", {-90.0, 150.0});
  conditions.humidity = table->maybeNumber("humidity", {0.0, 100.0});
  conditions.note = table->text("note");
  conditions.referenceJunction =
      table->maybeNumber("reference_junction", {kColdestJunction, kWarmestJunction});
  table->finish();
}

void readAdjustment(TomlTable& file, Adjustment& adjustment) {
  auto table = file.table("adjustment");
  if (!table) {
    return;
  }
  adjustment.adjusted = table->yes("adjusted", false);
  adjustment.repaired = table->yes("repaired", false);
  adjustment.text = table->text("text");
  table->finish();
}

}  // namespace

ProposedVisit readVisitFile(const std::filesystem::path& file) {
  const toml::table parsed = parseTomlFile(file);
  ProblemList problems(file.string());
  TomlTable root(parsed, "the visit file", problems, toml::source_position{1, 1});
  ProposedVisit visit;
  visit.channel = root.needText("channel");
  visit.subject = root.needChoice<Subject>("subject", kSubjects).value_or(Subject::channel);
  visit.performed = root.needMoment("performed").value_or(Moment());
  visit.person = root.text("person");
  visit.standards = root.texts("standards");
  visit.cautionsConfirmed = root.yes("cautions_confirmed", false);
  readAdjustment(root, visit.adjustment);
  visit.remarks = root.text("remarks");
  readConditions(root, visit.conditions);
  visit.asFound = readReadings(root, "as_found");
  visit.asLeft = readReadings(root, "as_left");
  // Drift is cut at adjustments, so readings taken afterwards must say whether there was one.
  if (!visit.asLeft.empty() && !root.has("adjustment")) {
    root.problem(
        "adjustment", "is missing although there are as-left readings",
        "say adjustment = { adjusted = true, text = \"...\" }, or adjusted = false when nothing was changed");
  }
  if (!root.has("as_found")) {
    root.problem("as_found", "is missing", "add as_found = [ { reading = \"...\" }, ... ]");
  }
  visit.where.file = file.string();
  root.finish();
  problems.throwIfAny();
  return visit;
}

}  // namespace spanwright
