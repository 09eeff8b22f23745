// SPDX-License-Identifier: GPL-3.0-or-later
//
// A bundle's units of the record as files, and what their rows refer to.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "core/store/covered.h"
#include "core/store/journal.h"

namespace spanwright {

using BundleJson = nlohmann::ordered_json;

/// "record/standard-certificate-2-1.json".
std::string unitFileName(const UnitKey& key);
/// The file's text.
std::string unitFileText(const UnitKey& key, const BundleJson& rows);
struct UnitFile {
  UnitKey key;
  BundleJson rows;
};
/// std::runtime_error with a clause.
UnitFile parseUnitFile(std::string_view text);

/// What the rows of a unit refer to, by their keys.
std::vector<UnitKey> referencesOf(const UnitKey& unit, const BundleJson& rows);

/// One line of the journal's extract: the entry in full, or, for one that is not asked for, only what the
/// chain needs.
std::string journalLine(std::string_view site, const JournalEntry& entry, bool inFull);
struct JournalLine {
  bool inFull = false;
  JournalEntry entry;  ///< without `inFull` only its number and hash
  Digest content;
};
/// std::runtime_error with a clause.
JournalLine parseJournalLine(std::string_view site, std::string_view line);

/// JSON in which no object names a thing twice: readers differ in which of two they believe.
/// std::runtime_error with a clause.
BundleJson parseStrictly(std::string_view text);

}  // namespace spanwright
