// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reference values for tests: plain CSV with one header row and quoted fields, as in tests/reference.
#pragma once

#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/units/number.h"

namespace spanwright::test {

using CsvRow = std::map<std::string, std::string>;

/// The fields of one record starting at `at`, which is moved behind it. A quoted field may hold commas, line
/// ends and doubled quotes (RFC 4180).
inline std::vector<std::string> takeCsvRecord(const std::string& text, std::size_t& at) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (; at < text.size(); ++at) {
    const char c = text[at];
    if (quoted) {
      if (c != '"')
        fields.back() += c;
      else if (at + 1 < text.size() && text[at + 1] == '"')
        fields.back() += text[++at];
      else
        quoted = false;
    } else if (c == '"') {
      quoted = true;
    } else if (c == ',') {
      fields.emplace_back();
    } else if (c == '\n') {
      ++at;
      return fields;
    } else if (c != '\r') {
      fields.back() += c;
    }
  }
  if (quoted)
    throw std::runtime_error("a quoted field has no end");
  return fields;
}

/// The rows of `path`, each from heading to field. A missing or empty file and a row of another width throw,
/// so that a test cannot pass by reading nothing.
inline std::vector<CsvRow> readReferenceCsv(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file)
    throw std::runtime_error("cannot read " + path);
  const std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  std::size_t at = 0;
  const std::vector<std::string> headings = takeCsvRecord(text, at);
  std::vector<CsvRow> rows;
  while (at < text.size()) {
    const std::vector<std::string> fields = takeCsvRecord(text, at);
    if (fields.size() == 1 && fields[0].empty())
      continue;
    if (fields.size() != headings.size())
      throw std::runtime_error(path + ": row " + std::to_string(rows.size() + 2) + " has " +
                               std::to_string(fields.size()) + " fields, not " +
                               std::to_string(headings.size()));
    CsvRow row;
    for (std::size_t i = 0; i < headings.size(); ++i)
      row[headings[i]] = fields[i];
    rows.push_back(std::move(row));
  }
  if (rows.empty())
    throw std::runtime_error(path + " has no rows");
  return rows;
}

/// The number in a column; throws when there is none.
inline double numberIn(const CsvRow& row, const std::string& column) {
  const auto number = parseNumber(row.at(column));
  if (!number)
    throw std::runtime_error("no number in column " + column + ": \"" + row.at(column) + "\"");
  return number->value;
}

}  // namespace spanwright::test
