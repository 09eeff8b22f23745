// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands/calc/data_file.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <optional>
#include <utility>

#include "core/units/number.h"
#include "importers/csv_reader.h"

namespace spanwright {

namespace {

constexpr std::string_view kBlanks = " \t\r";

std::string trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(kBlanks);
  if (from == std::string_view::npos) {
    return {};
  }
  return std::string(text.substr(from, text.find_last_not_of(kBlanks) - from + 1));
}

std::string lowered(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return text;
}

// What separates the cells is seen in the heading, the first line with something in it.
char separatorOf(const std::string& path) {
  TextSource source(path, Encoding::detect);
  CsvReader reader(source, ',');
  CsvRecord record;
  while (reader.next(record)) {
    if (!record.blank()) {
      const bool one = record.fault.empty() && record.cells.size() == 1;
      return one && record.cells[0].find(';') != std::string_view::npos ? ';' : ',';
    }
  }
  return ',';
}

}  // namespace

DataFile::DataFile(const std::string& path, const std::vector<std::string>& required,
                   const std::vector<std::string>& optional)
    : path_(path), separator_(separatorOf(path)) {
  TextSource source(path, Encoding::detect);
  CsvReader reader(source, separator_);
  CsvRecord record;
  while (reader.next(record)) {
    if (!record.fault.empty()) {
      problems_.push_back({{path_, record.line, record.faultColumn, {}}, record.fault, "correct the line"});
      continue;
    }
    if (record.blank()) {
      continue;
    }
    Row row{record.line, {}};
    for (const std::string_view cell : record.cells) {
      row.cells.push_back(trimmed(cell));
    }
    if (headings_.empty()) {
      readHeading(std::move(row), required, optional);
    } else if (row.cells.size() != headings_.size()) {
      problems_.push_back(
          {{path_, row.line, 0, {}},
           fmt::format("the row has {} cells where the heading has {}", row.cells.size(), headings_.size()),
           "give every row one cell per column"});
    } else {
      rows_.push_back(std::move(row));
    }
  }
  if (problems_.empty() && rows_.empty()) {
    throw InputError(
        "there are no measurements in the file",
        fmt::format("give a heading \"{}\" and a row for each measurement", fmt::join(required, ",")),
        {path_, 0, 0, {}});
  }
  finish();
}

void DataFile::readHeading(Row heading, const std::vector<std::string>& required,
                           const std::vector<std::string>& optional) {
  std::vector<Problem> problems;
  headings_.reserve(heading.cells.size());
  for (std::string& cell : heading.cells) {
    headings_.push_back(lowered(std::move(cell)));
  }
  const auto count = [&](const std::string& name) {
    return std::count(headings_.begin(), headings_.end(), name);
  };
  for (const std::string& name : required) {
    if (count(name) == 0) {
      problems.push_back({{path_, heading.line, 0, name},
                          fmt::format("there is no column \"{}\"", name),
                          fmt::format("the first row names the columns: {}", fmt::join(required, ","))});
    }
  }
  for (const auto* names : {&required, &optional}) {
    for (const std::string& name : *names) {
      if (count(name) > 1) {
        problems.push_back({{path_, heading.line, 0, name},
                            fmt::format("the column \"{}\" stands twice", name),
                            "keep one of them"});
      }
    }
  }
  if (!problems.empty()) {
    throw InputError(std::move(problems));
  }
}

int DataFile::cellOf(const std::string& column) const {
  const auto found = std::find(headings_.begin(), headings_.end(), column);
  return found == headings_.end() ? -1 : static_cast<int>(found - headings_.begin());
}

Where DataFile::whereIs(std::size_t row, const std::string& column) const {
  return {path_, rows_[row].line, cellOf(column) + 1, column};
}

const std::string& DataFile::text(std::size_t row, const std::string& column) const {
  static const std::string kNone;
  const int cell = cellOf(column);
  return cell < 0 ? kNone : rows_[row].cells[static_cast<std::size_t>(cell)];
}

double DataFile::number(std::size_t row, const std::string& column) {
  const std::string& given = text(row, column);
  const auto parsed = parseNumber(given, separator_ == ';' ? DecimalSign::either : DecimalSign::point);
  if (parsed) {
    return parsed->value;
  }
  refuse(row, column, given.empty() ? "there is no number" : fmt::format("\"{}\" is not a number", given),
         "type one finite number with a decimal point");
  return std::numeric_limits<double>::quiet_NaN();
}

void DataFile::refuse(std::size_t row, const std::string& column, std::string what, std::string todo) {
  problems_.push_back({whereIs(row, column), std::move(what), std::move(todo)});
}

void DataFile::finish() const {
  if (problems_.empty()) {
    return;
  }
  std::vector<Problem> sorted = problems_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Problem& a, const Problem& b) {
    return std::pair(a.where.line, a.where.column) < std::pair(b.where.line, b.where.column);
  });
  throw InputError(std::move(sorted));
}

}  // namespace spanwright
