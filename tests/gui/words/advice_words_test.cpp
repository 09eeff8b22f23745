// SPDX-License-Identifier: GPL-3.0-or-later
#include "gui/words/advice_words.h"

#include <QLocale>

#include "tests/gui/fixture.h"

namespace spanwright {
namespace {

VisitAdvice adviceOf(AdjustmentAdvice kind, double now, double predicted) {
  VisitAdvice advice;
  advice.span = advice.correctionSpan = {0.0, 100.0, Unit::celsius};
  advice.adjustLimit = 0.7;
  advice.adjustment.emplace();
  advice.adjustment->advice = kind;
  advice.adjustment->worstNow = now;
  advice.adjustment->worstPredicted = predicted;
  return advice;
}

TEST(AdviceWords, EveryAdviceHasItsOwnSentenceAndASignThatFits) {
  QStringList seen;
  for (const AdjustmentAdvice kind :
       {AdjustmentAdvice::notNeeded, AdjustmentAdvice::noGain, AdjustmentAdvice::withinScatter,
        AdjustmentAdvice::notRepeatable, AdjustmentAdvice::hysteresis, AdjustmentAdvice::stepTooCoarse,
        AdjustmentAdvice::beyondTrim, AdjustmentAdvice::nonLinear}) {
    const bool outside = kind >= AdjustmentAdvice::notRepeatable;
    const VisitAdvice advice = adviceOf(kind, outside ? 2.4 : 0.8, 0.8);
    const QString sentence = adviceSentence(advice);
    EXPECT_TRUE(sentence.startsWith(outside ? "Adjusting cannot help: the worst point uses 240 % of tolerance"
                                            : "Adjusting is not worth it: the worst point uses 80 % of "
                                              "tolerance"))
        << sentence.toStdString();
    EXPECT_FALSE(seen.contains(sentence)) << sentence.toStdString();
    seen += sentence;
    EXPECT_EQ(markOf(advice), outside ? Mark::cross : Mark::check);
  }
}

TEST(AdviceWords, NumbersAreInThePersonsLocale) {
  const QLocale before;
  QLocale::setDefault(QLocale(QLocale::German, QLocale::Germany));
  VisitAdvice advice = adviceOf(AdjustmentAdvice::adjust, 1.24, 0.18);
  advice.zeroShift = 0.031;
  advice.spanPercent = 0.12;
  const QString sentence = adviceSentence(advice);
  QLocale::setDefault(before);
  EXPECT_EQ(sentence.toStdString(),
            "Shift zero by +0,031 °C and span by +0,120 %: the worst point would use 18 % of tolerance, now "
            "124 %.");
  EXPECT_EQ(markOf(advice), Mark::exclaim);
}

TEST(AdviceWords, ACorrectionBeforeARootSaysSo) {
  VisitAdvice advice = adviceOf(AdjustmentAdvice::adjust, 1.24, 0.18);
  advice.span = {0.0, 200.0, Unit::cubicMetrePerHour};
  advice.correctionSpan = {4.0, 20.0, Unit::milliampere};
  advice.beforeRoot = true;
  advice.zeroShift = -0.031;
  const QString after = ": the worst point would use 18 % of tolerance, now 124 %.";
  EXPECT_EQ(adviceSentence(advice), "Shift zero by -0.031 mA before the square root" + after);
  advice.spanPercent = 0.12;
  EXPECT_EQ(adviceSentence(advice),
            "Shift zero by -0.031 mA and span by +0.120 % before the square root" + after);
  advice.zeroShift.reset();
  EXPECT_EQ(adviceSentence(advice), "Shift span by +0.120 % before the square root" + after);
}

TEST(AdviceWords, DiagnosesFollowAsAnOffer) {
  VisitAdvice advice = adviceOf(AdjustmentAdvice::nonLinear, 20.0, 20.0);
  advice.diagnoses = {{CoupleFault{CoupleFaultKind::otherReference, ThermocoupleType::K, {35.0}}, 0.1},
                      {CoupleFault{CoupleFaultKind::reversed, ThermocoupleType::K, {}}, 0.1}};
  EXPECT_TRUE(adviceSentence(advice).endsWith(
      "It looks as if the input takes its terminals to be at 35.0 °C, or the leads are reversed."))
      << adviceSentence(advice).toStdString();
}

TEST(AdviceWords, CopperLeadsLeadToTheFieldOfTheReferenceJunction) {
  VisitAdvice advice = adviceOf(AdjustmentAdvice::nonLinear, 20.0, 20.0);
  advice.diagnoses = {{CoupleFault{CoupleFaultKind::copperLeads, ThermocoupleType::K, {23.04}}, 0.1}};
  EXPECT_TRUE(
      adviceSentence(advice).endsWith("It looks as if the mV were fed through copper leads to terminals at "
                                      "23.0 °C, and the reference junction "
                                      "is not given."))
      << adviceSentence(advice).toStdString();
}

TEST(AdviceWords, EveryFaultOfAnRtdHasItsOwnWords) {
  QStringList seen;
  for (const RtdFault& fault : {RtdFault{RtdFaultKind::openHigh},
                                {RtdFaultKind::openLow},
                                {RtdFaultKind::shorted},
                                {RtdFaultKind::otherElement, RtdElement::pt100},
                                {RtdFaultKind::otherElement, RtdElement::pt1000}}) {
    VisitAdvice advice = adviceOf(AdjustmentAdvice::nonLinear, 20.0, 20.0);
    advice.diagnoses = {{fault, 0.0}};
    const QString sentence = adviceSentence(advice);
    EXPECT_TRUE(sentence.contains(" It looks as if the element ")) << sentence.toStdString();
    EXPECT_FALSE(seen.contains(sentence)) << sentence.toStdString();
    seen += sentence;
  }
}

TEST(AdviceWords, AGapSaysWhatIsMissing) {
  VisitAdvice advice;
  advice.gap = AdviceGap::unfinished;
  advice.missing = 3;
  EXPECT_EQ(adviceSentence(advice).toStdString(),
            "Nothing can be said about adjusting: 3 points of value have neither a reading nor a reason for "
            "their lack.");
  EXPECT_EQ(markOf(advice), Mark::dash);
}

TEST(AdviceWords, FiguresThatARunDoesNotShowAreLeftOut) {
  RunFigures figures;
  figures.zeroError = -0.25;
  figures.maximumError = 0.5;
  EXPECT_EQ(figuresLine(Phase::asLeft, figures).toStdString(),
            "As left, % of span: zero error -0.250, largest error +0.500");
}

}  // namespace
}  // namespace spanwright
