// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/reach_model.h"

#include <QStringList>
#include <cmath>

#include "gui/words/marks.h"
#include "gui/words/reach_words.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

/// As many decimals as tell the error from its limit.
QString shownIn(const ReachedPoint& point, std::optional<double> error) {
  if (!error) {
    return ReachedPointsModel::tr("cannot be told");
  }
  const double limit = std::isfinite(point.limits.high)  ? point.limits.high
                       : std::isfinite(point.limits.low) ? point.limits.low
                                                         : 0.0;
  return QStringLiteral("%1 %2")
      .arg(shownError(*error, nominalStep(limit * 1000.0)), shownUnit(point.unit))
      .trimmed();
}

QString shownOf(const ReachedPoint& point, std::optional<double> error) {
  return error ? QStringLiteral("%1 %2").arg(shownRate(*error), shownUnit(point.standardUnit)) : QString();
}

QString channelText(const ReachedCalibration& reached) {
  const QString tag = fromCore(reached.channel);
  return reached.subject == Subject::channel
             ? tag
             : ReachedModel::tr("%1, %2").arg(tag, wordInside(reached.subject));
}

QIcon signOf(const ReachedPhase& phase) {
  return phase.flips() ? iconOf(phase.becomes) : QIcon();
}

QIcon signOf(ReachedThen then) {
  switch (then) {
    case ReachedThen::visitAgain:
      return markIcon(Mark::exclaim, Tone::attention);
    case ReachedThen::cleared:
      return markIcon(Mark::check, Tone::good);
    case ReachedThen::unchanged:
    case ReachedThen::nothing:
      break;
  }
  return {};
}

QVariant moment(const Moment& at) {
  return QVariant(fromCore(formatMoment(at)));
}

std::vector<ReachedModel::Column> reachedColumns() {
  using Row = ReachedCalibration;
  return {
      {ReachedModel::tr("No."),
       [](const Row& r) { return QString::number(r.id); },
       [](const Row& r) { return QVariant(static_cast<qlonglong>(r.id)); },
       {},
       true},
      {ReachedModel::tr("Channel"), channelText},
      {ReachedModel::tr("Performed"), [](const Row& r) { return shownMoment(r.performed); },
       [](const Row& r) { return moment(r.performed); }},
      {ReachedModel::tr("As found"),
       [](const Row& r) { return changeWord(r.asFound.was, r.asFound.becomes); },
       {},
       [](const Row& r) { return signOf(r.asFound); }},
      {ReachedModel::tr("As left"),
       [](const Row& r) {
         return r.leftApart ? changeWord(r.asLeft.was, r.asLeft.becomes) : word(Phase::asFound);
       },
       {},
       [](const Row& r) { return r.leftApart ? signOf(r.asLeft) : QIcon(); }},
      {ReachedModel::tr("Then"), thenWord, {}, [](const Row& r) { return signOf(r.then()); }},
      {ReachedModel::tr("Worst point"),
       [](const Row& r) {
         const ReachedPoint* worst = r.worst();
         return worst != nullptr ? ReachedModel::tr("%1, %2").arg(word(worst->phase), pointWord(worst->test))
                                 : QString();
       }},
      {ReachedModel::tr("Error was"),
       [](const Row& r) {
         const ReachedPoint* worst = r.worst();
         return worst != nullptr ? shownIn(*worst, worst->oldError) : QString();
       },
       {},
       {},
       true},
      {ReachedModel::tr("Becomes"),
       [](const Row& r) {
         const ReachedPoint* worst = r.worst();
         return worst != nullptr ? shownIn(*worst, worst->newError) : QString();
       },
       {},
       {},
       true},
  };
}

std::vector<ReachedPointsModel::Column> pointColumns() {
  using Row = ReachedPoint;
  return {
      {ReachedPointsModel::tr("Point"),
       [](const Row& r) { return ReachedPointsModel::tr("%1, %2").arg(word(r.phase), pointWord(r.test)); }},
      {ReachedPointsModel::tr("Verdict"),
       [](const Row& r) { return changeWord(r.was, r.becomes); },
       {},
       [](const Row& r) { return r.was != r.becomes ? iconOf(r.becomes) : QIcon(); }},
      {ReachedPointsModel::tr("Error was"),
       [](const Row& r) { return shownIn(r, r.oldError); },
       {},
       {},
       true},
      {ReachedPointsModel::tr("Becomes"), [](const Row& r) { return shownIn(r, r.newError); }, {}, {}, true},
      {ReachedPointsModel::tr("Certificate said"),
       [](const Row& r) { return shownOf(r, r.certificateError); },
       {},
       {},
       true},
      {ReachedPointsModel::tr("Found"), [](const Row& r) { return shownOf(r, r.foundError); }, {}, {}, true},
      {ReachedPointsModel::tr("Remark"),
       [](const Row& r) {
         return r.notInFinding  ? ReachedPointsModel::tr("not in the finding, left as it was")
                : r.beyondFound ? ReachedPointsModel::tr("just beyond the values found")
                                : fromCore(r.reason);
       }},
  };
}

std::vector<ReachVisitsModel::Column> visitColumns() {
  using Row = ReachVisitRow;
  return {
      {ReachVisitsModel::tr("Stop"), [](const Row& r) { return QString::number(r.place); }, {}, {}, true},
      {ReachVisitsModel::tr("Channel"), [](const Row& r) { return fromCore(r.visit.channel); }},
      {ReachVisitsModel::tr("Subject"), [](const Row& r) { return word(r.visit.subject); }},
      {ReachVisitsModel::tr("Place"), [](const Row& r) { return fromCore(r.visit.place); }},
      {ReachVisitsModel::tr("Title"), [](const Row& r) { return r.title; }},
      {ReachVisitsModel::tr("Calibrations in doubt"),
       [](const Row& r) {
         QStringList numbers;
         for (const CalibrationId each : r.visit.calibrations) {
           numbers << QString::number(each);
         }
         return numbers.join(QStringLiteral(", "));
       }},
  };
}

}  // namespace

ReachedModel::ReachedModel(QObject* parent) : RowsModel(reachedColumns(), parent) {}
ReachedPointsModel::ReachedPointsModel(QObject* parent) : RowsModel(pointColumns(), parent) {}
ReachVisitsModel::ReachVisitsModel(QObject* parent) : RowsModel(visitColumns(), parent) {}

}  // namespace spanwright
