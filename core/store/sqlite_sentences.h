// SPDX-License-Identifier: GPL-3.0-or-later
//
// What SQLite's result codes mean for a person.
#pragma once

#include <string>
#include <string_view>

namespace spanwright {

/// The two clauses of a StorageError about a file.
struct Sentence {
  std::string what;  ///< follows the file's name
  std::string todo;
};

/// `code`: an extended result code that is not SQLITE_OK; `systemError`: errno of the failed call, or 0;
/// `message`: SQLite's own words, shown only where nothing better is known.
Sentence explain(int code, int systemError, std::string_view message);

}  // namespace spanwright
