// SPDX-License-Identifier: GPL-3.0-or-later
#include "importers/csv_rows.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/record/reference_junction.h"
#include "core/units/text.h"
#include "importers/toml_reader.h"

namespace spanwright {

RowReader::RowReader(const CsvMapping& mapping, const Register& site, const CsvHead& head,
                     const std::string& file, HistorySink& into)
    : mapping_(mapping), site_(site), head_(head), file_(file), into_(into) {}

std::string_view RowReader::cell(const std::optional<BoundColumn>& column) const {
  return column ? trimmed(record_->cells[column->index]) : std::string_view();
}

void RowReader::mistake(const std::optional<BoundColumn>& column, std::string reason) {
  Rejection rejection;
  rejection.where = Where{file_, record_->line, column ? static_cast<int>(column->index) + 1 : 0,
                          column ? column->heading : std::string()};
  rejection.reason = std::move(reason);
  rejection.lines = {record_->line};
  mistakes_.push_back(std::move(rejection));
}

void RowReader::read(const CsvRecord& record) {
  record_ = &record;
  rows_.clear();
  mistakes_.clear();
  channelKnown_ = momentKnown_ = subjectKnown_ = false;
  if (!record.fault.empty()) {
    const bool named = record.faultColumn > 0 && static_cast<std::size_t>(record.faultColumn) <= head_.width;
    mistake(std::nullopt, record.fault);
    mistakes_.back().where.column = record.faultColumn;
    if (named) {
      mistakes_.back().where.columnName = head_.headings[static_cast<std::size_t>(record.faultColumn) - 1];
    }
  } else if (!record.blank() && shapeIsRight()) {
    visit_ = HistoryRow();
    visit_.line = record.line;
    readChannel(visit_);
    readPerformed(visit_);
    readSubject(visit_);
    readPeople(visit_);
    readStandards(visit_);
    readConditions(visit_);
    readAdjustment(visit_);
    if (mapping_.layout == Layout::wideRows) {
      readWide(visit_);
    } else {
      readLong(visit_);
    }
  }
  finish();
}

/// Headings again (files put together from several) are passed over; other numbers of cells are refused,
/// except for separators too many at the end.
bool RowReader::shapeIsRight() {
  const auto& cells = record_->cells;
  if (cells.size() < head_.width) {
    mistake(std::nullopt,
            fmt::format(
                "the line has {} cells, the headings are {}{}", cells.size(), head_.width,
                record_->lastWithoutLineEnd ? "; the file ends within it, so it may have been cut off" : ""));
    return false;
  }
  for (std::size_t i = head_.width; i < cells.size(); ++i) {
    if (!trimmed(cells[i]).empty()) {
      mistake(std::nullopt,
              fmt::format(
                  "the line has {} cells, the headings are {}; a cell that holds {} must stand "
                  "in quotes",
                  cells.size(), head_.width,
                  mapping_.separator == '\t' ? "a tabulator" : fmt::format("\"{}\"", mapping_.separator)));
      return false;
    }
  }
  for (std::size_t i = 0; i < head_.width; ++i) {
    if (trimmed(cells[i]) != head_.headings[i]) {
      return true;
    }
  }
  return false;
}

void RowReader::readChannel(HistoryRow& row) {
  const auto& column = head_.column(Field::channel);
  const std::string_view text = cell(column);
  if (text.empty()) {
    if (mapping_.channel) {
      row.channel = mapping_.channel->name;
      channelKnown_ = true;
    } else {
      mistake(column, "the channel is missing");
    }
    return;
  }
  if (text != lastTagText_) {
    lastTagText_ = text;
    const auto alias = mapping_.aliases.find(text);
    lastTag_ = site_.channel(text) != nullptr    ? std::string(text)
               : alias != mapping_.aliases.end() ? alias->second.name
                                                 : std::string();
  }
  channelKnown_ = !lastTag_.empty();
  row.channel = lastTag_;
  if (!channelKnown_) {
    mistake(column, fmt::format("{} is neither a channel of the register nor an alias in the mapping",
                                inQuotes(text)));
  }
}

void RowReader::readPerformed(HistoryRow& row) {
  const auto& column = head_.column(Field::performed);
  std::string text(cell(column));
  if (text.empty()) {
    mistake(column, "the date is missing");
    return;
  }
  if (const auto time = cell(Field::time); !time.empty()) {
    text += ' ';
    text += time;
  }
  if (text != lastDateText_) {
    lastMoment_ = mapping_.dateForm.read(text);
    lastDateText_ = text;
  }
  momentKnown_ = lastMoment_.has_value();
  if (lastMoment_) {
    row.performed = *lastMoment_;
  } else {
    mistake(column, fmt::format("{} is not a date of the form {}, or there is no such day or time",
                                inQuotes(text), mapping_.dateForm.form()));
  }
}

void RowReader::readSubject(HistoryRow& row) {
  const auto text = cell(Field::subject);
  if (text.empty()) {
    subjectKnown_ = mapping_.subject.has_value();
    if (mapping_.subject) {
      row.subject = *mapping_.subject;
    } else {
      mistake(Field::subject, "the subject is missing");
    }
    return;
  }
  const auto found = mapping_.subjectWords.find(foldedWord(text));
  subjectKnown_ = found != mapping_.subjectWords.end();
  if (subjectKnown_) {
    row.subject = found->second;
  } else {
    mistake(Field::subject,
            fmt::format("{} is none of channel, sensor, loop, nor listed under [values.subject]",
                        inQuotes(text)));
  }
}

void RowReader::readPeople(HistoryRow& row) {
  const auto text = cell(Field::person);
  if (text.empty()) {
    row.person = mapping_.person ? mapping_.person->name : "";
    return;
  }
  const auto listed = mapping_.personWords.find(text);
  if (listed != mapping_.personWords.end()) {
    row.person = listed->second.name;
    return;
  }
  if (site_.person(text) != nullptr) {
    row.person = text;
    return;
  }
  // A full name that one person of the register has, and only one, is as good as a login.
  std::vector<const Person*> named;
  for (const Person& person : site_.people) {
    if (person.name == text) {
      named.push_back(&person);
    }
  }
  if (named.size() == 1) {
    row.person = named.front()->login;
  } else {
    mistake(
        Field::person,
        named.empty()
            ? fmt::format(
                  "{} is neither a login nor a name of the register, nor listed under [values.person]",
                  inQuotes(text))
            : fmt::format("{} is the name of several people; list it under [values.person]", inQuotes(text)));
  }
}

void RowReader::readStandards(HistoryRow& row) {
  const auto text = cell(Field::standards);
  if (text.empty()) {
    for (const auto& standard : mapping_.standards) {
      row.standards.push_back(standard.name);
    }
    return;
  }
  const auto known = [this](std::string_view name) -> std::string {
    const auto listed = mapping_.standardWords.find(name);
    return listed != mapping_.standardWords.end() ? listed->second.name
           : site_.standard(name) != nullptr      ? std::string(name)
                                                  : std::string();
  };
  if (auto whole = known(text); !whole.empty()) {
    row.standards.push_back(std::move(whole));
    return;
  }
  constexpr std::string_view kBetween = " \t+";
  std::size_t at = text.find_first_not_of(kBetween);
  while (at != std::string_view::npos) {
    const std::size_t end = std::min(text.find_first_of(kBetween, at), text.size());
    auto serial = known(text.substr(at, end - at));
    if (serial.empty()) {
      mistake(Field::standards,
              fmt::format("{} is neither a standard of the register nor listed under [values.standards]",
                          inQuotes(text.substr(at, end - at))));
    } else if (std::find(row.standards.begin(), row.standards.end(), serial) == row.standards.end()) {
      row.standards.push_back(std::move(serial));
    }
    at = text.find_first_not_of(kBetween, end);
  }
}

std::optional<double> RowReader::conditionIn(Field field, Unit unit) {
  const auto text = cell(field);
  if (text.empty()) {
    return std::nullopt;
  }
  const auto typed = parseQuantity(text, mapping_.decimal);
  auto value = typed ? std::optional(typed->value) : std::nullopt;
  if (typed && typed->unit && *typed->unit != unit &&
      !(unit == Unit::relativeHumidity && *typed->unit == Unit::percent)) {
    value = convert(typed->value, *typed->unit, unit);
  }
  if (!value) {
    mistake(field, fmt::format("{} is not a number of {}", inQuotes(text),
                               unit == Unit::celsius ? "degC" : "% relative humidity"));
  }
  return value;
}

void RowReader::readConditions(HistoryRow& row) {
  row.temperature = conditionIn(Field::temperature, Unit::celsius);
  row.humidity = conditionIn(Field::humidity, Unit::relativeHumidity);
  if (row.humidity && (*row.humidity < 0.0 || *row.humidity > 100.0)) {
    mistake(Field::humidity,
            fmt::format("{} is not between 0 and 100 % relative humidity", inQuotes(cell(Field::humidity))));
  }
  row.referenceJunction = conditionIn(Field::referenceJunction, Unit::celsius);
  if (row.referenceJunction &&
      (*row.referenceJunction < kColdestJunction || *row.referenceJunction > kWarmestJunction)) {
    mistake(Field::referenceJunction,
            fmt::format("{} is not between {} and {} degC", inQuotes(cell(Field::referenceJunction)),
                        kColdestJunction, kWarmestJunction));
  }
}

void RowReader::readAdjustment(HistoryRow& row) {
  row.adjustmentText = std::string(cell(Field::adjustment));
  if (!mapping_.has(Field::adjusted)) {
    // A text about an adjustment says that there was one.
    row.adjusted = !row.adjustmentText.empty();
    return;
  }
  const auto text = cell(Field::adjusted);
  const auto found = mapping_.yesWords.find(foldedWord(text));
  if (found != mapping_.yesWords.end()) {
    row.adjusted = found->second;
  } else if (!text.empty()) {
    mistake(Field::adjusted,
            fmt::format("{} is listed neither under [values.yes] nor under [values.no]", inQuotes(text)));
  }
}

void RowReader::readRemarks(HistoryRow& row) const {
  row.remarks = std::string(cell(Field::remarks));
  for (const std::size_t index : head_.unnamed) {
    const auto text = trimmed(record_->cells[index]);
    if (text.empty()) {
      continue;
    }
    row.remarks += row.remarks.empty() ? "" : "; ";
    row.remarks +=
        head_.headings[index].empty() ? fmt::format("column {}", index + 1) : head_.headings[index];
    row.remarks += ": ";
    row.remarks += text;
  }
}

std::string RowReader::typedText(const std::optional<BoundColumn>& column) {
  const auto text = cell(column);
  const auto typed = parseQuantity(text, mapping_.decimal);
  if (!typed) {
    const bool otherSign = parseQuantity(text, DecimalSign::either).has_value();
    mistake(column, otherSign ? fmt::format("{} does not have the decimal {} that the mapping declares",
                                            inQuotes(text),
                                            mapping_.decimal == DecimalSign::comma ? "comma" : "point")
                              : fmt::format("{} is not a number, or its unit is not known", inQuotes(text)));
    return {};
  }
  std::string out(text);
  if (!typed->unit && column->unit && !symbol(*column->unit).empty()) {
    out += ' ';
    out += symbol(*column->unit);
  }
  return out;
}

void RowReader::addReading(HistoryRow row, const std::optional<BoundColumn>& applied,
                           const std::optional<BoundColumn>& reading, bool mayBeEmpty) {
  const auto appliedCell = cell(applied);
  const auto readingCell = cell(reading);
  const bool skipped = mapping_.skipWords.contains(foldedWord(readingCell));
  if (readingCell.empty() && !skipped) {
    if (!mayBeEmpty) {
      mistake(reading, "the reading is missing");
    }
    return;
  }
  row.indicatedColumn = static_cast<int>(reading->index) + 1;
  row.appliedColumn = applied ? static_cast<int>(applied->index) + 1 : 0;
  if (skipped) {
    row.typed.skipReason = readingCell.empty() ? "left empty in the source" : std::string(readingCell);
  } else {
    row.typed.indicatedText = typedText(reading);
  }
  if (!appliedCell.empty()) {
    row.typed.appliedText = typedText(applied);
  } else if (row.key.empty()) {
    mistake(applied, "neither the point nor the applied value is given");
  }
  // Without a column that says so, as-left readings of their own mean that something was done in between; a
  // drift fitted across an adjustment would be wrong, a break too many only costs it a little certainty.
  if (row.phase == Phase::asLeft && !mapping_.has(Field::adjusted) && !row.adjusted) {
    row.adjusted = true;
    row.adjustmentText = "as-left readings given; what was done is not in the source";
  }
  rows_.push_back(std::move(row));
}

void RowReader::readLong(const HistoryRow& visit) {
  HistoryRow row = visit;
  readRemarks(row);
  row.key = std::string(cell(Field::point));
  if (const auto text = cell(Field::direction); !text.empty()) {
    const auto found = mapping_.directionWords.find(foldedWord(text));
    if (found != mapping_.directionWords.end()) {
      row.direction = found->second;
    } else {
      mistake(Field::direction,
              fmt::format("{} is neither up nor down, nor listed under [values.direction]", inQuotes(text)));
    }
  }
  if (!mapping_.has(Field::reading)) {
    const auto applied = [this](Field own) {
      return mapping_.has(own) ? head_.column(own) : head_.column(Field::applied);
    };
    const bool none =
        cell(Field::readingFound).empty() && cell(Field::readingLeft).empty() && mistakes_.empty();
    row.phase = Phase::asFound;
    if (mapping_.has(Field::readingFound)) {
      addReading(row, applied(Field::appliedFound), head_.column(Field::readingFound), true);
    }
    row.phase = Phase::asLeft;
    if (mapping_.has(Field::readingLeft)) {
      addReading(row, applied(Field::appliedLeft), head_.column(Field::readingLeft), true);
    }
    if (none && rows_.empty() && mistakes_.empty()) {
      mistake(mapping_.has(Field::readingFound) ? Field::readingFound : Field::readingLeft,
              "the reading is missing");
    }
    return;
  }
  const auto text = cell(Field::phase);
  const auto found = mapping_.phaseWords.find(foldedWord(text));
  if (text.empty() && mapping_.phase) {
    row.phase = *mapping_.phase;
  } else if (!text.empty() && found != mapping_.phaseWords.end()) {
    row.phase = found->second;
  } else {
    mistake(Field::phase,
            text.empty() ? std::string("whether as found or as left is missing")
                         : fmt::format("{} is neither as found nor as left, nor listed under [values.phase]",
                                       inQuotes(text)));
  }
  addReading(std::move(row), head_.column(Field::applied), head_.column(Field::reading), false);
}

void RowReader::readWide(const HistoryRow& visit) {
  for (const BoundReading& bound : head_.readings) {
    HistoryRow row = visit;
    row.phase = bound.reading->phase;
    row.key = bound.reading->point;
    row.direction = bound.reading->direction;
    const std::optional<BoundColumn> indicated = bound.indicated;
    if (cell(indicated).empty() && !cell(bound.applied).empty() && !mapping_.skipWords.contains("")) {
      mistake(indicated, "the reading is missing, though a value was applied");
      continue;
    }
    addReading(std::move(row), bound.applied, indicated, true);
  }
  if (rows_.empty() && mistakes_.empty()) {
    mistake(std::nullopt, "the line holds no reading");
  }
  if (!rows_.empty()) {
    readRemarks(rows_.front());  // once is enough: the rows are put together again by visit
  }
}

void RowReader::finish() {
  if (mistakes_.empty()) {
    for (const HistoryRow& row : rows_) {
      into_.add(row);
    }
    return;
  }
  for (Rejection& rejection : mistakes_) {
    if (channelKnown_ && momentKnown_ && subjectKnown_) {
      rejection.visit = VisitKey{visit_.channel, visit_.subject, visit_.performed};
    }
    into_.reject(std::move(rejection));
  }
}

}  // namespace spanwright
