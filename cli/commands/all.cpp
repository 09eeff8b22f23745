// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/commands/commands.h"

namespace spanwright {

std::vector<std::unique_ptr<Command>> allCommands() {
  std::vector<std::unique_ptr<Command>> commands;
  commands.push_back(newRecordCommand());
  commands.push_back(importCommand());
  commands.push_back(recordVisitCommand());
  commands.push_back(showCommand());
  commands.push_back(dueCommand());
  commands.push_back(planCommand());
  commands.push_back(driftCommand());
  commands.push_back(intervalsCommand());
  commands.push_back(signCommand());
  commands.push_back(sendBackCommand());
  commands.push_back(withdrawCommand());
  commands.push_back(verifyCommand());
  commands.push_back(journalCommand());
  commands.push_back(peopleCommand());
  commands.push_back(passphraseCommand());
  commands.push_back(serviceCommand());
  commands.push_back(roundsCommand());
  commands.push_back(backupCommand());
  commands.push_back(restoreCommand());
  commands.push_back(standardsCommand());
  commands.push_back(traceCommand());
  commands.push_back(reachCommand());
  commands.push_back(attachCommand());
  commands.push_back(attachmentsCommand());
  commands.push_back(evidenceCommand());
  commands.push_back(verifyBundleCommand());
  commands.push_back(calcCommand());
#ifdef SPANWRIGHT_WITH_GUI
  commands.push_back(certificateCommand());
  commands.push_back(sheetCommand());
#endif
  return commands;
}

}  // namespace spanwright
