// SPDX-License-Identifier: GPL-3.0-or-later
//
// One command of the program: its name, its options, its work. No rules live here: a command asks core/tasks
// or an importer and prints what comes back.
#pragma once

#include <CLI/CLI.hpp>
#include <iosfwd>
#include <memory>
#include <string>
#include <vector>

#include "core/units/time.h"

namespace spanwright {

// Exit statuses, a contract with scripts.
inline constexpr int kDone = 0;
inline constexpr int kFound = 1;    ///< done, and something was found that a person must act on
inline constexpr int kUsage = 2;    ///< called wrongly
inline constexpr int kRefused = 3;  ///< input refused, nothing written
inline constexpr int kStorage = 4;  ///< the record could not be read or written

/// What a command may touch of the outside.
struct Surroundings {
  std::ostream& out;   ///< tables, or one JSON document
  std::ostream& err;   ///< messages and progress
  bool errIsTerminal;  ///< a progress bar is drawn only on a terminal
  const Clock& clock;
};

class Command {
 public:
  virtual ~Command() = default;
  virtual std::string name() const = 0;
  virtual std::string description() const = 0;
  /// Could it have changed a record? A refusal then says that it did not.
  virtual bool writes() const { return false; }
  /// Declares options and positionals; they write into members of the command.
  virtual void declare(CLI::App& app) = 0;
  /// Does the work; InputError and StorageError are caught by run().
  virtual int execute(const Surroundings& surroundings) = 0;
};

/// Every command, in the order of the help text.
std::vector<std::unique_ptr<Command>> allCommands();

/// The whole program: parses, executes, turns errors into sentences and exit statuses.
int run(int argc, const char* const* argv, const Surroundings& surroundings);

}  // namespace spanwright
