// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is wrong with something a person gave us, and the exceptions that carry it. See DEVELOPERS.md,
// "Errors".
#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace spanwright {

/// Where in a source; line and column count from 1, 0 means "not known". `columnName` is a table's heading,
/// `field` a form's field, named as in a site file; the sentence does not repeat it.
struct Where {
  std::string file;
  int line = 0;
  int column = 0;
  std::string columnName;
  std::string field = {};
};

/// One mistake in input: what it is, where it stands and what to do about it, each a clause without full
/// stop.
struct Problem {
  Where where;
  std::string what;
  std::string todo;
};

/// "site.toml:12:8: <what>; <todo>." - one sentence for people; leaves out what is not known.
std::string sentence(const Problem& problem);

/// Input was refused and nothing was written. Carries every mistake found, not only the first.
class InputError : public std::runtime_error {
 public:
  explicit InputError(std::vector<Problem> problems);
  explicit InputError(std::string what, std::string todo, Where where = {});
  const std::vector<Problem>& problems() const { return problems_; }

 private:
  std::vector<Problem> problems_;
};

/// The record could not be read or written (missing, damaged, not ours, too new, read-only, full, busy).
/// what() is one sentence that says which file, what happened and what to do.
class StorageError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace spanwright
