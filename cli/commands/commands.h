// SPDX-License-Identifier: GPL-3.0-or-later
//
// One maker per command, so that each command's class stays in its own file.
#pragma once

#include <memory>

#include "cli/command.h"

namespace spanwright {

std::unique_ptr<Command> newRecordCommand();
std::unique_ptr<Command> importCommand();
std::unique_ptr<Command> recordVisitCommand();
std::unique_ptr<Command> showCommand();
std::unique_ptr<Command> dueCommand();
std::unique_ptr<Command> planCommand();
std::unique_ptr<Command> driftCommand();
std::unique_ptr<Command> intervalsCommand();
std::unique_ptr<Command> signCommand();
std::unique_ptr<Command> sendBackCommand();
std::unique_ptr<Command> withdrawCommand();
std::unique_ptr<Command> verifyCommand();
std::unique_ptr<Command> journalCommand();
std::unique_ptr<Command> peopleCommand();
std::unique_ptr<Command> passphraseCommand();
std::unique_ptr<Command> serviceCommand();
std::unique_ptr<Command> roundsCommand();
std::unique_ptr<Command> backupCommand();
std::unique_ptr<Command> restoreCommand();
std::unique_ptr<Command> standardsCommand();
std::unique_ptr<Command> traceCommand();
std::unique_ptr<Command> reachCommand();
std::unique_ptr<Command> attachCommand();
std::unique_ptr<Command> attachmentsCommand();
std::unique_ptr<Command> evidenceCommand();
std::unique_ptr<Command> verifyBundleCommand();
std::unique_ptr<Command> calcCommand();
#ifdef SPANWRIGHT_WITH_GUI
std::unique_ptr<Command> certificateCommand();
std::unique_ptr<Command> sheetCommand();
#endif

}  // namespace spanwright
