// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every command of the window, once: its name, keys and what it does. The page of keys is made from this
// list.
#pragma once

#include <QKeySequence>
#include <QList>
#include <QString>

class QAction;
class QObject;

namespace spanwright {

enum class CommandId {
  newSite,
  openRecord,
  newRecord,
  openSample,
  importHistory,
  checkRecord,
  makeEvidence,
  changePassphrase,
  closeRecord,
  quit,
  showToday,
  showSite,
  showDue,
  showReview,
  showDrift,
  showPlan,
  showIntervals,
  showStandards,
  showRounds,
  showJournal,
  goBack,
  findChannel,
  lightLook,
  darkLook,
  contrastLook,
  largerText,
  smallerText,
  enterVisit,
  nextStop,
  finishVisit,
  skipPoint,
  repeatAbove,
  undoTyping,
  redoTyping,
  startSettling,
  discardDraft,
  signCalibration,
  showTrace,
  issueCertificate,
  makeLabels,
  showFiles,
  changeChosen,
  newPlace,
  newChannel,
  newSetup,
  fitSensor,
  showRegister,
  changeSite,
  explainNumbers,
  showKeys,
  about
};

struct Command {
  CommandId id;
  const char* text;  ///< translated under "Commands"
  const char* keys;  ///< portable text, several separated by "; ", empty for none
  const char* tip;
};

const QList<Command>& commands();
/// Heard on the entry sheet only, which has its own actions for them.
bool isOfEntrySheet(CommandId id);
const Command& command(CommandId id);
QString commandText(CommandId id);
QList<QKeySequence> commandKeys(CommandId id);
/// An action with the command's text, keys and tip; the caller connects it.
QAction* makeAction(CommandId id, QObject* parent);
/// A table of all keys as rich text.
QString keysPage();

}  // namespace spanwright
