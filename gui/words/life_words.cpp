// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/life_words.h"

#include <QStringList>

#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {}  // namespace

QString deed(LifeAct act) {
  switch (act) {
    case LifeAct::performed:
      return tr("Sign as performed");
    case LifeAct::reviewed:
      return tr("Sign as reviewed");
    case LifeAct::approved:
      return tr("Sign as approved");
    case LifeAct::sentBack:
      return tr("Send back");
    case LifeAct::withdrawn:
      return tr("Withdraw");
    case LifeAct::superseded:
      break;
  }
  return {};
}

QString consequence(LifeAct act) {
  switch (act) {
    case LifeAct::performed:
      return tr("These are my readings as I made them. It then waits for a review.");
    case LifeAct::reviewed:
      return tr("I looked at the readings and at what they rest on. It then waits for approval.");
    case LifeAct::approved:
      return tr("It is released; its certificate carries no mark any more.");
    case LifeAct::sentBack:
      return tr("It proves nothing until its technician signs it again or corrects it.");
    case LifeAct::withdrawn:
      return tr("It stays visible and counts for nothing. This cannot be taken back.");
    case LifeAct::superseded:
      break;
  }
  return {};
}

QString signatureLine(const Signature& signature) {
  const LifeEvent& event = signature.event;
  const QString what =
      event.act == LifeAct::superseded
          ? tr("%1 by calibration %2").arg(word(event.act)).arg(event.correction)
          : tr("%1 by %2 (%3)").arg(word(event.act), fromCore(signature.name), fromCore(event.person));
  const QString line = tr("%1, %2 UTC").arg(what, shownMoment(event.atUtc));
  return asSentence(event.reason.empty() ? line : tr("%1: %2").arg(line, fromCore(event.reason)));
}

QString signatureLines(const std::vector<Signature>& all) {
  QStringList lines;
  for (const Signature& each : all) {
    lines << signatureLine(each);
  }
  return lines.isEmpty() ? tr("Nobody has signed it yet.") : lines.join(u'\n');
}

}  // namespace spanwright
