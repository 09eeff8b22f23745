// SPDX-License-Identifier: GPL-3.0-or-later
//
// Is the record what was entered? Recomputes the journal from the rows.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "core/store/journal.h"

namespace spanwright {

struct RecordProblem {
  std::int64_t entry = 0;  ///< of the journal; 0 when it concerns none
  std::string what;        ///< a sentence's worth: which thing, where, what is wrong with it
};

struct RecordCheck {
  std::int64_t entries = 0;
  JournalHead head;
  std::int64_t units = 0;       ///< things compared with the journal
  std::int64_t rows = 0;        ///< rows digested for it
  std::int64_t signatures = 0;  ///< checked
  std::vector<RecordProblem> problems;
  std::vector<std::string> notes;  ///< worth knowing, nothing wrong: the clock went back
};

/// Says how far it is, 0 to 1; false to stop (InputError "cancelled").
using CheckProgress = std::function<bool(double)>;

/// Reads the file alone, however damaged its rows are, and reports
/// - tables and triggers that are not as the program makes them;
/// - entries of the journal changed, missing or out of order (the chain of hashes is recomputed);
/// - rows changed, added or removed since their last entry, each by name and row;
/// - rows that refer to what is not there;
/// - signatures that are not of the person named, of the key in force, or of what the rows now say;
/// - `known` heads (printed on certificates, exported before) that this journal has not: a history rewritten
/// or
///   cut off.
/// StorageError when the file cannot be read as a record at all.
RecordCheck verifyRecord(const std::filesystem::path& file, const std::vector<JournalHead>& known = {},
                         const CheckProgress& progress = {});

/// Looks at every page of the file and every reference between its rows: what Store::open leaves out when it
/// is told to look at the head only. Reads the file alone. StorageError, one sentence, when it is damaged;
/// InputError "cancelled" when `goOn` says false.
void checkWholeFile(const std::filesystem::path& file, std::function<bool()> goOn);

}  // namespace spanwright
