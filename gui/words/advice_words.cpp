// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/advice_words.h"

#include <QStringList>
#include <cmath>

#include "gui/words/tr.h"
#include "gui/words/words.h"

namespace spanwright {
namespace {

constexpr double kFigureStep = 0.001;  // % of span

QString barePercent(double fraction) {
  return std::isfinite(fraction)
             ? tr("%1 %").arg(shownValue(100.0 * fraction, std::pow(10.0, -toleranceDecimals(fraction))))
             : tr("more than a limit of nothing allows");
}

QString shownFraction(double fraction) {
  return std::isfinite(fraction) ? tr("%1 of tolerance").arg(barePercent(fraction)) : barePercent(fraction);
}

QString withSign(double value, int decimals) {
  const QString text = shownValue(value, std::pow(10.0, -decimals));
  return value > 0.0 ? u'+' + text : text;
}

QString correctionClause(const VisitAdvice& advice) {
  QString zero;
  if (advice.zeroShift) {
    zero = withSign(*advice.zeroShift, advice.zeroDecimals);
    if (const QString unit = shownUnit(advice.correctionSpan.unit); !unit.isEmpty()) {
      zero += u' ' + unit;
    }
  }
  const QString span = advice.spanPercent ? withSign(*advice.spanPercent, 3) : QString();
  if (advice.beforeRoot) {
    return span.isEmpty()   ? tr("Shift zero by %1 before the square root").arg(zero)
           : zero.isEmpty() ? tr("Shift span by %1 % before the square root").arg(span)
                            : tr("Shift zero by %1 and span by %2 % before the square root").arg(zero, span);
  }
  if (span.isEmpty()) {
    return tr("Shift zero by %1").arg(zero);
  }
  return zero.isEmpty() ? tr("Shift span by %1 %").arg(span)
                        : tr("Shift zero by %1 and span by %2 %").arg(zero, span);
}

QString reason(AdjustmentAdvice advice) {
  switch (advice) {
    case AdjustmentAdvice::notRepeatable:
      return tr("repeats of one point differ by more than the tolerance holds");
    case AdjustmentAdvice::hysteresis:
      return tr("up and down readings of one point differ by more than the tolerance holds");
    case AdjustmentAdvice::stepTooCoarse:
      return tr("the steps of the reading are too far apart for the tolerance");
    case AdjustmentAdvice::beyondTrim:
      return tr("the correction needed is beyond the range of the trims");
    case AdjustmentAdvice::nonLinear:
      return tr("the errors do not lie along a line");
    case AdjustmentAdvice::noGain:
      return tr("no correction makes it better");
    case AdjustmentAdvice::withinScatter:
      return tr("repeats of one point differ by more than adjusting would gain");
    case AdjustmentAdvice::adjust:
    case AdjustmentAdvice::notNeeded:
      break;
  }
  return {};
}

QString gapClause(const VisitAdvice& advice) {
  switch (*advice.gap) {
    case AdviceGap::noValuePoints:
      return tr("the sheet has no points of value, so there is no zero and span to set");
    case AdviceGap::unfinished:
      return counted(advice.missing, tr("one point of value has neither a reading nor a reason for its lack"),
                     tr("%1 points of value have neither a reading nor a reason for their lack"));
    case AdviceGap::tooFewPoints:
      return tr("readings at two different test points at least are needed");
    case AdviceGap::unusable:
      return fromCore(advice.fault);
  }
  return {};
}

QString adjustmentSentence(const VisitAdvice& advice) {
  const AdvisedAdjustment& found = *advice.adjustment;
  const QString now = shownFraction(found.worstNow);
  if (advice.adjusts()) {
    return tr("%1: the worst point would use %2, now %3.")
        .arg(correctionClause(advice), shownFraction(found.worstPredicted), barePercent(found.worstNow));
  }
  if (found.advice == AdjustmentAdvice::notNeeded) {
    return tr("Adjusting is not worth it: the worst point uses %1, the limit for adjusting is %2 %.")
        .arg(now, shownValue(100.0 * advice.adjustLimit, 1.0));
  }
  const QString form = advice.cannotHelp()
                           ? tr("Adjusting cannot help: the worst point uses %1, and %2.")
                           : tr("Adjusting is not worth it: the worst point uses %1, and %2.");
  return form.arg(now, reason(found.advice));
}

QString faultClause(const CoupleFault& fault) {
  const QString place = shownValue(fault.place.value, 0.1) + QStringLiteral(" °C");
  switch (fault.kind) {
    case CoupleFaultKind::openHigh:
      return tr("the couple or a lead is open, the input stands at its upper end");
    case CoupleFaultKind::openLow:
      return tr("the couple or a lead is open, the input stands at its lower end");
    case CoupleFaultKind::shorted:
      return tr("the leads are shorted where it is %1").arg(place);
    case CoupleFaultKind::reversed:
      return tr("the leads are reversed");
    case CoupleFaultKind::otherType:
      return tr("the couple is a type %1").arg(fromCore(text(fault.actual)));
    case CoupleFaultKind::otherReference:
      return tr("the input takes its terminals to be at %1").arg(place);
    case CoupleFaultKind::extensionReversed:
      return tr("the extension leads are reversed at both ends, the join being at %1").arg(place);
    case CoupleFaultKind::copperLeads:
      return tr("the mV were fed through copper leads to terminals at %1, and the reference junction is not "
                "given")
          .arg(place);
  }
  return {};
}

QString faultClause(const RtdFault& fault) {
  switch (fault.kind) {
    case RtdFaultKind::openHigh:
      return tr("the element or a lead is open, the input stands at its upper end");
    case RtdFaultKind::openLow:
      return tr("the element or a lead is open, the input stands at its lower end");
    case RtdFaultKind::shorted:
      return tr("the element or its leads are shorted, the input stands at its lower end");
    case RtdFaultKind::otherElement:
      return fault.actual == RtdElement::pt100 ? tr("the element is a Pt100") : tr("the element is a Pt1000");
  }
  return {};
}

}  // namespace

QString adviceSentence(const VisitAdvice& advice) {
  if (advice.gap) {
    return tr("Nothing can be said about adjusting: %1.").arg(gapClause(advice));
  }
  QStringList faults;
  for (const SensorDiagnosis& diagnosis : advice.diagnoses) {
    faults += std::visit([](const auto& fault) { return faultClause(fault); }, diagnosis.fault);
  }
  const QString sentence = adjustmentSentence(advice);
  return faults.isEmpty() ? sentence
                          : sentence + u' ' + tr("It looks as if %1.").arg(faults.join(tr(", or ")));
}

Mark markOf(const VisitAdvice& advice) {
  return advice.gap            ? Mark::dash
         : advice.adjusts()    ? Mark::exclaim
         : advice.cannotHelp() ? Mark::cross
                               : Mark::check;
}

Tone toneOf(const VisitAdvice& advice) {
  return advice.gap            ? Tone::quiet
         : advice.adjusts()    ? Tone::attention
         : advice.cannotHelp() ? Tone::bad
                               : Tone::good;
}

QString figuresLine(Phase phase, const RunFigures& figures) {
  QStringList parts;
  const auto add = [&](const QString& form, std::optional<double> value, bool isSigned) {
    if (value) {
      parts += form.arg(isSigned ? withSign(*value, 3) : shownValue(*value, kFigureStep));
    }
  };
  add(tr("zero error %1"), figures.zeroError, true);
  add(tr("span error %1"), figures.spanError, true);
  add(tr("largest error %1"), figures.maximumError, true);
  add(tr("linearity ±%1"), figures.linearityBest, false);
  add(tr("hysteresis %1"), figures.hysteresis, false);
  add(tr("repeatability %1"), figures.repeatability, false);
  const QString form = phase == Phase::asFound ? tr("As found, % of span: %1") : tr("As left, % of span: %1");
  return form.arg(parts.join(QStringLiteral(", ")));
}

}  // namespace spanwright
