// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/models/trace_model.h"

#include <QLocale>
#include <cmath>

#include "core/certificate/figures.h"
#include "gui/words/marks.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

using Row = TracedReading;
using Column = TraceModel::Column;

const QString kNone = QStringLiteral("–");
constexpr int kDigits = 6;

QString figure(double value) {
  return std::isfinite(value) ? QLocale().toString(value, 'g', kDigits) : QStringLiteral("∞");
}
QString signedFigure(double value) {
  return (value > 0.0 ? QStringLiteral("+") : QString()) + QLocale().toString(value, 'g', 4);
}
QString withUnit(double value, Unit unit) {
  return unit == Unit::none ? figure(value) : QStringLiteral("%1 %2").arg(figure(value), shownUnit(unit));
}

/// Empty for what was skipped.
template <typename Text>
auto taken(Text text) {
  return [text](const Row& row) { return row.reading.skipped() ? QString() : text(row.reading); };
}

QString limitsText(const Reading& reading) {
  return reading.limits.high == -reading.limits.low
             ? QStringLiteral("± %1").arg(figure(reading.limits.high))
             : TraceModel::tr("%1 to %2").arg(figure(reading.limits.low), figure(reading.limits.high));
}

QString usedText(const Reading& reading) {
  const double used = fractionOfLimit(reading.error(), reading.limits);
  return std::isfinite(used) ? TraceModel::tr("%1 %").arg(QLocale().toString(100.0 * used, 'f', 0))
                             : QStringLiteral("∞");
}

std::vector<Column> traceColumns() {
  return {
      {TraceModel::tr("Phase"), [](const Row& r) { return word(r.phase); }},
      {TraceModel::tr("Point"), [](const Row& r) { return pointWord(r.reading.point, true); }},
      {TraceModel::tr("Applied"),
       taken([](const Reading& r) { return withUnit(r.applied, r.point.appliedUnit); }),
       {},
       {},
       true},
      Column{TraceModel::tr("Expected"),
             taken([](const Reading& r) { return withUnit(r.expected, r.point.readingUnit); }),
             {},
             {},
             true}
          .about(Explained::expected),
      {TraceModel::tr("Read"),
       taken([](const Reading& r) { return withUnit(r.indicated, r.point.readingUnit); }),
       {},
       {},
       true},
      Column{TraceModel::tr("Error"),
             taken([](const Reading& r) { return signedFigure(r.error()); }),
             {},
             {},
             true}
          .about(Explained::error),
      Column{TraceModel::tr("Limits"), taken(limitsText), {}, {}, true}.about(Explained::limits),
      Column{TraceModel::tr("Used"), taken(usedText), {}, {}, true}.about(Explained::usedTolerance),
      Column{TraceModel::tr("U"),
             taken([](const Reading& r) {
               return r.expandedUncertainty ? QLocale().toString(*r.expandedUncertainty, 'g', 3) : kNone;
             }),
             {},
             {},
             true}
          .about(Explained::uncertainty),
      Column{TraceModel::tr("Verdict"),
             [](const Row& r) {
               return r.reading.skipped() ? TraceModel::tr("skipped") : word(r.reading.verdict);
             },
             {},
             [](const Row& r) { return r.reading.skipped() ? QIcon() : iconOf(r.reading.verdict); }}
          .about(Explained::decision),
      {TraceModel::tr("Left before"),
       [](const Row& r) { return r.leftBefore ? signedFigure(*r.leftBefore) : kNone; },
       {},
       {},
       true},
      {TraceModel::tr("Since then"),
       [](const Row& r) {
         return r.leftBefore && !r.reading.skipped() ? signedFigure(r.reading.error() - *r.leftBefore)
                                                     : kNone;
       },
       {},
       {},
       true},
      {TraceModel::tr("Recomputed"),
       [](const Row& r) {
         return r.differs.empty() ? TraceModel::tr("the same") : TraceModel::tr("differs");
       },
       {},
       [](const Row& r) {
         return r.differs.empty() ? markIcon(Mark::check, Tone::good) : markIcon(Mark::exclaim, Tone::bad);
       }},
  };
}

}  // namespace

TraceModel::TraceModel(QObject* parent) : RowsModel(traceColumns(), parent) {}

}  // namespace spanwright
