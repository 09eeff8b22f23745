// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sentences that only some calibrations have.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/certificate/certificate.h"
#include "core/certificate/figures.h"
#include "core/record/ruled_reading.h"
#include "tests/core/certificate/example.h"

namespace spanwright {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::EndsWith;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

std::string valueOf(const std::vector<LabelledText>& texts, const std::string& label) {
  for (const LabelledText& text : texts) {
    if (text.label == label) {
      return text.value;
    }
  }
  return "(nothing under " + label + ")";
}

TEST(CertificateNotes, ErrorWithinOneStepAndLimitOfOneStep) {
  example::Example made;
  example::fiveUpDown(made);
  Reading& reading = made.calibration.asFound[0];
  EXPECT_THAT(valueOf(describeCertificate(made.source()).decision, "Specification"),
              Not(HasSubstr("one step")));
  reading.withinOneStep = true;
  reading.flooredByStep = true;
  const Certificate certificate = describeCertificate(made.source());
  EXPECT_THAT(certificate.tables[0].rows[0].note, AllOf(HasSubstr("no more than one step of the reading"),
                                                        HasSubstr("one step was used as limit")));
  EXPECT_EQ(certificate.tables[0].rows[1].note, "");
  EXPECT_THAT(valueOf(certificate.decision, "Specification"),
              EndsWith("; where that is finer than one step of the reading, one step"));
}

TEST(CertificateNotes, FailureExactlyOnALimitThatIsAlreadyOutside) {
  Reading reading;
  reading.point.label = "on";
  reading.point.role = PointRole::switchOn;
  reading.point.direction = Direction::down;
  reading.expected = 8.0;
  reading.indicated = 5.0;
  reading.limits = {-3.0, 3.0};
  reading.expandedUncertainty = 0.1;
  reading.coverageFactor = 2.13;
  reading.verdict = Verdict::fail;
  const CertificateRow row = certificateRow(reading, {});
  EXPECT_EQ(row.note, "the limit itself is already outside");
  EXPECT_EQ(row.applied, "ramped down");
  EXPECT_EQ(row.coverage, "2.13");
  reading.point.direction = Direction::up;
  reading.verdict = Verdict::pass;
  EXPECT_EQ(certificateRow(reading, {}).note, "");
  EXPECT_EQ(certificateRow(reading, {}).applied, "ramped up");
}

TEST(CertificateSpecification, NamesWhatTheLimitsComeFrom) {
  example::Example discrete;
  example::discreteOutput(discrete);
  EXPECT_THAT(valueOf(describeCertificate(discrete.source()).decision, "Specification"),
              EndsWith("from the voltage limits of the setup"));
  example::Example input;
  example::threshold(input);
  EXPECT_THAT(valueOf(describeCertificate(input.source()).decision, "Specification"),
              Not(HasSubstr("61131")));
  std::get<ThresholdSetup>(input.site.channels[0].setups[0].setup.kind).inputType = 3;
  EXPECT_THAT(valueOf(describeCertificate(input.source()).decision, "Specification"),
              EndsWith("no wider than IEC 61131-2 type 3 allows"));
}

TEST(CertificateMethod, PointsSayRepeatsAlarmsAndLoss) {
  example::Example repeated;
  example::longTexts(repeated);
  EXPECT_THAT(valueOf(describeCertificate(repeated.source()).method, "Points"),
              EndsWith("up-down, run 3 times"));
  example::Example alarms;
  example::alarmLevels(alarms);
  EXPECT_THAT(valueOf(describeCertificate(alarms.source()).method, "Points"),
              EndsWith("; every alarm level in use"));
  example::Example output;
  example::discreteOutput(output);
  const Certificate certificate = describeCertificate(output.source());
  EXPECT_EQ(valueOf(certificate.method, "Points"), "those of the setup, run 2 times; loss of communication");
  EXPECT_EQ(valueOf(certificate.method, "Settling time"), "10 s before each reading");
}

TEST(CertificateMethod, JunctionAndLeadsWhereTheyAreStatedAndConcernTheSubject) {
  example::Example made;
  example::fiveUpDown(made);
  Plan& plan = made.site.plans.front();
  plan.junctionUncertainty = 0.4;
  plan.leadHalfWidth = 0.05;
  const auto labels = [&] {
    std::vector<std::string> found;
    for (const LabelledText& text : describeCertificate(made.source()).method) {
      found.push_back(text.label);
    }
    return found;
  };
  EXPECT_THAT(labels(), Not(Contains("Reference junction")));  // a current input has neither
  EXPECT_THAT(labels(), Not(Contains("Leads")));
  ThermocoupleSetup couple;
  couple.range = {0, 400, Unit::celsius};
  SetupKind& kind = made.site.channels.front().setups.back().setup.kind;
  kind = couple;
  EXPECT_EQ(valueOf(describeCertificate(made.source()).method, "Reference junction"),
            "known to 0.4 K (expanded, k = 2); in the uncertainty where mV were used");
  EXPECT_THAT(labels(), Not(Contains("Leads")));
  RtdSetup rtd;
  rtd.range = {0, 100, Unit::celsius};
  kind = rtd;
  EXPECT_EQ(valueOf(describeCertificate(made.source()).method, "Leads"),
            "within ±0.05 Ω; in the uncertainty (rectangular)");
  EXPECT_THAT(labels(), Not(Contains("Reference junction")));
  plan.leadHalfWidth.reset();
  EXPECT_THAT(labels(), Not(Contains("Leads")));
}

TEST(CertificateItemTexts, SensorRangePlaceAndReasonOfTheSetup) {
  example::Example made;
  example::sensorAlone(made);
  const Certificate alone = describeCertificate(made.source());
  EXPECT_EQ(valueOf(alone.item, "Sensor range"), "0-150 °C to 4-20 mA");
  EXPECT_EQ(alone.placeOfWork, "Larkmead Creamery, Dairy Lane 4, Larkmead");  // a bench has no cabinet
  example::Example fitted;
  example::fiveUpDown(fitted);
  fitted.calibration.sensor = "TX-5510";
  const Certificate channel = describeCertificate(fitted.source());
  EXPECT_THAT(valueOf(channel.item, "Sensor fitted"), EndsWith("(not part of this calibration)"));
  EXPECT_EQ(valueOf(channel.setup, "Reason"), "range widened");
}

TEST(CertificateAdjustment, EveryCombinationHasItsSentence) {
  example::Example made;
  example::fiveUpDown(made);
  const auto said = [&](bool adjusted, bool repaired, const std::string& text) {
    made.calibration.adjustment = {adjusted, repaired, text};
    return describeCertificate(made.source()).adjustment;
  };
  EXPECT_EQ(said(true, false, "zero"), "Adjusted after the as-found readings: zero.");
  EXPECT_EQ(said(false, true, "fuse"), "Repaired after the as-found readings: fuse.");
  EXPECT_EQ(said(true, true, ""),
            "Repaired and adjusted after the as-found readings: no description is recorded.");
  EXPECT_EQ(said(false, false, ""),
            "Nothing was adjusted or repaired; the points were taken a second time, and stand as left.");
}

TEST(CertificateConclusion, CountsSkippedAndUnjudgedPoints) {
  example::Example made;
  example::fiveUpDown(made);
  made.calibration.asLeft[0].skipReason = "no access";
  made.calibration.asLeft[1].verdict = Verdict::notJudged;
  const Certificate certificate = describeCertificate(made.source());
  EXPECT_EQ(certificate.leftConclusion,
            "As left: pass; 8 of 9 points are inside their limits, 1 was skipped, 1 was not judged");
  EXPECT_THAT(certificate.deviations, Contains("Skipped as left, 0 % up: no access"));
}

/// fiveUpDown judged by this rule; the as-found errors 0.41 and 0.33 (limits +-0.375) have U = 0.05.
void judgeBy(example::Example& made, const DecisionRule& rule) {
  example::fiveUpDown(made);
  made.site.plans[0].decisionRule = rule;
  made.calibration.asFound[6].expandedUncertainty = 0.05;
  made.calibration.asFound[7].expandedUncertainty = 0.05;
  for (std::vector<Reading>* readings : {&made.calibration.asFound, &made.calibration.asLeft}) {
    for (Reading& reading : *readings) {
      reading.verdict = rulingOn(rule, reading).verdict;
    }
  }
  example::judge(made.calibration);
}

TEST(CertificateRule, GuardBandWithItsParametersItsRiskAndTheConditionalAnswers) {
  example::Example made;
  judgeBy(made, {.basis = GuardBasis::factor, .factor = 1.0});
  const Certificate certificate = describeCertificate(made.source());
  EXPECT_THAT(certificateFaults(made.source()), IsEmpty());
  EXPECT_THAT(valueOf(certificate.decision, "Rule"),
              AllOf(HasSubstr("ILAC-G8:09/2019"), HasSubstr("JCGM 106:2012"), HasSubstr("r = 1 ")));
  // Beyond two standard deviations on one side of a normal distribution: 2.275 %; ILAC-G8:09/2019 Table 1 has
  // "<2.5 %".
  EXPECT_THAT(valueOf(certificate.decision, "Level of risk"), HasSubstr("is 2.3 % for k = 2"));
  const auto& rows = certificate.tables[0].rows;
  EXPECT_THAT(rows[6].note,
              HasSubstr("conditional fail: outside its limits by no more than the guard band of 0.050"));
  EXPECT_EQ(rows[6].verdict, "fail");
  EXPECT_THAT(rows[7].note,
              HasSubstr("conditional pass: inside its limits, but nearer to one than the guard band"));
  EXPECT_EQ(rows[7].verdict, "fail");
  EXPECT_EQ(rows[7].error, "+0.330") << "no more digits than the uncertainty has";
  EXPECT_EQ(rows[7].fraction, "0.88");
  EXPECT_EQ(rows[0].note, "");
  EXPECT_EQ(rows[5].note, "") << "a plain fail";
  EXPECT_THAT(certificate.foundConclusion, HasSubstr("5 of 10 points are accepted inside their limits"));
}

TEST(CertificateRule, FalseAcceptLimits) {
  example::Example each;
  judgeBy(each, {.basis = GuardBasis::specificRisk, .falseAcceptLimit = 0.07});
  EXPECT_THAT(valueOf(describeCertificate(each.source()).decision, "Level of risk"),
              AllOf(HasSubstr("at most 7 %"), HasSubstr("specific")));
  example::Example all;
  judgeBy(all, {.basis = GuardBasis::anyPopulation, .falseAcceptLimit = 0.02});
  EXPECT_THAT(valueOf(describeCertificate(all.source()).decision, "Level of risk"),
              AllOf(HasSubstr("at most 2 %"), HasSubstr("global")));
}

TEST(CertificateRule, APointThatCouldNotBeJudgedSaysWhyAndStopsTheCertificate) {
  example::Example made;
  judgeBy(made, {.basis = GuardBasis::factor, .factor = 1.0});
  Reading& reading = made.calibration.asLeft[1];
  reading.expandedUncertainty.reset();
  reading.verdict = rulingOn(made.site.plans[0].decisionRule, reading).verdict;
  example::judge(made.calibration);
  const Certificate certificate = describeCertificate(made.source());
  EXPECT_EQ(certificate.tables[1].rows[1].verdict, "not judged");
  EXPECT_EQ(certificate.tables[1].rows[1].note,
            "not judged: the decision rule needs an uncertainty, and there is none");
  EXPECT_THAT(certificate.tables[1].conclusion, HasSubstr("not judged; 9 of 10"));
  EXPECT_THAT(certificateFaults(made.source()), Contains(HasSubstr("there is no verdict")));
}

TEST(CertificateRule, AnotherRevisionOfThePlanSaysNothingOfTheseReadings) {
  example::Example made;
  judgeBy(made, {.basis = GuardBasis::factor, .factor = 1.0});
  made.calibration.planRevision = "1";
  EXPECT_EQ(describeCertificate(made.source()).tables[0].rows[6].note, "");
}

TEST(CertificateStatements, NoUncertaintyIsSaidPlainly) {
  example::Example made;
  example::threshold(made);
  for (Reading& reading : made.calibration.asFound) {
    reading.expandedUncertainty.reset();
  }
  const Certificate certificate = describeCertificate(made.source());
  EXPECT_THAT(certificate.statements, Contains("No uncertainty is stated."));
  EXPECT_EQ(certificate.tables[0].rows[0].uncertainty, "");
  EXPECT_EQ(certificate.tables[0].rows[0].coverage, "");
}

TEST(CertificateTablesApart, ByAppliedAndByReadingUnit) {
  example::Example made;
  example::fiveUpDown(made);
  made.calibration.asFound[1].point.appliedUnit = Unit::volt;
  made.calibration.asFound[2].point.readingUnit = Unit::count;
  made.calibration.asLeft.clear();
  const Certificate certificate = describeCertificate(made.source());
  ASSERT_THAT(certificate.tables, SizeIs(3));
  EXPECT_EQ(certificate.tables[1].appliedUnit, "V");
  EXPECT_EQ(certificate.tables[2].readingUnit, std::string(displaySymbol(Unit::count)));
  // The span is in degC: an error in counts has no share of it.
  EXPECT_EQ(certificate.tables[2].rows[0].percentOfSpan, "");
  EXPECT_NE(certificate.tables[1].rows[0].percentOfSpan, "");
  EXPECT_THAT(certificate.charts, SizeIs(2));
}

TEST(CertificateFigures, ReadingConvertedIsShownByTheStepOfItsModel) {
  example::Example made;
  example::fiveUpDown(made);  // shown to 0.01 degC
  Reading& reading = made.calibration.asFound[0];
  reading.indicated = 0.1;
  reading.indicatedText = "32.18 degF";
  EXPECT_EQ(describeCertificate(made.source()).tables[0].rows[0].reading, "0.10");
}

TEST(CertificateChartLevels, AsLeftStandsBesideAsFound) {
  example::Example made;
  example::threshold(made);
  made.calibration.asLeft = made.calibration.asFound;
  const Certificate certificate = describeCertificate(made.source());
  ASSERT_THAT(certificate.charts, SizeIs(1));
  EXPECT_THAT(certificate.charts[0].marks, SizeIs(8));
  EXPECT_TRUE(certificate.charts[0].marks.back().asLeft);
  EXPECT_THAT(certificate.charts[0].categories, SizeIs(2));
}

}  // namespace
}  // namespace spanwright
