// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/trace_words.h"

#include <QLocale>
#include <cmath>

#include "core/metrology/ruling.h"
#include "core/record/reference_junction.h"
#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

/// Rows of name and text; an empty text leaves its row out.
class Facts {
 public:
  void add(const QString& name, const QString& text) {
    if (!text.isEmpty()) {
      rows_ +=
          QStringLiteral(
              "<tr><td style='padding:2px 14px 2px 0'><b>%1</b></td><td style='padding:2px 0'>%2</td></tr>")
              .arg(name.toHtmlEscaped(),
                   text.toHtmlEscaped().replace(QLatin1Char('\n'), QStringLiteral("<br>")));
    }
  }
  QString table() const { return QStringLiteral("<table>%1</table>").arg(rows_); }

 private:
  QString rows_;
};

QString heading(const QString& text) {
  return QStringLiteral("<h4>%1</h4>").arg(text.toHtmlEscaped());
}

/// A sign and words, so that a missing link is not told by colour.
QString listed(const std::vector<std::string>& clauses) {
  QString items;
  for (const std::string& each : clauses) {
    items += QStringLiteral("<li>⚠ %1</li>").arg(asSentence(fromCore(each)).toHtmlEscaped());
  }
  return QStringLiteral("<ul>%1</ul>").arg(items);
}

QString figure(double value) {
  return std::isfinite(value) ? QLocale().toString(value, 'g', 6) : tr("open");
}

QString amount(double value, Unit unit) {
  return unit == Unit::none ? figure(value) : QStringLiteral("%1 %2").arg(figure(value), shownUnit(unit));
}

QString setupText(const CalibrationTrace& trace) {
  if (!trace.setup) {
    return {};
  }
  const QString until =
      trace.setupUntil ? tr("until %1").arg(shownMoment(*trace.setupUntil)) : tr("still in force");
  return tr("%1, in force from %2, %3\n%4")
      .arg(trace.setup->version)
      .arg(shownMoment(trace.setup->inForceFrom), until, shownDescription(describe(trace.setup->setup)));
}

QString planText(const CalibrationTrace& trace) {
  if (!trace.plan) {
    return {};
  }
  const Plan& plan = *trace.plan;
  const Unit unit = trace.readings.empty() ? Unit::none : trace.readings.front().reading.point.readingUnit;
  return tr("%1 revision %2, %3\n%4\nTolerance %5; decided by %6")
      .arg(fromCore(plan.code), fromCore(plan.revision), fromCore(plan.title), fromCore(plan.procedure),
           shownDescription(describe(plan.tolerance, unit)), fromCore(describe(plan.decisionRule)));
}

QString conditionsText(const Calibration& calibration) {
  QStringList parts;
  if (calibration.conditions.temperature) {
    parts << tr("%1 °C").arg(shownShort(*calibration.conditions.temperature));
  }
  if (calibration.conditions.humidity) {
    parts << tr("%1 % humidity").arg(shownShort(*calibration.conditions.humidity));
  }
  if (!calibration.conditions.note.empty()) {
    parts << fromCore(calibration.conditions.note);
  }
  return parts.join(QStringLiteral(", "));
}

QString standardText(const TracedStandard& traced) {
  const auto& certificate = traced.certificate;
  if (!certificate) {
    return tr("⚠ certificate %1 is not in the register").arg(fromCore(traced.used.certificate));
  }
  return tr("%1\ncertificate %2 of %3, valid %4 to %5%6\ntraceable %7")
      .arg(fromCore(traced.description), fromCore(certificate->number), fromCore(certificate->issuer),
           shownDate(certificate->validFrom), shownDate(certificate->validUntil),
           traced.validOnDay ? QString() : tr(" (⚠ not on the day)"),
           certificate->traceability.empty() ? tr("– not stated") : fromCore(certificate->traceability));
}

QString adjustmentText(const Calibration& calibration) {
  const Adjustment& done = calibration.adjustment;
  const QString what = done.repaired ? tr("repaired") : done.adjusted ? tr("adjusted") : tr("left as found");
  return done.text.empty() ? what : QStringLiteral("%1: %2").arg(what, fromCore(done.text));
}

QString issuedText(const CalibrationTrace& trace) {
  return trace.issued ? tr("%1, issued %2 UTC")
                            .arg(fromCore(trace.issued->number), shownMoment(trace.issued->issuedUtc))
                      : tr("none issued");
}

QString valuesTable(const TracedReading& traced) {
  Facts facts;
  for (const TracedValue& value : traced.values) {
    const QString name = value.applied ? tr("Applied") : tr("Measured");
    facts.add(
        name,
        value.certificate.empty()
            ? tr("⚠ %1: no named standard's certificate reaches it").arg(amount(value.value, value.unit))
            : tr("%1 by %2, certificate %3 says there: error %4, U %5 with k = %6")
                  .arg(amount(value.at, value.certificateUnit), fromCore(value.standard),
                       fromCore(value.certificate), amount(value.error, value.certificateUnit),
                       amount(value.uncertainty, value.certificateUnit), shownShort(value.coverageFactor)));
  }
  return facts.table();
}

QString short3(double value) {
  return QLocale().toString(value, 'g', 3);
}

