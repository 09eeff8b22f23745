// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the journal covers, and the form in which it is digested.
//
// A unit is what belongs together: a calibration with its standards and readings, a standard's certificate
// with its ranges and points, a person. Its rows are taken table by table in the order given here, each
// table's rows by their primary key. A row is written as the text
//
//     <table>\n
//     <column>:<value>\n      for every column, in the order given here
//
// where a value is  n  for NULL,  i<decimal>  for an integer,  r<shortest decimal that reads back the same>
// for a real number (formatShortest),  t<bytes>:<text>  for text in UTF-8 and  b<bytes>:<data>  for raw
// bytes. A row's digest is the SHA-256 of that text; a unit's is the SHA-256 of its rows' digests one after
// the other. The form is part of every record and of every signature: a column added later to one of these
// tables needs a form beside this one, not a change of it.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/digest.h"
#include "core/store/sqlite_connection.h"

namespace spanwright {

/// One table's part of a unit.
struct CoveredTable {
  std::string_view table;
  std::string_view columns;  ///< "site, id, tag": all that is covered, the primary key included
  std::string_view keys;     ///< "channel, id": the columns after `site` that the unit's key names
  std::string_view order;    ///< the rest of the primary key; may be empty
};
struct CoveredUnit {
  std::string_view name;
  std::vector<CoveredTable> tables;  ///< the first has exactly one row, the root
};

/// All of them. The first table's rows say which units there are.
std::span<const CoveredUnit> coveredUnits();
/// nullptr for a name that is none.
const CoveredUnit* coveredUnit(std::string_view name);

/// Which unit: its kind and its key's numbers, at most three.
struct UnitKey {
  std::string unit;
  std::vector<std::int64_t> numbers;
  friend bool operator==(const UnitKey&, const UnitKey&) = default;
};
/// "3/2"; "" for a unit there is one of.
std::string keyText(const UnitKey& key);
/// Nothing for a text that is none.
std::optional<std::vector<std::int64_t>> parseKeyText(std::string_view text);

/// A unit as it stands in the rows.
struct UnitDigest {
  Digest digest;
  std::vector<std::string> places;  ///< of each row, for people: "reading as left 3"
  std::string rows;  ///< the first eight bytes of each row's digest, by which a changed row is found
};
/// Nothing when it has no rows.
std::optional<UnitDigest> unitDigest(Connection& connection, std::string_view site, const UnitKey& key);

/// Every unit of this kind that has a root row; stops when `visit` says false.
void forEachUnit(Connection& connection, std::string_view site, const CoveredUnit& unit,
                 const std::function<bool(const UnitKey&)>& visit);

/// The rows of a unit as JSON: {"table": [{"column": value}]}; raw bytes as {"bytes": "hexadecimal"}, an
/// attachment's content as {"size": number of bytes, "sha256": "hexadecimal"}. Empty when there are none.
std::string unitJson(Connection& connection, std::string_view site, const UnitKey& key);

/// The text that a row is digested as. `columns` are the row's columns by name, in order.
std::string rowText(std::string_view table, std::span<const std::string> columns, const Query& row);

/// "a, b" -> {"a", "b"}.
std::vector<std::string> columnNames(std::string_view list);

}  // namespace spanwright
