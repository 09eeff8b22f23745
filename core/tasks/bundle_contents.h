// SPDX-License-Identifier: GPL-3.0-or-later
//
// What checking a bundle has read of the record.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/tasks/bundle_units.h"

namespace spanwright {

struct BundleUnit {
  UnitKey key;
  UnitDigest digest;
  std::vector<UnitKey> references;
  BundleJson rows;  ///< not of calibrations, which are many and large
};

struct BundleContents {
  std::string site;                         ///< code
  std::map<std::string, BundleUnit> units;  ///< by the name of their file

  const BundleUnit* find(const UnitKey& key) const {
    const auto found = units.find(unitFileName(key));
    return found == units.end() ? nullptr : &found->second;
  }
};

// Values of a row whose table is the unit's first; empty and 0 for one of another kind.
inline std::string textIn(const BundleJson& row, const char* column) {
  return row.at(column).is_string() ? row.at(column).get<std::string>() : std::string();
}
inline std::int64_t numberIn(const BundleJson& row, const char* column) {
  return row.at(column).is_number_integer() ? row.at(column).get<std::int64_t>() : 0;
}
/// The one row of the unit's first table; every unit that was digested has it with all its columns.
inline const BundleJson& rootRow(const BundleUnit& unit) {
  return unit.rows.at(std::string(coveredUnit(unit.key.unit)->tables.front().table)).at(0);
}

}  // namespace spanwright
