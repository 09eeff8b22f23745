// SPDX-License-Identifier: GPL-3.0-or-later
//
// The journal as people read it: which entries a few words find, what an entry changed, and what it is about.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/record/proposal.h"
#include "core/store/store.h"

namespace spanwright {

/// Entries `first` to `last`, in order; entries are numbered from 1 without gaps.
std::vector<JournalEntry> journalEntries(const Store& store, std::int64_t first, std::int64_t last);

/// Numbers of the entries that hold every one of the words, whatever their case, in person, act, unit, detail
/// or moment ("2026-03-01T08"); newest first. A word that is a channel's tag also finds what is about its
/// calibrations. Stops early, with what it has, when `progress` says so.
std::vector<std::int64_t> findEntries(const Store& store, std::string_view words,
                                      const Progress& progress = {});

/// A value that an entry changed.
struct FieldChange {
  std::string field, before, after;
};
/// Of an entry that kept what was there before; empty for one that did not.
std::vector<FieldChange> changesOf(const JournalEntry& entry);

/// One value of the rows an entry is about, as they stand now.
struct UnitField {
  std::string part;  ///< table, with the row's number where there are several: "reading 3"
  std::string field, value;
};
/// Empty when the entry is about the record as a whole, or its rows are gone.
std::vector<UnitField> fieldsOf(const Store& store, const JournalEntry& entry);

/// The calibration that the entry is about, or what it did to one: recorded, signed, issued, a file attached.
std::optional<CalibrationId> calibrationOf(const Store& store, const JournalEntry& entry);

/// "calibration 17, TT-101", "standard certificate 3/2", "the record".
std::string aboutText(const Store& store, const JournalEntry& entry);

}  // namespace spanwright
