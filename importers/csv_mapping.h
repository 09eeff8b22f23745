// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a mapping file says, as the CSV reader uses it; internal to the importers. Form:
// sample_sites/README.md.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "importers/csv_history.h"
#include "importers/date_form.h"

namespace spanwright {

enum class Field {
  channel,
  subject,
  performed,
  time,  ///< of day, when it has a column of its own; joined to performed with a blank
  phase,
  point,
  direction,
  applied,
  appliedFound,  ///< of a row that holds both readings
  appliedLeft,
  reading,
  readingFound,
  readingLeft,
  person,
  standards,
  adjusted,
  adjustment,
  temperature,
  humidity,
  referenceJunction,
  remarks
};
inline constexpr std::size_t kFieldCount = static_cast<std::size_t>(Field::remarks) + 1;
/// The field's key under [columns].
std::string_view fieldName(Field field);

/// A heading the mapping names, and where it does.
struct Heading {
  std::string text;
  Where where;
};

/// Where the unit of a column's bare numbers comes from: nowhere (the cells have it), the heading, or the
/// mapping.
struct UnitRule {
  bool inHeading = false;
  std::optional<Unit> unit;
};

/// One reading of a wide row.
struct WideReading {
  Phase phase = Phase::asFound;
  std::string point;
  Direction direction = Direction::none;
  std::optional<Heading> applied;
  Heading reading;
};

/// A name on the mapping's right-hand side that must be in the register.
struct Meaning {
  std::string name;
  Where where;
};

struct CsvMapping {
  std::string file;
  char separator = ',';
  Encoding encoding = Encoding::detect;
  DecimalSign decimal = DecimalSign::point;
  DateForm dateForm;
  Layout layout = Layout::longRows;
  int skippedLines = 0;
  std::optional<Meaning> channel;
  std::optional<Subject> subject;
  std::optional<Phase> phase;
  std::optional<Meaning> person;
  std::vector<Meaning> standards;
  std::array<std::optional<Heading>, kFieldCount> columns;
  UnitRule appliedUnit;
  UnitRule readingUnit;
  // Words in cells, trimmed and in lower case, and what they mean.
  std::map<std::string, Phase, std::less<>> phaseWords;
  std::map<std::string, Direction, std::less<>> directionWords;
  std::map<std::string, Subject, std::less<>> subjectWords;
  std::map<std::string, bool, std::less<>> yesWords;
  std::set<std::string, std::less<>> skipWords;
  // Names in cells, exactly as written, and what they mean.
  std::map<std::string, Meaning, std::less<>> personWords;
  std::map<std::string, Meaning, std::less<>> standardWords;
  std::map<std::string, Meaning, std::less<>> aliases;
  std::vector<WideReading> readings;

  const std::optional<Heading>& column(Field field) const { return columns[static_cast<std::size_t>(field)]; }
  bool has(Field field) const { return column(field).has_value(); }
};

/// `word` trimmed and in lower case (ASCII letters only).
std::string foldedWord(std::string_view word);

}  // namespace spanwright
