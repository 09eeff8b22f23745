// SPDX-License-Identifier: GPL-3.0-or-later
//
// Somebody with the file and any SQL tool.
#pragma once

#include <filesystem>
#include <functional>
#include <string>

#include "core/store/sqlite_connection.h"

namespace spanwright::test {

/// Takes every trigger away, does the work, and puts the triggers back as they were, so that only the rows
/// tell.
void behindTheJournal(const std::filesystem::path& file, const std::function<void(Connection&)>& work);

/// Makes entry `entry` fit its unit's rows as they are now, then hashes it and all after it again: the
/// journal is then without a flaw in itself.
void rewriteConsistently(Connection& connection, std::int64_t entry);

}  // namespace spanwright::test
