// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/reach_words.h"

#include <QStringList>

#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {

QString word(LastGoodWhy why) {
  switch (why) {
    case LastGoodWhy::noneOlder:
      return tr("no certificate of it is older");
    case LastGoodWhy::decided:
      return tr("so it was decided");
    case LastGoodWhy::disagrees:
      return tr("the newest that does not show yet what was found");
    case LastGoodWhy::allAgree:
      return tr("the newest that can be compared; none contradicts what was found");
    case LastGoodWhy::noneComparable:
      return tr("the newest; none has a value in common with what was found");
  }
  return {};
}

QString lastGoodSentences(const Reach& reach) {
  if (!reach.lastGood) {
    return tr("No certificate of it is older, so every calibration made with it is in doubt.");
  }
  QStringList said{
      tr("Last good certificate: %1, valid from %2: %3.")
          .arg(fromCore(reach.lastGood->number), shownDate(reach.lastGood->validFrom), word(reach.why))};
  if (!reach.passedOver.empty()) {
    QStringList numbers;
    for (const std::string& each : reach.passedOver) {
      numbers << fromCore(each);
    }
    said << tr("Passed over, because they already show what was found: %1.")
                .arg(numbers.join(QStringLiteral(", ")));
  }
  if (reach.agrees) {
    said << tr("What was found agrees with it within both uncertainties.");
  }
  return said.join(u' ');
}

QString reachSentences(const Reach& reach) {
  if (reach.calibrations.empty()) {
    return tr("No calibration was made with it since.");
  }
  QStringList said{
      counted(static_cast<int>(reach.calibrations.size()),
              tr("1 calibration was made with it since; with the error found, %2 change verdict."),
              tr("%1 calibrations were made with it since; with the error found, %2 change "
                 "verdict."))
          .arg(reach.flips())};
  if (const auto beyond = static_cast<int>(reach.beyondFound()); beyond > 0) {
    said << counted(beyond,
                    tr("1 point lies up to 5 % beyond the values found; the error of the nearest one was "
                       "used there."),
                    tr("%1 points lie up to 5 % beyond the values found; the error of the nearest one was "
                       "used there."));
  }
  if (const auto outside = static_cast<int>(reach.notInFinding()); outside > 0) {
    said << counted(outside,
                    tr("1 point rests on a range of the standard that the finding does not mention; it was "
                       "left as it is. Add the range if it was checked."),
                    tr("%1 points rest on a range of the standard that the finding does not mention; they "
                       "were left as they are. Add the range if it was checked."));
  }
  return said.join(u' ');
}

QString changeWord(Verdict was, Verdict becomes) {
  return was == becomes ? word(was) : tr("%1 → %2").arg(word(was), word(becomes));
}

QString thenWord(const ReachedCalibration& reached) {
  switch (reached.then()) {
    case ReachedThen::visitAgain:
      return tr("visit again");
    case ReachedThen::cleared:
      return tr("cleared by %1").arg(*reached.clearedBy);
    case ReachedThen::unchanged:
      return tr("unchanged");
    case ReachedThen::nothing:
      break;
  }
  return tr("no visit needed");
}

}  // namespace spanwright
