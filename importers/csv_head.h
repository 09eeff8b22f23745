// SPDX-License-Identifier: GPL-3.0-or-later
//
// A mapping brought together with the heading line of one file; internal to the importers.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "importers/csv_mapping.h"
#include "importers/csv_reader.h"

namespace spanwright {

/// A column of the file at hand.
struct BoundColumn {
  std::size_t index = 0;     ///< of the cell, from 0
  std::string heading;       ///< as in the file
  std::optional<Unit> unit;  ///< of bare numbers
};

struct BoundReading {
  const WideReading* reading = nullptr;
  std::optional<BoundColumn> applied;
  BoundColumn indicated;
};

struct CsvHead {
  std::size_t width = 0;  ///< cells of the heading line
  std::vector<std::string> headings;
  std::array<std::optional<BoundColumn>, kFieldCount> columns;
  std::vector<BoundReading> readings;  ///< wide rows
  std::vector<std::size_t> unnamed;    ///< columns no field names, kept as remarks

  const std::optional<BoundColumn>& column(Field field) const {
    return columns[static_cast<std::size_t>(field)];
  }
};

/// Throws InputError with every heading that is missing, stands there twice or has no unit where one was
/// promised.
CsvHead bindHead(const CsvRecord& record, const CsvMapping& mapping, const std::string& file);

/// Throws InputError with every name of the mapping that the register does not have.
void checkNames(const CsvMapping& mapping, const Register& site);

}  // namespace spanwright
