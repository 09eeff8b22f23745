// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <exception>
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
