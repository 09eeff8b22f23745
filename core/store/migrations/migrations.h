// SPDX-License-Identifier: GPL-3.0-or-later
//
// The steps that bring a record from one version of its tables to the next. A released step is frozen: never
// edit it, add another. `user_version` of the file is the version of the last step taken.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "core/store/sqlite_connection.h"

namespace spanwright {

struct Migration {
  int version;  ///< the record's version after this step; 1, 2, 3 ... without gaps
  const char* sql;
  /// Kinds of units (covered.h) to be entered into the journal again once all steps are taken, because this
  /// step changed what is covered of them; "*" for all.
  std::vector<std::string_view> covers = {};
};

/// All steps, oldest first.
std::span<const Migration> migrations();

/// "SPWR", marks a database file as a record.
inline constexpr int kApplicationId = 0x53505752;

/// Takes the steps the record has not taken yet, all in one transaction: after a StorageError it is as it
/// was.
void migrate(Connection& connection, std::span<const Migration> steps = migrations());

namespace migration {
extern const char* const kVersion1;
extern const char* const kVersion2;
extern const char* const kVersion3;
extern const char* const kVersion4;
}  // namespace migration

}  // namespace spanwright
