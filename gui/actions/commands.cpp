// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/actions/commands.h"

#include <QAction>
#include <QCoreApplication>
#include <algorithm>
#include <array>

#include "gui/words/tr.h"

namespace spanwright {
namespace {

/// A text of the table below.
QString translated(const char* text) {
  return QCoreApplication::translate("Commands", text);
}

QString row(const QString& keys, const QString& text) {
  return QStringLiteral(
             "<tr><td style='padding:3px 18px 3px 0'><b>%1</b></td><td style='padding:3px 0'>%2</td></tr>")
      .arg(keys.toHtmlEscaped(), text.toHtmlEscaped());
}

}  // namespace

const QList<Command>& commands() {
  static const QList<Command> kAll{
      {CommandId::newSite, QT_TRANSLATE_NOOP("Commands", "&New site…"), "Ctrl+Shift+N",
       QT_TRANSLATE_NOOP("Commands", "Make the record of a new site by form")},
      {CommandId::openRecord, QT_TRANSLATE_NOOP("Commands", "&Open record…"), "Ctrl+O",
       QT_TRANSLATE_NOOP("Commands", "Open a record file")},
      {CommandId::newRecord, QT_TRANSLATE_NOOP("Commands", "New record &from a site file…"), "",
       QT_TRANSLATE_NOOP("Commands", "Make an empty record from a site description")},
      {CommandId::openSample, QT_TRANSLATE_NOOP("Commands", "&Try the sample record"), "",
       QT_TRANSLATE_NOOP("Commands", "Open your own copy of an invented site")},
      {CommandId::importHistory, QT_TRANSLATE_NOOP("Commands", "&Import histories…"), "Ctrl+I",
       QT_TRANSLATE_NOOP("Commands", "Read past calibrations from CSV files through a mapping")},
      {CommandId::checkRecord, QT_TRANSLATE_NOOP("Commands", "C&heck the record…"), "",
       QT_TRANSLATE_NOOP("Commands", "Prove that nothing was changed behind the journal's back")},
      {CommandId::makeEvidence, QT_TRANSLATE_NOOP("Commands", "&Evidence for a reviewer…"), "",
       QT_TRANSLATE_NOOP("Commands", "A bundle of calibrations with all they rest on, to hand out")},
      {CommandId::changePassphrase, QT_TRANSLATE_NOOP("Commands", "My &passphrase…"), "",
       QT_TRANSLATE_NOOP("Commands", "Change the passphrase you sign with")},
      {CommandId::closeRecord, QT_TRANSLATE_NOOP("Commands", "&Close record"), "Ctrl+W",
       QT_TRANSLATE_NOOP("Commands", "Close this record and return to the start")},
      {CommandId::quit, QT_TRANSLATE_NOOP("Commands", "&Quit"), "Ctrl+Q",
       QT_TRANSLATE_NOOP("Commands", "Leave the program; unfinished visits are kept")},
      {CommandId::showToday, QT_TRANSLATE_NOOP("Commands", "&Today"), "Ctrl+0",
       QT_TRANSLATE_NOOP("Commands", "What needs doing today for the person who works")},
      {CommandId::showSite, QT_TRANSLATE_NOOP("Commands", "&Site"), "Ctrl+1",
       QT_TRANSLATE_NOOP("Commands", "Places and channels with their state")},
      {CommandId::showDue, QT_TRANSLATE_NOOP("Commands", "&Due list"), "Ctrl+2",
       QT_TRANSLATE_NOOP("Commands", "What is due, most pressing first")},
      {CommandId::showReview, QT_TRANSLATE_NOOP("Commands", "&Review"), "Ctrl+3",
       QT_TRANSLATE_NOOP("Commands", "Calibrations that wait for a signature, oldest first")},
      {CommandId::showDrift, QT_TRANSLATE_NOOP("Commands", "Dr&ift"), "Ctrl+4",
       QT_TRANSLATE_NOOP("Commands", "All channels by how soon they leave their tolerance")},
      {CommandId::showPlan, QT_TRANSLATE_NOOP("Commands", "&Plan"), "Ctrl+5",
       QT_TRANSLATE_NOOP("Commands", "Visits fitted into the weeks to come")},
      {CommandId::showIntervals, QT_TRANSLATE_NOOP("Commands", "I&ntervals"), "Ctrl+6",
       QT_TRANSLATE_NOOP("Commands", "Proposed intervals with their evidence, and accepting them")},
      {CommandId::showStandards, QT_TRANSLATE_NOOP("Commands", "St&andards"), "Ctrl+7",
       QT_TRANSLATE_NOOP("Commands", "How long each standard may be used, its certificates and its chart")},
      {CommandId::showRounds, QT_TRANSLATE_NOOP("Commands", "Ro&unds"), "Ctrl+8",
       QT_TRANSLATE_NOOP("Commands", "Lists of channels to walk past, with what is done of them")},
      {CommandId::showJournal, QT_TRANSLATE_NOOP("Commands", "&Journal"), "Ctrl+9",
       QT_TRANSLATE_NOOP("Commands", "What was done to the record, when and by whom")},
      {CommandId::goBack, QT_TRANSLATE_NOOP("Commands", "&Back"), "Alt+Left",
       QT_TRANSLATE_NOOP("Commands", "Return to the page before")},
      {CommandId::findChannel, QT_TRANSLATE_NOOP("Commands", "&Find channel"), "Ctrl+F",
       QT_TRANSLATE_NOOP("Commands", "Go to the box that narrows the list")},
      {CommandId::lightLook, QT_TRANSLATE_NOOP("Commands", "Li&ght colours"), "Ctrl+Shift+L",
       QT_TRANSLATE_NOOP("Commands", "Dark text on a light ground")},
      {CommandId::darkLook, QT_TRANSLATE_NOOP("Commands", "Dar&k colours"), "Ctrl+Shift+D",
       QT_TRANSLATE_NOOP("Commands", "Light text on a dark ground")},
      {CommandId::contrastLook, QT_TRANSLATE_NOOP("Commands", "High &contrast"), "Ctrl+Shift+H",
       QT_TRANSLATE_NOOP("Commands", "White text on black, with edges and marks that stand out")},
      {CommandId::largerText, QT_TRANSLATE_NOOP("Commands", "Larger te&xt"),
       "Ctrl++; Ctrl+=", QT_TRANSLATE_NOOP("Commands", "The next larger text, up to 200 %")},
      {CommandId::smallerText, QT_TRANSLATE_NOOP("Commands", "S&maller text"), "Ctrl+-",
       QT_TRANSLATE_NOOP("Commands", "The next smaller text, down to 100 %")},
      {CommandId::enterVisit, QT_TRANSLATE_NOOP("Commands", "Enter a &visit"), "Ctrl+N",
       QT_TRANSLATE_NOOP("Commands", "Open the entry sheet for the channel shown or chosen")},
      {CommandId::nextStop, QT_TRANSLATE_NOOP("Commands", "Ne&xt channel of the round"), "F8",
       QT_TRANSLATE_NOOP("Commands", "Open the entry sheet of the next channel to do")},
      {CommandId::finishVisit, QT_TRANSLATE_NOOP("Commands", "&Finish visit"), "Ctrl+Return; Ctrl+Enter",
       QT_TRANSLATE_NOOP("Commands", "Check the whole sheet and store the visit")},
      {CommandId::skipPoint, QT_TRANSLATE_NOOP("Commands", "S&kip this point"), "Ctrl+K",
       QT_TRANSLATE_NOOP("Commands", "Say why this point is not taken")},
      {CommandId::repeatAbove, QT_TRANSLATE_NOOP("Commands", "Repeat the value above"), "Ctrl+D",
       QT_TRANSLATE_NOOP("Commands", "Put in what stands in the line above and go on")},
      {CommandId::undoTyping, QT_TRANSLATE_NOOP("Commands", "Take back"), "Ctrl+Z",
       QT_TRANSLATE_NOOP("Commands", "Take back what was typed or pasted last")},
      {CommandId::redoTyping, QT_TRANSLATE_NOOP("Commands", "Do again"), "Ctrl+Shift+Z; Ctrl+Y",
       QT_TRANSLATE_NOOP("Commands", "Do again what was taken back")},
      {CommandId::startSettling, QT_TRANSLATE_NOOP("Commands", "Wait for the reading to settle"), "F9",
       QT_TRANSLATE_NOOP("Commands",
                         "Count down until the reading of this point has settled; again stops it")},
      {CommandId::discardDraft, QT_TRANSLATE_NOOP("Commands", "Discard draft"), "",
       QT_TRANSLATE_NOOP("Commands", "Throw away what was typed for this visit")},
      {CommandId::signCalibration, QT_TRANSLATE_NOOP("Commands", "Si&gn…"), "Ctrl+G",
       QT_TRANSLATE_NOOP("Commands", "Sign, send back or withdraw the calibration shown or chosen")},
      {CommandId::showTrace, QT_TRANSLATE_NOOP("Commands", "What it &rests on"), "Ctrl+R",
       QT_TRANSLATE_NOOP("Commands", "The calibration shown or chosen with the origin of every number")},
      {CommandId::issueCertificate, QT_TRANSLATE_NOOP("Commands", "&Issue certificate…"), "Ctrl+P",
       QT_TRANSLATE_NOOP("Commands", "Allot a number and write the certificate as PDF")},
      {CommandId::makeLabels, QT_TRANSLATE_NOOP("Commands", "&Labels…"), "Ctrl+L",
       QT_TRANSLATE_NOOP("Commands", "A sheet of labels to stick on what is proven")},
      {CommandId::showFiles, QT_TRANSLATE_NOOP("Commands", "&Files…"), "Ctrl+Shift+F",
       QT_TRANSLATE_NOOP("Commands", "Files kept about the channel, calibration or standard shown")},
      {CommandId::changeChosen, QT_TRANSLATE_NOOP("Commands", "&Change…"), "F2",
       QT_TRANSLATE_NOOP("Commands", "Change the channel or place shown or chosen")},
      {CommandId::newPlace, QT_TRANSLATE_NOOP("Commands", "New &place…"), "Ctrl+Shift+L",
       QT_TRANSLATE_NOOP("Commands", "Add a place within the one chosen")},
      {CommandId::newChannel, QT_TRANSLATE_NOOP("Commands", "New c&hannel…"), "Ctrl+Shift+C",
       QT_TRANSLATE_NOOP("Commands", "Add a channel at the place chosen")},
      {CommandId::newSetup, QT_TRANSLATE_NOOP("Commands", "New &setup in force…"), "Ctrl+Shift+S",
       QT_TRANSLATE_NOOP("Commands", "Put another setup of the channel in force from a day")},
      {CommandId::fitSensor, QT_TRANSLATE_NOOP("Commands", "&Fit a sensor…"), "Ctrl+Shift+T",
       QT_TRANSLATE_NOOP("Commands", "Fit another sensor to the channel")},
      {CommandId::showRegister, QT_TRANSLATE_NOOP("Commands", "&Lists of the register…"), "Ctrl+L",
       QT_TRANSLATE_NOOP("Commands", "People, places, plans, intervals, standards and sensors")},
      {CommandId::changeSite, QT_TRANSLATE_NOOP("Commands", "The s&ite…"), "",
       QT_TRANSLATE_NOOP("Commands", "Name, address, issuer and customer, as certificates print them")},
      {CommandId::explainNumbers, QT_TRANSLATE_NOOP("Commands", "How &numbers come about"), "Shift+F1",
       QT_TRANSLATE_NOOP("Commands", "Formula and source of the number chosen, beside the page")},
      {CommandId::showKeys, QT_TRANSLATE_NOOP("Commands", "&Keys"), "F1",
       QT_TRANSLATE_NOOP("Commands", "All keys on one page")},
      {CommandId::about, QT_TRANSLATE_NOOP("Commands", "&About"), "",
       QT_TRANSLATE_NOOP("Commands", "What this program is, and what it is not")},
  };
  return kAll;
}

bool isOfEntrySheet(CommandId id) {
  constexpr std::array kThere{CommandId::finishVisit, CommandId::skipPoint,  CommandId::repeatAbove,
                              CommandId::undoTyping,  CommandId::redoTyping, CommandId::startSettling,
                              CommandId::discardDraft};
  return std::find(kThere.begin(), kThere.end(), id) != kThere.end();
}

const Command& command(CommandId id) {
  return *std::find_if(commands().begin(), commands().end(), [id](const Command& c) { return c.id == id; });
}

QString commandText(CommandId id) {
  return translated(command(id).text);
}

QList<QKeySequence> commandKeys(CommandId id) {
  const QLatin1String keys(command(id).keys);
  return keys.isEmpty() ? QList<QKeySequence>()
                        : QKeySequence::listFromString(keys, QKeySequence::PortableText);
}

QAction* makeAction(CommandId id, QObject* parent) {
  auto* action = new QAction(commandText(id), parent);
  action->setShortcuts(commandKeys(id));
  action->setToolTip(translated(command(id).tip));
  action->setStatusTip(action->toolTip());
  return action;
}

QString keysPage() {
  QString rows;
  for (const Command& each : commands()) {
    const auto keys = commandKeys(each.id);
    if (!keys.isEmpty()) {
      rows += row(keys.first().toString(QKeySequence::NativeText), translated(each.tip));
    }
  }
  rows += row(tr("digits, Enter"), tr("In the entry sheet: put in a reading and go on to the next"));
  rows +=
      row(tr("arrows, F2, Esc"), tr("In the entry sheet: move, change what is there, leave it as it was"));
  rows += row(tr("Delete"), tr("In the entry sheet: empty the cell"));
  rows += row(tr("Ctrl+V"), tr("In the entry sheet: put in a column of values from here down"));
  rows += row(tr("Alt+T, Alt+P, Alt+D"),
              tr("In a visit: go to the standards, confirm the cautions, go to what was done"));
  rows += row(tr("Space"), tr("Tick a box or a standard"));
  rows += row(tr("arrows, + and -, Home"),
              tr("In a chart over time: move, zoom, show all of it; or drag and turn the wheel"));
  return QStringLiteral("<table>%1</table>").arg(rows);
}

}  // namespace spanwright
