// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <exception>
#include <optional>
#include <ostream>

#include "cli/command.h"
#include "core/record/problem.h"

namespace spanwright {

namespace {

int execute(Command& command, const Surroundings& surroundings) {
  try {
    return command.execute(surroundings);
  } catch (const InputError& error) {
    for (const Problem& problem : error.problems()) {
      surroundings.err << sentence(problem) << '\n';
    }
    if (command.writes()) {
      surroundings.err << (error.problems().size() == 1
                               ? "Nothing was written.\n"
                               : fmt::format("{} mistakes; nothing was written.\n", error.problems().size()));
    }
    return kRefused;
  } catch (const StorageError& error) {
    surroundings.err << error.what() << '\n';
    return kStorage;
  }
}

// CLI11 only says that a command is required; name the word that is none.
std::optional<std::string> unknownCommand(int argc, const char* const* argv,
                                          const std::vector<std::unique_ptr<Command>>& commands) {
  const std::string word = argc > 1 ? argv[1] : "-";
  std::string names;
  for (const auto& command : commands) {
    if (command->name() == word) {
      return std::nullopt;
    }
    names += (names.empty() ? "" : ", ") + command->name();
  }
  if (word.starts_with('-')) {
    return std::nullopt;
  }
  return fmt::format("\"{}\" is not a command; it is one of {}.", word, names);
}

}  // namespace

int run(int argc, const char* const* argv, const Surroundings& surroundings) {
  CLI::App app{"Spanwright keeps the calibration record of a site's measuring channels.", "spanwright"};
  app.set_version_flag("--version", "spanwright " SPANWRIGHT_VERSION);
  app.require_subcommand(1);
  const auto commands = allCommands();
  std::vector<CLI::App*> subcommands;
  for (const auto& command : commands) {
    CLI::App* subcommand = app.add_subcommand(command->name(), command->description());
    command->declare(*subcommand);
    subcommands.push_back(subcommand);
  }
  if (const auto unknown = unknownCommand(argc, argv, commands)) {
    surroundings.err << *unknown << '\n';
    return kUsage;
  }
  try {
    app.parse(argc, argv);
    for (std::size_t i = 0; i < commands.size(); ++i) {
      if (subcommands[i]->parsed()) {
        return execute(*commands[i], surroundings);
      }
    }
  } catch (const CLI::ParseError& error) {
    const int status = app.exit(error, surroundings.out, surroundings.err);
    return status == 0 ? kDone : kUsage;
  }
  return kUsage;
}

}  // namespace spanwright
