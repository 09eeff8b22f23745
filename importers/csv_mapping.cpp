// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/csv_mapping.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/units/text.h"
#include "importers/file_words.h"
#include "importers/toml_reader.h"

namespace spanwright {
namespace {

constexpr std::pair<std::string_view, Field> kFields[] = {{"channel", Field::channel},
                                                          {"subject", Field::subject},
                                                          {"performed", Field::performed},
                                                          {"time", Field::time},
                                                          {"phase", Field::phase},
                                                          {"point", Field::point},
                                                          {"direction", Field::direction},
                                                          {"applied", Field::applied},
                                                          {"applied_as_found", Field::appliedFound},
                                                          {"applied_as_left", Field::appliedLeft},
                                                          {"reading", Field::reading},
                                                          {"reading_as_found", Field::readingFound},
                                                          {"reading_as_left", Field::readingLeft},
                                                          {"person", Field::person},
                                                          {"standards", Field::standards},
                                                          {"adjusted", Field::adjusted},
                                                          {"adjustment", Field::adjustment},
                                                          {"temperature", Field::temperature},
                                                          {"humidity", Field::humidity},
                                                          {"reference_junction", Field::referenceJunction},
                                                          {"remarks", Field::remarks}};
/// Fields of one reading; a wide row has them under [[readings]] instead.
constexpr Field kReadingFields[] = {Field::phase,   Field::point,        Field::direction,
                                    Field::applied, Field::appliedFound, Field::appliedLeft,
                                    Field::reading, Field::readingFound, Field::readingLeft};

constexpr std::pair<std::string_view, Encoding> kEncodings[] = {{"detect", Encoding::detect},
                                                                {"utf-8", Encoding::utf8},
                                                                {"utf-16le", Encoding::utf16le},
                                                                {"utf-16be", Encoding::utf16be},
                                                                {"latin-1", Encoding::latin1}};
constexpr std::pair<std::string_view, DecimalSign> kDecimals[] = {{"point", DecimalSign::point},
                                                                  {"comma", DecimalSign::comma}};
constexpr std::pair<std::string_view, Layout> kLayouts[] = {{"long", Layout::longRows},
                                                            {"wide", Layout::wideRows}};
constexpr std::pair<std::string_view, Phase> kPhases[] = {{"as_found", Phase::asFound},
                                                          {"as_left", Phase::asLeft}};

void readSeparator(TomlTable& file, CsvMapping& mapping) {
  const std::string text = file.text("separator", ",");
  if (text == "tab" || text == "\t") {
    mapping.separator = '\t';
    return;
  }
  const bool usable = text.size() == 1 && text[0] > ' ' && text[0] != '"' && text[0] != 0x7F &&
                      !(text[0] >= '0' && text[0] <= '9');
  if (!usable) {
    file.problem("separator", "is " + inQuotes(text),
                 "one character such as \",\" or \";\", or \"tab\", is expected");
    return;
  }
  mapping.separator = text[0];
}

void readDateForm(TomlTable& file, CsvMapping& mapping) {
  auto form = DateForm::parse(file.text("date_form", "iso"));
  if (const auto* fault = std::get_if<std::string>(&form)) {
    file.problem("date_form", fmt::format("cannot be read by ({})", *fault),
                 "write \"iso\" or a form such as \"%d.%m.%Y %H:%M\"");
  } else {
    mapping.dateForm = std::get<DateForm>(std::move(form));
  }
}

std::optional<Meaning> meaning(TomlTable& table, std::string_view key) {
  if (!table.has(key)) {
    return std::nullopt;
  }
  std::string name = table.needText(key);
  return name.empty() ? std::nullopt
                      : std::optional(Meaning{std::move(name), table.problems().where(table.at(key))});
}

std::optional<Heading> heading(TomlTable& table, std::string_view key) {
  auto named = meaning(table, key);
  return named ? std::optional(Heading{std::string(trimmed(named->name)), named->where}) : std::nullopt;
}

void readColumns(TomlTable& file, CsvMapping& mapping) {
  auto table = file.needTable("columns");
  if (!table) {
    return;
  }
  table->rename("[columns]");
  std::map<std::string, std::string_view> used;
  for (const auto& [name, field] : kFields) {
    auto found = heading(*table, name);
    if (!found) {
      continue;
    }
    const auto [other, isNew] = used.emplace(found->text, name);
    if (!isNew) {
      table->problem(
          name, fmt::format("is the heading {}, which {} already is", inQuotes(found->text), other->second),
          "name another column");
    }
    mapping.columns[static_cast<std::size_t>(field)] = std::move(*found);
  }
  table->finish();
}

UnitRule unitRule(TomlTable& table, std::string_view key) {
  UnitRule rule;
  const std::string text = table.text(key);
  if (text == "header") {
    rule.inHeading = true;
  } else if (table.has(key)) {
    rule.unit = table.unit(key);
  }
  return rule;
}

void readUnits(TomlTable& file, CsvMapping& mapping) {
  auto table = file.table("units");
  if (!table) {
    return;
  }
  table->rename("[units]");
  mapping.appliedUnit = unitRule(*table, "applied");
  mapping.readingUnit = unitRule(*table, "reading");
  table->finish();
}

/// [values.<field>]: meaning = ["word", ...] into words.
template <typename T>
void readWords(TomlTable& values, std::string_view field, Choices<T> meanings,
               std::map<std::string, T, std::less<>>& words) {
  auto table = values.table(field);
  if (!table) {
    return;
  }
  table->rename(fmt::format("[values.{}]", field));
  for (const auto& [name, value] : meanings) {
    for (const auto& word : table->placedTexts(name)) {
      const auto [known, isNew] = words.emplace(foldedWord(word.value), value);
      if (!isNew && known->second != value) {
        table->problems().add(
            word.at, fmt::format("the word {} has two meanings in {}", inQuotes(word.value), table->name()),
            "let it mean one of them");
      }
    }
  }
  table->finish();
}

/// [values.<field>]: name in the register = ["name in the file", ...].
void readNames(TomlTable& values, std::string_view field,
               std::map<std::string, Meaning, std::less<>>& names) {
  auto table = values.table(field);
  if (!table) {
    return;
  }
  table->rename(fmt::format("[values.{}]", field));
  for (const auto& key : table->keys()) {
    for (const auto& word : table->placedTexts(key.name)) {
      const auto [known, isNew] =
          names.emplace(std::string(trimmed(word.value)), Meaning{key.name, table->problems().where(key.at)});
      if (!isNew && known->second.name != key.name) {
        table->problems().add(word.at,
                              fmt::format("{} has two meanings in {}", inQuotes(word.value), table->name()),
                              "let it mean one of them");
      }
    }
  }
}

void readYesWords(TomlTable& values, CsvMapping& mapping) {
  static constexpr std::pair<std::string_view, bool> kYes[] = {{"adjusted", true}};
  static constexpr std::pair<std::string_view, bool> kNo[] = {{"adjusted", false}};
  readWords<bool>(values, "yes", kYes, mapping.yesWords);
  readWords<bool>(values, "no", kNo, mapping.yesWords);
  if (!values.has("yes")) {
    for (const auto* word : {"yes", "y", "true", "1", "x"}) {
      mapping.yesWords.emplace(word, true);
    }
  }
  if (!values.has("no")) {
    for (const auto* word : {"no", "n", "false", "0", "-", ""}) {
      mapping.yesWords.emplace(word, false);
    }
  }
}

void readSkipWords(TomlTable& values, CsvMapping& mapping) {
  auto table = values.table("skip");
  if (!table) {
    return;
  }
  table->rename("[values.skip]");
  for (const auto& word : table->texts("reading")) {
    mapping.skipWords.insert(foldedWord(word));
  }
  table->finish();
}

void readValues(TomlTable& file, CsvMapping& mapping) {
  static const toml::table kNone;
  auto given = file.table("values");
  TomlTable values = given ? *given : TomlTable(kNone, "[values]", file.problems());
  values.rename("[values]");
  readWords<Phase>(values, "phase", kPhases, mapping.phaseWords);
  readWords<Direction>(values, "direction", kDirections, mapping.directionWords);
  readWords<Subject>(values, "subject", kSubjects, mapping.subjectWords);
  readYesWords(values, mapping);
  readSkipWords(values, mapping);
  readNames(values, "person", mapping.personWords);
  readNames(values, "standards", mapping.standardWords);
  values.finish();
  // The words this program itself uses need no declaration, unless the mapping gives them another meaning.
  for (const auto& [word, phase] :
       {std::pair("as found", Phase::asFound), std::pair("as_found", Phase::asFound),
        std::pair("as left", Phase::asLeft), std::pair("as_left", Phase::asLeft)}) {
    mapping.phaseWords.emplace(word, phase);
  }
  for (const auto& [word, direction] : kDirections) {
    mapping.directionWords.emplace(word, direction);
  }
  for (const auto& [word, subject] : kSubjects) {
    mapping.subjectWords.emplace(word, subject);
  }
}

void readAliases(TomlTable& file, CsvMapping& mapping) {
  auto table = file.table("aliases");
  if (!table) {
    return;
  }
  table->rename("[aliases]");
  for (const auto& key : table->keys()) {
    if (auto tag = meaning(*table, key.name)) {
      mapping.aliases.emplace(std::string(trimmed(key.name)), std::move(*tag));
    }
  }
}

void readWideReadings(TomlTable& file, CsvMapping& mapping) {
  std::map<std::string, std::size_t> used;
  for (auto& table : file.tables("readings", "[[readings]]")) {
    WideReading reading;
    reading.phase = table.needChoice<Phase>("phase", kPhases).value_or(Phase::asFound);
    reading.point = table.text("point");
    reading.direction = table.choice<Direction>("direction", kDirections).value_or(Direction::none);
    reading.applied = heading(table, "applied");
    if (auto found = heading(table, "reading")) {
      reading.reading = std::move(*found);
      if (!used.emplace(reading.reading.text, used.size()).second) {
        table.problem("reading",
                      fmt::format("is {}, which another reading already is", inQuotes(reading.reading.text)),
                      "name each column of readings once");
      }
    } else if (!table.has("reading")) {
      table.needText("reading");
    }
    if (reading.point.empty() && !reading.applied) {
      table.problem("point", "is missing, and so is applied",
                    "give one of the two, so that the point is known");
    }
    table.finish();
    mapping.readings.push_back(std::move(reading));
  }
}

/// What a field needs another for, and what the layout needs or has no use for.
void checkLayout(TomlTable& file, const CsvMapping& mapping) {
  const auto missing = [&file](std::string_view what, std::string todo) {
    file.problems().add(file.at("columns"), fmt::format("the mapping names no {}", what), std::move(todo));
  };
  if (!mapping.has(Field::channel) && !mapping.channel) {
    missing("column for the channel",
            "add channel = \"heading\" under [columns], or channel = \"tag\" at the top");
  }
  if (!mapping.has(Field::performed)) {
    missing("column for the date", "add performed = \"heading\" under [columns]");
  }
  if (!mapping.has(Field::subject) && !mapping.subject) {
    missing("subject", "add subject = \"channel\", \"sensor\" or \"loop\" at the top, or its column");
  }
  if (mapping.layout == Layout::wideRows) {
    if (mapping.readings.empty()) {
      missing("reading", "add one [[readings]] for each column of readings");
    }
    for (const Field field : kReadingFields) {
      if (const auto& column = mapping.column(field)) {
        file.problems().add({static_cast<toml::source_index>(column->where.line),
                             static_cast<toml::source_index>(column->where.column)},
                            fmt::format("{} is a column of the wide layout", fieldName(field)),
                            "describe readings under [[readings]] there");
      }
    }
    return;
  }
  if (!mapping.readings.empty()) {
    file.problem("readings", "is for the wide layout", "set layout = \"wide\" or leave [[readings]] out");
  }
  const bool twoBlocks = mapping.has(Field::readingFound) || mapping.has(Field::readingLeft);
  if (twoBlocks == mapping.has(Field::reading)) {
    missing("single kind of reading column", "add either reading, or reading_as_found and reading_as_left");
  }
  if (!twoBlocks && !mapping.has(Field::phase) && !mapping.phase) {
    missing("phase", "add phase = \"heading\" under [columns], or phase = \"as_found\" at the top");
  }
  if (!mapping.has(Field::point) && !mapping.has(Field::applied) && !mapping.has(Field::appliedFound)) {
    missing("column for the point", "add point or applied under [columns]");
  }
}

}  // namespace

std::string_view fieldName(Field field) {
  return kFields[static_cast<std::size_t>(field)].first;
}

std::string foldedWord(std::string_view word) {
  std::string folded(trimmed(word));
  for (char& c : folded) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return folded;
}

std::shared_ptr<const CsvMapping> readCsvMapping(const std::filesystem::path& file) {
  const toml::table parsed = parseTomlFile(file);
  ProblemList problems(file.string());
  TomlTable root(parsed, "the mapping", problems, toml::source_position{1, 1});
  auto mapping = std::make_shared<CsvMapping>();
  mapping->file = file.string();
  readSeparator(root, *mapping);
  mapping->encoding = root.choice<Encoding>("encoding", kEncodings).value_or(Encoding::detect);
  mapping->decimal = root.choice<DecimalSign>("decimal", kDecimals).value_or(DecimalSign::point);
  readDateForm(root, *mapping);
  mapping->layout = root.choice<Layout>("layout", kLayouts).value_or(Layout::longRows);
  mapping->skippedLines = root.whole("skip_lines", 0, 0, 100000);
  mapping->channel = meaning(root, "channel");
  mapping->subject = root.choice<Subject>("subject", kSubjects);
  mapping->phase = root.choice<Phase>("phase", kPhases);
  mapping->person = meaning(root, "person");
  for (const auto& serial : root.placedTexts("standards")) {
    mapping->standards.push_back({serial.value, problems.where(serial.at)});
  }
  readColumns(root, *mapping);
  readUnits(root, *mapping);
  readValues(root, *mapping);
  readAliases(root, *mapping);
  readWideReadings(root, *mapping);
  root.finish();
  // Only a mapping that reads without mistakes is looked at as a whole: a column that was misspelt is not
  // missing too.
  problems.throwIfAny();
  checkLayout(root, *mapping);
  problems.throwIfAny();
  return mapping;
}

DecimalSign decimalSign(const CsvMapping& mapping) {
  return mapping.decimal;
}

}  // namespace spanwright