QString budgetTable(const Budget& budget, Unit unit) {
  QString rows;
  const auto row = [&rows](const QString& name, const QString& value) {
    rows += QStringLiteral("<tr><td style='padding:1px 14px 1px 0'>%1</td><td align='right'>%2</td></tr>")
                .arg(name.toHtmlEscaped(), value.toHtmlEscaped());
  };
  for (const BudgetLine& line : budget.lines) {
    row(fromCore(line.name), short3(std::abs(line.standardUncertainty * line.sensitivity)));
  }
  row(tr("together, root sum of squares"), short3(budget.combined));
  row(tr("k for 95.45 %"), short3(budget.coverageFactor));
  row(tr("expanded uncertainty U"), QStringLiteral("%1 %2").arg(short3(budget.expanded), shownUnit(unit)));
  return QStringLiteral("<table>%1</table>").arg(rows);
}

QString sourceText(const CalibrationTrace& trace) {
  const Calibration& calibration = trace.calibration;
  const QString how =
      calibration.source == "entered" ? tr("entered") : tr("from %1").arg(fromCore(calibration.source));
  return tr("%1 UTC, %2").arg(shownMoment(calibration.recordedUtc), how);
}

QString personText(const CalibrationTrace& trace) {
  return fromCore(trace.personName.empty() ? trace.calibration.person : trace.personName);
}

}  // namespace

QString agreementSentence(const CalibrationTrace& trace) {
  if (trace.agrees()) {
    return tr("All numbers agree with a recomputation from what was typed.");
  }
  auto count = trace.differs.size();
  for (const TracedReading& traced : trace.readings) {
    count += traced.differs.size();
  }
  return counted(static_cast<int>(count), tr("1 number differs from a recomputation from what was typed."),
                 tr("%1 numbers differ from a recomputation from what was typed."));
}

QString visitPage(const CalibrationTrace& trace, const QString& signatures) {
  const Calibration& calibration = trace.calibration;
  Facts facts;
  facts.add(tr("Performed"), tr("%1 by %2").arg(shownMoment(calibration.performed), personText(trace)));
  facts.add(tr("Recorded"), sourceText(trace));
  facts.add(tr("Setup"), setupText(trace));
  if (trace.sensor) {
    facts.add(tr("Sensor"),
              tr("%1, %2").arg(fromCore(trace.sensor->serial), fromCore(trace.sensor->description)));
  }
  facts.add(tr("Plan"), planText(trace));
  facts.add(tr("Conditions"), conditionsText(calibration));
  facts.add(tr("Reference junction"),
            fromCore(junctionText(calibration, trace.setup ? &trace.setup->setup : nullptr,
                                  trace.sensor ? &trace.sensor->range : nullptr)));
  facts.add(tr("Done"), adjustmentText(calibration));
  facts.add(tr("Remarks"), fromCore(calibration.remarks));
  for (const TracedStandard& traced : trace.standards) {
    facts.add(fromCore(traced.used.serial), standardText(traced));
  }
  if (calibration.corrects != 0) {
    facts.add(tr("Corrects"),
              tr("calibration %1: %2").arg(calibration.corrects).arg(fromCore(calibration.correctionReason)));
  }
  facts.add(tr("Signatures"), signatures);
  facts.add(tr("Certificate"), issuedText(trace));
  QString page = facts.table();
  if (!trace.gaps.empty()) {
    page += heading(tr("Links that are missing")) + listed(trace.gaps);
  }
  if (!trace.differs.empty()) {
    page += heading(tr("Differs from the recomputation")) + listed(trace.differs);
  }
  return page;
}

QString readingPage(const CalibrationTrace& trace, const TracedReading& traced) {
  const Reading& reading = traced.reading;
  const Unit unit = reading.point.readingUnit;
  if (reading.skipped()) {
    return heading(tr("Skipped")) +
           QStringLiteral("<p>%1</p>").arg(fromCore(reading.skipReason).toHtmlEscaped());
  }
  Facts facts;
  facts.add(tr("Typed"), tr("%1 applied, %2 read; by %3, recorded %4")
                             .arg(reading.appliedText.empty() ? tr("nominal") : fromCore(reading.appliedText),
                                  fromCore(reading.indicatedText), personText(trace), sourceText(trace)));
  facts.add(tr("Expected"),
            tr("%1 for %2, by setup %3")
                .arg(amount(reading.expected, unit), amount(reading.applied, reading.point.appliedUnit))
                .arg(trace.calibration.setupVersion));
  facts.add(tr("Error"),
            tr("%1 − %2 = %3")
                .arg(figure(reading.indicated), figure(reading.expected), amount(reading.error(), unit)));
  facts.add(tr("Tolerance"),
            tr("%1 to %2%3")
                .arg(figure(reading.limits.low), amount(reading.limits.high, unit),
                     reading.flooredByStep ? tr(", widened to one step of the reading") : QString()));
  facts.add(tr("Verdict"), word(reading.verdict));
  if (trace.before && traced.leftBefore) {
    facts.add(tr("Visit before"),
              tr("calibration %1 left %2; since then %3")
                  .arg(*trace.before)
                  .arg(amount(*traced.leftBefore, unit), amount(reading.error() - *traced.leftBefore, unit)));
  }
  QString page = facts.table();
  if (!traced.values.empty()) {
    page += heading(tr("Standards")) + valuesTable(traced);
  }
  page += heading(tr("Uncertainty, as each source contributes"));
  page += traced.budget
              ? budgetTable(*traced.budget, unit)
              : QStringLiteral("<p>%1</p>").arg(tr("No budget: nothing says how well the value was known."));
  page += traced.differs.empty()
              ? QStringLiteral("<p>✓ %1</p>").arg(tr("A recomputation from what was typed gives the same."))
              : heading(tr("Differs from the recomputation")) + listed(traced.differs);
  return page;
}

}  // namespace spanwright
