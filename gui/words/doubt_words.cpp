// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/doubt_words.h"

#include <QStringList>

#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {

QString doubtQuestion(const Doubt& doubt, const Reading& reading, const TestPoint& other, bool withRun,
                      double step) {
  const QString typed = fromCore(reading.indicatedText);
  switch (doubt.kind) {
    case DoubtKind::swappedDigits:
      return tr("%1 for %2?").arg(typed, fromCore(doubt.meantText));
    case DoubtKind::otherPoint:
      return tr("is %1 the reading of %2?").arg(typed, pointWord(other, withRun));
    case DoubtKind::otherUnit:
      return tr("%1 for %2?").arg(typed, shownValue(doubt.meant, step));
    case DoubtKind::farOff:
      break;
  }
  const QString error = shownError(reading.error(), step);
  const QString usual = shownValue(doubt.usual, step, 1);
  return doubt.byHistory
             ? tr("is %1 right? It is off by %2, where about %3 is usual").arg(typed, error, usual)
             : tr("is %1 right? It is off by %2, where %3 is allowed").arg(typed, error, usual);
}

QString asQuestion(const QString& clause) {
  return clause.endsWith(u'?') ? clause.left(1).toUpper() + clause.mid(1) : asSentence(clause);
}

QString doubtsSentence(const std::vector<DoubtfulReading>& doubts) {
  QStringList all;
  for (const DoubtfulReading& each : doubts) {
    all << QStringLiteral("%1, %2: %3")
               .arg(pointWord(each.reading.point, each.reading.point.run > 1), word(each.phase),
                    doubtQuestion(each.doubt, each.reading, each.other, each.other.run > 1, 0.0));
  }
  return all.join(QStringLiteral("; "));
}

}  // namespace spanwright
